/**
 * What is written when a person amends, withdraws, restores or decides: the later rows, as cells. What they then come to
 * is the one rule of amendments (`parse/amendments.ts`). Each act leaves the reading with one row in force or with none,
 * and says who did it and when in the rows it writes.
 */
import { plainWord, type TableName } from '@stillstand/campaign/tables';
import { type Reading, readColumns, type TypedRow, typedReadings } from './parse/amendments.ts';

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
function beforeWithdrawal<R extends TypedRow>(table: TableName, reading: Reading<R>): Reading<TypedRow> {
  const restoring = toRestore(reading).map((cells, i) => ({ row_id: `restoring ${i}`, cells }));
  return readingOf<TypedRow>(table, [...reading.rows, ...restoring], reading.first.row_id)!;
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
export function toRestore({ amendments, rows }: Reading<TypedRow>): NewCells[] {
  const amended = new Set(rows.map((row) => row.cells['amends']?.trim()));
  const isOfAct = (row: TypedRow): boolean =>
    amendments.some(
      (act) =>
        (act.cells['time'] ?? '') !== '' &&
        row.cells['time'] === act.cells['time'] &&
        row.cells['by'] === act.cells['by'],
    );
  const others = rows.filter(
    (row) => isWithdrawal(row) && isOfAct(row) && !amended.has(row.row_id) && !amendments.includes(row),
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

/** What orders a reading, and no more: who withdraws it and when is filled in as in any row. */
function withdrawal({ row_id, cells }: TypedRow): NewCells {
  const series = Object.fromEntries(
    ['hole', 'loop', 'gauge', 'date', 'seq'].flatMap((column) =>
      cells[column] ? [[column, cells[column]]] : [],
    ),
  );
  return { ...series, amends: row_id, amend_kind: 'withdraw' };
}

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
