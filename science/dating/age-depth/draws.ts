/** Kept draws of one chain, one column for each number. */
import { exp } from '@stillstand/science/base';
import { counted } from './axis.ts';
import type { Chain } from './chain.ts';
import { outOfPlaceAt } from './date-likelihood.ts';
import type { Hole } from './hole.ts';
import { sectionAt } from './section.ts';

const MM_PER_M = 1000;

/** [number][draw]. */
export interface Draws {
  state: Float64Array;
  /** Of the sections' boundaries, without gaps. */
  boundary_cal_bp: Float64Array[];
  gap_yr: Float64Array[];
  /** Of the grid: with gaps. */
  age_cal_bp: Float64Array[];
  accumulation_mm_yr: Float64Array[];
  bed_cal_bp: Float64Array[];
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
    age_cal_bp: columns(hole.grid.depth_m.length),
    accumulation_mm_yr: columns(hole.grid.depth_m.length),
    bed_cal_bp: columns(hole.beds.length),
    horizon_cal_bp: columns(hole.horizons.length),
    outOfPlace: columns(hole.horizons.length),
    hole_accumulation_mm_yr: column(),
    variation: column(),
    persistence_m: column(),
  };
}

export function keepDraw({ history }: Chain, into: Draws, k: number): void {
  const { hole, state } = history;
  const { sections, grid, axis, beds, breaks, dates } = hole;
  const { top_cal_bp, yr_per_m, gap_yr } = history;
  into.state[k] = state;
  for (let b = 0; b < breaks.length; b++) into.gap_yr[b]![k] = gap_yr[b]!;
  for (let j = 0; j <= sections; j++) into.boundary_cal_bp[j]![k] = top_cal_bp[j]!;
  for (let g = 0; g < grid.depth_m.length; g++) {
    into.age_cal_bp[g]![k] = ageAt(history, grid.depth_m[g]!);
    const above = yr_per_m[grid.above[g]!]! * axis.weight[grid.above[g]!]!;
    const below = yr_per_m[grid.below[g]!]! * axis.weight[grid.below[g]!]!;
    into.accumulation_mm_yr[g]![k] = (2 * MM_PER_M) / (above + below);
  }
  for (let b = 0; b < beds.length; b++)
    into.bed_cal_bp[b]![k] = ageAt(history, Math.max(0, beds[b]!.bottom_m[state]!));
  for (let i = 0; i < dates.length; i++) {
    const age = history.bare_cal_bp[i]! + history.gaps_yr[i]!;
    into.horizon_cal_bp[i]![k] = age;
    into.outOfPlace[i]![k] = outOfPlaceAt(dates[i]!, age);
  }
  into.hole_accumulation_mm_yr[k] = MM_PER_M / exp(history.law.mean + axis.logWeight);
  into.variation[k] = history.variation;
  into.persistence_m[k] = exp(history.law.log_persistence);
}

/** Age of a depth below the ground, with the gaps above it. */
function ageAt({ hole, state, top_cal_bp, yr_per_m, gap_yr }: Chain['history'], depth_m: number): number {
  const at = counted(hole.axis, depth_m, state);
  const j = sectionAt(hole.edge_m, at);
  let age = top_cal_bp[j]! + (at - hole.edge_m[j]!) * yr_per_m[j]!;
  for (let b = 0; b < gap_yr.length; b++)
    if (depth_m > hole.breaks[b]!.below_ground_m[state]!) age += gap_yr[b]!;
  return age;
}
