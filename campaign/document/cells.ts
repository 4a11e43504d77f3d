/** The bytes of one table to its cells, with what is wrong with the bytes; and cells to bytes. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { type Column, type Fault, isTableName, plainWord, schemas } from '@stillstand/campaign/tables';
import { type Csv, LONGEST_HEADING, MOST_COLUMNS, readCsv, writeCsv } from './csv.ts';
import { type Cells, type Dialect, type DocumentRow, PLAIN_DIALECT } from './document.ts';
import { decode } from './encoding.ts';

/**
 * Reads a CSV that stands alone. `name` is what problems call it. Rows whose cells may have slipped are in the problems
 * and still in the rows. Never throws; what cannot be read as a table has no columns.
 */
export function readCells(name: string, bytes: Uint8Array): { cells: Cells; problems: Problem[] } {
  const { cells, problems } = readTable(name, bytes);
  if (cells === null) return { cells: { columns: [], rows: [], dialect: PLAIN_DIALECT }, problems };
  for (const row of cells.rows) {
    const doubt = rowDoubt(cells.columns, row);
    if (doubt === null) continue;
    problems.push(problem({ ...doubt.fault, severity: doubt.severity, table: name, line: row.line }));
    if (problems.length >= 100) break;
  }
  return { cells, problems };
}

/** Reads the bytes of a table; null (with the reason among the problems) where they are no table. */
export function readTable(name: string, bytes: Uint8Array): { cells: Cells | null; problems: Problem[] } {
  const problems: Problem[] = [];
  const complain = (severity: Problem['severity'], code: string, parts: Omit<Fault, 'code'>, line?: number) =>
    problems.push(
      problem({ severity, code, table: name, ...(line === undefined ? {} : { line }), ...parts }),
    );

  const decoded = decode(bytes);
  if (decoded.text === null) {
    complain('error', 'not-a-table', {
      found: `${bytes.length} bytes; ${decoded.reason}`,
      expected: 'a table of text (CSV, UTF-8)',
      fix: 'Save the table again as CSV (UTF-8). The file is kept as it is and not read.',
    });
    return { cells: null, problems };
  }
  if (decoded.encoding === 'windows-1252') {
    complain('warning', 'not-utf-8', {
      found: 'bytes that are not UTF-8',
      expected: 'a table in UTF-8',
      fix: 'It is read as Windows-1252: check that accents and signs are right, and save it as CSV UTF-8.',
    });
  }
  const csv = readCsv(decoded.text);
  if (csv === null) {
    complain('error', 'not-a-table', {
      found: decoded.text.slice(0, 100),
      expected: `headings in the first line, at most ${MOST_COLUMNS} of at most ${LONGEST_HEADING} characters`,
      fix: 'Check that this is a table, and save it again as CSV (UTF-8). The file is kept as it is and not read.',
    });
    return { cells: null, problems };
  }
  if (csv.unclosed_line !== null) {
    complain(
      'error',
      'unclosed-quote',
      {
        found: 'a quotation mark that opens and is never closed',
        expected: 'quotation marks in pairs',
        fix: 'Write the closing quotation mark; until then marks from here on are read as ordinary characters.',
      },
      csv.unclosed_line,
    );
  }
  return {
    cells: { columns: csv.columns, rows: csv.rows, dialect: dialectOf(name, csv, decoded.bom) },
    problems,
  };
}

/** Bytes of a table, UTF-8; the mark in front where the dialect has one. */
export function tableBytes({ columns, rows, dialect }: Cells): Uint8Array {
  const text = writeCsv(columns, rows, dialect);
  return new TextEncoder().encode(dialect.bom || text.startsWith('\ufeff') ? `\ufeff${text}` : text);
}

/** Why the cells of a row may stand in the wrong columns; null where they do not. An error sets the row aside. */
export function rowDoubt(
  columns: readonly string[],
  row: DocumentRow,
): { severity: 'error' | 'warning'; fault: Fault } | null {
  if (row.stray_quote) {
    return {
      severity: 'error',
      fault: {
        code: 'stray-quote',
        found: row.cells.find((cell) => cell.includes('"')) ?? row.cells.join(' '),
        expected: 'a delimiter after a closing quotation mark',
        fix: 'Write a quotation mark that is part of the text twice. The row is set aside.',
      },
    };
  }
  if (
    row.cells.length > columns.length &&
    row.cells.slice(columns.length).some((cell) => cell.trim() !== '')
  ) {
    return {
      severity: 'error',
      fault: {
        code: 'too-many-cells',
        found: `${row.cells.length} values: ${row.cells.join(' | ')}`,
        expected: `${columns.length} values, one for each heading`,
        fix: 'Look for a decimal comma or a delimiter inside a value, and put that value in quotation marks. The row is set aside.',
      },
    };
  }
  if (row.cells.length < columns.length) {
    return {
      severity: 'warning',
      fault: {
        code: 'too-few-cells',
        found: `${row.cells.length} values`,
        expected: `${columns.length} values, one for each heading`,
        fix: 'The missing values are read as blank: check whether a delimiter is missing.',
      },
    };
  }
  return null;
}

function dialectOf(name: string, csv: Csv, bom: boolean): Dialect {
  const { delimiter, line_end, sep_line } = csv;
  return { delimiter, line_end, bom, sep_line, decimal_comma: writesDecimalCommas(name, csv) };
}

// A number, perhaps with its unit behind it. Three decimals could be thousands, unless a 0 stands alone in front.
const COMMA = /^[-+−]?(\d*),(\d+)(?!\d|[.,]\d)/u;
const POINT = /^[-+−]?(\d*)\.(\d+)(?!\d|[.,]\d)/u;

/**
 * True where numbers are written 3,05: the delimiter is not a comma, some number has one, and none certainly has a
 * decimal point. Only columns that hold numbers count, where the table is one we know. In a table delimited by
 * semicolons three decimals count too: a spreadsheet uses them because its commas are decimal.
 */
function writesDecimalCommas(name: string, csv: Csv): boolean {
  if (csv.delimiter === ',') return false;
  const known: Readonly<Record<string, Column>> | null = isTableName(name) ? schemas[name].columns : null;
  const numeric = csv.columns.map((heading) => {
    if (known === null) return true;
    const column = plainWord(heading);
    return Object.hasOwn(known, column) && /^(?:number|length)$/.test(known[column]!.kind);
  });
  let commas = false;
  for (const { cells } of csv.rows) {
    for (let i = 0; i < cells.length; i++) {
      if (numeric[i] !== true) continue;
      const cell = cells[i]!;
      if (!cell.includes(',') && !cell.includes('.')) continue;
      const typed = cell.trim();
      const comma = COMMA.exec(typed);
      if (comma && (csv.delimiter === ';' || isCertain(comma))) commas = true;
      const point = POINT.exec(typed);
      if (point && isCertain(point)) return false;
    }
  }
  return commas;
}

const isCertain = (form: RegExpExecArray): boolean => form[2]!.length !== 3 || /^0?$/.test(form[1]!);
