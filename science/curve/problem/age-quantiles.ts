/**
 * Where an age lies in its date's own distribution given the error it shares, for moves that keep each age at its
 * quantile while the error moves. Tables on a grid of errors and years, straight between: a move by them is exact whatever
 * they are, as its ratio has the density they imply; the finer they are, the more moves are kept.
 */
import { exp, log } from '@stillstand/science/base';
import { type AgePrior, logAgeGiven } from '@stillstand/science/clocks';

/** Shared errors of the grid, in their sds: so far to either side, at so many. */
const REACH = 4;
const ERRORS = 41;
/** Years between nodes; fewer where a date is known closely. */
const STEP_YR = 5;
/** Beyond so small a density, in nats below the largest of all errors, nothing is kept. */
const FAINT = -18;

export interface AgeQuantiles {
  from_cal_bp: number;
  step_yr: number;
  /** Nodes in years. */
  nodes: number;
  /** Share below each node, [error][node]; 0 at the first, 1 at the last. */
  below: Float64Array;
}

/** Null for an age that shares no error, and for a normal one: that is only shifted. */
export function ageQuantiles(prior: AgePrior): AgeQuantiles | null {
  if (prior.kind !== 'cells' || prior.shared === null) return null;
  const { logDensity, from_cal_bp } = prior;
  let first = 0;
  let last = logDensity.length - 1;
  while (logDensity[first]! < FAINT) first++;
  while (logDensity[last]! < FAINT) last--;
  const parts = Math.max(1, Math.ceil((last - first + 1) / STEP_YR));
  const step_yr = (last - first + 1) / parts;
  const nodes = parts + 1;
  const below = new Float64Array(ERRORS * nodes);
  for (let e = 0; e < ERRORS; e++) {
    const error = REACH * ((2 * e) / (ERRORS - 1) - 1);
    const row = below.subarray(e * nodes, (e + 1) * nodes);
    for (let k = 0; k < parts; k++) {
      // A third of the years stands for all: the curve hardly turns within a part.
      let sum = 0;
      for (const at of [1 / 6, 0.5, 5 / 6])
        sum += exp(logAgeGiven(prior, from_cal_bp + first - 0.5 + (k + at) * step_yr, error));
      row[k + 1] = row[k]! + sum;
    }
    const all = row[parts]!;
    for (let k = 0; k <= parts; k++) row[k] = all > 0 ? row[k]! / all : k / parts;
  }
  return { from_cal_bp: from_cal_bp + first - 0.5, step_yr, nodes, below };
}

export interface Moved {
  age_cal_bp: number;
  /** Log of how much wider years lie about it than before: the Jacobian of the move. */
  log_stretch: number;
}

/** The age at the quantile under another shared error that an age has under this; null beyond the tables. */
export function atSameQuantile(
  { from_cal_bp, step_yr, nodes, below }: AgeQuantiles,
  age_cal_bp: number,
  error: number,
  to: number,
): Moved | null {
  const here = rowAt(error, nodes);
  const there = rowAt(to, nodes);
  const x = (age_cal_bp - from_cal_bp) / step_yr;
  const k = Math.floor(x);
  if (here === null || there === null || !(k >= 0 && k < nodes - 1)) return null;
  const share = (row: Row, node: number): number =>
    (1 - row.part) * below[row.at + node]! + row.part * below[row.at + nodes + node]!;
  const mass = share(here, k + 1) - share(here, k);
  const u = share(here, k) + (x - k) * mass;
  let low = 0;
  let high = nodes - 2;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (share(there, middle + 1) > u) high = middle;
    else low = middle + 1;
  }
  const lowest = share(there, low);
  const newMass = share(there, low + 1) - lowest;
  if (!(mass > 0 && newMass > 0)) return null;
  return {
    age_cal_bp: from_cal_bp + step_yr * (low + (u - lowest) / newMass),
    log_stretch: log(mass / newMass),
  };
}

interface Row {
  /** First number of the row below the error, and how far the error is to the next. */
  at: number;
  part: number;
}

function rowAt(error: number, nodes: number): Row | null {
  const x = ((error + REACH) / (2 * REACH)) * (ERRORS - 1);
  const e = Math.floor(x);
  return e >= 0 && e < ERRORS - 1 ? { at: e * nodes, part: x - e } : null;
}
