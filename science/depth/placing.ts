/**
 * From a length along what entered to depths in the ground, one for each draw. What the filter leaves open is drawn here:
 * errors of the runs, how recovery changes within a cell, the unknown part of a loss, the tape.
 */
import { type RandomStream, streamOf } from '@stillstand/science/base';
import type { EnteredPlace } from '@stillstand/science/rig';
import type { ReadingErrors } from './errors.ts';
import type { DecayingModel } from './model.ts';
import type { DepthSettings } from './settings.ts';

/**
 * Within a cell entered length is gain·t + bend·t(1 − t) of its share t. With recovery a random walk of variance q per
 * metre, known by its means over this cell and its two neighbours, bend has the mean −0.3·(mean below − mean above) and
 * the sd 0.428·√(q·cell), both times the cell: worked out from the covariance of the walk and its means.
 */
const BEND_TREND = 0.3;
const BEND_SD = 0.428;
/** Share of a cell that enters, less than which counts as none. */
const LEAST_OPEN = 1e-4;

/** 1 sd of the bend of each cell as a share of ρ(1 − ρ), for layers of sd 1. */
export function bendSds(edges_m: Float64Array, { layer_length_m }: DepthSettings): Float64Array {
  const walk = 2 / layer_length_m;
  return Float64Array.from(
    { length: edges_m.length - 1 },
    (_, k) => BEND_SD * Math.sqrt(walk * (edges_m[k + 1]! - edges_m[k]!)),
  );
}

/** One deviate a draw. */
export function deviates(draws: number, stream: RandomStream): Float32Array {
  const noise = new Float32Array(draws);
  for (let i = 0; i < draws; i++) noise[i] = stream.normal();
  return noise;
}

/** Writes the depth of each draw, m below ground, and gives the share of draws that lie below what the hole reached. */
type Placer = (where: number | EnteredPlace, into: Float64Array) => number;

