/** Kept draws of one chain, one column for each number. */
import { exp } from '@stillstand/science/base';
import type { Chain } from './chain.ts';
import { outOfPlaceAt } from './date-likelihood.ts';
import type { Hole } from './hole.ts';

const MM_PER_M = 1000;

/** [number][draw]. */
export interface Draws {
  state: Float64Array;
  /** Of the sections' boundaries, without gaps. */
  boundary_cal_bp: Float64Array[];
  gap_yr: Float64Array[];
  /** Of the grid, which is the boundaries: with gaps. */
  age_cal_bp: Float64Array[];
  accumulation_mm_yr: Float64Array[];
  horizon_cal_bp: Float64Array[];
  outOfPlace: Float64Array[];
  hole_accumulation_mm_yr: Float64Array;
  variation: Float64Array;
  persistence_m: Float64Array;
}

export function emptyDraws(hole: Hole, draws: number): Draws {
  const column = (): Float64Array => new Float64Array(draws);
  const columns = (n: number): Float64Array[] => Array.from({ length: n }, column);
  return {
    state: column(),
    boundary_cal_bp: columns(hole.sections + 1),
    gap_yr: columns(hole.breaks.length),
    age_cal_bp: columns(hole.sections + 1),
    accumulation_mm_yr: columns(hole.sections + 1),
    horizon_cal_bp: columns(hole.horizons.length),
    outOfPlace: columns(hole.horizons.length),
    hole_accumulation_mm_yr: column(),
    variation: column(),
    persistence_m: column(),
  };
}

export function keepDraw({ history }: Chain, into: Draws, k: number): void {
  const { hole, state } = history;
  const { sections, edge_m, breaks, dates } = hole;
  const { top_cal_bp, yr_per_m, gap_yr } = history;
  into.state[k] = state;
  for (let b = 0; b < breaks.length; b++) into.gap_yr[b]![k] = gap_yr[b]!;
  for (let j = 0; j <= sections; j++) {
    into.boundary_cal_bp[j]![k] = top_cal_bp[j]!;
    let age = top_cal_bp[j]!;
    for (let b = 0; b < breaks.length; b++) if (edge_m[j]! > breaks[b]!.depth_m[state]!) age += gap_yr[b]!;
    into.age_cal_bp[j]![k] = age;
    const above = yr_per_m[Math.max(0, j - 1)]!;
    const below = yr_per_m[Math.min(sections - 1, j)]!;
    into.accumulation_mm_yr[j]![k] = (2 * MM_PER_M) / (above + below);
  }
  for (let i = 0; i < dates.length; i++) {
    const age = history.bare_cal_bp[i]! + history.gaps_yr[i]!;
    into.horizon_cal_bp[i]![k] = age;
    into.outOfPlace[i]![k] = outOfPlaceAt(dates[i]!, age);
  }
  into.hole_accumulation_mm_yr[k] = MM_PER_M / exp(history.law.mean);
  into.variation[k] = history.variation;
  into.persistence_m[k] = exp(history.law.log_persistence);
}
