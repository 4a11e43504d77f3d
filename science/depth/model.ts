/** What every depth model takes and gives: ours and its rivals, one contract. */
import { quantilesBySelection, type StreamKey, square } from '@stillstand/science/base';
import type { Registration } from '@stillstand/science/rig';

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

export interface Value {
  value: number;
  sigma: number;
  lower95: number;
  upper95: number;
}

export interface Shortening {
  /** ρ₀, ℓ, and what recovery tends to at depth. */
  recovery_at_ground: Value;
  length_m: Value;
  recovery_at_depth: Value;
  /** 1 sd of the logit of local recovery from layer to layer. */
  layer_sd: Value;
  /** Probability that the plug's friction lets in less, and by how much: e^(−friction·plug), 1/m, 0 counted in. */
  friction: { probability: number; per_m: Value };
  /** Ground that was by-passed, in all, m. */
  by_passed_m: Value;
}

/** What both kinds of model say. Plain data: `inSituDepth` and `depthCurve` answer from it. */
interface Said {
  from_m: number;
  penetration_m: number;
  /** Ground that did not enter: by-passed, not thinned. */
  not_represented: { top_m: number; bottom_m: number }[];
  /** What the whole hole has in common, after the soundings; null for a rival. */
  shortening: Shortening | null;
  /** How badly the soundings reject a rival; null for ours, which runs through them. */
  misfit: Misfit | null;
  diagnostics: { pins: number; effective_draws_min: number; ancestors: number } | null;
}

/** Ours: joint draws of what entered. */
export interface DecayingModel extends Said {
  kind: 'decaying';
  draws: number;
  /** Cell edges below `from_m`, m, from 0. */
  edges_m: Float64Array;
  /** Entered length at each edge, m, [draw][edge]. */
  entered_m: Float32Array;
  /** How recovery changes within a cell: one sd by cell, times that of the layers, one deviate by draw. */
  bend_sd: Float64Array;
  /** 1 sd of the layers of each draw, of the logit of local recovery. */
  layer_sd: Float32Array;
  bends: Float32Array;
  /** What is by-passed in each spell. */
  by_passed: {
    /** First cell of each spell. */
    first: Int32Array;
    /** Where in a cell it begins and ends, as a share of the cell, [way][cell of the spell]; null: nowhere. */
    ways: ({ from: Float32Array; to: Float32Array } | null)[];
    /** [draw][spell]. */
    taken: Uint8Array;
  };
  /** Runs in order, where they end along everything that entered, and the errors of that, m, [draw][run]. */
  runs: { row_id: string; entered_bottom_m: number }[];
  run_errors_m: Float32Array;
  tape_sigma_m: number;
  /** Of the stream that losses of unknown place and the tape are drawn from, each by its name. */
  stream: StreamKey;
}

/** A rival: depth below `from_m` = factor · entered + missing, never below what the hole reached. */
export interface StraightModel extends Said {
  kind: 'uniform' | 'all at top';
  draws: 1;
  factor: number;
  missing_m: number;
}

export type DepthModel = DecayingModel | StraightModel;

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
  const [lower95, upper95] = quantilesBySelection(draws.slice(), [0.025, 0.975]) as [number, number];
  return { value, sigma: n > 1 ? Math.sqrt(squares / (n - 1)) : 0, lower95, upper95 };
}
