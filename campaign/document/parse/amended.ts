/** The amendments of a document applied to its rows on their way into the campaign. */
import { type TableName, tableWords } from '@stillstand/campaign/tables';
import { type Reading, readColumns, readingsOf } from './amendments.ts';
import type { Amendment, AmendmentConflict } from './campaign.ts';
import { type Draft, FRAMES, refuse, saidOf } from './draft.ts';

export interface Amended {
  /** The rows that count, each reading once. */
  standing: Draft[];
  /** Readings withdrawn, to tell whoever still refers to them. */
  withdrawn: Draft[];
  amendments: Amendment[];
  conflicts: AmendmentConflict[];
  /** What the readings in conflict may come to, by the reading as first written; null is withdrawn. */
  rivals: Map<Draft, readonly (Draft | null)[]>;
}

/** Applies the amendments among identified rows. */
export function applyAmendments(drafts: readonly Draft[]): Amended {
  const isAmendment = ({ values }: Draft): boolean => (values.amends ?? values.amend_kind ?? null) !== null;
  const amended: Amended = { standing: [], withdrawn: [], amendments: [], conflicts: [], rivals: new Map() };
  if (!drafts.some(isAmendment)) return { ...amended, standing: [...drafts] };
  const tableOf = new Map(drafts.map(({ row_id, table }) => [row_id, table]));
  // Tables come one after the other.
  for (const [table, rows] of Map.groupBy(drafts, (draft) => draft.table)) {
    if (!FRAMES.get(table)!.isReadings || !rows.some(isAmendment)) amended.standing.push(...rows);
    else applyTo(table, rows, tableOf, amended);
  }
  return amended;
}

function applyTo(
  table: TableName,
  rows: readonly Draft[],
  tableOf: ReadonlyMap<string, TableName>,
  { standing, withdrawn, amendments, conflicts, rivals }: Amended,
): void {
  const amends = ({ values }: Draft): string => String(values.amends ?? '');
  const columns = readColumns(table);
  const { all, of } = readingsOf(rows, {
    row_id: ({ row_id }) => row_id,
    amends,
    withdraws: ({ values }) => values.amend_kind === 'withdraw',
    says: (draft) => columns.map((column) => typed(draft, column)).join('\u0000'),
  });
  for (const draft of rows) {
    const kind = draft.values.amend_kind ?? null;
    if (amends(draft) === '') {
      if (kind !== null) refuse(draft, 'amends', namesNothing(String(kind)));
    } else if (kind === null && draft.usable) refuse(draft, 'amend_kind', kindMissing());
  }
  for (const reading of all) {
    const { first, state, now, history } = reading;
    if (state === 'astray') {
      if (amends(first) !== '') refuse(first, 'amends', whyAstray(first, tableOf, of));
      standing.push(first);
      continue;
    }
    for (let i = 1; i < history.length; i++) {
      amendments.push({
        table,
        row_id: history[i - 1]!.row_id,
        by_row_id: history[i]!.row_id,
        kind: history[i]!.values.amend_kind === 'withdraw' ? 'withdraw' : 'replace',
      });
    }
    if (state === 'withdrawn') withdrawn.push(first);
    else if (now !== null) {
      takePlace(now, first);
      standing.push(now);
    } else {
      refuse(first, null, conflict(reading));
      conflicts.push({
        table,
        row_id: first.row_id,
        between: reading.between.map((row) => row?.row_id ?? null),
      });
      rivals.set(first, reading.between);
      standing.push(first);
    }
  }
}

/** As typed, by the column's own name. */
function typed({ order, cells }: Draft, column: string): string {
  const place = order.find(({ heading }) => heading === column);
  return place === undefined ? '' : (cells[place.position]?.trim() ?? '');
}

/**
 * A replacement stands where the reading stood, whatever `seq` it was given, while it is of the same hole. One that
 * cannot be read is counted there too: the reading it corrects is known to be wrong.
 */
function takePlace(replacement: Draft, reading: Draft): void {
  if (replacement === reading) return;
  const series = ['hole', 'loop', 'gauge', 'date'] as const;
  if (!replacement.usable && series.every((name) => (replacement.values[name] ?? null) === null)) {
    for (const name of series) replacement.values[name] = reading.values[name] ?? null;
  }
  const { seq } = reading.values;
  if (typeof seq !== 'number' || replacement.values.seq === seq) return;
  if (series.some((name) => (replacement.values[name] ?? null) !== (reading.values[name] ?? null))) return;
  if (typeof replacement.values.seq === 'number') {
    replacement.faults.push({
      severity: 'note',
      column: 'seq',
      code: 'amendment-place',
      found: `number ${replacement.values.seq}, amending number ${seq}`,
      expected: `number ${seq}, as of the reading it amends`,
      fix: 'No action needed: it is used in the place of that reading. To move a reading, withdraw it and write a new one.',
    });
  }
  replacement.values.seq = seq;
}

const namesNothing = (kind: string) => ({
  code: 'amends-nothing',
  found: `a row that is to ${kind} a reading, and names none`,
  expected: 'the identity of the reading that is amended',
  fix: 'Name the reading by its identity. The row is skipped.',
});

function whyAstray(
  { values, table }: Draft,
  tableOf: ReadonlyMap<string, TableName>,
  of: ReadonlyMap<string, Reading<Draft>>,
) {
  const id = String(values.amends);
  const elsewhere = tableOf.get(id);
  if (elsewhere === table && isInCircle(id, of)) {
    return {
      code: 'amends-in-circle',
      found: 'rows that amend one another',
      expected: 'amendments of a reading',
      fix: 'Correct which reading each of them amends. The rows are skipped.',
    };
  }
  return {
    code: 'unknown-amended',
    found: id,
    expected:
      elsewhere === undefined
        ? `the identity of one of the ${tableWords(table)}`
        : elsewhere === table
          ? 'the identity of a reading; that row amends nothing itself'
          : `the identity of one of the ${tableWords(table)}; this is one of the ${tableWords(elsewhere)}`,
    fix: 'Correct which reading it amends, or restore that reading. The amendment is skipped.',
  };
}

/** Following what each row amends leads round. */
function isInCircle(id: string, of: ReadonlyMap<string, Reading<Draft>>): boolean {
  const seen = new Set<string>();
  for (let at: string | undefined = id; at !== undefined && of.has(at); ) {
    if (seen.has(at)) return true;
    seen.add(at);
    // Each row astray is the first of its own.
    at = String(of.get(at)!.first.values.amends ?? '');
  }
  return false;
}

const kindMissing = () => ({
  code: 'amend-kind-missing',
  found: '',
  expected: 'a replacement or a withdrawal',
  fix: 'Say what the amendment does. Until then the reading is not used.',
});

function conflict({ between }: Reading<Draft>) {
  const said = between.map((row) => (row === null ? 'withdrawn' : saidOf(row)));
  return {
    code: 'amendment-conflict',
    found: `amendments that differ: ${said.join(' or ')}`,
    expected: 'one amendment of a reading',
    fix: 'Choose one of them in the app, or withdraw all but one. Until then the reading is not used.',
  };
}
