/**
 * Holes whose truth is known. Truth is drawn on cells of 2 cm (the model's are far larger), read with errors, through
 * runs. A truth gives what every cell of ground would let in by itself; friction of the plug, where there is any, lets in
 * e^(−friction·plug) of that, so that it starts again at each run.
 */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { depthDefaults } from '@stillstand/science/depth';
import type { Registration } from '@stillstand/science/rig';

const CELL_M = 0.02;
export const SOUNDING_M = 0.01;
export const DEPTH_M = 8;

interface Soil {
  /** Local recovery at the middle of each cell. */
  recovery: Float64Array;
  /** Of the plug, per metre of it. */
  friction_per_m: number;
  /** Where it is outside every model. */
  trouble_m?: [number, number];
}

export type Truth = (cells: number, stream: RandomStream) => Soil;

/** Decaying shortening with correlated layers of one contrast, and nothing else: our prior as it was, within that of today. */
export const likeThePrior: Truth = (cells, stream) => {
  const rho = logistic(logit(0.6) + 0.9 * stream.normal());
  const ell = 3 * exp(0.7 * stream.normal());
  const step = exp(-CELL_M / 0.5);
  let layer = stream.normal();
  return soil(cells, (k) => {
    if (k > 0) layer = step * layer + Math.sqrt(1 - step * step) * stream.normal();
    const mean = 1 - (1 - rho) * exp(-((k + 0.5) * CELL_M) / ell);
    return logistic(Math.min(logit(0.99), logit(mean)) + layer);
  });
};

/** Drawn from our whole prior, but for friction of the plug. */
export const fromThePrior: Truth = (cells, stream) => {
  const d = depthDefaults;
  const rho = logistic(logit(d.recovery_at_ground) + d.recovery_logit_sd * stream.normal());
  const ell = d.length_m * exp(d.length_log_sd * stream.normal());
  const rises = stream.uniform() >= d.not_whole;
  const deep = logistic(logit(d.recovery_at_depth) + d.recovery_at_depth_logit_sd * stream.normal());
  const end = rises ? 1 : deep;
  const sd = d.layer_sd * exp(d.layer_log_sd * stream.normal());
  const passes = stream.uniform() < d.by_passing;
  const step = exp(-CELL_M / d.layer_length_m);
  const entered_m = (d.by_passed_m * (1 - d.by_passed)) / d.by_passed;
  let layer = stream.normal();
  let passed = false;
  let left = -entered_m * log(1 - stream.uniform());
  return soil(cells, (k) => {
    if (k > 0) layer = step * layer + Math.sqrt(1 - step * step) * stream.normal();
    if (left <= 0) {
      passed = !passed;
      left = -(passed ? d.by_passed_m : entered_m) * log(1 - stream.uniform());
    }
    left -= CELL_M;
    if (passes && passed) return 0;
    const mean = end - (end - rho) * exp(-((k + 0.5) * CELL_M) / ell);
    return logistic(Math.min(logit(d.recovery_deep), logit(mean)) + sd * layer);
  });
};

/** Layers with sharp contacts, 0.2–1.5 m thick, of three kinds that yield differently, less and less downwards. */
export const sharpLayers: Truth = (cells, stream) => {
  const ell = 1.5 + 4 * stream.uniform();
  let left = 0;
  let soft = 0;
  return soil(cells, (k) => {
    if (left <= 0) {
      left = 0.2 + 1.3 * stream.uniform();
      soft = [0.35, 0.6, 0.9][stream.integer(3)]!;
    }
    left -= CELL_M;
    return decayed(soft, k, ell);
  });
};

/** Layers that yield very differently, as much at depth as near the ground. */
export const strongLayers: Truth = (cells, stream) => {
  let left = 0;
  let recovery = 0;
  return soil(cells, () => {
    if (left <= 0) {
      left = 0.2 + 1.3 * stream.uniform();
      recovery = [0.3, 0.6, 0.85, 0.97][stream.integer(4)]!;
    }
    left -= CELL_M;
    return recovery;
  });
};

/** Sharp layers, and after three of ten of them one of 0.1–0.6 m that is pushed aside. */
export const byPassedLayers: Truth = (cells, stream) => {
  const ell = 1.5 + 4 * stream.uniform();
  let left = 0;
  let soft = 0;
  let passed = true;
  return soil(cells, (k) => {
    if (left <= 0) {
      passed = !passed && stream.uniform() < 0.3;
      left = passed ? 0.1 + 0.5 * stream.uniform() : 0.2 + 1.3 * stream.uniform();
      soft = [0.35, 0.6, 0.9][stream.integer(3)]!;
    }
    left -= CELL_M;
    return passed ? 0.02 : decayed(soft, k, ell);
  });
};

/** Sharp layers, and friction of the plug that lets in e^−1 of them at a plug of 1–3 m. */
export const plugFriction: Truth = (cells, stream) => {
  const friction_per_m = 1 / (1 + 2 * stream.uniform());
  return { ...sharpLayers(cells, stream), friction_per_m };
};

