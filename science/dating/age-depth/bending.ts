/**
 * How a history bends so that blocks of the ground take other times. Of the sections from one boundary to another let w_k
 * be the metres of each in block k and Q the precision of u there given the sections outside; then b_k = Q⁻¹w_k is the least
 * costly change of u for the time of block k. Along u + Σ c_k b_k the times T_k of blocks say what c is: Newton's steps on
 * their logarithms find it. A density of u is one of the times over |∂T/∂c|.
 */
import { exp, log } from '@stillstand/science/base';
import type { History } from './history.ts';
import type { Hole } from './hole.ts';

export interface Bending {
  /** Blocks there is room for. */
  most: number;
  from: number;
  to: number;
  /** [block × section]: metres the bends are made for, and the bends. */
  w: Float64Array;
  b: Float64Array;
  /** By block: slope of the cost along its bend where the history is. */
  along: Float64Array;
  /** The blocks whose times are asked: metres of the first and last section in each, the whole ones between. */
  blocks: number;
  first: Int32Array;
  last: Int32Array;
  firstMetres: Float64Array;
  lastMetres: Float64Array;
  /** Whether a block follows them that takes what time it takes; that time, and by block ∂ log of it/∂c. */
  hasLoose: boolean;
  loose_yr: number;
  ofLoose: Float64Array;
  /** By block: log of the time wanted, c, what log T is off by; [block × block]: ∂ log T/∂c, factored. */
  wanted: Float64Array;
  c: Float64Array;
  miss: Float64Array;
  jacobian: Float64Array;
  /** By section: LDLᵀ of Q, slope of −log density at u, what is added to u, yr/m with it. */
  diagonal: Float64Array;
  off: Float64Array;
  slope: Float64Array;
  added: Float64Array;
  yr_per_m: Float64Array;
}

/** What is off by so little in log T is found. */
const FOUND = 1e-9;
const MOST_STEPS = 20;
/** The largest change of a log T in a step. */
const LONGEST = 2;

export function bendingOf({ sections }: Hole, most: number): Bending {
  const of = (n: number): Float64Array => new Float64Array(n);
  return {
    most,
    from: 0,
    to: sections,
    w: of(most * sections),
    b: of(most * sections),
    along: of(most),
    blocks: 0,
    first: new Int32Array(most),
    last: new Int32Array(most),
    firstMetres: of(most),
    lastMetres: of(most),
    hasLoose: false,
    loose_yr: 0.5,
    ofLoose: of(most),
    wanted: of(most),
    c: of(most),
    miss: of(most),
    jacobian: of(most * most),
    diagonal: of(sections),
    off: of(sections),
    slope: of(sections),
    added: of(sections),
    yr_per_m: of(sections),
  };
}

/** Takes the sections from ≤ j < to of a history, and its law: Q and the slope. */
export function bendBetween(
  { hole, fresh, variation, memory: m }: History,
  room: Bending,
  from: number,
  to: number,
): void {
  const { isCut, sections } = hole;
  const { diagonal, off, slope } = room;
  room.from = from;
  room.to = to;
  let above = 0;
  for (let j = from; j < to; j++) {
    const isNew = j === 0 || isCut[j] === 1;
    const own = 1 / (variation * (isNew ? m.sd[j]! : m.newSd[j]!));
    const goesOn = j + 1 < sections && isCut[j + 1] === 0;
    const next = goesOn ? m.coefficient[j + 1]! / (variation * m.newSd[j + 1]!) : 0;
    slope[j] = fresh[j]! * own - (next > 0 ? fresh[j + 1]! * next : 0);
    let d = own * own + next * next;
    if (j > from && !isNew) {
      const both = m.coefficient[j]! * own * own;
      off[j] = -both / above;
      d += both * off[j]!;
    } else off[j] = 0;
    diagonal[j] = d;
    above = d;
  }
}

/** b of each block from its w, and the slope of the cost along it. */
export function makeBends(
  { w, b, diagonal, off, slope, along, blocks, from, to }: Bending,
  sections: number,
): void {
  for (let k = 0; k < blocks; k++) {
    const at = k * sections;
    let above = 0;
    for (let j = from; j < to; j++) {
      above = w[at + j]! - off[j]! * above;
      b[at + j] = above;
    }
    let below = 0;
    let offBelow = 0;
    for (let j = to - 1; j >= from; j--) {
      below = b[at + j]! / diagonal[j]! - offBelow * below;
      b[at + j] = below;
      offBelow = off[j]!;
    }
    let g = 0;
    for (let j = from; j < to; j++) g += b[at + j]! * slope[j]!;
    along[k] = g;
  }
}

