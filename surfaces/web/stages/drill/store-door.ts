/** What Drill asks of an open campaign: a part of the store, so that it can be tested without one. */
import type { TypedRow } from '@stillstand/campaign/document';
import type { SettingName } from '@stillstand/campaign/settings';
import { schemas, type TableName } from '@stillstand/campaign/tables';
import type { RowSource } from '../../holes/part-of.ts';

type CellsOf = Readonly<Record<string, string>>;

export type { RowSource, TypedRow };

export interface DrillStore extends RowSource {
  readonly readOnly: boolean;
  readonly saved: 'saved' | 'saving' | 'failed';
  /** Rows that are shown and not yet on the device. */
  readonly unsaved: ReadonlySet<string>;
  addReading(table: TableName, cells: CellsOf): string;
  /** The new row's id; null where it was refused, which the store says. */
  amend(table: TableName, row_id: string, cells: CellsOf): string | null;
  withdraw(table: TableName, row_id: string): string | null;
  restore(table: TableName, row_id: string): string | null;
  /** Ends a conflict of amendments by one of the reading's rows, or by its withdrawal (null). */
  decide(table: TableName, row_id: string, choice: string | null): string | null;
  addRow(table: TableName, cells: CellsOf): string;
  editRow(table: TableName, row_id: string, cells: CellsOf): void;
  /** An empty value takes the setting away, so that its default holds. */
  setSetting(name: SettingName, value: string): void;
  addFile(bytes: Uint8Array, type: string): Promise<string>;
}

export const READING_TABLES = ['ground', 'joints', 'drives', 'soundings', 'water', 'runs'] as const;
export type ReadingTable = (typeof READING_TABLES)[number];

/** What the book shows beside them: they are read as typed and move no depth of the string. */
export const BOOK_TABLES = [...READING_TABLES, 'checks', 'pieces', 'pushes'] as const;
export type BookTable = (typeof BOOK_TABLES)[number];

/**
 * The same store with the numbers of a table that writes 3,05 shown as 3.05, so that every form, line and sum of the
 * screen reads them; the cells stay as they are, and what is written goes back with the table's own comma.
 */
export function withPoints<S extends DrillStore>(store: S, dialect: RowSource['dialect']): S {
  const shown = new WeakMap<readonly TypedRow[], readonly TypedRow[]>();
  const rows = (table: TableName): readonly TypedRow[] => {
    const typed = store.rows(table);
    if (dialect?.(table)?.decimal_comma !== true) return typed;
    let points = shown.get(typed);
    if (points === undefined) {
      points = typed.map((row) => ({ ...row, cells: pointed(table, row.cells) }));
      shown.set(typed, points);
    }
    return points;
  };
  return new Proxy(store, { get: (of, name) => (name === 'rows' ? rows : Reflect.get(of, name, of)) });
}

function pointed(table: TableName, cells: CellsOf): CellsOf {
  const columns: Readonly<Record<string, { kind: string }>> = schemas[table].columns;
  return Object.fromEntries(
    Object.entries(cells).map(([column, cell]) => [
      column,
      /^(?:number|length)$/.test(columns[column]?.kind ?? '') && !cell.includes('.')
        ? cell.replace(/,(?=\d)/g, '.')
        : cell,
    ]),
  );
}
