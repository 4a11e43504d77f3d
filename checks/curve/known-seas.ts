/** Seas that are no draws from the prior, for checks of what the curve does outside its own assumptions. */
import { exp, square } from '@stillstand/science/base';
import { type CurvePoint, DEFAULT_CURVE_SETTINGS } from '@stillstand/science/curve';

/** Level (m) at an age (ka): a rise that dies away; a rise that stops at once; a highstand and a fall. */
export const SEAS = {
  'a rise that dies away': (t) => -0.3 * t - 6.5 * 1.6 * (exp(-(8 - t) / 1.6) - exp(-8 / 1.6)),
  'a stillstand after a rise': (t) => -5 * Math.max(0, t - 5),
  'a highstand and a fall': (t) => 1.5 * exp(-square((t - 4.5) / 1.2)) - 2.5 * Math.max(0, t - 6.5),
} satisfies Record<string, (t: number) => number>;

/** Levels each 500 yr from 7,000 cal BP, and one mean rate. */
export const settings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: Array.from({ length: 14 }, (_, i) => 500 * (i + 1)),
  intervals: [{ older_cal_bp: 7000, younger_cal_bp: 1000 }],
  chains: 2,
  draws: 500,
};

/** An index point with one normal error, without its age. */
export const plain = (id: string, height_m: number, sigma_m: number): Omit<CurvePoint, 'age'> => ({
  id,
  kind: 'index',
  height_m,
  sigma_m,
  half_range_m: 0,
  lowering_m: 0,
  shared: [],
});
