/**
 * By-passed ground: stretches of which nothing enters, whatever their layer. Down the hole ground enters and is by-passed in
 * turns of exponential thickness. A spell gets a table of ways, drawn from that prior and the same for all draws; which of
 * them a draw takes is chosen with regard to what entered, and the difference from the prior goes into its weight.
 */
import { exp, log, type RandomStream, square } from '@stillstand/science/base';
import type { Spell } from './cells.ts';
import { ROUGH, type Steered } from './look-ahead.ts';
import type { DepthSettings } from './settings.ts';

/** Ways with by-passed ground: below ground that entered, and below ground that did not. */
const BELOW_ENTERED = 48;
const BELOW_PASSED = 24;
/** They are told apart by how much they by-pass, in so many classes. */
const CLASSES = 6;
/** Share of draws that take a way as in the prior, so that no weight is far above another. */
const PLAIN = 0.1;
/** Steps of the plastic-number sequence, even in two dimensions (Roberts 2018): 1/g and 1/g², g³ = g + 1. */
const STEP_1 = 0.7548776662466927;
const STEP_2 = 0.5698402909980532;

/** How the ground of one spell can be by-passed; way 0: not at all. */
export interface Ways {
  /** Where the by-passed part of a cell begins and ends, as a share of the cell, [way][cell]; 0 and 0 where there is none. */
  from: Float32Array;
  to: Float32Array;
  /** Ground that enters, m, [way][cell], and in all, [way]. */
  open: Float64Array;
  open_m: Float64Array;
  /** Whether the base of the spell is by-passed, by way. */
  below: Uint8Array;
  /** What can be taken below ground that entered, and below ground that did not. */
  choices: readonly [Choice[], Choice[]];
}

/** Ways that by-pass about as much, `from` to `to` − 1: each as probable as another, `probability` together. */
interface Choice {
  from: number;
  to: number;
  probability: number;
  /** Ground that enters, mean, m. */
  open_m: number;
}

type Prior = Pick<DepthSettings, 'by_passed' | 'by_passed_m'>;

/** Null where the settings know of no by-passing. */
export function waysOf(spell: Spell, { by_passed, by_passed_m }: Prior, stream: RandomStream): Ways | null {
  if (!(by_passed > 0)) return null;
  const { cells, length_m } = spell;
  const entered_m = (by_passed_m * (1 - by_passed)) / by_passed;
  const some = 1 - exp(-length_m / entered_m);
  const below = (first_m: number, offset: [number, number], count: number): Path[] => {
    const paths: Path[] = [];
    for (let i = 0; i < count; i++) {
      const u = (offset[0] + i * STEP_1) % 1;
      const v = (offset[1] + i * STEP_2) % 1;
      // to the first by-passed ground, which lies in the spell
      const top = first_m * -log(1 - u * some);
      paths.push(pathFrom(top, -by_passed_m * log(1 - v), entered_m, by_passed_m, spell, stream));
    }
    return paths.sort((a, b) => b.open_m - a.open_m);
  };
  const offset = (): [number, number] => [stream.uniform(), stream.uniform()];
  const paths = [
    [{ from: new Float32Array(cells), to: new Float32Array(cells), open_m: length_m, below: 0 }],
    below(entered_m, offset(), BELOW_ENTERED),
    below(0, offset(), BELOW_PASSED),
  ] as const;
  const all = paths.flat();
  const { from, to, open } = {
    from: new Float32Array(all.length * cells),
    to: new Float32Array(all.length * cells),
    open: new Float64Array(all.length * cells),
  };
  all.forEach((path, w) => {
    from.set(path.from, w * cells);
    to.set(path.to, w * cells);
    for (let k = 0; k < cells; k++) open[w * cells + k] = spell.cell_m * (1 - (path.to[k]! - path.from[k]!));
  });
  const whole: Choice = { from: 0, to: 1, probability: 1 - some, open_m: length_m };
  return {
    from,
    to,
    open,
    open_m: Float64Array.from(all, (_, w) => {
      let sum = 0;
      for (let k = 0; k < cells; k++) sum += open[w * cells + k]!;
      return sum;
    }),
    below: Uint8Array.from(all, (path) => path.below),
    choices: [[whole, ...classed(paths[1], 1, some)], classed(paths[2], 1 + BELOW_ENTERED, 1)],
  };
}

/** By-passed ground of one spell. */
interface Path {
  from: Float32Array;
  to: Float32Array;
  open_m: number;
  below: 0 | 1;
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
  while (top < length_m) {
    for (let k = Math.floor(top / cell_m); k < cells && k * cell_m < bottom; k++) {
      const begins = Math.max(0, top / cell_m - k);
      from[k] = to[k]! > 0 ? Math.min(from[k]!, begins) : begins;
      to[k] = Math.min(1, bottom / cell_m - k);
    }
    if (bottom >= length_m) break;
    top = bottom - entered_m * log(1 - stream.uniform());
    bottom = top - by_passed_m * log(1 - stream.uniform());
  }
  let open_m = 0;
  for (let k = 0; k < cells; k++) open_m += cell_m * (1 - (to[k]! - from[k]!));
  return { from, to, open_m, below: bottom >= length_m && top < length_m ? 1 : 0 };
}

/** Paths in order of what enters, in classes alike in number. */
function classed(paths: readonly Path[], first: number, probability: number): Choice[] {
  return Array.from({ length: CLASSES }, (_, c) => {
    const from = Math.floor((c * paths.length) / CLASSES);
    const to = Math.floor(((c + 1) * paths.length) / CLASSES);
    let open_m = 0;
    for (let i = from; i < to; i++) open_m += paths[i]!.open_m / (to - from);
    return {
      from: first + from,
      to: first + to,
      probability: (probability * (to - from)) / paths.length,
      open_m,
    };
  });
}

/** A way as in the prior. */
export function freeWay({ choices }: Ways, above: 0 | 1, stream: RandomStream): number {
  let u = stream.uniform();
  for (const { from, to, probability } of choices[above]) {
    if (u < probability) return from + Math.floor(((to - from) * u) / probability);
    u -= probability;
  }
  return choices[above][0]!.from;
}

/** Rooms that are written over. */
const odds = new Float64Array(CLASSES + 1);

/**
 * Draws a way where `aim_m` is to enter, ± `sigma_m`, and its ground that enters has the expected logit of recovery `mean`.
 * Gives the logarithm of prior ÷ probability of the draw in `into[0]`.
 */
export function drawWay(
  { choices }: Ways,
  { length_m }: Spell,
  { own_variance }: Steered,
  above: 0 | 1,
  aim_m: number,
  sigma_m: number,
  mean: number,
  layer_sd: number,
  stream: RandomStream,
  into: Float64Array,
): number {
  const among = choices[above];
  const count = among.length;
  let total = 0;
  for (let c = 0; c < count; c++) {
    const { probability, open_m } = among[c]!;
    const edge = Math.min(0.3 * open_m, sigma_m);
    const enters = Math.max(edge, Math.min(open_m - edge, aim_m));
    const recovery = enters / open_m;
    const slope = open_m * recovery * (1 - recovery);
    const spread = Math.min(1, (own_variance * length_m) / open_m);
    const variance = square(layer_sd) * spread + ROUGH + square(sigma_m / slope);
    const off = log(recovery / (1 - recovery)) - mean;
    const past = (aim_m - enters) / sigma_m;
    const density = exp(-0.5 * ((off * off) / variance + past * past)) / (Math.sqrt(variance) * slope);
    odds[c] = probability * density;
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
  return from + Math.min(to - from - 1, Math.floor(((to - from) * u) / drawn));
}
