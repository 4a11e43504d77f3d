/** Rows that follow the one that a conflict is about. */
import { countedRows, type TableName } from '@stillstand/campaign/tables';

/** ", and in 3 units, 2 samples"; empty for none. */
export function alsoIn(others: readonly { readonly table: TableName; readonly row_id: string }[]): string {
  if (others.length === 0) return '';
  const rows = new Map(others.map(({ table, row_id }) => [`${table} ${row_id}`, table]));
  const tables = [...Map.groupBy(rows.values(), (table) => table)];
  return `, and in ${tables.map(([table, of]) => countedRows(table, of.length)).join(', ')}`;
}
