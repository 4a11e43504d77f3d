/**
 * By-passed ground: cells of which hardly anything enters, whatever their layer. Which cells of a spell they are is drawn
 * with regard to what entered; the difference from their prior goes into the weight.
 */
import { exp, log, type RandomStream, square } from '@stillstand/science/base';
import type { Spell } from './cells.ts';
import { ROUGH, type Steered } from './look-ahead.ts';

/** In a spell of more cells they are drawn as in the prior: it then holds all the ways there are. */
const MOST_CELLS = 6;
/** Share of draws that are as in the prior, so that no weight is far above another. */
const PLAIN = 0.1;

/** What can be by-passed in a spell. A way is a set of cells, bit k for cell k. */
export interface Passing {
  /** Ways by how many cells they by-pass. */
  ways: Int32Array[];
  /** Probability of a way, and of so many cells, where the cell above the spell was not by-passed and where it was. */
  way: [Float64Array, Float64Array];
  count: [Float64Array, Float64Array];
}

export function passingOf(spell: Spell): Passing | null {
  const { cells: n, pass, enter_pass } = spell;
  if (n > MOST_CELLS || enter_pass[1] === 0) return null;
  const all = 1 << n;
  const way: [Float64Array, Float64Array] = [new Float64Array(all), new Float64Array(all)];
  const count: [Float64Array, Float64Array] = [new Float64Array(n + 1), new Float64Array(n + 1)];
  const ways: number[][] = Array.from({ length: n + 1 }, () => []);
  for (let b = 0; b < all; b++) {
    const number = bitsOf(b);
    ways[number]!.push(b);
    for (const above of [0, 1] as const) {
      let state = above as number;
      let probability = 1;
      for (let k = 0; k < n; k++) {
        const passed = (k === 0 ? enter_pass : pass)[state]!;
        state = (b >> k) & 1;
        probability *= state === 1 ? passed : 1 - passed;
      }
      way[above][b] = probability;
      count[above][number] = count[above][number]! + probability;
    }
  }
  return { ways: ways.map((w) => Int32Array.from(w)), way, count };
}

export function bitsOf(way: number): number {
  let number = 0;
  for (let b = way; b !== 0; b &= b - 1) number++;
  return number;
}

/** A way as in the prior, for spells too long to list them. */
export function freeWay({ cells, pass, enter_pass }: Spell, above: number, stream: RandomStream): number {
  let way = 0;
  let state = above;
  for (let k = 0; k < cells; k++) {
    state = stream.uniform() < (k === 0 ? enter_pass : pass)[state]! ? 1 : 0;
    if (state === 1) way |= 1 << k;
  }
  return way;
}

/** Rooms that are written over. */
const odds = new Float64Array(MOST_CELLS + 1);

/**
 * Draws a way; gives the logarithm of its prior ÷ what it was drawn with in `into[0]`.
 *
 * @param aim_m what is to enter in the spell, ± sigma_m
 * @param mean logit of recovery expected of its open cells
 */
export function drawWay(
  { ways, way, count }: Passing,
  spell: Spell,
  { own_variance }: Steered,
  by_passed_recovery: number,
  above: number,
  aim_m: number,
  sigma_m: number,
  mean: number,
  layer_sd: number,
  stream: RandomStream,
  into: Float64Array,
): number {
  const { cells: n, cell_m } = spell;
  const counted = count[above as 0 | 1];
  let total = 0;
  for (let b = 0; b <= n; b++) {
    const prior = counted[b]!;
    const passed_m = b * cell_m * by_passed_recovery;
    let density: number;
    if (b === n) {
      density = exp(-0.5 * square((aim_m - passed_m) / sigma_m)) / sigma_m;
    } else {
      const open_m = (n - b) * cell_m;
      const rest_m = aim_m - passed_m;
      const edge = Math.min(0.3 * open_m, sigma_m);
      const enters = rest_m < edge ? edge : rest_m > open_m - edge ? open_m - edge : rest_m;
      const recovery = enters / open_m;
      const slope = open_m * recovery * (1 - recovery);
      const share = (own_variance * n) / (n - b);
      const variance = square(layer_sd) * (share < 1 ? share : 1) + ROUGH + square(sigma_m / slope);
      const off = log(recovery / (1 - recovery)) - mean;
      density =
        exp(-0.5 * ((off * off) / variance + square((rest_m - enters) / sigma_m))) /
        (Math.sqrt(variance) * slope);
    }
    odds[b] = prior * density;
    total += odds[b]!;
  }
  // how many, then which
  const scale = total > 0 ? (1 - PLAIN) / total : 0;
  let u = stream.uniform();
  let number = 0;
  let drawn = 0;
  for (let b = 0; b <= n; b++) {
    drawn = odds[b]! * scale + (total > 0 ? PLAIN : 1) * counted[b]!;
    number = b;
    u -= drawn;
    if (u < 0) break;
  }
  into[0] = log(counted[number]! / drawn);
  const list = ways[number]!;
  if (list.length === 1) return list[0]!;
  let v = stream.uniform() * counted[number]!;
  let chosen = list[0]!;
  for (let i = 0; i < list.length; i++) {
    chosen = list[i]!;
    v -= way[above as 0 | 1][chosen]!;
    if (v < 0) break;
  }
  return chosen;
}