/** Block k from where the one above it ended, `used` metres down the section `above`, to `reached` metres down section j. */
export function setBlock(
  { first, last, firstMetres, lastMetres }: Bending,
  { thickness_m }: Hole,
  k: number,
  above: number,
  used: number,
  j: number,
  reached: number,
): void {
  first[k] = above;
  last[k] = j;
  firstMetres[k] = (j === above ? reached : thickness_m[above]!) - used;
  lastMetres[k] = reached;
}

/** Log |∂T/∂c| as the history is, c = 0; NaN where the times do not say what c is. */
export function logVolume(h: History, room: Bending): number {
  room.c.fill(0, 0, room.blocks);
  return timesAt(h, room);
}

/** Finds c of the times wanted, and leaves what is added to u; log |∂T/∂c| there, NaN where there is none. */
export function bendTo(h: History, room: Bending): number {
  const { blocks, c, miss, jacobian, most } = room;
  c.fill(0, 0, blocks);
  for (let step = 0; step < MOST_STEPS; step++) {
    const volume = timesAt(h, room);
    if (!(volume > -Infinity)) return Number.NaN;
    let off = 0;
    for (let k = 0; k < blocks; k++) off = Math.max(off, Math.abs(miss[k]!));
    if (off < FOUND) return volume;
    solve(jacobian, most, blocks, miss);
    const share = off > LONGEST ? LONGEST / off : 1;
    for (let k = 0; k < blocks; k++) c[k] = c[k]! + share * miss[k]!;
  }
  return Number.NaN;
}

/** Solves the factored equations for x, in its place. */
export function solve(factored: Float64Array, most: number, blocks: number, x: Float64Array): void {
  for (let k = 1; k < blocks; k++) for (let l = 0; l < k; l++) x[k] = x[k]! - factored[k * most + l]! * x[l]!;
  for (let k = blocks - 1; k >= 0; k--) {
    for (let l = k + 1; l < blocks; l++) x[k] = x[k]! - factored[k * most + l]! * x[l]!;
    x[k] = x[k]! / factored[k * most + k]!;
  }
}

/** The times at c: what their logarithms are off by, the factored ∂ log T/∂c, and log |∂T/∂c|, NaN where it is none. */
export function timesAt({ yr_per_m: old, hole: { sections, thickness_m } }: History, room: Bending): number {
  const { blocks, b, c, wanted, miss, jacobian, most, from, to, added, yr_per_m } = room;
  for (let j = from; j < to; j++) {
    let d = 0;
    for (let k = 0; k < blocks; k++) d += c[k]! * b[k * sections + j]!;
    added[j] = d;
    yr_per_m[j] = d === 0 ? old[j]! : old[j]! * exp(d);
  }
  let volume = 0;
  for (let k = 0; k < blocks; k++) {
    const time = timeOf(room, thickness_m, k, jacobian, k * most);
    if (!(time > 0)) return Number.NaN;
    const logTime = log(time);
    volume += logTime;
    miss[k] = wanted[k]! - logTime;
  }
  if (room.hasLoose) room.loose_yr = timeOf(room, thickness_m, blocks, room.ofLoose, 0);
  // Factored without exchanging rows: a block bends most by its own.
  for (let k = 0; k < blocks; k++) {
    const pivot = jacobian[k * most + k]!;
    if (!(pivot > 1e-12)) return Number.NaN;
    volume += log(pivot);
    for (let r = k + 1; r < blocks; r++) {
      const share = jacobian[r * most + k]! / pivot;
      jacobian[r * most + k] = share;
      for (let l = k + 1; l < blocks; l++)
        jacobian[r * most + l] = jacobian[r * most + l]! - share * jacobian[k * most + l]!;
    }
  }
  return volume;
}

/** Time of block k, yr; leaves ∂ log of it/∂c by block from a place on. */
function timeOf(
  { blocks, b, yr_per_m, first, last, firstMetres, lastMetres }: Bending,
  thickness_m: Float64Array,
  k: number,
  slope: Float64Array,
  at: number,
): number {
  const sections = thickness_m.length;
  for (let l = 0; l < blocks; l++) slope[at + l] = 0;
  let time = 0;
  const start = first[k]!;
  const end = last[k]!;
  for (let j = start; j <= end; j++) {
    const metres = j === start ? firstMetres[k]! : j === end ? lastMetres[k]! : thickness_m[j]!;
    const x = metres * yr_per_m[j]!;
    time += x;
    for (let l = 0; l < blocks; l++) slope[at + l] = slope[at + l]! + x * b[l * sections + j]!;
  }
  for (let l = 0; l < blocks; l++) slope[at + l] = slope[at + l]! / time;
  return time;
}
