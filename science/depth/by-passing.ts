/**
 * By-passed ground: stretches of which nothing enters, whatever their layer. Down the hole ground enters and is by-passed
 * in turns of exponential thickness. A spell gets a table of ways, drawn from that prior and the same for all draws; which
 * of them a draw takes is chosen with regard to what entered, and the difference from the prior goes into its weight.
 */
import { exp, log, type RandomStream, square } from '@stillstand/science/base';
import type { Spell } from './cells.ts';
import type { DepthSettings } from './settings.ts';

/** Ways with by-passed ground: below ground that entered, and below ground that did not. */
const BELOW_ENTERED = 32;
const BELOW_PASSED = 16;
/** They are grouped by whether they reach the base of the spell, and by how much they by-pass, in groups of so many. */
const GROUP = 3;
/** Share of draws that take a way as in the prior, so that no weight is far above another. */
const PLAIN = 0.1;
/** Variance of the mean of layers as read, as a logit, that a straight line misses. Steers only. */
export const ROUGH = 0.02;
/** Steps of the plastic-number sequence, even in two dimensions (Roberts 2018): 1/g and 1/g², g³ = g + 1. */
const STEP_1 = 0.7548776662466927;
const STEP_2 = 0.5698402909980532;

/** How the ground of one spell can be by-passed; way 0: not at all. */
export interface Ways {
  /** Where the by-passed part of a cell begins and ends, as a share of the cell, [way][cell]; 0 and 0: no part. */
  from: Float32Array;
  to: Float32Array;
  /** Ground that enters, m, [way][cell], and in all, [way]. */
  open: Float64Array;
  open_m: Float64Array;
  /** 1 where the base of the spell is by-passed, by way. */
  below: Uint8Array;
  /** What can be taken below ground that entered, and below ground that did not. */
  choices: readonly [Choice[], Choice[]];
}

/** Ways that by-pass about as much, `from` to `to` − 1: each as probable as another, `probability` together; do they reach
 * the base? */
export interface Choice {
  from: number;
  to: number;
  probability: number;
  /** Ground that enters, mean, m. */
  open_m: number;
  below: 0 | 1;
}

/** Null where the settings know of no by-passing. */
export function waysOf(
  spell: Spell,
  { by_passing, by_passed, by_passed_m }: DepthSettings,
  stream: RandomStream,
): Ways | null {
  if (by_passing === 0) return null;
  const { cells, cell_m, length_m } = spell;
  const entered_m = (by_passed_m * (1 - by_passed)) / by_passed;
  // that any of the spell is by-passed
  const some = 1 - exp(-length_m / entered_m);
  const paths: Path[] = [
    { from: new Float32Array(cells), to: new Float32Array(cells), open_m: length_m, below: 0 },
  ];
  const choicesOf = (first_m: number, count: number, probability: number): Choice[] => {
    const offset = stream.uniform();
    const drawn: Path[] = [];
    for (let i = 0; i < count; i++) {
      const u = (offset + i * STEP_1) % 1;
      const v = (offset + i * STEP_2) % 1;
      const top = -first_m * log(1 - u * some);
      drawn.push(pathFrom(top, -by_passed_m * log(1 - v), entered_m, by_passed_m, spell, stream));
    }
    drawn.sort((a, b) => a.below - b.below || b.open_m - a.open_m);
    const first = paths.length;
    paths.push(...drawn);
    return grouped(drawn, first, probability);
  };
  const whole: Choice = { from: 0, to: 1, probability: 1 - some, open_m: length_m, below: 0 };
  const choices: [Choice[], Choice[]] = [
    [whole, ...choicesOf(entered_m, BELOW_ENTERED, some)],
    choicesOf(0, BELOW_PASSED, 1),
  ];
  const from = new Float32Array(paths.length * cells);
  const to = new Float32Array(paths.length * cells);
  paths.forEach((path, w) => {
    from.set(path.from, w * cells);
    to.set(path.to, w * cells);
  });
  return {
    from,
    to,
    open: Float64Array.from(from, (f, i) => cell_m * (1 - (to[i]! - f))),
    open_m: Float64Array.from(paths, (path) => path.open_m),
    below: Uint8Array.from(paths, (path) => path.below),
    choices,
  };
}

/** By-passed ground of one spell. */
interface Path {
  from: Float32Array;
  to: Float32Array;
  open_m: number;
  below: 0 | 1;
}

/** Paths in order, in groups; each is as probable as another. */
function grouped(paths: readonly Path[], first: number, probability: number): Choice[] {
  const groups: Choice[] = [];
  for (let from = 0, to = 0; from < paths.length; from = to) {
    const { below } = paths[from]!;
    let open_m = 0;
    while (to < paths.length && to < from + GROUP && paths[to]!.below === below)
      open_m += paths[to++]!.open_m;
    groups.push({
      from: first + from,
      to: first + to,
      probability: (probability * (to - from)) / paths.length,
      open_m: open_m / (to - from),
      below,
    });
  }
  return groups;
}

