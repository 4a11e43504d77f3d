/**
 * Means of a gauge as points of a curve: index points with ages that are certain. The zero of the gauge is one error of all
 * of them; where nothing relates it to the datum of the curve, they say nothing of the level, and all of the rate.
 */
import type { LevelBlock } from '@stillstand/science/tide';
import type { CurvePoint } from './problem/model.ts';

/** The zero of a gauge on the datum of the curve. */
export interface GaugeZero {
  elevation_m: number;
  /** What its error is made of: names shared with other heights, 1 sigma, m. */
  shared: readonly { group: string; sigma_m: number }[];
}

/** 1 sigma of a zero that nobody related to the datum, m: wider than any tide or datum. */
const UNKNOWN_ZERO_M = 10;

/** `blocks`: above the zero of the gauge. `zero` null: not known. A calendar year counts as its number, as tidal epochs do. */
export function gaugePoints(
  gauge: string,
  blocks: readonly LevelBlock[],
  zero: GaugeZero | null,
): CurvePoint[] {
  // About their own mean, so that the curve begins near its other points.
  const mean_m = blocks.reduce((sum, { level_m }) => sum + level_m, 0) / blocks.length;
  const { elevation_m, shared } = zero ?? {
    elevation_m: -mean_m,
    shared: [{ group: `gauge:${gauge}`, sigma_m: UNKNOWN_ZERO_M }],
  };
  return blocks.map(({ from_year_ce, to_year_ce, year_ce, level_m, sigma_m }) => ({
    id: `${gauge} ${from_year_ce}–${to_year_ce}`,
    kind: 'index',
    height_m: elevation_m + level_m,
    sigma_m,
    half_range_m: 0,
    lowering_m: 0,
    shared: [...shared],
    age: { kind: 'normal', mean_cal_bp: 1950 - year_ce, sd_yr: 0 },
    of_gauge: true,
  }));
}
