/** Two corrections in common use, drawn beside ours, with how badly the soundings reject them. */
import { exp, log, square } from '@stillstand/science/base';
import { readingErrors } from './errors.ts';
import type { DepthEstimate, DepthInput, DepthModel, Misfit } from './model.ts';

/** One factor for the whole hole, from its last pin: depth = entered × P/E. */
export function uniformModel(input: DepthInput): DepthModel {
  const { penetration, entered } = lastPin(input);
  const factor = entered > 0 ? penetration / entered : 1;
  const length = input.penetration_m - input.from_m;
  return rival('uniform', input, [], {
    depth: (e) => Math.min(length, e * factor),
    entered: (p) => p / factor,
    // recovery is its one number
    perNumber: (p) => p,
  });
}

/** All that is missing at the last pin is missing at the top; below it everything came up whole. */
export function allAtTopModel(input: DepthInput): DepthModel {
  const { penetration, entered } = lastPin(input);
  const missing = Math.max(0, penetration - entered);
  const length = input.penetration_m - input.from_m;
  const flat = missing > 0 ? [{ top_m: input.from_m, bottom_m: input.from_m + missing }] : [];
  return rival('all at top', input, flat, {
    depth: (e) => Math.min(length, e + missing),
    entered: (p) => Math.max(0, p - missing),
    // the length missing is
    perNumber: (p) => (p > missing ? -1 : 0),
  });
}

function lastPin(input: DepthInput): { penetration: number; entered: number } {
  const pins = input.registration.filter((r) => r.kind === 'pin');
  const last = pins[pins.length - 1];
  const length = input.penetration_m - input.from_m;
  if (last === undefined) return { penetration: length, entered: length };
  return { penetration: last.penetration_m - input.from_m, entered: last.entered_m };
}

/** Lengths from the start of the model, m. */
interface Rule {
  depth: (entered: number) => number;
  entered: (penetration: number) => number;
  /** Change of `entered` with the one number of the model. */
  perNumber: (penetration: number) => number;
}

function rival(
  kind: 'uniform' | 'all at top',
  input: DepthInput,
  not_represented: DepthModel['not_represented'],
  rule: Rule,
): DepthModel {
  const { from_m, penetration_m } = input;
  const { depth } = rule;
  const end = rule.entered(penetration_m - from_m);
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
    misfit: misfitOf(input, rule),
    diagnostics: null,
  };
}

/**
 * Residuals of the pins against the full covariance of their errors, with the model's one number moved to where they are
 * least (generalised least squares): one degree of freedom less than pins.
 */
function misfitOf(input: DepthInput, { entered, perNumber }: Rule): Misfit {
  const { factor, pins, runs } = readingErrors(input.registration);
  const off = new Float64Array(pins);
  const way = new Float64Array(pins);
  let worst_m = 0;
  let q = 0;
  for (const r of input.registration) {
    if (r.kind !== 'pin') continue;
    const p = r.penetration_m - input.from_m;
    off[q] = r.entered_m - entered(p);
    way[q] = perNumber(p);
    worst_m = Math.max(worst_m, Math.abs(off[q]!));
    q++;
  }
  const degrees = pins - 1;
  if (degrees < 1) return { chi_square: 0, degrees: 0, rejected_sd: 0, worst_m };
  // by the factor to independent normals
  let squares = 0;
  let along = 0;
  let wayLength = 0;
  for (let i = 0; i < pins; i++) {
    for (let k = 0; k < i; k++) {
      const f = factor[i * (pins + runs) + k]!;
      off[i] = off[i]! - f * off[k]!;
      way[i] = way[i]! - f * way[k]!;
    }
    off[i] = off[i]! / factor[i * (pins + runs) + i]!;
    way[i] = way[i]! / factor[i * (pins + runs) + i]!;
    squares += square(off[i]!);
    along += off[i]! * way[i]!;
    wayLength += square(way[i]!);
  }
  const chi_square = Math.max(0, squares - (wayLength > 0 ? square(along) / wayLength : 0));
  const t = 2 / (9 * degrees);
  // cube root by exp and log: the same in every engine
  const root = chi_square > 0 ? exp(log(chi_square / degrees) / 3) : 0;
  return { chi_square, degrees, rejected_sd: (root - (1 - t)) / Math.sqrt(t), worst_m };
}