/** By-passed from `top_m` on for `thick_m`, and so on in turns. A cell has one by-passed part: two are joined. */
function pathFrom(
  top_m: number,
  thick_m: number,
  entered_m: number,
  by_passed_m: number,
  { cells, cell_m, length_m }: Spell,
  stream: RandomStream,
): Path {
  const from = new Float32Array(cells);
  const to = new Float32Array(cells);
  let top = top_m;
  let bottom = top_m + thick_m;
  while (top < length_m && bottom < length_m) {
    cut(from, to, top / cell_m, bottom / cell_m);
    top = bottom - entered_m * log(1 - stream.uniform());
    bottom = top - by_passed_m * log(1 - stream.uniform());
  }
  const below = top < length_m ? 1 : 0;
  if (below === 1) cut(from, to, top / cell_m, cells);
  let open_m = 0;
  for (let k = 0; k < cells; k++) open_m += cell_m * (1 - (to[k]! - from[k]!));
  return { from, to, open_m, below };
}

/** By-passes a stretch, in cells. */
function cut(from: Float32Array, to: Float32Array, top: number, bottom: number): void {
  for (let k = Math.floor(top); k < from.length && k < bottom; k++) {
    if (to[k] === 0) from[k] = Math.max(0, top - k);
    to[k] = Math.min(1, bottom - k);
  }
}

/** A way as in the prior. */
export function freeWay(among: readonly Choice[], stream: RandomStream): number {
  let u = stream.uniform();
  for (const { from, to, probability } of among) {
    if (u < probability) return from + Math.floor(((to - from) * u) / probability);
    u -= probability;
  }
  return among[0]!.from;
}

/** What is to enter where some of a spell is open, kept between nothing and all of that. */
export interface Gain {
  /** Logit of recovery, its slope in metres, and how many sigmas more or less was to enter. */
  logit: number;
  slope_m: number;
  past: number;
  /** The spell ÷ what of it is open, at most 2: what the variance of the mean of its layers grows by. */
  fewer: number;
}

/** `aim_m` ± `sigma_m` is to enter of `open_m` of a spell. */
export function gainOf(aim_m: number, sigma_m: number, open_m: number, length_m: number, into: Gain): Gain {
  const edge = Math.min(0.3 * open_m, sigma_m);
  const enters = Math.max(edge, Math.min(open_m - edge, aim_m));
  const recovery = enters / open_m;
  into.slope_m = open_m * recovery * (1 - recovery);
  into.logit = log(recovery / (1 - recovery));
  into.past = (aim_m - enters) / sigma_m;
  into.fewer = Math.min(2, length_m / open_m);
  return into;
}

/**
 * Density of it, but for √2π.
 *
 * @param mean of the logit of recovery, as the layers are expected
 * @param variance of it, were all of the spell to enter
 * @param flatten what layers within the spell flatten the logistic by
 */
export function gainDensity(
  { logit, slope_m, past, fewer }: Gain,
  sigma_m: number,
  mean: number,
  variance: number,
  flatten: number,
): number {
  const slope = slope_m / flatten;
  const spread = variance * fewer + ROUGH + square(sigma_m / slope);
  const off = flatten * logit - mean;
  return exp(-0.5 * ((off * off) / spread + past * past)) / (Math.sqrt(spread) * slope);
}

export const noGain = (): Gain => ({ logit: 0, slope_m: 1, past: 0, fewer: 1 });

/** Rooms that are written over. */
const within = new Float64Array(GROUP);
const odds = new Float64Array(1 + BELOW_ENTERED);
const gain = noGain();

/**
 * Draws a way for a spell in which `aim_m` is to enter. Gives the logarithm of prior ÷ probability of the draw in `into[0]`.
 *
 * @param onward how much better the next spell is read if by-passed ground reaches down to it
 */
export function drawWay(
  { open_m: openOf }: Ways,
  among: readonly Choice[],
  aim_m: number,
  sigma_m: number,
  length_m: number,
  mean: number,
  variance: number,
  flatten: number,
  onward: number,
  stream: RandomStream,
  into: Float64Array,
): number {
  const count = among.length;
  if (count === 1) {
    into[0] = 0;
    return among[0]!.from;
  }
  let total = 0;
  for (let c = 0; c < count; c++) {
    const { probability, open_m, below } = among[c]!;
    // what enters of the rest is less still
    const past = open_m + 4 * sigma_m < aim_m;
    gainOf(aim_m, sigma_m, open_m, length_m, gain);
    odds[c] = past ? 0 : probability * gainDensity(gain, sigma_m, mean, variance, flatten);
    if (below === 1) odds[c] = odds[c]! * onward;
    total += odds[c]!;
  }
  const scale = total > 0 ? (1 - PLAIN) / total : 0;
  const plain = total > 0 ? PLAIN : 1;
  let u = stream.uniform();
  let c = 0;
  let drawn = odds[0]! * scale + plain * among[0]!.probability;
  while (u >= drawn && c < count - 1) {
    u -= drawn;
    c++;
    drawn = odds[c]! * scale + plain * among[c]!.probability;
  }
  const { from, to, probability } = among[c]!;
  into[0] = log(probability / drawn);
  const size = to - from;
  if (size === 1) return from;
  // which of the group, in the same manner
  let sum = 0;
  for (let i = 0; i < size; i++) {
    gainOf(aim_m, sigma_m, openOf[from + i]!, length_m, gain);
    within[i] = gainDensity(gain, sigma_m, mean, variance, flatten);
    sum += within[i]!;
  }
  let v = stream.uniform();
  for (let i = 0; ; i++) {
    const chance = sum > 0 ? PLAIN / size + ((1 - PLAIN) * within[i]!) / sum : 1 / size;
    if (v < chance || i === size - 1) {
      into[0] = into[0]! - log(chance * size);
      return from + i;
    }
    v -= chance;
  }
}