/** Recovery that falls with depth, from 0.85–0.98 at the ground to 0.4–0.7 at 8 m, with mild layers. */
export const fallingRecovery: Truth = (cells, stream) => {
  const top = 0.85 + 0.13 * stream.uniform();
  const bottom = 0.4 + 0.3 * stream.uniform();
  let left = 0;
  let layer = 0;
  return soil(cells, (k) => {
    if (left <= 0) {
      left = 0.2 + 1.3 * stream.uniform();
      layer = 0.5 * stream.normal();
    }
    left -= CELL_M;
    return logistic(logit(top + ((bottom - top) * (k + 0.5)) / cells) + layer);
  });
};

/** The middle of our prior, with one stretch of ground in which the recovery is another. */
export const withStretch =
  (thick_m: number, recovery: number): Truth =>
  (cells, stream) => {
    const ground = likeThePrior(cells, stream);
    const top = Math.round((1 + (DEPTH_M - 2) * stream.uniform()) / CELL_M);
    ground.recovery.fill(recovery, top, top + Math.round(thick_m / CELL_M));
    return { ...ground, trouble_m: [top * CELL_M, top * CELL_M + thick_m] };
  };

const soil = (cells: number, recovery: (k: number) => number): Soil => ({
  recovery: Float64Array.from({ length: cells }, (_, k) => recovery(k)),
  friction_per_m: 0,
});

const decayed = (soft: number, k: number, ell: number): number =>
  1 - (1 - soft) * exp(-((k + 0.5) * CELL_M) / ell);

export interface Hole {
  registration: Registration[];
  /** As the rig's ruler reads a true entered length. Rises. */
  measured: (entered_m: number) => number;
  /** True entered length to true depth. */
  depthOf: (entered_m: number) => number;
  end_m: number;
  /** Where ground or a sounding is outside every model, m. */
  trouble_m: [number, number] | null;
}

/** A spell of 0.3–1.5 m, a sounding unless it is missing, a run when more than 0.6 m stands in the pipe; and so on. The
 * fourth sounding is wrong by `blunder_m`. */
export function drill(truth: Truth, missing: number, stream: RandomStream, blunder_m = 0): Hole {
  const cells = Math.round(DEPTH_M / CELL_M);
  const { recovery, friction_per_m, trouble_m } = truth(cells, stream);
  let trouble = trouble_m ?? null;
  let soundings = 0;
  const entered = new Float64Array(cells + 1);
  const registration: Registration[] = [];
  // the rig's count of the removed is off by this at each run's bottom, on the true ruler
  const runs: { at: number; off: number }[] = [{ at: 0, off: 0 }];
  let k = 0;
  let driven = 0;
  while (k < cells) {
    k = Math.min(cells, k + Math.max(5, Math.round((0.3 + 1.2 * stream.uniform()) / CELL_M)));
    const { at, off } = runs.at(-1)!;
    for (; driven < k; driven++) {
      const friction = friction_per_m === 0 ? 1 : exp(-friction_per_m * (entered[driven]! - at));
      entered[driven + 1] = entered[driven]! + recovery[driven]! * friction * CELL_M;
    }
    if (stream.uniform() < missing && k < cells) continue;
    let pinOff = off + SOUNDING_M * stream.normal();
    if (++soundings === 4 && blunder_m !== 0) {
      pinOff += blunder_m;
      trouble = [k * CELL_M, k * CELL_M];
    }
    registration.push({
      kind: 'pin',
      row_id: `p${k}`,
      penetration_m: k * CELL_M,
      entered_m: entered[k]! + pinOff,
      sigma_m: SOUNDING_M,
      place_sigma_m: 0,
    });
    if (entered[k]! - at <= 0.6 || k === cells) continue;
    const run = { at: entered[k]! - 0.3, off: pinOff + SOUNDING_M * stream.normal() };
    runs.push(run);
    registration.push({
      kind: 'run',
      row_id: `r${k}`,
      entered_bottom_m: run.at + run.off,
      sigma_m: SOUNDING_M,
      from: 'soundings',
    });
  }
  return {
    registration,
    end_m: entered[cells]!,
    trouble_m: trouble,
    measured: (x) => {
      const below = runs.findIndex((r) => r.at > x);
      if (below < 0) return x + runs.at(-1)!.off;
      const [a, b] = [runs[below - 1]!, runs[below]!];
      return x + a.off + ((x - a.at) / (b.at - a.at)) * (b.off - a.off);
    },
    depthOf: (x) => {
      const i = Math.max(
        1,
        entered.findIndex((e) => e >= x),
      );
      return (i - 1 + (x - entered[i - 1]!) / (entered[i]! - entered[i - 1]!)) * CELL_M;
    },
  };
}

/** x within 0–`end` with f(x) = y, f rising. */
export function invert(f: (x: number) => number, y: number, end: number): number {
  let low = 0;
  let high = end;
  for (let round = 0; round < 40; round++) {
    const middle = (low + high) / 2;
    if (f(middle) < y) low = middle;
    else high = middle;
  }
  return low;
}

const logistic = (x: number) => 1 / (1 + exp(-x));
const logit = (p: number) => log(p / (1 - p));
