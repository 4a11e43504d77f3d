/**
 * Mean levels from high and low waters, observed or predicted: the definitions of NOAA 2000, Tidal Datums and Their
 * Applications, NOS CO-OPS 1. Over a whole tidal epoch of 19 years they are the datums themselves; over less they are
 * means of that time, to be brought to the epoch by comparison with a reference station.
 */
import { atan2, cos, sin, square } from '@stillstand/science/base';
import { meanLongitudes } from './astronomy.ts';
import type { TideExtreme } from './extremes.ts';

export interface MeanLevels {
  MHW_m: number;
  MLW_m: number;
  /** Of the higher high and the lower low water of each tidal day. */
  MHHW_m: number;
  MLLW_m: number;
  /** Half-way between MHW and MLW; between MHHW and MLLW. */
  MTL_m: number;
  DTL_m: number;
  /** Mean range; great diurnal range; diurnal inequalities of the high and of the low waters. */
  MN_m: number;
  GT_m: number;
  DHQ_m: number;
  DLQ_m: number;
  highs: number;
  lows: number;
  /** Tidal days that had a high, a low water. */
  days: number;
  /**
   * 1 sigma of MHW and MLW as means of this many waters scattered as these are: what a longer record of the same
   * water would move them by. Spring and neap follow each other, so it is an upper figure; weather of months, the
   * node and the sea's own rise are not in it.
   */
  MHW_sigma_m: number;
  MLW_sigma_m: number;
}

/** Null without a high or without a low water. */
export function meanLevels(waters: readonly TideExtreme[]): MeanLevels | null {
  const highs = waters.filter(({ kind }) => kind === 'high');
  const lows = waters.filter(({ kind }) => kind === 'low');
  if (highs.length === 0 || lows.length === 0) return null;
  const higher = higherHighs(highs);
  const lower = lowerLows(lows);
  const MHW_m = meanOf(highs);
  const MLW_m = meanOf(lows);
  const MHHW_m = meanOf(higher);
  const MLLW_m = meanOf(lower);
  return {
    MHW_m,
    MLW_m,
    MHHW_m,
    MLLW_m,
    MTL_m: (MHW_m + MLW_m) / 2,
    DTL_m: (MHHW_m + MLLW_m) / 2,
    MN_m: MHW_m - MLW_m,
    GT_m: MHHW_m - MLLW_m,
    DHQ_m: MHHW_m - MHW_m,
    DLQ_m: MLW_m - MLLW_m,
    highs: highs.length,
    lows: lows.length,
    days: Math.min(higher.length, lower.length),
    MHW_sigma_m: sigmaOfMean(highs),
    MLW_sigma_m: sigmaOfMean(lows),
  };
}

/** The higher high, the lower low water of each tidal day. */
export const higherHighs = (highs: readonly TideExtreme[]): TideExtreme[] =>
  chosenByTidalDay(highs, (a, b) => a > b);
export const lowerLows = (lows: readonly TideExtreme[]): TideExtreme[] =>
  chosenByTidalDay(lows, (a, b) => a < b);

/**
 * The one water of each tidal day (24.84 h, moon to moon) that stands out. The day is cut where these waters come
 * least: a quarter of it before the hour of the moon they cluster round, twice a day.
 */
function chosenByTidalDay(
  waters: readonly TideExtreme[],
  standsOut: (a: number, b: number) => boolean,
): TideExtreme[] {
  const moonHours = waters.map(({ time_ms }) => {
    const { T_deg, s_deg, h_deg } = meanLongitudes(time_ms);
    // T runs in whole days from its own midnight: the moon's turns are counted on from there.
    return Math.floor(time_ms / 86_400_000) * 360 + T_deg + h_deg - s_deg;
  });
  let east = 0;
  let north = 0;
  for (const degrees of moonHours) {
    east += sin((2 * degrees * Math.PI) / 180);
    north += cos((2 * degrees * Math.PI) / 180);
  }
  const cut = ((atan2(east, north) / 2) * 180) / Math.PI - 90;
  const chosen = new Map<number, TideExtreme>();
  waters.forEach((water, i) => {
    const day = Math.floor((moonHours[i]! - cut) / 360);
    const known = chosen.get(day);
    if (known === undefined || standsOut(water.height_m, known.height_m)) chosen.set(day, water);
  });
  return [...chosen.values()];
}

const meanOf = (waters: readonly TideExtreme[]): number =>
  waters.reduce((sum, { height_m }) => sum + height_m, 0) / waters.length;

/** NaN of a single water. */
function sigmaOfMean(waters: readonly TideExtreme[]): number {
  const mean = meanOf(waters);
  const squares = waters.reduce((sum, { height_m }) => sum + square(height_m - mean), 0);
  return Math.sqrt(squares / (waters.length - 1) / waters.length);
}
