/** Laboratory numbers with errors in the rows of a plain table, and what science finds wrong with them. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Finding } from '@stillstand/science/dating';
import { type Command, type Words, WrongUse } from './command.ts';
import type { PlainRow } from './plain-table.ts';

export const MEASURED_OPTIONS: Command['options'] = {
  sigma: {
    type: 'string',
    value: '1|2',
    about: 'how many sigma the errors in the table are; 1 if not given. What comes out is 1 sigma',
  },
  measured: {
    type: 'string',
    value: 'YEAR',
    about: 'year CE of the measurement, for rows without measured_year; ages then come out before 1950 too',
  },
};

/** Sigmas that the table states errors with. */
export function sigmasOf(words: Words): 1 | 2 {
  const sigma = words.number('sigma') ?? 1;
  if (sigma !== 1 && sigma !== 2) throw new WrongUse(`--sigma: found ${sigma}, expected 1 or 2`);
  return sigma;
}

const YEARS_CE = { min: 1900, max: 2200 };

/** Year CE an age of the row counts back from; null where neither row nor command says. */
export const measuredIn = (row: PlainRow, words: Words): number | null =>
  row.number('measured_year', YEARS_CE) ?? words.number('measured', YEARS_CE) ?? null;

interface Range {
  min?: number;
  max?: number;
  above?: number;
}

/** A number and its 1 sigma, from the column and the one with `_sd`; null with a problem. */
export function withError(
  row: PlainRow,
  column: string,
  range: Range,
  sigmas: number,
): { value: number; sd: number } | null {
  const value = row.needed(column, range);
  const sd = row.needed(`${column}_sd`, { min: 0 });
  return value === null || sd === null ? null : { value, sd: sd / sigmas };
}

/** The same where both cells may be empty. */
export const withErrorOrNone: typeof withError = (row, column, range, sigmas) =>
  row.text(column) === '' && row.text(`${column}_sd`) === '' ? null : withError(row, column, range, sigmas);

/** A finding as a problem of its row. */
export const foundIn = (
  table: string,
  row: PlainRow,
  { of, found, expected, fix }: Finding,
  severity: 'error' | 'warning',
): Problem =>
  problem({
    severity,
    code: severity === 'error' ? 'age-unusable' : 'doubtful-input',
    table,
    line: row.line,
    label: row.text('id'),
    column: of,
    found,
    expected,
    fix,
  });

/** Whole years; a missing end in words. */
export const years = (yr: number | null): string => (yr === null ? 'none' : String(Math.round(yr)));

/** Lines below a table of ages. */
export const countedFrom = (all: readonly { before_1950_yr: number | null }[]): string[] => [
  'Ages count back from the measurement; errors are 1 sigma.',
  ...(all.some((each) => each.before_1950_yr === null)
    ? ['Without its year (column measured_year, or --measured) an age is not turned into years before 1950.']
    : []),
];
