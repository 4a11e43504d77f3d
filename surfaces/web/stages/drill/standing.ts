/** Rows of a hole as they are in force among their amendments, and the last thing said in a column. */
import { rowsInForce } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import type { RowSource, TypedRow } from './store-door.ts';

/** Readings of a hole in force; those whose amendments differ are not among them. */
export const standing = (source: RowSource, table: TableName, hole: string): TypedRow[] =>
  rowsInForce(table, source.rows(table)).filter((row) => row.cells['hole']?.trim() === hole);

export function lastCell(source: RowSource, table: TableName, hole: string, column: string): string {
  return (
    source.rows(table).findLast((r) => r.cells['hole'] === hole && (r.cells[column] ?? '') !== '')?.cells[
      column
    ] ?? ''
  );
}
