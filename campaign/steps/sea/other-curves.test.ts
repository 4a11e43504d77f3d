/** Rows of other curves and predictions: what of them is used, and what is said of the rest. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { othersBeside, traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { type Cells, documentOf, THREE_LEVELS } from './fixtures/three-levels.ts';

/** Beside them a chart datum 2 ± 0.3 m below mean sea level, and one that no shift leads to. */
const TABLES = {
  ...THREE_LEVELS,
  settings: [
    { name: 'datum', value: 'MSL' },
    { name: 'draws', value: '200' },
    { name: 'chains', value: '2' },
    { name: 'intervals', value: '3000-1000' },
  ],
  datums: [
    { datum: 'MSL', kind: 'mean_sea_level' },
    { datum: 'CD', kind: 'tidal' },
    { datum: 'Far', kind: 'orthometric' },
  ],
  datum_shifts: [{ from: 'CD', to: 'MSL', shift_m: '-2', sigma_m: '0.3' }],
};

function computedWith(rows: readonly Cells[], withCurve = true) {
  const document = documentOf('Beside', { ...TABLES, other_curves: rows });
  const { campaign, problems } = parseCampaign(document);
  assert.deepEqual(
    problems.filter(({ severity }) => severity === 'error'),
    [],
  );
  return computeCampaign(campaign, { curves: {} }, [], { withCurve });
}

const rowsOf = (curve: string, ages: readonly number[], more: Cells = {}): Cells[] =>
  ages.map((age) => ({
    curve,
    age_cal_bp: String(age),
    level_m: String(-age / 1000),
    level_sigma_m: '0.2',
    datum: 'MSL',
    ...more,
  }));

const about = ({ results }: ReturnType<typeof computedWith>) =>
  results.problems
    .filter(({ table }) => table === 'other_curves')
    .map(({ severity, code, column }) => `${severity} ${code} ${column}`);

test('another curve on the datum, one a shift away, one that no shift leads from, and a prediction', () => {
  const computed = computedWith([
    ...rowsOf('Here', [3000, 2000, 1000]),
    ...rowsOf('Chart', [3000, 1000], { datum: 'CD' }),
    ...rowsOf('Far coast', [3000, 1000], { datum: 'Far' }),
    ...rowsOf('Land', [6000, 3000, 0], { use: 'subtract', datum: '' }),
  ]);
  const [here, chart, far, land] = othersBeside(computed.results);
  assert.deepEqual(about(computed), ['error other-datum datum']);
  // Chart datum lies 2 m below: the same rows are 2 m lower, and what lies between is 2 m more, the shift in its error.
  const at3000 = (of: typeof here) => of!.at[0]!.level_m!;
  assert.equal(chart!.levels[0]!.level_m, -5);
  assert.ok(Math.abs(at3000(chart).mean - at3000(here).mean - 2) < 1e-9);
  // A normal law is spread over 500 draws: its variance is good to 1 in 500.
  assert.ok(Math.abs(at3000(chart).sd ** 2 - at3000(here).sd ** 2 - 0.3 ** 2) < 0.13 / 500);
  assert.equal(far!.shift_sigma_m, null);
  assert.ok(
    far!.at.every(({ level_m, rate_mm_yr }, i) => level_m === null && i > 0 === (rate_mm_yr === null)),
  );
  assert.deepEqual(far!.intervals, here!.intervals);
  // Ages without a datum: a part of the level has none.
  assert.equal(land!.datum, null);
  assert.deepEqual([land!.at[0]!.age_cal_bp >= 3000, land!.intervals.length], [true, 1]);
  const rate = computed.trace.find(
    traceId.beside('Land').interval({ older_cal_bp: 3000, younger_cal_bp: 1000 }),
  );
  const told = computed.trace.node(rate);
  assert.equal(told.value, land!.intervals[0]!.rate_mm_yr.mean);
  assert.match(told.label, /^Rate from 3000 to 1000 cal BP without Land/);
  const rows = computed.trace.parts(computed.trace.find(traceId.beside('Land').levels));
  assert.equal(rows.length, 3);
});

test('rows that cannot be used are named, the others are compared', () => {
  const computed = computedWith([
    ...rowsOf('Twice', [3000, 2000, 2000]),
    ...rowsOf('Bare', [3000, 2000], { level_sigma_m: '', datum: '' }),
    ...rowsOf('Some', [3000, 2000]),
    ...rowsOf('Some', [1000], { level_sigma_m: '' }),
    ...rowsOf('Mixed', [3000]),
    ...rowsOf('Mixed', [2000], { use: 'subtract' }),
    ...rowsOf('Old', [90000, 80000]),
    ...rowsOf('Point', [2000], { use: 'subtract', datum: '' }),
  ]);
  assert.deepEqual(about(computed).sort(), [
    'error no-error-stated level_sigma_m',
    'error nothing-beside age_cal_bp',
    'error nothing-beside age_cal_bp',
    'error two-of-one-age age_cal_bp',
    'error two-of-one-curve use',
    'warning datum-not-known datum',
    'warning no-error-stated level_sigma_m',
  ]);
  assert.deepEqual(
    othersBeside(computed.results).map(({ name, at }) => [name, at.length]),
    [
      ['Twice', 2],
      ['Bare', 2],
      ['Some', 2],
    ],
  );
});

test('without a curve rows are looked through all the same', () => {
  const computed = computedWith(rowsOf('Twice', [2000, 2000]), false);
  assert.deepEqual(about(computed), ['error two-of-one-age age_cal_bp']);
  assert.deepEqual(othersBeside(computed.results), []);
});

test('ages in thousands of years, levels in millimetres and a datum of a prediction are named', () => {
  const computed = computedWith([
    ...rowsOf('ka', [3, 2, 1]),
    ...rowsOf('Land', [6000, 3000, 0], { use: 'subtract' }),
  ]);
  assert.deepEqual(about(computed).sort(), ['error ages-in-ka age_cal_bp', 'note datum-of-prediction datum']);
  assert.deepEqual(
    othersBeside(computed.results).map(({ name }) => name),
    ['Land'],
  );
  // A curve of the last century has years after 1950 CE.
  const lately = computedWith(rowsOf('Lately', [50, 0, -60]));
  assert.deepEqual(about(lately), []);
  assert.equal(othersBeside(lately.results).length, 1);
  const mm = withRows(newDocument('mm'), 'other_curves', [
    { row_id: 'a', curve: 'mm', age_cal_bp: '3000', level_m: '-3000' },
  ]);
  assert.deepEqual(
    parseCampaign(mm).problems.map(({ column }) => column),
    ['level_m'],
  );
});
