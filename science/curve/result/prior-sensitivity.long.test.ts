/**
 * Rates under other priors by weights, against curves computed under them. Bound, set before the first run: 4.5
 * Monte-Carlo errors of both, and a weighted mean must have one below a fifth of the rate's sd. Seeds 81 and 82.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { computeCurve } from '../compute-curve.ts';
import type { CurvePoint } from '../problem/model.ts';
import { DEFAULT_CURVE_SETTINGS } from '../problem/settings.ts';
import type { CurveResult, CurveSettings } from './result.ts';

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  // Of a size that the data have something to say against, and something for.
  priors: {
    level_sd_m: 1,
    rate_mean_mm_yr: 0,
    rate_sd_scale_mm_yr: 2,
    length_median_ka: 2,
    length_log_sd: 0.8,
  },
  ages_cal_bp: [0, 3000, 6000],
  intervals: [{ older_cal_bp: 6000, younger_cal_bp: 1000 }],
  draws: 2000,
  seed: 81,
};

/** Few points with wide errors, one date and one height in doubt, two of three in one hole on soft ground. */
function sparse(): CurvePoint[] {
  const stream = randomStream(81);
  const point = (id: string, age: number, height_m: number, more: Partial<CurvePoint> = {}): CurvePoint => ({
    id,
    kind: 'index',
    height_m: height_m + 0.2 * stream.normal(),
    sigma_m: 0.3,
    half_range_m: 0,
    lowering_m: 0,
    shared: [],
    age: { kind: 'normal', mean_cal_bp: age, sd_yr: 80 },
    ...more,
  });
  const soft = (compressible_m: number): Partial<CurvePoint> => ({ burial: { hole: 'H1', compressible_m } });
  return [
    point('P1', 1200, -1.4),
    point('P2', 2500, -2.6),
    point('wrong date', 4300, -3.2),
    point('wrong height', 3600, -5.6),
    point('P5', 4600, -5, soft(3)),
    point('P6', 5400, -6.4, soft(6)),
    point('P7', 5900, -6.1),
    point('limit', 3000, -2.2, { kind: 'terrestrial' }),
  ];
}

type Row = CurveResult['prior_sensitivity'][number];

function under(settings: CurveSettings, { prior, factor }: Row): CurveSettings {
  const { priors, outliers } = settings;
  switch (prior) {
    case 'rate_sd_scale':
      return { ...settings, priors: { ...priors, rate_sd_scale_mm_yr: factor * priors.rate_sd_scale_mm_yr } };
    case 'length_median':
      return { ...settings, priors: { ...priors, length_median_ka: factor * priors.length_median_ka } };
    case 'level_sd':
      return { ...settings, priors: { ...priors, level_sd_m: factor * priors.level_sd_m } };
    case 'slowing': {
      const { rate_model } = settings;
      return {
        ...settings,
        rate_model: { ...rate_model, slowing_mm_yr_ka: factor * rate_model.slowing_mm_yr_ka },
      };
    }
    case 'extra_scatter':
      return { ...settings, extra_scatter_m: factor * settings.extra_scatter_m };
    case 'burial_percent':
      return { ...settings, burial_percent: factor * settings.burial_percent! };
    default:
      return { ...settings, outliers: { ...outliers!, [prior]: factor * outliers![prior] } };
  }
}

test('the rate under each other prior by weights is that of the curve computed under it (seeds 81 and 82)', (t) => {
  const { rows, reached } = check(t, sparse(), settings);
  assert.equal(rows.length, 12, 'six priors, halved and doubled');
  // Each prior is reached one way at least, so that each ratio is checked.
  for (const { prior } of rows)
    assert.ok(
      reached.some((row) => row.prior === prior),
      prior,
    );
});

test('where one doubtful point at the end of the interval decides, so does how probable outliers are (seeds 81 and 82)', (t) => {
  const line = [1200, 2500, 3600, 4600, 5100, 5900].map(
    (age): CurvePoint => ({
      ...sparse()[0]!,
      id: `P${age}`,
      height_m: age === 5900 ? -4.9 : -age / 1000,
      sigma_m: 0.1,
      age: { kind: 'normal', mean_cal_bp: age, sd_yr: 60 },
    }),
  );
  // So many draws that a ratio turned round is more than 4.5 errors off.
  const { reached } = check(t, line, { ...settings, draws: 6000 }, ['age_probability', 'height_probability']);
  assert.equal(reached.length, 4);
});

function check(
  t: { diagnostic(text: string): void },
  points: readonly CurvePoint[],
  asked: CurveSettings,
  priors: readonly Row['prior'][] | null = null,
): { rows: readonly Row[]; reached: Row[] } {
  const curve = computeCurve(points, asked);
  assert.equal(curve.diagnostics.converged, true);
  const rate = curve.intervals[0]!.rate_mm_yr;
  t.diagnostic(`as it is ${rate.mean.toFixed(4)} ± ${rate.sd.toFixed(3)}`);
  const rows = curve.prior_sensitivity.filter(({ prior }) => priors?.includes(prior) ?? true);
  const reached = rows.filter((row) => row.rate_mm_yr !== null);
  const found = reached.map((row) => ({
    row,
    again: computeCurve(points, { ...under(asked, row), seed: 82 }).intervals[0]!.rate_mm_yr,
  }));
  for (const row of rows)
    if (row.rate_mm_yr === null) t.diagnostic(`${row.prior} × ${row.factor}: not reached`);
  const errors = found.map(({ row, again }) => {
    const off = Math.abs(row.rate_mm_yr! - again.mean) / Math.hypot(row.mcse_mm_yr!, again.mcse);
    t.diagnostic(
      `${row.prior} × ${row.factor}: ${row.rate_mm_yr!.toFixed(4)} ± ${row.mcse_mm_yr!.toFixed(4)} (moved ${row.moved_mm_yr!.toFixed(4)}), computed ${again.mean.toFixed(4)} ± ${again.mcse.toFixed(4)}: ${off.toFixed(1)} errors apart`,
    );
    return { row, off };
  });
  for (const { row, off } of errors) {
    assert.ok(off < 4.5, `${row.prior} × ${row.factor}: ${off} errors apart`);
    assert.ok(row.mcse_mm_yr! < 0.2 * rate.sd, `${row.prior} × ${row.factor}: ${row.mcse_mm_yr}`);
  }
  return { rows, reached };
}

test('what no draw says is null: the level at present where 0 cal BP is not asked for, a probability above a half', () => {
  const quick = { ...settings, chains: 1, draws: 60, ages_cal_bp: [3000] };
  const half = { ...settings.outliers!, age_probability: 0.3 };
  const rows = computeCurve(sparse(), { ...quick, outliers: half }).prior_sensitivity;
  const of = (prior: Row['prior'], factor: number): Row =>
    rows.find((row) => row.prior === prior && row.factor === factor)!;
  assert.equal(of('level_sd', 2).rate_mm_yr, null);
  assert.equal(of('age_probability', 2).rate_mm_yr, null);
  const without = computeCurve(sparse(), {
    ...quick,
    outliers: null,
    burial_percent: null,
  }).prior_sensitivity;
  assert.deepEqual(
    [...new Set(without.map(({ prior }) => prior))],
    ['rate_sd_scale', 'length_median', 'level_sd'],
  );
  assert.deepEqual(computeCurve(sparse(), { ...quick, intervals: [] }).prior_sensitivity, []);
});
