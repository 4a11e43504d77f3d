/** A small CSV of numbers handed to one command: columns by name, numbers checked, problems named by line. */
import { readFile } from 'node:fs/promises';
import { readCells } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { WrongUse } from './command.ts';

export interface PlainRow {
  line: number;
  /** Every cell by its column. */
  cells(): Record<string, string>;
  text(column: string): string;
  /** The number in a column; null where the cell is empty or (with a problem) no number. */
  number(column: string, range?: { min?: number; max?: number; above?: number }): number | null;
  /** The number in a column that must have one; a problem where it is empty. */
  needed(column: string, range?: { min?: number; max?: number; above?: number }): number | null;
  problem(column: string, found: string, expected: string, mend: string): void;
}

export interface PlainTable {
  name: string;
  columns: readonly string[];
  rows: PlainRow[];
  /** Grows as rows are read. */
  problems: Problem[];
}

/** Reads a file of rows; a column that must be there and is not is a problem, and then there are no rows. */
export async function readPlainTable(path: string, mustHave: readonly string[]): Promise<PlainTable> {
  let bytes: Uint8Array;
  try {
    bytes = await readFile(path);
  } catch {
    throw new WrongUse(`${path}: no such file can be read`);
  }
  const name = path.split(/[\\/]/).pop() ?? path;
  const { cells, problems } = readCells(name, bytes);
  const columns = cells.columns;
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
        mend: `Add the column ${column} to the heading.`,
      }),
    );
  }
  const rows = missing.length > 0 ? [] : cells.rows.map((row) => plainRow(name, columns, row, problems));
  return { name, columns, rows, problems };
}

function plainRow(
  table: string,
  columns: readonly string[],
  row: { cells: readonly string[]; line: number },
  problems: Problem[],
): PlainRow {
  const label = row.cells[columns.indexOf('id')]?.trim() ?? null;
  const text = (column: string): string => row.cells[columns.indexOf(column)]?.trim() ?? '';
  const complain = (column: string, found: string, expected: string, mend: string): void => {
    const code = 'unusable-cell';
    problems.push(
      problem({ severity: 'error', code, table, line: row.line, label, column, found, expected, mend }),
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
      'Correct the cell; the row is left out.',
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
