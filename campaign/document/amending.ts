/**
 * What is written when a person amends, withdraws, restores, moves or decides: the later rows, as cells. What they then
 * come to is the one rule of amendments (`parse/amendments.ts`). Each act leaves the reading with one row in force or with
 * none, and says who did it and when in the rows it writes.
 */
import { plainWord, type TableName } from '@stillstand/campaign/tables';
import type { Reading } from './parse/amendments.ts';
import { readColumns, SERIES, type TypedRow, typedReadings, typedSeq } from './parse/typed-readings.ts';

type NewCells = Record<string, string>;

/** The reading that a row belongs to, as written or as an amendment; null where there is no such row. */
export const readingOf = <R extends TypedRow>(
  table: TableName,
  rows: readonly R[],
  row_id: string,
): Reading<R> | null => typedReadings(table, rows).of.get(row_id.normalize('NFC')) ?? null;

/**
 * A row that replaces the one in force, with some cells changed. A withdrawn reading is restored by it; null where its
 * amendments would differ then, so that one must be chosen first.
 */
export function toAmend(
  table: TableName,
  reading: Reading<TypedRow>,
  cells: Readonly<NewCells>,
): NewCells[] | null {
  if (reading.state !== 'withdrawn') {
    // Amendments that say the same as the one in force would differ from it now.
    const others = reading.amendments.filter((row) => !reading.history.includes(row));
    return [...others.map(withdrawal), replacement(nowOf(reading), nowOf(reading), cells)];
  }
  const { now } = beforeWithdrawal(table, reading);
  return now === null ? null : [...toRestore(reading), replacement(now, now, cells)];
}

/** A withdrawn reading as it would be restored. */
const beforeWithdrawal = (table: TableName, reading: Reading<TypedRow>): Reading<TypedRow> =>
  after(table, reading, toRestore(reading));

/** A reading as it would be after these rows. */
function after(
  table: TableName,
  { rows, first }: Reading<TypedRow>,
  added: readonly NewCells[],
): Reading<TypedRow> {
  const more = added.map((cells, i): TypedRow => ({ row_id: `after ${i}`, cells }));
  return readingOf(table, [...rows, ...more], first.row_id)!;
}

/** What the reading said, the first first: of a withdrawn one what it said until then. */
export const wordings = (table: TableName, reading: Reading<TypedRow>): readonly TypedRow[] =>
  (reading.state === 'withdrawn' ? beforeWithdrawal(table, reading) : reading).history.filter(
    (row) => row === reading.first || !isWithdrawal(row),
  );

function nowOf({ now, first }: Reading<TypedRow>): TypedRow {
  if (now === null) throw new RangeError(`nothing is in force of reading ${first.row_id}`);
  return now;
}

/** Rows after which nothing of the reading is in force. */
export const toWithdraw = ({ first, amendments }: Reading<TypedRow>): NewCells[] =>
  [...amendments, first].map(withdrawal);

/**
 * Rows after which a withdrawn reading is what it was before: all that was withdrawn in that one act, known by its hand
 * and time, is withdrawn in turn. Without the rest of the act a corrected reading would come back uncorrected.
 */
export function toRestore({ amendments, rows, place }: Reading<TypedRow>): NewCells[] {
  const amended = new Set(rows.map((row) => row.cells['amends']?.trim()));
  const isOfAct = (row: TypedRow): boolean =>
    amendments.some(
      (act) =>
        (act.cells['time'] ?? '') !== '' &&
        row.cells['time'] === act.cells['time'] &&
        row.cells['by'] === act.cells['by'],
    );
  const others = rows.filter(
    (row) =>
      isWithdrawal(row) &&
      isOfAct(row) &&
      !amended.has(row.row_id) &&
      !amendments.includes(row) &&
      !place.rows.includes(row),
  );
  return [...amendments, ...others].map(withdrawal);
}

const isWithdrawal = ({ cells }: TypedRow): boolean => plainWord(cells['amend_kind'] ?? '') === 'withdraw';

