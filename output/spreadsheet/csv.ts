/**
 * Tables as CSV (RFC 4180) with LF, one heading row, UTF-8, in which no text is a formula.
 *
 * Spreadsheets run a cell that begins with = + - @, a tab or a carriage return. Text of a campaign is anybody's, so an
 * apostrophe goes in front of such a beginning (common practice, as the OWASP page on CSV injection has it): of the
 * whole text, and of what stands behind a semicolon, a tab or a line break in it, where a spreadsheet that separates
 * cells so would begin one. Text that is wholly a number stays as it is, and so does every number.
 */

/** A column: its heading, with the unit in it, and the cell of a row. */
export interface CsvColumn<Row> {
  heading: string;
  cell: (row: Row) => string;
}

export function csv<Row>(columns: readonly CsvColumn<Row>[], rows: readonly Row[]): string {
  const lines = [columns.map((column) => quoted(noFormula(column.heading))).join(',')];
  for (const row of rows) lines.push(columns.map((column) => quoted(column.cell(row))).join(','));
  return `${lines.join('\n')}\n`;
}

/** A beginning that would be run: blanks and quotation marks may stand before it, full-width signs count as the plain. */
const RUN = '[ \\u00a0\'"]*(?:[=+\\-@\\uff1d\\uff0b\\uff0d\\uff20]|[\\t\\r])';
const AT_THE_BEGINNING = new RegExp(`^(?=${RUN})`, 'u');
const BEHIND_A_SEPARATOR = new RegExp(`([;\\t\\r\\n])(?=${RUN})`, 'gu');

/** The text with an apostrophe before every such beginning. */
export function noFormula(text: string): string {
  const isNumber = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i.test(text);
  return isNumber ? text : text.replace(BEHIND_A_SEPARATOR, "$1'").replace(AT_THE_BEGINNING, "'");
}

/** In quotes too where some reader takes a character in it for the end of the cell. */
function quoted(cell: string): string {
  return /[",;\t\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
