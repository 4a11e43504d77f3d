/** The amendments of a document applied to its rows on their way into the campaign. */
import { type TableName, tableWords } from '@stillstand/campaign/tables';
import { type Reading, readingsOf } from './amendments.ts';
import type { Amendment, AmendmentConflict } from './campaign.ts';
import { type Draft, FRAMES, type RowFault, refuse, saidOf } from './draft.ts';
import { readColumns, SERIES } from './typed-readings.ts';

export interface Amended {
  /** The rows that count, each reading once. */
  standing: Draft[];
  /** Readings withdrawn, to tell whoever still refers to them. */
  withdrawn: Draft[];
  /** Moves that cannot be followed: named, and no readings. */
  idle: Draft[];
  amendments: Amendment[];
  conflicts: AmendmentConflict[];
  /** What the readings in conflict may come to, by the reading as first written; null is withdrawn. */
  rivals: Map<Draft, readonly (Draft | null)[]>;
}

/** Applies the amendments among identified rows. */
export function applyAmendments(drafts: readonly Draft[]): Amended {
  const isAmendment = ({ values }: Draft): boolean => (values.amends ?? values.amend_kind ?? null) !== null;
  const amended: Amended = {
    standing: [],
    withdrawn: [],
    idle: [],
    amendments: [],
    conflicts: [],
    rivals: new Map(),
  };
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
  { standing, withdrawn, idle, amendments, conflicts, rivals }: Amended,
): void {
  const amends = ({ values }: Draft): string => String(values.amends ?? '');
  const columns = readColumns(table);
  const { all, of } = readingsOf(rows, {
    row_id: ({ row_id }) => row_id,
    amends,
    kind: ({ values: { amend_kind: kind } }) => (kind === 'withdraw' || kind === 'move' ? kind : 'replace'),
    says: (draft) => columns.map((column) => typed(draft, column)).join('\u0000'),
    seq: ({ values: { seq } }) => (typeof seq === 'number' ? seq : null),
    series: ({ values }) => SERIES.map((column) => String(values[column] ?? '')),
  });
  for (const draft of rows) {
    const kind = draft.values.amend_kind ?? null;
    if (amends(draft) === '') {
      if (kind !== null) refuse(draft, 'amends', namesNothing(String(kind)));
    } else if (kind === null && draft.usable) refuse(draft, 'amend_kind', kindMissing());
  }
  for (const reading of all) {
    const { first, state, now, history, place } = reading;
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
    for (const move of place.idle) {
      move.faults = [nowhere(move, now ?? first)];
      idle.push(move);
    }
    if (state === 'withdrawn') {
      withdrawn.push(first);
      continue;
    }
    if (place.by.values.amend_kind === 'move') {
      amendments.push({ table, row_id: first.row_id, by_row_id: place.by.row_id, kind: 'move' });
    }
    if (now !== null) {
      takePlace(reading, now);
      standing.push(now);
    } else {
      for (const rival of reading.between) if (rival !== null && rival !== first) takePlace(reading, rival);
      takePlace(reading, first);
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
 * The row with the `seq` of its reading, whatever it was given. One that cannot be read is counted there too: the
 * reading it corrects is known to be wrong.
 */
function takePlace({ first, now, place }: Reading<Draft>, row: Draft): void {
  if (!row.usable && SERIES.every((name) => (row.values[name] ?? null) === null)) {
    for (const name of SERIES) row.values[name] = first.values[name] ?? null;
  }
  if (place.between.length > 0) row.faults.push(placesDiffer(place));
  const { seq } = place.by.values;
  if (typeof seq !== 'number' || row.values.seq === seq) return;
  // One of several that a reading may come to: in another hole it has the place it is given there.
  const isElsewhere = SERIES.some((name) => (row.values[name] ?? null) !== (first.values[name] ?? null));
  if (now === null && isElsewhere) return;
  if (!isElsewhere && typeof row.values.seq === 'number' && row.values.seq !== first.values.seq) {
    row.faults.push({
      severity: 'note',
      column: 'seq',
      code: 'amendment-place',
      found: `number ${row.values.seq}, amending number ${seq}`,
      expected: `number ${seq}, as of the reading it amends`,
      fix: 'No action needed: it is used in the place of that reading. To move a reading, move it in the app, or write a row that moves it.',
    });
  }
  row.values.seq = seq;
}

/** Moves to different places: the reading is used where it was before. */
function placesDiffer({ by, between }: Reading<Draft>['place']): RowFault {
  return {
    severity: 'warning',
    column: 'seq',
    code: 'move-conflict',
    found: `moves to different places: number ${between.map(({ values }) => values.seq).join(' or ')}`,
    expected: 'one place of a reading',
    fix: `Move it once more, in the app, to the place it belongs; or withdraw all moves but one. Until then it is used as number ${by.values.seq}.`,
  };
}

/** Why a move is not followed. */
function nowhere(move: Draft, reading: Draft): RowFault {
  const series = SERIES.filter((name) => (reading.values[name] ?? null) !== null);
  const own = series.map((name) => `${name} ${reading.values[name]}`).join(', ');
  if (typeof move.values.seq !== 'number') {
    return {
      severity: 'warning',
      column: 'seq',
      code: 'move-nowhere',
      found: typed(move, 'seq'),
      expected: `the number of its new place in ${own}; between 4 and 5 there is 4.5`,
      fix: 'Give the number, or withdraw the move. Until then the reading is used where it was.',
    };
  }
  const stated = SERIES.filter((name) => (move.values[name] ?? null) !== null);
  return {
    severity: 'warning',
    column: stated[0] ?? null,
    code: 'move-elsewhere',
    found: `a move within ${stated.map((name) => `${name} ${move.values[name]}`).join(', ')} of a reading of ${own}`,
    expected: `a move within ${own}`,
    fix: 'Withdraw the move; to correct what the reading is of, replace the reading. Until then it is used where it was.',
  };
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
  expected: 'a replacement, a withdrawal or a move',
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