/**
 * A conflict decided: every amendment is withdrawn, by whom and when, and the choice written once more, so that two
 * people who decide differently on two devices have a conflict again, not the reading as first written.
 */
export function toDecide(reading: Reading<TypedRow>, choice: TypedRow | null): NewCells[] {
  const { first, amendments } = reading;
  const ended = amendments.map(withdrawal);
  return [...ended, choice === null ? withdrawal(first) : replacement(choice, first, {})];
}

/**
 * Rows after which the reading has the place of this number; none where it has it. Back where it was written its moves are
 * withdrawn. Otherwise the move in force is moved on, or, where moves differ, each is withdrawn and the place written
 * once more: as in `toDecide`, two people who decide differently differ again.
 */
export function toMove(table: TableName, reading: Reading<TypedRow>, seq: string): NewCells[] {
  const { first, now, place } = reading;
  const isThere = (row: TypedRow): boolean => typedSeq(row) === Number(seq);
  const isDisputed = place.between.length > 0;
  if (!isDisputed && isThere(place.by)) return [];
  const back = place.amendments.map(withdrawal);
  if (isThere(after(table, reading, back).place.by)) return back;
  const moved = isDisputed ? first : (place.rows.find((row) => row === place.by) ?? first);
  const series = ordering({ ...(now ?? first).cells, seq });
  const move = { ...series, amends: moved.row_id, amend_kind: 'move' };
  if (isDisputed) return [...back, move];
  const lineage = new Set<string>();
  for (let at: TypedRow | undefined = moved; at !== undefined && at !== first; ) {
    lineage.add(at.row_id);
    const amends: string = at.cells['amends']?.trim() ?? '';
    at = place.rows.find((row) => row.row_id === amends);
  }
  // Moves to the same place would differ from it now.
  const others = place.amendments.filter((row) => !lineage.has(row.row_id));
  return [...others.map(withdrawal), move];
}

/** What orders a reading, and no more: who amends it and when is filled in as in any row. */
const ordering = (cells: Readonly<NewCells>): NewCells =>
  Object.fromEntries(
    [...SERIES, 'seq'].flatMap((column) => (cells[column] ? [[column, cells[column]]] : [])),
  );

const withdrawal = ({ row_id, cells }: TypedRow): NewCells => ({
  ...ordering(cells),
  amends: row_id,
  amend_kind: 'withdraw',
});

function replacement(like: TypedRow, of: TypedRow, cells: Readonly<NewCells>): NewCells {
  const { row_id: _, amends: __, amend_kind: ___, ...kept } = like.cells;
  return { ...kept, ...cells, amends: of.row_id, amend_kind: 'replace' };
}

/** One way to end a conflict. */
export interface Choice {
  /** The row to be in force; null is the reading withdrawn. */
  row_id: string | null;
  isFirst: boolean;
  /** What it says where the rows differ; blank where nothing was written. */
  says: readonly { column: string; text: string }[];
  /** Who wrote it, as far as is known. */
  who: string;
}

/** What a person may choose in a conflict: each of the rivals, and the reading as first written. */
export function choicesOf(table: TableName, { first, between }: Reading<TypedRow>): Choice[] {
  const rows = [...between.filter((row) => row !== null && row !== first), first].filter(
    (row) => row !== null,
  );
  const text = ({ cells }: TypedRow, column: string): string => cells[column]?.trim() ?? '';
  const columns = readColumns(table).filter(
    (column) => column !== 'seq' && rows.some((row) => text(row, column) !== text(first, column)),
  );
  const choices = rows.map(
    (row): Choice => ({
      row_id: row.row_id,
      isFirst: row === first,
      says: columns.map((column) => ({ column, text: text(row, column) })),
      who: [text(row, 'by'), text(row, 'device')].filter(Boolean).join(', '),
    }),
  );
  return between.includes(null) ? [...choices, { row_id: null, isFirst: false, says: [], who: '' }] : choices;
}
