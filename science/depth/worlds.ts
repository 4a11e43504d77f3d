/**
 * Worlds: what is not known of the whole hole, as points spread evenly over its prior. Each gives the cells their mean
 * recovery and the layers their contrast.
 */
import { exp, log, normalQuantile } from '@stillstand/science/base';
import type { Ground } from './cells.ts';
import type { DepthSettings } from './settings.ts';

/** Number of worlds. */
export const WORLDS = 512;
/** Contrasts of layers: so many values, each as probable as another. */
export const CONTRASTS = 8;
/** 1/g, 1/g² … of the sequence of Roberts (2018), even in six dimensions: g⁷ = g + 1. */
const STEP = 1 / 1.1127756842787055;

export interface Worlds {
  recovery: Float64Array;
  length: Float64Array;
  /** What recovery tends to at depth. */
  deep: Float64Array;
  /** Friction of the plug, 1/m; 0 where there is none. */
  friction: Float64Array;
  /** Which share of the ground is by-passed, of those of the settings. */
  passing: Uint8Array;
  /** Which contrast. */
  contrast: Uint8Array;
  /** 1 sd of the layers by contrast. */
  layer_sd: Float64Array;
  /** Logit of mean local recovery, [world][cell]. */
  logit: Float64Array;
}

export function worldsOf(ground: Ground, from_m: number, settings: DepthSettings): Worlds {
  const { edges, plug_m } = ground;
  const cells = edges.length - 1;
  const recovery = new Float64Array(WORLDS);
  const length = new Float64Array(WORLDS);
  const deep = new Float64Array(WORLDS);
  const friction = new Float64Array(WORLDS);
  const passing = new Uint8Array(WORLDS);
  const contrast = new Uint8Array(WORLDS);
  const mean = new Float64Array(WORLDS * cells);
  const layer_sd = Float64Array.from(
    { length: CONTRASTS },
    (_, c) => settings.layer_sd * exp(settings.layer_log_sd * normalQuantile((c + 0.5) / CONTRASTS)),
  );
  const highest = logitOf(settings.recovery_deep);
  // what is short of whole there, below which no logarithm is needed
  const least = 1 - settings.recovery_deep;
  for (let w = 0; w < WORLDS; w++) {
    const [a, b, c, d, e, f] = even(w);
    const rho = logistic(
      logitOf(settings.recovery_at_ground) + settings.recovery_logit_sd * normalQuantile(a),
    );
    const ell = settings.length_m * exp(settings.length_log_sd * normalQuantile(b));
    const end =
      c < settings.not_whole
        ? logistic(
            logitOf(settings.recovery_at_depth) +
              settings.recovery_at_depth_logit_sd * normalQuantile(c / settings.not_whole),
          )
        : 1;
    const phi =
      d < settings.friction
        ? settings.friction_per_m * exp(settings.friction_log_sd * normalQuantile(d / settings.friction))
        : 0;
    recovery[w] = rho;
    length[w] = ell;
    deep[w] = end;
    friction[w] = phi;
    passing[w] = nthOf(settings.by_passed, f);
    contrast[w] = Math.floor(e * CONTRASTS);
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
  return { recovery, length, deep, friction, passing, contrast, layer_sd, logit: mean };
}

/** Which of them holds u in (0, 1), laid one after another. */
function nthOf(among: readonly { probability: number }[], u: number): number {
  let below = 0;
  for (let n = 0; n < among.length - 1; n++) {
    below += among[n]!.probability;
    if (u < below) return n;
  }
  return among.length - 1;
}

/** Point w of six even numbers in (0, 1). */
function even(w: number): [number, number, number, number, number, number] {
  const at = (step: number) => (0.5 + (w + 1) * step) % 1;
  const two = STEP * STEP;
  return [at(STEP), at(two), at(STEP * two), at(two * two), at(STEP * two * two), at(two * two * two)];
}

const logistic = (x: number): number => 1 / (1 + exp(-x));
const logitOf = (p: number): number => log(p / (1 - p));
