/** A row set back to what it said before: a new act that is undone like any other. Nothing is rewritten. */
import { schemas, type TableName } from '@stillstand/campaign/tables';
import type { Store } from '../store/index.ts';

type Cells = Readonly<Record<string, string>>;

/** Sets cells of an interpretation back; a row that was deleted comes back under its identity. False where refused. */
export function restoreRow(store: Store, table: TableName, row_id: string, cells: Cells): boolean {
  if (schemas[table].readings) throw new RangeError(`${table} holds readings: they are amended`);
  const isThere = store.rows(table).some((row) => row.row_id === row_id);
  return store.together(() => {
    if (!isThere) store.addRow(table, { ...store.cellsOf(table, row_id), row_id });
    store.editRow(table, row_id, cells);
  });
}
