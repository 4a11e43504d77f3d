/** Levels by age in a table: a published curve, or a prediction. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { lookLikeKa, normalQuantile } from '@stillstand/science/base';
import type { PublishedCurve } from '@stillstand/science/curve';
import { type PlainRow, readPlainTable } from './plain-table.ts';

interface LevelsTable {
  name: string;
  curve: PublishedCurve | null;
  /** Null where it states none. */
  datum: string | null;
  problems: Problem[];
}

/** The level and its error, a range, as the curve.csv of a campaign names them. */
const OWN = { level_m: 'rsl_m_median', lower: 'rsl_m_lower_95', upper: 'rsl_m_upper_95' };

/** 1 sd as stated, else of a normal law with the central 95 % there is; null where neither is there, or is wrong. */
function sdOf(row: PlainRow, columns: readonly string[]): number | null {
  if (columns.includes('sd_m')) return row.needed('sd_m', { min: 0 });
  if (!columns.includes(OWN.lower) || !columns.includes(OWN.upper)) return null;
  const [lower, upper] = [row.needed(OWN.lower), row.needed(OWN.upper)];
  return lower === null || upper === null ? null : Math.max(0, upper - lower) / (2 * normalQuantile(0.975));
}

/** `curve` is null where no row can be used; problems say what is wrong, and that a table states no errors. */
export async function readLevels(path: string): Promise<LevelsTable> {
  const { rows, problems, columns, name } = await readPlainTable(path, ['age_cal_bp', 'level_m'], OWN);
  const read: { age: number; level: number; sd: number | null }[] = [];
  const datums = new Set<string>();
  for (const row of rows) {
    const age = row.needed('age_cal_bp');
    const level = row.needed('level_m', { min: -500, max: 500 });
    const before = problems.length;
    const sd = sdOf(row, columns);
    if (age === null || level === null || problems.length > before) continue;
    if (read.some((each) => each.age === age)) {
      row.problem('age_cal_bp', row.text('age_cal_bp'), 'one row for each age', 'The row is left out.');
      continue;
    }
    read.push({ age, level, sd });
    if (row.text('datum') !== '') datums.add(row.text('datum'));
  }
  if (datums.size > 1) {
    problems.push(
      problem({
        severity: 'error',
        code: 'several-datums',
        table: name,
        column: 'datum',
        found: [...datums].join(', '),
        expected: 'one datum',
        fix: 'Convert the levels to one datum. The table is not used.',
      }),
    );
    return { name, curve: null, datum: null, problems };
  }
  const ages = read.map(({ age }) => age);
  const reach = Math.max(...ages);
  // What it is compared with is not known here.
  if (lookLikeKa(ages, Infinity))
    problems.push(
      problem({
        table: name,
        column: 'age_cal_bp',
        severity: 'warning',
        code: 'ages-in-ka',
        found: `ages up to ${reach}`,
        expected: 'ages in years before 1950 CE',
        fix: `If these are thousands of years, write years: ${reach} ka is ${Math.round(1000 * reach)}.`,
      }),
    );
  const datum = [...datums][0] ?? null;
  const curve: PublishedCurve = {
    ages_cal_bp: read.map(({ age }) => age),
    level_m: read.map(({ level }) => level),
    sd_m: read.some(({ sd }) => sd === null) ? null : read.map(({ sd }) => sd!),
  };
  if (read.length > 0 && curve.sd_m === null)
    problems.push(
      problem({
        table: name,
        column: 'sd_m',
        severity: 'warning',
        code: 'no-error-stated',
        found: '',
        expected: '1 sigma of each level',
        fix: 'Its levels are taken as exact: what follows from them is given too narrow.',
      }),
    );
  return { name, curve: read.length === 0 ? null : curve, datum, problems };
}