/** Answers from a model; what it works out on the way it keeps, so that many places are asked of one placer. */
export function placer(model: DecayingModel): Placer {
  const { draws: n, edges_m: edges, entered_m: entered, bend_sd: bendSd, layer_sd, runs: runRows } = model;
  const count = edges.length;
  const last = count - 2;
  const length = edges[count - 1]!;
  const runs = runRows.length;
  const perSize = Float64Array.from({ length: count - 1 }, (_, k) => 1 / (edges[k + 1]! - edges[k]!));
  const runAt = new Map(runRows.map((r, i) => [r.row_id, i]));
  const stream = streamOf(model.stream);
  const fractions = new Map<string, Float64Array>();
  const fractionsOf = (name: string): Float64Array => {
    let f = fractions.get(name);
    if (f === undefined) {
      const own = stream.split('loss').split(name);
      f = Float64Array.from({ length: n }, () => own.uniform());
      fractions.set(name, f);
    }
    return f;
  };

  // how ground is by-passed: spell of each cell, and what is by-passed of it, as a share, for a draw
  const { first, ways, taken } = model.by_passed;
  const spells = first.length;
  const spellOf = new Int32Array(count - 1);
  for (let s = 0; s < spells; s++) spellOf.fill(s, first[s]!);
  const sizes = Int32Array.from(first, (f, s) => (first[s + 1] ?? count - 1) - f);
  let begins = 0;
  let ends = 0;
  const look = (draw: number, k: number): void => {
    const s = spellOf[k]!;
    const way = taken[draw * spells + s]!;
    const all = ways[s]!;
    if (way === 0 || all === null) {
      begins = 0;
      ends = 0;
      return;
    }
    const at = way * sizes[s]! + k - first[s]!;
    begins = all.from[at]!;
    ends = all.to[at]!;
  };
  /** Local recovery of the ground of a cell that is not by-passed; of one that is, `otherwise`. */
  const recoveryOf = (draw: number, k: number, otherwise: number): number => {
    look(draw, k);
    const open = 1 - (ends - begins);
    if (!(open > LEAST_OPEN)) return otherwise;
    const base = draw * count;
    return Math.min(1, ((entered[base + k + 1]! - entered[base + k]!) * perSize[k]!) / open);
  };

  let cell = 0; // where a search begins: draws are alike
  const depthAt = (draw: number, e: number, noise: Float32Array): number => {
    const base = draw * count;
    if (!(e > 0) || count === 1) return 0;
    if (e >= entered[base + count - 1]!) return length;
    while (entered[base + cell]! > e) cell--;
    while (entered[base + cell + 1]! <= e) cell++;
    const k = cell;
    const rho = recoveryOf(draw, k, 1);
    const open = 1 - (ends - begins);
    const from = begins;
    const gap = ends - begins;
    const per = perSize[k]!;
    const rise = ((e - entered[base + k]!) * per) / open;
    if (!(rise > 0)) return edges[k]!;
    const above = k === 0 ? rho : recoveryOf(draw, k - 1, rho);
    const below = k === last ? rho : recoveryOf(draw, k + 1, rho);
    let turn = draw + 7 * k;
    while (turn >= n) turn -= n;
    let bend = bendSd[k]! * layer_sd[draw]! * rho * (1 - rho) * noise[turn]! - BEND_TREND * (below - above);
    // recovery stays within 0 and 1 from end to end
    const most = rho < 0.5 ? rho : 1 - rho;
    if (bend > most) bend = most;
    else if (bend < -most) bend = -most;
    const steep = rho + bend;
    const root = steep * steep - 4 * bend * rise;
    const t = (2 * rise) / (steep + (root > 0 ? Math.sqrt(root) : 0));
    // along the ground that enters, then over what is by-passed
    let along = t < 1 ? t * open : open;
    if (along > from) along += gap;
    return edges[k]! + along / per;
  };

  return (where, into) => {
    const noise = model.bends;
    const off = runs === 0 ? null : model.run_errors_m;
    const place = typeof where === 'number' ? null : where;
    const fraction = place === null || place.high_m === place.low_m ? null : fractionsOf(place.shared);
    const tape =
      place === null ? null : deviates(n, stream.split('tape').split(place.shared).split(place.low_m));
    // the rig's count is off by what its count of the removed is off by: at the run's top, at its base, or between them
    let run = -1;
    let share = 0;
    if (off !== null) {
      const own = place === null ? undefined : runAt.get(place.shared);
      if (own === undefined) {
        const e = typeof where === 'number' ? where : where.low_m;
        run = 0;
        while (run < runs - 1 && runRows[run]!.entered_bottom_m < e) run++;
        const top = run === 0 ? 0 : runRows[run - 1]!.entered_bottom_m;
        const bottom = runRows[run]!.entered_bottom_m;
        share = bottom > top ? Math.max(0, Math.min(1, (e - top) / (bottom - top))) : 1;
      } else run = own;
      if (own !== undefined) share = place!.error_low;
    }
    const spread = place === null || !runAt.has(place.shared) ? 0 : place.error_high - place.error_low;
    let beyond = 0;
    for (let i = 0; i < n; i++) {
      let e = place === null ? (where as number) : place.low_m;
      let part = share;
      if (fraction !== null) {
        e += fraction[i]! * (place!.high_m - place!.low_m);
        part += fraction[i]! * spread;
      }
      if (tape !== null) e += model.tape_sigma_m * tape[i]!;
      if (off !== null) {
        const before = run === 0 ? 0 : off[i * runs + run - 1]!;
        e -= before + part * (off[i * runs + run]! - before);
      }
      if (e > entered[i * count + count - 1]! + 1e-6) beyond++;
      into[i] = model.from_m + depthAt(i, e, noise);
    }
    return beyond / n;
  };
}

/** Errors of what the runs are said to have removed, given those of the pins, [draw][run]. */
export function runErrors(
  { factor, pins, runs }: ReadingErrors,
  ofPins: Float32Array,
  draws: number,
  stream: RandomStream,
): Float32Array {
  const order = pins + runs;
  const own = new Float64Array(runs);
  const found = new Float32Array(draws * runs);
  for (let i = 0; i < draws; i++) {
    for (let r = 0; r < runs; r++) {
      own[r] = stream.normal();
      const row = (pins + r) * order;
      let sum = 0;
      for (let k = 0; k < pins; k++) sum += factor[row + k]! * ofPins[i * pins + k]!;
      for (let k = 0; k <= r; k++) sum += factor[row + pins + k]! * own[k]!;
      found[i * runs + r] = sum;
    }
  }
  return found;
}
