/** The readings of a table as screens and commands have its rows: as they were typed. */
import { plainWord, schemas, type TableName } from '@stillstand/campaign/tables';
import { type Reading, type Readings, readingsOf } from './amendments.ts';

/** A row as it was typed: cells by column of its table. */
export interface TypedRow {
  readonly row_id: string;
  readonly cells: Readonly<Record<string, string>>;
}

/** Columns that say who wrote a row, what it amends and why, not what was read. */
const WHO = new Set(['row_id', 'by', 'device', 'note', 'amends', 'amend_kind', 'amend_reason']);

/** Columns in which two amendments must agree to be no conflict. */
export const readColumns = (table: TableName): string[] =>
  Object.keys(schemas[table].columns).filter((column) => !WHO.has(column));

/** What orders readings: those of one hole, loop, gauge or day are one series, whatever table they are in. */
export const SERIES = ['hole', 'loop', 'gauge', 'date'] as const;

const known = new WeakMap<readonly TypedRow[], Readings<TypedRow>>();

const cell = ({ cells }: TypedRow, column: string): string => cells[column]?.trim() ?? '';

/** The number of a row's place as it was typed; null where there is none that can be read. */
export function typedSeq(row: TypedRow): number | null {
  const text = cell(row, 'seq');
  const seq = Number(text.replace(',', '.'));
  return text !== '' && seq >= 0 && seq < Number.POSITIVE_INFINITY ? seq : null;
}

/** The readings of a table as screens and commands have it; the same rows give the same object. */
export function typedReadings<R extends TypedRow>(table: TableName, rows: readonly R[]): Readings<R> {
  const before = known.get(rows);
  // The rows are those it was made of.
  if (before !== undefined) return before as Readings<R>;
  const columns = readColumns(table);
  const found = readingsOf<R>(rows, {
    row_id: (row) => row.row_id.normalize('NFC'),
    amends: (row) => cell(row, 'amends').normalize('NFC'),
    kind: (row) => {
      const kind = plainWord(cell(row, 'amend_kind'));
      return kind === 'withdraw' || kind === 'move' ? kind : 'replace';
    },
    says: (row) => columns.map((column) => cell(row, column)).join('\u0000'),
    seq: typedSeq,
    series: (row) => SERIES.map((column) => cell(row, column)),
  });
  known.set(rows, found);
  return found;
}

/** The rows in force, in the order of the readings, each in the place of the reading it is of. */
export const rowsInForce = <R extends TypedRow>(table: TableName, rows: readonly R[]): R[] =>
  typedReadings(table, rows).all.flatMap((reading) => (reading.now === null ? [] : [inPlace(reading)]));

/** The row in force with the `seq` that counts. */
function inPlace<R extends TypedRow>({ now, first, place }: Reading<R>): R {
  const row = now ?? first;
  if (cell(row, 'seq') === cell(place.by, 'seq')) return row;
  return { ...row, cells: { ...row.cells, seq: cell(place.by, 'seq') } };
}
