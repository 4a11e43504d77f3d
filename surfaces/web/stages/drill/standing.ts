/** Rows as they stand among their amendments, and the last thing said in a column. */
import type { TableName } from '@stillstand/campaign/tables';
import type { RowSource, TypedRow } from './store-door.ts';

/** Rows that nothing amends and that take nothing back. */
export function standing(rows: readonly TypedRow[]): TypedRow[] {
  const amended = new Set(rows.flatMap((r) => (r.cells['amends'] ? [r.cells['amends']] : [])));
  return rows.filter((r) => !amended.has(r.row_id) && r.cells['amend_kind'] !== 'withdraw');
}

export function lastCell(source: RowSource, table: TableName, hole: string, column: string): string {
  return (
    source.rows(table).findLast((r) => r.cells['hole'] === hole && (r.cells[column] ?? '') !== '')?.cells[
      column
    ] ?? ''
  );
}
