/** From the document to the campaign: everything typed is read right, or named as a problem and set aside. */
import type { Problem } from '@stillstand/campaign/problems';
import {
  BARE_UNITS,
  bareUnit,
  isTableName,
  type LengthOptions,
  type LengthUnit,
  nearest,
  plainWord,
  type Row,
  schemas,
  type TableName,
  tableWords,
} from '@stillstand/campaign/tables';
import type { CampaignDocument } from '../document.ts';
import { withNewNames } from '../old-names.ts';
import { applyAmendments } from './amended.ts';
import type { Campaign, SkippedRow } from './campaign.ts';
import { checkChosenNames } from './chosen-names.ts';
import { type Draft, FRAMES, rowLabel } from './draft.ts';
import { readHeading } from './heading.ts';
import { identify } from './identity.ts';
import { faultOf } from './limits.ts';
import { inOrder, warnOfSameSeq } from './order.ts';
import { ProblemList } from './problem-list.ts';
import { checkReferences } from './references.ts';
import { readRows } from './rows.ts';

const TABLE_NAMES = Object.keys(schemas) as TableName[];

/**
 * Reads a document. Never throws; the campaign holds whatever could be read, the problems whatever could not. Problems
 * of the bytes themselves come from reading the files.
 */
export function parseCampaign(given: CampaignDocument): { campaign: Campaign; problems: Problem[] } {
  const document = withNewNames(given);
  const problems = new ProblemList();
  noteUnknownTables(document, problems);

  const read: Draft[] = [];
  const unit = unitOfBare(document, problems);
  for (const name of TABLE_NAMES) {
    const table = document.tables.get(name);
    if (table === undefined) continue;
    const frame = FRAMES.get(name)!;
    const heading = readHeading(table, frame, problems);
    if (heading.isStrange) continue;
    const options: LengthOptions = { unit, decimal_comma: table.dialect.decimal_comma };
    for (const draft of readRows(table, frame, heading, options)) read.push(draft);
  }

  const drafts = identify(read);
  const { standing, withdrawn, idle, amendments, conflicts, rivals } = applyAmendments(drafts);
  const nameDependents = checkReferences(standing, withdrawn, rivals, problems, document.unread);
  checkChosenNames(standing);
  warnOfSameSeq(standing);
  const inTableOrder = Map.groupBy([...standing, ...idle], ({ table }) => table);
  for (const name of TABLE_NAMES) {
    for (const draft of inTableOrder.get(name) ?? []) {
      for (const fault of draft.faults) problems.row(draft, faultOf(draft, fault));
    }
  }
  nameDependents();

  const rows = usableRows(standing);
  const campaign: Campaign = Object.freeze({
    id: typeof document.package?.['id'] === 'string' ? document.package['id'] : null,
    name: campaignName(document, rows.settings),
    rows,
    amendments,
    conflicts,
    skipped_rows: standing
      .filter(({ usable }) => !usable)
      .flatMap((draft) =>
        rivals.has(draft) ? disputed(draft, rivals.get(draft)!) : rowAside(draft, 'unreadable'),
      ),
    lines: new Map(drafts.map(({ row_id, line }) => [row_id, line])),
    settings: new Map(rows.settings.map(({ name, value }) => [name, value])),
  });
  return { campaign, problems: problems.done() };
}

function usableRows(standing: readonly Draft[]): Campaign['rows'] {
  const byTable = Map.groupBy(
    standing.filter(({ usable }) => usable),
    ({ table }) => table,
  );
  const rows = {} as Record<TableName, readonly Row<TableName>[]>;
  for (const name of TABLE_NAMES) {
    const drafts = byTable.get(name) ?? [];
    const ordered = FRAMES.get(name)!.isReadings ? inOrder(drafts) : drafts;
    // Every field of the row type was set by the schema it comes from.
    rows[name] = Object.freeze(
      ordered.map(({ values }) => Object.freeze(values) as unknown as Row<TableName>),
    );
  }
  return Object.freeze(rows) as Campaign['rows'];
}

/** A reading in dispute, wherever it may belong: whether that hole's string holds the joint is not known. */
function disputed(reading: Draft, between: readonly (Draft | null)[]): SkippedRow[] {
  const rivals = between.filter((rival) => rival !== null);
  const own = {
    ...rowAside(reading, 'conflict'),
    agreed: agreed(rivals),
    mayBeWithdrawn: rivals.length < between.length,
  };
  const places = new Map(
    rivals.map((rival) => {
      const { label, hole, loop, seq } = rowAside(rival, 'conflict');
      return [`${hole} ${loop} ${seq}`, { ...own, label, hole, loop, seq }];
    }),
  );
  return places.size === 0 ? [own] : [...places.values()];
}

/** Words and choices that all rivals give alike; numbers are not used while a reading is set aside. */
function agreed([first, ...others]: readonly Draft[]): NonNullable<SkippedRow['agreed']> {
  const alike: Record<string, string | boolean> = {};
  for (const [field, value] of Object.entries(first?.values ?? {})) {
    if (typeof value !== 'string' && typeof value !== 'boolean') continue;
    if (others.every(({ values }) => values[field] === value)) alike[field] = value;
  }
  return alike;
}

function rowAside(draft: Draft, why: SkippedRow['why']): SkippedRow {
  const { hole, loop, seq } = draft.values;
  return {
    table: draft.table,
    row_id: draft.row_id,
    line: draft.line,
    why,
    agreed: agreed([draft]),
    mayBeWithdrawn: false,
    label: rowLabel(draft),
    hole: typeof hole === 'string' ? hole : null,
    loop: typeof loop === 'string' ? loop : null,
    seq: typeof seq === 'number' ? seq : null,
  };
}

function campaignName(document: CampaignDocument, settings: readonly Row<'settings'>[]): string {
  const chosen = settings.find(({ name }) => name === 'name')?.value;
  const { title, name } = document.package ?? {};
  return chosen ?? (typeof title === 'string' ? title : typeof name === 'string' ? name : '');
}

/** The unit of lengths typed without one: the setting length_unit, read before any length is. */
function unitOfBare(document: CampaignDocument, problems: ProblemList): LengthUnit | null {
  const table = document.tables.get('settings');
  if (table === undefined) return null;
  const name = table.columns.findIndex((heading) => plainWord(heading) === 'name');
  const value = table.columns.findIndex((heading) => plainWord(heading) === 'value');
  const row = table.rows.find(({ cells }) => cells[name]?.trim() === 'length_unit');
  const typed = row?.cells[value]?.trim() ?? '';
  if (typed === '') return null;
  const unit = bareUnit(typed);
  if (unit !== null) return unit;
  problems.table(
    'error',
    'settings',
    {
      code: 'unknown-choice',
      found: typed,
      expected: `${BARE_UNITS.join(', ')} as the unit of lengths typed without one`,
      fix: 'Choose one of them. Until then lengths without a unit are not read.',
    },
    'value',
  );
  return null;
}

function noteUnknownTables(document: CampaignDocument, problems: ProblemList): void {
  const absent = TABLE_NAMES.filter((name) => !document.tables.has(name));
  for (const [name, table] of document.tables) {
    if (isTableName(name)) continue;
    const near = nearest(plainWord(name), absent);
    problems.table(near === null ? 'note' : 'warning', near ?? name, {
      code: 'unknown-table',
      found: table.path,
      expected: near === null ? 'a table of a campaign' : `perhaps the table of ${tableWords(near)}`,
      fix:
        near === null
          ? 'No action needed: it is kept and not used.'
          : 'Rename the file if that is meant; until then it is kept and not used.',
    });
  }
}
