/**
 * What is not known of the whole hole: each of a set of means, spread evenly over their prior, with each of a set of
 * levels. A mean gives the cells their mean recovery; a level says how much layers differ and whether ground is by-passed.
 */
import { exp, log, normalQuantile } from '@stillstand/science/base';
import type { Ground } from './cells.ts';
import type { DepthSettings } from './settings.ts';

export const MEANS = 128;
/** Contrasts of layers: so many values, each as probable as another; each with by-passing and without. */
const CONTRASTS = 8;
export const LEVELS = 2 * CONTRASTS;
/** World w is mean ⌊w ÷ LEVELS⌋ at level w mod LEVELS. */
export const WORLDS = MEANS * LEVELS;
/** Steps of the sequence of Roberts (2018), even in four dimensions: 1/g, 1/g² …, g⁵ = g + 1. */
const G = 1 / 1.1673039782614187;
const STEPS = [G, G * G, G * G * G, G * G * G * G] as const;

interface Level {
  /** 1 sd of the layers, of the logit of local recovery. */
  layer_sd: number;
  by_passing: boolean;
  probability: number;
}

export interface Worlds {
  /** By mean: ρ₀, ℓ, what recovery tends to at depth, and friction of the plug, 1/m; 0 where there is none. */
  recovery: Float64Array;
  length: Float64Array;
  deep: Float64Array;
  friction: Float64Array;
  /** Logit of mean local recovery, [mean][cell]. */
  logit: Float64Array;
  levels: Level[];
}

export function worldsOf(ground: Ground, from_m: number, settings: DepthSettings): Worlds {
  const { edges, plug_m } = ground;
  const cells = edges.length - 1;
  const recovery = new Float64Array(MEANS);
  const length = new Float64Array(MEANS);
  const deep = new Float64Array(MEANS);
  const friction = new Float64Array(MEANS);
  const logit = new Float64Array(MEANS * cells);
  const highest = logitOf(settings.recovery_deep);
  // what is short of whole there, below which no logarithm is needed
  const least = 1 - settings.recovery_deep;
  for (let m = 0; m < MEANS; m++) {
    const rho = spread(settings.recovery_at_ground, settings.recovery_logit_sd, even(m, 0));
    const ell = settings.length_m * exp(settings.length_log_sd * normalQuantile(even(m, 1)));
    const c = even(m, 2) / settings.not_whole;
    const end = c < 1 ? spread(settings.recovery_at_depth, settings.recovery_at_depth_logit_sd, c) : 1;
    const d = even(m, 3) / settings.friction;
    const phi = d < 1 ? settings.friction_per_m * exp(settings.friction_log_sd * normalQuantile(d)) : 0;
    recovery[m] = rho;
    length[m] = ell;
    deep[m] = end;
    friction[m] = phi;
    // mean recovery of a cell is the exact mean of end − (end − ρ₀)e^(−z/ℓ) over it, less what friction keeps out
    let above = exp(-(from_m + edges[0]!) / ell);
    for (let k = 0; k < cells; k++) {
      const below = exp(-(from_m + edges[k + 1]!) / ell);
      const soil = end - ((end - rho) * ell * (above - below)) / (edges[k + 1]! - edges[k]!);
      const enters = phi === 0 ? soil : soil * exp(-phi * plug_m[k]!);
      logit[m * cells + k] = 1 - enters <= least ? highest : log(enters / (1 - enters));
      above = below;
    }
  }
  return { recovery, length, deep, friction, logit, levels: levelsOf(settings) };
}

function levelsOf({ layer_sd, layer_log_sd, by_passing }: DepthSettings): Level[] {
  return Array.from({ length: LEVELS }, (_, l) => {
    const quantile = normalQuantile(((l >> 1) + 0.5) / CONTRASTS);
    const passes = (l & 1) === 1;
    return {
      layer_sd: layer_sd * exp(layer_log_sd * quantile),
      by_passing: passes,
      probability: (passes ? by_passing : 1 - by_passing) / CONTRASTS,
    };
  });
}

/** Part of mean m in one of the dimensions, even in (0, 1). */
const even = (m: number, dimension: 0 | 1 | 2 | 3): number => (0.5 + (m + 1) * STEPS[dimension]) % 1;

/** Quantile u of a share whose logit is normal. */
const spread = (median: number, logit_sd: number, u: number): number =>
  1 / (1 + exp(-(logitOf(median) + logit_sd * normalQuantile(u))));

const logitOf = (p: number): number => log(p / (1 - p));
