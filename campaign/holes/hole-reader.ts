/**
 * One hole read from the rows as they were typed. Only the hole's own rows and the small tables they refer to are read,
 * so that a reading is on the screen within milliseconds.
 */
import { type Campaign, parseCampaign, type TypedRow, typedReadings } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { TableName } from '@stillstand/campaign/tables';
import { documentOf, isSame } from './part-reader.ts';
import { RIG_TABLES } from './rig-readings.ts';
import type { RowSource } from './row-source.ts';
import { type HoleState, holeState } from './state.ts';

/** A state with the problems of reading the hole's own tables. */
export interface HoleRead extends HoleState {
  problems: Problem[];
}

/** Tables the hole's rows refer to; they are small. */
const AROUND: readonly TableName[] = [
  'sites',
  'datums',
  'pipes',
  'pipe_stock',
  'samplers',
  'gear',
  'rated_gear',
  'instrument_checks',
  'settings',
  'holes',
];

/** Its own readings: those that move the string, and the marks on the cable. */
const OWN = [...RIG_TABLES, 'cable_marks'] as const;
type OwnTable = (typeof OWN)[number];

/** The hole with this label, or null where there is none. Pure; the same rows give the same result. */
export const readHole = (source: RowSource, hole: string): HoleRead | null => holeReader()(source, hole);

type Parsed = Pick<Campaign, 'rows' | 'skipped_rows'> & { problems: Problem[] };
type RowLists = readonly (readonly TypedRow[])[];

/**
 * `readHole` that remembers what it has read: a table whose rows are the same is not read again, and of one that only
 * grew only the new rows are, so that one more reading costs little more than one fold. The answer is the same.
 */
export function holeReader(): (source: RowSource, hole: string) => HoleRead | null {
  const kept = new Map<
    TableName,
    { of: readonly TypedRow[]; own: TypedRow[]; around: RowLists; parsed: Parsed }
  >();
  let keptHole = '';
  return (source, hole) => {
    if (hole !== keptHole) kept.clear();
    keptHole = hole;
    const around = AROUND.map((table) => source.rows(table));
    const read = (table: OwnTable): Parsed => {
      const of = source.rows(table);
      const last = kept.get(table);
      const sameAround = last?.around.every((rows, i) => isSame(rows, around[i]!)) ?? false;
      if (last !== undefined && sameAround && isSame(last.of, of)) return last.parsed;
      const own = rowsOf(source, table, hole);
      const grown = last !== undefined && sameAround ? withNewRows(source, around, table, last, own) : null;
      const parsed = grown ?? parseTable(source, around, table, own);
      kept.set(table, { of, own, around, parsed });
      return parsed;
    };
    const parsed = OWN.map(read);
    const rows = { ...parsed[0]!.rows };
    for (const [i, table] of OWN.entries()) {
      Object.assign(rows, { [table]: parsed[i]!.rows[table] });
    }
    const state = holeState(
      { rows, skipped_rows: parsed.flatMap((p) => p.skipped_rows), typed: source },
      hole,
    );
    return state === null ? null : { ...state, problems: parsed.flatMap((p) => p.problems) };
  };
}

/**
 * What was read and the new rows behind it; null where that is not the same as reading all anew: something was amended,
 * a label or a place in the order may clash, or a new row has a problem.
 */
function withNewRows(
  source: RowSource,
  around: RowLists,
  table: OwnTable,
  last: { own: readonly TypedRow[]; parsed: Parsed },
  own: readonly TypedRow[],
): Parsed | null {
  // readings are never edited, so the same row_id is the same row; the labels of runs are compared with each other
  if (table === 'runs' || own.length < last.own.length) return null;
  if (last.own.some((r, i) => r.row_id !== own[i]!.row_id)) return null;
  const added = own.slice(last.own.length);
  if (added.some((r) => (r.cells['amends'] ?? '') !== '')) return null;
  const before = last.parsed.rows[table];
  const parsed = parseTable(source, around, table, added);
  const fresh = parsed.rows[table];
  const after = before.at(-1)?.seq ?? 0;
  if (parsed.problems.length > 0 || parsed.skipped_rows.length > 0 || fresh.some((r) => r.seq <= after))
    return null;
  return { ...last.parsed, rows: { ...last.parsed.rows, [table]: [...before, ...fresh] } };
}

/** One table of readings with the tables it refers to. */
function parseTable(source: RowSource, around: RowLists, table: OwnTable, rows: readonly TypedRow[]): Parsed {
  const document = documentOf(source, [
    ...AROUND.map((name, i) => [name, around[i]!] as const),
    [table, rows],
  ]);
  const { campaign, problems } = parseCampaign(document);
  return {
    rows: campaign.rows,
    skipped_rows: campaign.skipped_rows.filter((a) => a.table === table),
    problems: problems.filter((p) => p.table === table),
  };
}

/** All rows of the readings of one hole: an amendment may be all that says, or no longer says, which hole it is. */
function rowsOf(source: RowSource, table: TableName, hole: string): TypedRow[] {
  const rows = source.rows(table);
  const { of } = typedReadings(table, rows);
  return rows.filter((row) => isOf(row, hole) || of.get(row.row_id)?.rows.some((r) => isOf(r, hole)));
}

const isOf = (row: TypedRow, hole: string): boolean => row.cells['hole']?.trim() === hole;
