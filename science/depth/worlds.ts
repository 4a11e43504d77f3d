/**
 * Worlds: what is not known of the whole hole, as points spread evenly over its prior. Each gives the cells their mean
 * recovery and the layers their contrast.
 */
import { exp, log, normalQuantile } from '@stillstand/science/base';
import type { Ground } from './cells.ts';
import type { DepthSettings } from './settings.ts';

/** Number of worlds. */
export const WORLDS = 256;
/** Contrasts of layers: so many values, each as probable as another. */
export const CONTRASTS = 8;
/** 1/g, 1/g² … of the sequence of Roberts (2018), even in six dimensions: g⁷ = g + 1. */
const G = 1 / 1.1127756842787055;
const STEPS = [G, G * G, G * G * G, G * G * G * G, G * G * G * G * G, G * G * G * G * G * G] as const;

export interface Worlds {
  recovery: Float64Array;
  length: Float64Array;
  /** What recovery tends to at depth. */
  deep: Float64Array;
  /** Friction of the plug, 1/m; 0 where there is none. */
  friction: Float64Array;
  /** Which level: contrast of layers, and whether any ground is by-passed. */
  level: Uint8Array;
  levels: Level[];
  /** Logit of mean local recovery, [world][cell]. */
  logit: Float64Array;
}

interface Level {
  /** 1 sd of the layers, of the logit of local recovery. */
  layer_sd: number;
  by_passing: boolean;
}

export function worldsOf(ground: Ground, from_m: number, settings: DepthSettings): Worlds {
  const { edges, plug_m } = ground;
  const cells = edges.length - 1;
  const recovery = new Float64Array(WORLDS);
  const length = new Float64Array(WORLDS);
  const deep = new Float64Array(WORLDS);
  const friction = new Float64Array(WORLDS);
  const level = new Uint8Array(WORLDS);
  const mean = new Float64Array(WORLDS * cells);
  const levels = Array.from({ length: 2 * CONTRASTS }, (_, l) => {
    const quantile = normalQuantile(((l >> 1) + 0.5) / CONTRASTS);
    return { layer_sd: settings.layer_sd * exp(settings.layer_log_sd * quantile), by_passing: (l & 1) === 1 };
  });
  const highest = logitOf(settings.recovery_deep);
  // what is short of whole there, below which no logarithm is needed
  const least = 1 - settings.recovery_deep;
  for (let w = 0; w < WORLDS; w++) {
    const rho = logistic(
      logitOf(settings.recovery_at_ground) + settings.recovery_logit_sd * normalQuantile(even(w, STEPS[0])),
    );
    const ell = settings.length_m * exp(settings.length_log_sd * normalQuantile(even(w, STEPS[1])));
    const c = even(w, STEPS[2]);
    const end =
      c < settings.not_whole
        ? logistic(
            logitOf(settings.recovery_at_depth) +
              settings.recovery_at_depth_logit_sd * normalQuantile(c / settings.not_whole),
          )
        : 1;
    const d = even(w, STEPS[3]);
    const phi =
      d < settings.friction
        ? settings.friction_per_m * exp(settings.friction_log_sd * normalQuantile(d / settings.friction))
        : 0;
    recovery[w] = rho;
    length[w] = ell;
    deep[w] = end;
    friction[w] = phi;
    const contrast = Math.floor(even(w, STEPS[4]) * CONTRASTS);
    level[w] = 2 * contrast + (even(w, STEPS[5]) < settings.by_passing ? 1 : 0);
    // mean recovery of a cell is the exact mean of end − (end − ρ₀)e^(−z/ℓ) over it, less what friction keeps out
    let above = exp(-(from_m + edges[0]!) / ell);
    for (let k = 0; k < cells; k++) {
      const below = exp(-(from_m + edges[k + 1]!) / ell);
      const soil = end - ((end - rho) * ell * (above - below)) / (edges[k + 1]! - edges[k]!);
      const enters = phi === 0 ? soil : soil * exp(-phi * plug_m[k]!);
      mean[w * cells + k] = 1 - enters <= least ? highest : log(enters / (1 - enters));
      above = below;
    }
  }
  return { recovery, length, deep, friction, level, levels, logit: mean };
}

/** Part of world w in the way that goes by `step`, even in (0, 1). */
const even = (w: number, step: number): number => (0.5 + (w + 1) * step) % 1;

const logistic = (x: number): number => 1 / (1 + exp(-x));
const logitOf = (p: number): number => log(p / (1 - p));
