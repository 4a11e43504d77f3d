/** Numbers of a row as tables write them: 3.05 or 3,05. Texts keep their signs. */
import { schemas, type TableName } from '@stillstand/campaign/tables';

type Cells = Readonly<Record<string, string>>;

export const withCommas = (table: TableName, cells: Cells): Cells =>
  numbersAs(table, cells, (cell) => cell.replace(/(\d?)\.(\d)/g, '$1,$2'));

export const withPoints = (table: TableName, cells: Cells): Cells =>
  numbersAs(table, cells, (cell) => cell.replace(/(\d?),(\d)/g, '$1.$2'));

function numbersAs(table: TableName, cells: Cells, as: (cell: string) => string): Cells {
  const columns: Readonly<Record<string, { kind: string }>> = schemas[table].columns;
  const isNumeric = (column: string): boolean => /^(?:number|length|tide)$/.test(columns[column]?.kind ?? '');
  return Object.fromEntries(
    Object.entries(cells).map(([column, cell]) => [column, isNumeric(column) ? as(cell) : cell]),
  );
}
