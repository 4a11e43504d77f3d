import type { CurvePriors, CurveSettings, OutlierPriors, RateModel } from '../result/result.ts';

/** Physical, wide, and not scaled by the data: rates of a few mm/yr that change over one to a few millennia. Common
 * practice, no source. */
export const DEFAULT_PRIORS: CurvePriors = {
  level_sd_m: 5,
  rate_mean_mm_yr: 0,
  rate_sd_scale_mm_yr: 5,
  length_median_ka: 2,
  length_log_sd: 0.5,
};

/**
 * One date and one height in twenty wrong by more than its error says; of the dates five in six too old, by some centuries
 * to some millennia. Common practice, no source.
 */
export const DEFAULT_OUTLIERS: OutlierPriors = {
  age_probability: 0.05,
  too_old_share: 5 / 6,
  age_scales_yr: [300, 1000, 3000],
  height_probability: 0.05,
  height_times: [3, 10],
};

/** Common practice, no source: of a tenth of the sediment below is lost two times in three, of a fifth 19 times in 20. */
const DEFAULT_BURIAL_PERCENT = 10;

/** One smooth rate without breaks; the ages of changes where there are any are those of the reported curve. */
export const SMOOTH_RATE: RateModel = {
  kind: 'smooth',
  changes: 0,
  changes_from_cal_bp: 8000,
  changes_to_cal_bp: 0,
  jump_sd_m: 0,
  slowing_mm_yr_ka: 0,
};

/** Most changes of a rate. */
const MOST_CHANGES = 4;

/** Level and rate every 200 years back to 8000 cal BP and their means over each millennium, without a tie. */
export const DEFAULT_CURVE_SETTINGS: CurveSettings = {
  priors: DEFAULT_PRIORS,
  rate_model: SMOOTH_RATE,
  extra_scatter_m: 0,
  outliers: DEFAULT_OUTLIERS,
  depth_order: true,
  burial_percent: DEFAULT_BURIAL_PERCENT,
  tie: null,
  ages_cal_bp: Array.from({ length: 41 }, (_, i) => 200 * i),
  intervals: Array.from({ length: 8 }, (_, i) => ({
    older_cal_bp: 1000 * (i + 1),
    younger_cal_bp: 1000 * i,
  })),
  age_range_cal_bp: { youngest: 0, oldest: 55_000 },
  seed: 1,
  chains: 4,
  draws: 500,
};

/** @throws RangeError where settings are no settings. */
export function demandSettings(s: CurveSettings): void {
  const { priors, tie, outliers } = s;
  const demand = (fine: boolean, came: string, expected: string): void => {
    if (!fine) throw new RangeError(`computeCurve: ${came}; expected ${expected}`);
  };
  demand(Number.isInteger(s.chains) && s.chains >= 1, `${s.chains} chains`, 'one or more');
  demand(Number.isInteger(s.draws) && s.draws >= 8, `${s.draws} draws`, '8 or more');
  for (const name of ['level_sd_m', 'rate_sd_scale_mm_yr', 'length_median_ka', 'length_log_sd'] as const)
    demand(priors[name] > 0 && priors[name] < Infinity, `${name} = ${priors[name]}`, 'a number above 0');
  demand(Number.isFinite(priors.rate_mean_mm_yr), `rate_mean_mm_yr = ${priors.rate_mean_mm_yr}`, 'a number');
  const { kind, changes, changes_from_cal_bp, changes_to_cal_bp, jump_sd_m, slowing_mm_yr_ka } = s.rate_model;
  const least = kind === 'stepwise' ? 1 : 0;
  const most = kind === 'constant' ? 0 : MOST_CHANGES;
  demand(
    Number.isInteger(changes) && changes >= least && changes <= most,
    `${changes} changes of a ${kind} rate`,
    `${least} to ${most}`,
  );
  demand(
    changes === 0 || changes_from_cal_bp > changes_to_cal_bp,
    `changes from ${changes_from_cal_bp} to ${changes_to_cal_bp} cal BP`,
    'an older age, then a younger one',
  );
  demand(jump_sd_m >= 0 && jump_sd_m < Infinity, `jump_sd_m = ${jump_sd_m}`, '0 or more');
  demand(
    slowing_mm_yr_ka >= 0 && slowing_mm_yr_ka < Infinity,
    `slowing_mm_yr_ka = ${slowing_mm_yr_ka}`,
    '0 or more',
  );
  demand(
    s.extra_scatter_m >= 0 && s.extra_scatter_m < Infinity,
    `extra_scatter_m = ${s.extra_scatter_m}`,
    '0 or more',
  );
  if (tie !== null)
    demand(tie.sd_m > 0 && Number.isFinite(tie.year_ce + tie.sd_m), `tie sd ${tie.sd_m} m`, 'above 0');
  if (s.burial_percent !== null)
    demand(
      s.burial_percent > 0 && s.burial_percent <= 100,
      `burial_percent = ${s.burial_percent}`,
      'above 0, to 100',
    );
  if (outliers !== null) {
    for (const name of ['age_probability', 'height_probability'] as const)
      demand(outliers[name] >= 0 && outliers[name] <= 0.5, `${name} = ${outliers[name]}`, '0 to 0.5');
    demand(
      outliers.too_old_share >= 0 && outliers.too_old_share <= 1,
      `too_old_share = ${outliers.too_old_share}`,
      '0 to 1',
    );
    for (const name of ['age_scales_yr', 'height_times'] as const)
      demand(
        outliers[name].length > 0 && outliers[name].every((x) => x > 0 && x < Infinity),
        `${name} = ${outliers[name].join(', ')}`,
        'one or more numbers above 0',
      );
  }
  for (const i of s.intervals)
    demand(
      i.older_cal_bp > i.younger_cal_bp,
      `interval ${i.older_cal_bp} to ${i.younger_cal_bp}`,
      'older > younger',
    );
}
