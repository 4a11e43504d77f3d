/** Two corrections in common use, drawn beside ours, with how badly the soundings reject them. */
import { exp, log, square } from '@stillstand/science/base';
import { readingErrors } from './errors.ts';
import type { DepthInput, Misfit, StraightModel } from './model.ts';

/** One factor for the whole hole, from its last pin: depth = entered × P/E. */
export function uniformModel(input: DepthInput): StraightModel {
  const { penetration, entered } = lastPin(input);
  const factor = entered > 0 ? penetration / entered : 1;
  return rival('uniform', input, factor, 0, {
    entered: (p) => p / factor,
    // recovery is its one number
    perNumber: (p) => p,
  });
}

/** All that is missing at the last pin is missing at the top; below it everything came up whole. */
export function allAtTopModel(input: DepthInput): StraightModel {
  const { penetration, entered } = lastPin(input);
  const missing = Math.max(0, penetration - entered);
  return rival('all at top', input, 1, missing, {
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

/** What has entered at a penetration, both m from the start of the model. */
interface Rule {
  entered: (penetration: number) => number;
  /** Change of `entered` with the one number of the model. */
  perNumber: (penetration: number) => number;
}

function rival(
  kind: StraightModel['kind'],
  input: DepthInput,
  factor: number,
  missing_m: number,
  rule: Rule,
): StraightModel {
  const { from_m, penetration_m } = input;
  return {
    kind,
    draws: 1,
    from_m,
    penetration_m,
    factor,
    missing_m,
    not_represented: missing_m > 0 ? [{ top_m: from_m, bottom_m: from_m + missing_m }] : [],
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
