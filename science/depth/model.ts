/** What every depth model takes and gives: ours and its rivals, one contract. */
import { square } from '@stillstand/science/base';
import type { EnteredPlace, Registration } from '@stillstand/science/rig';
import { quantilesOf } from './order.ts';

/** Metres. A string starts at the ground (`from_m` 0); a push in an open hole below it. */
export interface DepthInput {
  from_m: number;
  /** Deepest shoe below the ground at the start of the hole. */
  penetration_m: number;
  /** Entered lengths as sounded, counted from `from_m`, and the runs between them, in order. */
  registration: readonly Registration[];
}

/** Depth in the ground, metres below the ground at the start of the hole. */
export interface DepthEstimate {
  /** Mean of the draws. */
  value: number;
  /** 1 sigma. */
  sigma: number;
  lower95: number;
  upper95: number;
  /** Draw i of every query belongs to one and the same state of the hole: errors stay shared. */
  draws: Float64Array;
  /** Share of draws in which the place lies below what the hole reached; they stand at the shoe. */
  beyond: number;
}

export interface DepthCurve {
  entered_m: Float64Array;
  median_m: Float64Array;
  lower95_m: Float64Array;
  upper95_m: Float64Array;
}

interface Value {
  value: number;
  sigma: number;
  lower95: number;
  upper95: number;
}

export interface DepthModel {
  kind: 'decaying' | 'uniform' | 'all at top';
  draws: number;
  from_m: number;
  penetration_m: number;
  /** Of a length along everything that entered (as the rig counts it), or of a place known within bounds. */
  inSituDepth(entered: number | EnteredPlace): DepthEstimate;
  /** Depth against entered length, for drawing; `points` evenly along what entered. */
  curve(points?: number): DepthCurve;
  /** Ground that did not enter: by-passed, not thinned. */
  not_represented: { top_m: number; bottom_m: number }[];
  /** ρ₀ and ℓ after the soundings; null for a rival. */
  shortening: { recovery_at_ground: Value; length_m: Value } | null;
  /** How badly the soundings reject a rival; null for ours, which runs through them. */
  misfit: Misfit | null;
  diagnostics: { pins: number; effective_draws_min: number; ancestors: number } | null;
}

export interface Misfit {
  /** Residuals against their full covariance. */
  chi_square: number;
  degrees: number;
  /** The same as so many sd of a normal (Wilson & Hilferty 1931): above 2 the soundings reject the model. */
  rejected_sd: number;
  /** Largest difference, m of entered length. */
  worst_m: number;
}

/** Mean, sd and central 95 % of draws. */
export function summaryOf(draws: Float64Array): Value {
  const n = draws.length;
  // counted from the first, so that draws that are all the same have exactly that mean
  let sum = 0;
  for (let i = 0; i < n; i++) sum += draws[i]! - draws[0]!;
  const value = draws[0]! + sum / n;
  let squares = 0;
  for (let i = 0; i < n; i++) squares += square(draws[i]! - value);
  const [lower95, upper95] = quantilesOf(draws.slice(), [0.025, 0.975]) as [number, number];
  return { value, sigma: n > 1 ? Math.sqrt(squares / (n - 1)) : 0, lower95, upper95 };
}
