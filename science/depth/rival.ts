/** Two corrections in common use, drawn beside ours, with how badly the soundings reject them. */
import { cholesky, exp, log, solveCholesky } from '@stillstand/science/base';
import type { Registration } from '@stillstand/science/rig';
import type { DepthEstimate, DepthInput, DepthModel, Misfit } from './model.ts';

/** One factor for the whole hole, from its last pin: depth = entered × P/E. */
export function uniformModel(input: DepthInput): DepthModel {
  const { penetration, entered } = lastPin(input);
  const factor = entered > 0 ? penetration / entered : 1;
  const length = input.penetration_m - input.from_m;
  return rival(
    'uniform',
    input,
    [],
    (e) => Math.min(length, e * factor),
    (p) => p / factor,
  );
}

/** All that is missing at the last pin is missing at the top; below it everything came up whole. */
export function allAtTopModel(input: DepthInput): DepthModel {
  const { penetration, entered } = lastPin(input);
  const missing = Math.max(0, penetration - entered);
  const length = input.penetration_m - input.from_m;
  const flat = missing > 0 ? [{ top_m: input.from_m, bottom_m: input.from_m + missing }] : [];
  return rival(
    'all at top',
    input,
    flat,
    (e) => Math.min(length, e + missing),
    (p) => Math.max(0, p - missing),
  );
}

function lastPin(input: DepthInput): { penetration: number; entered: number } {
  const pins = input.registration.filter((r) => r.kind === 'pin');
  const last = pins[pins.length - 1];
  const length = input.penetration_m - input.from_m;
  if (last === undefined) return { penetration: length, entered: length };
  return { penetration: last.penetration_m - input.from_m, entered: last.entered_m };
}

function rival(
  kind: 'uniform' | 'all at top',
  input: DepthInput,
  not_represented: DepthModel['not_represented'],
  depth: (entered: number) => number,
  entered: (penetration: number) => number,
): DepthModel {
  const { from_m, penetration_m } = input;
  const end = entered(penetration_m - from_m);
  return {
    kind,
    draws: 1,
    from_m,
    penetration_m,
    inSituDepth: (place): DepthEstimate => {
      const low = typeof place === 'number' ? place : place.low_m;
      const high = typeof place === 'number' ? place : place.high_m;
      const value = from_m + depth(Math.max(0, (low + high) / 2));
      // without errors of its own; a place between bounds is even there, and both models are straight
      const half = (depth(Math.max(0, high)) - depth(Math.max(0, low))) / 2;
      return {
        value,
        sigma: half / Math.sqrt(3),
        lower95: value - 0.95 * half,
        upper95: value + 0.95 * half,
        draws: Float64Array.of(value),
        beyond: (low + high) / 2 > end + 1e-9 ? 1 : 0,
      };
    },
    curve: (points = 101) => {
      const entered_m = Float64Array.from({ length: points }, (_, i) => (end * i) / Math.max(1, points - 1));
      const median_m = entered_m.map((e) => from_m + depth(e));
      return { entered_m, median_m, lower95_m: median_m.slice(), upper95_m: median_m.slice() };
    },
    not_represented,
    shortening: null,
    misfit: misfitOf(input, entered),
    diagnostics: null,
  };
}

/**
 * Residuals of the pins against the covariance of their errors (own sounding, and all removed before). The last pin set
 * the model, so it leaves one degree of freedom less.
 */
function misfitOf(input: DepthInput, entered: (penetration: number) => number): Misfit {
  const residuals: number[] = [];
  const worst = { m: 0 };
  for (const r of input.registration) {
    if (r.kind !== 'pin') continue;
    const off = r.entered_m - entered(r.penetration_m - input.from_m);
    residuals.push(off);
    worst.m = Math.max(worst.m, Math.abs(off));
  }
  const n = residuals.length;
  const degrees = n - 1;
  if (degrees < 1) return { chi_square: 0, degrees: 0, rejected_sd: 0, worst_m: worst.m };
  const r = Float64Array.from(residuals);
  const factor = cholesky(errorCovariance(input.registration, n), n);
  const chi_square = factor === null ? Number.NaN : dot(r, solveCholesky(factor, r, n));
  const t = 2 / (9 * degrees);
  // cube root by exp and log: the same in every engine
  const root = chi_square > 0 ? exp(log(chi_square / degrees) / 3) : 0;
  return { chi_square, degrees, rejected_sd: (root - (1 - t)) / Math.sqrt(t), worst_m: worst.m };
}

/** Covariance of the pins' errors: each is a sum of independent parts, some shared (docs/methods/rig.md). */
function errorCovariance(registration: readonly Registration[], pins: number): Float64Array {
  // one column for each reading, and one for each penetration: where the shoe is
  const places = [...new Set(registration.flatMap((r) => (r.kind === 'pin' ? [r.penetration_m] : [])))];
  const rows: Float64Array[] = [];
  let removed = new Float64Array(registration.length + places.length);
  let last = removed;
  registration.forEach((r, i) => {
    if (r.kind === 'pin') {
      last = removed.slice();
      last[i] = r.sigma_m;
      const row = last.slice();
      row[registration.length + places.indexOf(r.penetration_m)] = r.place_sigma_m;
      rows.push(row);
    } else {
      removed = (r.from === 'soundings' ? last : removed).slice();
      removed[i] = r.sigma_m;
    }
  });
  const covariance = new Float64Array(pins * pins);
  for (let i = 0; i < pins; i++) {
    for (let j = 0; j <= i; j++) {
      const c = dot(rows[i]!, rows[j]!);
      covariance[i * pins + j] = c;
      covariance[j * pins + i] = c;
    }
  }
  return covariance;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
