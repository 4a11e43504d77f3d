/** Tables as CSV (RFC 4180) with LF, one heading row, UTF-8. */

/** A column: its heading, with the unit in it, and the cell of a row. */
export interface CsvColumn<Row> {
  heading: string;
  cell: (row: Row) => string;
}

export function csv<Row>(columns: readonly CsvColumn<Row>[], rows: readonly Row[]): string {
  const lines = [columns.map((column) => quoted(column.heading)).join(',')];
  for (const row of rows) lines.push(columns.map((column) => quoted(column.cell(row))).join(','));
  return `${lines.join('\n')}\n`;
}

function quoted(cell: string): string {
  return /[",\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
