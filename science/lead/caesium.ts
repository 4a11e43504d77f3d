/**
 * Caesium-137 of nuclear weapons tests: first found in sediment of 1954, most in 1963, both of the northern hemisphere
 * (common practice; years from memory). It moves in the ground, downwards mostly, so the onset may lie too deep.
 */
import { type RandomStream, square } from '@stillstand/science/base';
import { type Estimate, estimateOf } from './age-estimate.ts';
import type { Activity, LeadSlice } from './profile.ts';
import { middle, spread } from './supported.ts';

export interface CaesiumHorizon {
  year_ce: number;
  /** 1 sigma of the year: how long the fallout took to reach the sediment (our choice). */
  year_sigma: number;
  /** Slice with the most, or the deepest with any. */
  slice: string;
  depth_m: Estimate;
  depth_draws: Float64Array;
}

const PEAK = { year_ce: 1963, year_sigma: 1 };
const ONSET = { year_ce: 1954, year_sigma: 2 };
/** What counts as found, sigma. */
const FOUND = 2;

type Measured = Omit<LeadSlice, 'caesium'> & { caesium: Activity };

/** `slices` from the top down. Why one is null stands in `why`. */
export function caesiumHorizons(
  slices: readonly LeadSlice[],
  draws: number,
  stream: RandomStream,
): { peak: CaesiumHorizon | null; onset: CaesiumHorizon | null; why: string[] } {
  const measured = slices.filter((slice): slice is Measured => slice.caesium !== null);
  if (measured.length < 3) return { peak: null, onset: null, why: [] };
  const found = measured.flatMap(({ caesium }, i) =>
    !caesium.is_limit && caesium.bq_kg > FOUND * caesium.sigma_bq_kg && caesium.bq_kg > 0 ? [i] : [],
  );
  const deepest = found.at(-1);
  if (deepest === undefined) return { peak: null, onset: null, why: ['no caesium-137 above 2 sigma'] };
  const most = measured.reduce((best, { caesium }, i) => {
    return middle(caesium) > middle(measured[best]!.caesium) ? i : best;
  }, 0);
  const why: string[] = [];
  let peak: CaesiumHorizon | null = null;
  if (most === 0) why.push('most caesium-137 is in the uppermost slice: there is no peak');
  else if (most === measured.length - 1)
    why.push('most caesium-137 is in the deepest slice: the peak may lie deeper');
  else peak = peakOf(measured, most, draws, stream.split('peak'));
  let onset: CaesiumHorizon | null = null;
  if (deepest === measured.length - 1)
    why.push('caesium-137 reaches the deepest slice: its onset lies deeper');
  else onset = onsetOf(measured, deepest, draws, stream.split('onset'));
  return { peak, onset, why };
}

/** Which slice has the most is drawn from their errors; within it the peak may lie anywhere. */
function peakOf(
  measured: readonly Measured[],
  most: number,
  draws: number,
  stream: RandomStream,
): CaesiumHorizon {
  const depth_draws = Float64Array.from({ length: draws }, () => {
    let top = 0;
    let highest = -Infinity;
    for (const [i, { caesium }] of measured.entries()) {
      const value = middle(caesium) + spread(caesium) * stream.normal();
      if (value > highest) [top, highest] = [i, value];
    }
    const { top_m, bottom_m } = measured[top]!;
    return top_m + stream.uniform() * (bottom_m - top_m);
  });
  return { ...PEAK, ...at(measured[most]!, middleOf(measured[most]!), depth_draws) };
}

/** Between the top of the deepest slice that has some and the base of the next, which has none that can be found. */
function onsetOf(
  measured: readonly Measured[],
  deepest: number,
  draws: number,
  stream: RandomStream,
): CaesiumHorizon {
  const { top_m } = measured[deepest]!;
  const { bottom_m } = measured[deepest + 1]!;
  const depth_draws = Float64Array.from(
    { length: draws },
    () => top_m + stream.uniform() * (bottom_m - top_m),
  );
  return { ...ONSET, ...at(measured[deepest]!, (top_m + bottom_m) / 2, depth_draws) };
}

const middleOf = ({ top_m, bottom_m }: { top_m: number; bottom_m: number }): number => (top_m + bottom_m) / 2;

const at = (
  slice: Measured,
  depth_m: number,
  depth_draws: Float64Array,
): Pick<CaesiumHorizon, 'slice' | 'depth_m' | 'depth_draws'> => ({
  slice: slice.id,
  depth_m: estimateOf(depth_m, depth_draws)!,
  depth_draws,
});

/** Where a horizon falls in a model of lead-210. */
export interface HorizonInModel {
  /** Year CE that the model gives its depth. */
  year_ce: Estimate;
  /** Model less horizon, in their errors together; beyond ±2 they disagree. */
  difference_sigmas: number;
}

/** `age_yr`: age before collection of a depth by the model, at best value (null) or in one of its draws. */
export function horizonIn(
  horizon: CaesiumHorizon,
  collected_ce: number,
  age_yr: (depth_m: number, draw: number | null) => number,
): HorizonInModel | null {
  const years = horizon.depth_draws.map((depth_m, k) => collected_ce - age_yr(depth_m, k));
  const year_ce = estimateOf(collected_ce - age_yr(horizon.depth_m.value, null), mirrored(years));
  if (year_ce === null) return null;
  const sigma = Math.sqrt(square(year_ce.sigma) + square(horizon.year_sigma));
  return { year_ce, difference_sigmas: (year_ce.value - horizon.year_ce) / sigma };
}

/** A year that is not bounded is as unusable below as above. */
const mirrored = (years: Float64Array): Float64Array =>
  years.map((year) => (Number.isFinite(year) ? year : Infinity));
