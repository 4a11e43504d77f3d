/** The open campaign as Drill shows it: the numbers of a table that writes 3,05 with points. */
import type { TypedRow } from '@stillstand/campaign/document';
import type { RowSource } from '@stillstand/campaign/holes';
import { schemas, type TableName } from '@stillstand/campaign/tables';
import type { Store } from '../../../store/index.ts';

type CellsOf = Readonly<Record<string, string>>;

/** What Drill asks of an open campaign: a part of the store, so that it can be tested without one. */
export type DrillStore = RowSource &
  Pick<
    Store,
    | 'readOnly'
    | 'saved'
    | 'unsaved'
    | 'addReading'
    | 'amend'
    | 'withdraw'
    | 'restore'
    | 'move'
    | 'together'
    | 'decide'
    | 'addRow'
    | 'editRow'
    | 'setSetting'
    | 'addFile'
  >;

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
