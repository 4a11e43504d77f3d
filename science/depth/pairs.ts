/** Pairs of ρ₀ and ℓ over their priors: the mean recovery each gives the cells. */
import { exp, log, normalQuantile } from '@stillstand/science/base';
import type { Ground } from './cells.ts';
import type { DepthSettings } from './settings.ts';

/** Number of pairs: an even two-dimensional sequence over the priors. */
export const PAIRS = 128;
/** Steps of the plastic-number sequence (Roberts 2018, even in two dimensions): 1/g and 1/g², g³ = g + 1. */
const STEP_1 = 0.7548776662466927;
const STEP_2 = 0.5698402909980532;

export interface Pairs {
  recovery: Float64Array;
  length: Float64Array;
  /** Logit of mean local recovery, [pair][cell]. */
  logit: Float64Array;
}

export function shorteningPairs(ground: Ground, from_m: number, settings: DepthSettings): Pairs {
  const { edges } = ground;
  const cells = edges.length - 1;
  const recovery = new Float64Array(PAIRS);
  const length = new Float64Array(PAIRS);
  const logit = new Float64Array(PAIRS * cells);
  const deepest = logitOf(settings.recovery_deep);
  // what is short of whole there, below which no logarithm is needed
  const least = 1 - settings.recovery_deep;
  const centre = logitOf(settings.recovery_at_ground);
  for (let p = 0; p < PAIRS; p++) {
    const u = (0.5 + (p + 1) * STEP_1) % 1;
    const w = (0.5 + (p + 1) * STEP_2) % 1;
    const rho = 1 / (1 + exp(-(centre + settings.recovery_logit_sd * normalQuantile(u))));
    const ell = settings.length_m * exp(settings.length_log_sd * normalQuantile(w));
    recovery[p] = rho;
    length[p] = ell;
    // mean recovery of a cell is the exact mean of 1 − (1 − ρ₀)e^(−z/ℓ) over it
    let above = exp(-(from_m + edges[0]!) / ell);
    for (let k = 0; k < cells; k++) {
      const below = exp(-(from_m + edges[k + 1]!) / ell);
      const short = ((1 - rho) * ell * (above - below)) / (edges[k + 1]! - edges[k]!);
      logit[p * cells + k] = short <= least ? deepest : log((1 - short) / short);
      above = below;
    }
  }
  return { recovery, length, logit };
}

const logitOf = (p: number): number => log(p / (1 - p));
