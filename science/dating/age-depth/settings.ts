/** What is believed of a hole before its dates are read, and how finely it is computed. */
export interface AgeDepthSettings {
  /** Even sections from the ground to the bottom. */
  sections: number;
  /** Accumulation of a hole: median, and 1 sd of its logarithm between holes. */
  accumulation_mm_yr: number;
  accumulation_log_sd: number;
  /** 1 sd of the logarithm of accumulation within a hole: median, and 1 sd of its logarithm. */
  variation: number;
  variation_log_sd: number;
  /** Depth over which accumulation persists (correlation e^−d/L): median, and 1 sd of its logarithm. */
  persistence_m: number;
  persistence_log_sd: number;
  /** Mean of the time missing at a break. */
  gap_mean_yr: number;
  /** Probability of any one date to be out of place, and by how much: even parts of these two-sided exponentials. */
  outlier: number;
  outlier_scales_yr: readonly number[];
  /** A ground of unknown age lies in this range. */
  age_range_cal_bp: { youngest: number; oldest: number };
  chains: number;
  /** Most kept of each chain. */
  draws: number;
}

/**
 * Wide, physical, and not scaled by the data: coasts gain 0.1 to 10 mm/yr, within a hole faster and slower by a factor of
 * two, in layers of decimetres to metres; one date in twenty is out of place, by decades or by many millennia alike.
 * Common practice, no source.
 */
export const ageDepthDefaults: AgeDepthSettings = {
  sections: 40,
  accumulation_mm_yr: 1,
  accumulation_log_sd: 1.2,
  variation: 0.6,
  variation_log_sd: 0.5,
  persistence_m: 1.5,
  persistence_log_sd: 0.8,
  gap_mean_yr: 1000,
  outlier: 0.05,
  outlier_scales_yr: [100, 1000, 10_000],
  age_range_cal_bp: { youngest: -80, oldest: 55_000 },
  chains: 4,
  draws: 500,
};

/** @throws RangeError where settings are no settings. */
export function demandSettings(s: AgeDepthSettings): void {
  const demand = (fine: boolean, came: string, expected: string): void => {
    if (!fine) throw new RangeError(`ageDepth: ${came}; expected ${expected}`);
  };
  for (const name of ['sections', 'chains'] as const)
    demand(Number.isInteger(s[name]) && s[name] >= 1, `${name} = ${s[name]}`, 'a whole number above 0');
  demand(Number.isInteger(s.draws) && s.draws >= 8, `${s.draws} draws`, '8 or more');
  for (const name of [
    'accumulation_mm_yr',
    'accumulation_log_sd',
    'variation',
    'variation_log_sd',
    'persistence_m',
    'persistence_log_sd',
    'gap_mean_yr',
  ] as const)
    demand(s[name] > 0 && s[name] < Infinity, `${name} = ${s[name]}`, 'a number above 0');
  demand(s.outlier > 0 && s.outlier < 1, `outlier = ${s.outlier}`, 'between 0 and 1');
  demand(
    s.outlier_scales_yr.length > 0 && s.outlier_scales_yr.every((yr) => yr > 0 && yr < Infinity),
    `outlier_scales_yr = ${s.outlier_scales_yr.join(', ')}`,
    'numbers above 0',
  );
  const { youngest, oldest } = s.age_range_cal_bp;
  demand(
    youngest < oldest && oldest - youngest < Infinity,
    `ages from ${youngest} to ${oldest}`,
    'youngest < oldest',
  );
}

/** Whether a date is more likely out of place than not. */
export const isProbableOutlier = ({ outlier_probability }: { outlier_probability: number }): boolean =>
  outlier_probability > 0.5;
