/** A small CSV of numbers handed to one command: columns by name, numbers checked, problems named by line. */
import { readCells } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { readBytes } from './disk/read.ts';

export interface PlainRow {
  line: number;
  /** Every cell by its column. */
  cells(): Record<string, string>;
  text(column: string): string;
  /** The number in a column; null where the cell is empty or (with a problem) no number. */
  number(column: string, range?: { min?: number; max?: number; above?: number }): number | null;
  /** The number in a column that must have one; a problem where it is empty. */
  needed(column: string, range?: { min?: number; max?: number; above?: number }): number | null;
  problem(column: string, found: string, expected: string, fix: string): void;
}

export interface PlainTable {
  name: string;
  columns: readonly string[];
  rows: PlainRow[];
  /** Grows as rows are read. */
  problems: Problem[];
}

/**
 * Reads a file of rows; a column that must be there and is not is a problem, and then there are no rows. `alsoNamed`: the
 * heading under which tables of another kind have a column.
 */
export async function readPlainTable(
  path: string,
  mustHave: readonly string[],
  alsoNamed: Readonly<Record<string, string>> = {},
): Promise<PlainTable> {
  const bytes = await readBytes(path);
  const name = path.split(/[\\/]/).pop() ?? path;
  const { cells, problems } = readCells(name, bytes);
  // A heading in other letters (ID, Age) is the same column.
  const written = cells.columns.map((column) => column.trim().toLowerCase());
  const columns = written.map(
    (column) => mustHave.find((name) => alsoNamed[name] === column && !written.includes(name)) ?? column,
  );
  const decimalComma = cells.dialect.decimal_comma;
  const missing = mustHave.filter((column) => !columns.includes(column));
  for (const column of missing) {
    problems.push(
      problem({
        severity: 'error',
        code: 'missing-column',
        table: name,
        column,
        found: columns.join(', '),
        expected: `a column named ${column}`,
        fix: `Add the column ${column} to the heading.`,
      }),
    );
  }
  if (missing.length === 0 && cells.rows.length === 0 && problems.length === 0) {
    problems.push(
      problem({
        severity: 'error',
        code: 'no-rows',
        table: name,
        found: 'headings alone',
        expected: 'at least one row below them',
        fix: 'Fill in a row.',
      }),
    );
  }
  const slipped = new Set(problems.filter((p) => p.severity === 'error').map((p) => p.line));
  const rows =
    missing.length > 0
      ? []
      : cells.rows
          .filter((row) => !slipped.has(row.line))
          .map((row) => plainRow(name, columns, pointed(row, decimalComma), problems));
  return { name, columns, rows, problems };
}

/** Numbers of a table that writes 3,05 throughout (as one with semicolons may) as 3.05. */
function pointed<Row extends { cells: readonly string[] }>(row: Row, decimalComma: boolean): Row {
  if (!decimalComma) return row;
  return { ...row, cells: row.cells.map((cell) => cell.replace(/^(\s*[-+−]?\d*),(\d+\s*)$/, '$1.$2')) };
}

function plainRow(
  table: string,
  columns: readonly string[],
  row: { cells: readonly string[]; line: number },
  problems: Problem[],
): PlainRow {
  const label = row.cells[columns.indexOf('id')]?.trim() ?? null;
  const text = (column: string): string => row.cells[columns.indexOf(column)]?.trim() ?? '';
  const complain = (column: string, found: string, expected: string, fix: string): void => {
    const code = 'unusable-cell';
    problems.push(
      problem({ severity: 'error', code, table, line: row.line, label, column, found, expected, fix }),
    );
  };
  const number: PlainRow['number'] = (column, range = {}) => {
    const typed = text(column);
    if (typed === '') return null;
    const value = Number(typed.replace('−', '-'));
    const fits =
      Number.isFinite(value) &&
      value >= (range.min ?? -Infinity) &&
      value <= (range.max ?? Infinity) &&
      value > (range.above ?? -Infinity);
    if (fits) return value;
    complain(
      column,
      typed,
      `a number ${rangeInWords(range)}`.trim(),
      typed.includes(',')
        ? 'Write a decimal point and no thousands separators; the row is left out.'
        : 'Correct the cell; the row is left out.',
    );
    return null;
  };
  return {
    line: row.line,
    cells: () => Object.fromEntries(columns.map((column) => [column, text(column)])),
    text,
    number,
    needed: (column, range) => {
      if (text(column) === '') {
        complain(column, '', 'a number', 'Fill the cell in; the row is left out.');
        return null;
      }
      return number(column, range);
    },
    problem: complain,
  };
}

function rangeInWords(range: { min?: number; max?: number; above?: number }): string {
  const words = [];
  if (range.above !== undefined) words.push(`above ${range.above}`);
  if (range.min !== undefined) words.push(`of at least ${range.min}`);
  if (range.max !== undefined) words.push(`of at most ${range.max}`);
  return words.join(' and ');
}
