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

const OWN = { level: 'rsl_m_median', lower: 'rsl_m_lower_95', upper: 'rsl_m_upper_95' };

/** Of a normal law with that central 95 %. */
function ownSd(row: PlainRow): number | null {
  const lower = row.needed(OWN.lower);
  const upper = row.needed(OWN.upper);
  return lower === null || upper === null ? null : Math.max(0, upper - lower) / (2 * normalQuantile(0.975));
}

/** `curve` is null where no row can be used; problems say what is wrong, and that a table states no errors. */
export async function readLevels(path: string): Promise<LevelsTable> {
  const table = await readPlainTable(path, ['age_cal_bp', 'level_m']);
  // The curve.csv of another campaign has the level under other names, its error as a range.
  const own = table.columns.includes(OWN.level)
    ? await readPlainTable(path, ['age_cal_bp', OWN.level])
    : null;
  const { rows, problems, columns, name } = own ?? table;
  const read: { age: number; level: number; sd: number | null }[] = [];
  const datums = new Set<string>();
  for (const row of rows) {
    const age = row.needed('age_cal_bp');
    const level = row.needed(own === null ? 'level_m' : OWN.level, { min: -500, max: 500 });
    const before = problems.length;
    const sd = own !== null ? ownSd(row) : columns.includes('sd_m') ? row.needed('sd_m', { min: 0 }) : null;
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
    sd_m: own !== null || columns.includes('sd_m') ? read.map(({ sd }) => sd!) : null,
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
