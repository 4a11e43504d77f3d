/** An act in words: "recorder, tablet A, 14:38: edit unit 4 of T1 (top, bottom)". */
import { clockOf, dateOf } from '@stillstand/campaign/tables';
import type { Act, ActChange, How } from './acts.ts';
import { type Change, changeWords } from './changes.ts';
import type { TableRead } from './read.ts';

type Cells = Readonly<Record<string, string>>;

/** Cells of a row by its identity, deleted rows too; empty for a row that is not known. */
export type CellsOf = (table: ActChange['table'], row_id: string) => Cells;

/** Before what was done, where it did not come about by an ordinary act. */
const HOW: Readonly<Record<How, string>> = {
  done: '',
  undone: 'undo: ',
  redone: 'redo: ',
  repaired: 'repair: ',
  outside: 'edited outside: ',
  merged: 'merged: ',
  settled: 'conflict decided: ',
};

const AMENDED: Readonly<Record<string, string>> = { replace: 'amend', withdraw: 'withdraw', move: 'move' };

export const actWords = (act: Act, cellsOf: CellsOf): string =>
  `${[writerWords(act), clockOf(act.time)].filter(Boolean).join(', ')}: ${doneWords(act, cellsOf)}`;

/** "driller, tablet B": who and with what. */
export const writerWords = ({ by, device }: Pick<Act, 'by' | 'device'>): string =>
  [by, device].filter(Boolean).join(', ') || 'name not given';

/** "undo: edit unit 4 of T1 (top, bottom)", "amend sounding at 10:42 of T2 (depth to sediment)". */
export function doneWords({ how, changes }: Act, cellsOf: CellsOf): string {
  const made = changes.map((change) => amended(change, cellsOf) ?? { change: asChange(change), verb: null });
  const words = changeWords(
    made.map(({ change }) => change),
    ({ table, row_id }) => named(table, row_id, cellsOf),
  );
  const verb = made.length === 1 ? made[0]!.verb : null;
  return HOW[how] + (verb === null ? words : words.replace(/^\w+/, verb));
}

const asChange = (change: ActChange): Change => {
  if (change.kind !== 'edit') return { ...change, cells: {} };
  const after = Object.fromEntries(
    Object.entries(change.cells).map(([column, cell]) => [column, cell.after]),
  );
  return { ...change, before: {}, after };
};

/** A row that amends a reading, as what it does to the reading; null for any other. */
function amended(change: ActChange, cellsOf: CellsOf): { change: Change; verb: string } | null {
  const { kind, table, row_id } = change;
  const kindOf = (cells: Cells): string => cells['amend_kind']?.trim() ?? '';
  const row = cellsOf(table, row_id);
  const of = kindOf(row);
  const verb = kind === 'add' ? AMENDED[of] : undefined;
  if (verb === undefined) return null;
  // A withdrawal that is withdrawn.
  const isRestored = of === 'withdraw' && kindOf(cellsOf(table, row['amends']?.trim() ?? '')) === 'withdraw';
  if (isRestored) return { change: asChange(change), verb: 'restore' };
  if (of !== 'replace') return { change: asChange(change), verb };
  const after = Object.fromEntries(
    amendedCells(table, row_id, cellsOf).map((cell) => [cell.column, cell.after]),
  );
  return { change: { kind: 'edit', table, row_id, before: {}, after }, verb };
}

/** Who wrote an amendment and when is not what it amends. */
const UNSAID: ReadonlySet<string> = new Set([
  'row_id',
  'amends',
  'amend_kind',
  'time',
  'by',
  'device',
  'seq',
]);

/** Cells that a row which replaces a reading says otherwise than the row that it amends. */
export function amendedCells(
  table: ActChange['table'],
  row_id: string,
  cellsOf: CellsOf,
): { column: string; before: string; after: string }[] {
  const cells = cellsOf(table, row_id);
  const before = cellsOf(table, cells['amends']?.trim() ?? '');
  return [...new Set([...Object.keys(before), ...Object.keys(cells)])].flatMap((column) => {
    const [was, is] = [before[column] ?? '', cells[column] ?? ''];
    return was === is || UNSAID.has(column) ? [] : [{ column, before: was, after: is }];
  });
}

/** By which a row is named: an amendment goes by the reading that it amends. */
function named(table: ActChange['table'], row_id: string, cellsOf: CellsOf): Cells {
  let cells = cellsOf(table, row_id);
  // Rows that amend each other in a circle have an end too.
  for (let i = 0; i < LONGEST; i++) {
    const amends = cells['amends']?.trim() ?? '';
    if (amends === '') break;
    cells = cellsOf(table, amends);
  }
  return cells;
}

/** Amendments of one reading, one upon the other. */
const LONGEST = 100;

const MONTHS = 'January February March April May June July August September October November December'.split(
  ' ',
);

/** "4 March 2026": the day of a time as it was written; empty where there is none. */
export function dayWords(time: string): string {
  const [year, month, day] = dateOf(time)?.split('-') ?? [];
  return day === undefined ? '' : `${Number(day)} ${MONTHS[Number(month) - 1] ?? month} ${year}`;
}

/** "4 March 2026, 14:38", by the clock of the device. */
export const momentWords = (time: string): string =>
  [dayWords(time), clockOf(time)].filter(Boolean).join(', ') || 'a date that is not known';

/** Finds rows by their identity, deleted ones too; each table is laid out once, and again when it has changed. */
export function cellsIn(read: (table: string) => TableRead | null): CellsOf {
  const known = new WeakMap<TableRead, ReadonlyMap<string, Cells>>();
  return (table, row_id) => {
    const now = read(table);
    if (now === null) return {};
    const byId =
      known.get(now) ??
      new Map([...now.deleted.map(({ row }) => row), ...now.rows].map((row) => [row.row_id, row.cells]));
    known.set(now, byId);
    return byId.get(row_id) ?? {};
  };
}
