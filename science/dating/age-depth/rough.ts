/**
 * What the ages of a run are worth roughly: the times of its blocks log-normal, about those of the bend that costs least.
 * It needs no equations solved, so that many ages can be tried by it; the exact density then decides once
 * (Christen & Fox 2005, J. Comput. Graph. Stat. 14:795–810). The histories that a run can bend into are the same seen from
 * any of them, and so are their least costly one and what is rough here.
 */
import { exp, log } from '@stillstand/science/base';
import { type Bending, solve, timesAt } from './bending.ts';
import type { History } from './history.ts';

/** A bend that differs from the others by a smaller share of its curvature is one of them. */
const SAME = 1e-10;

export interface Rough {
  /** By block: log of its time in the bend that costs least; [block × block] ∂ log T/∂c there, factored. */
  logTime: Float64Array;
  jacobian: Float64Array;
  /** [block × block]: curvature of the cost along c; its factor. */
  curvature: Float64Array;
  factor: Float64Array;
  /** By block: what log T is off by from that, asked of `logRough`, which leaves c in its place. */
  off: Float64Array;
  /** Of the loose block, where there is one, in that bend: log of its time; by block ∂ log of it/∂c. */
  logLoose: number;
  ofLoose: Float64Array;
}

export function roughOf(most: number): Rough {
  const of = (n: number): Float64Array => new Float64Array(n);
  return {
    logTime: of(most),
    jacobian: of(most * most),
    curvature: of(most * most),
    factor: of(most * most),
    off: of(most),
    logLoose: 0.5,
    ofLoose: of(most),
  };
}

/** Takes the run that the bends are made for; false where there is none. */
export function roughBy(h: History, bending: Bending, room: Rough): boolean {
  const { blocks, most, b, w, along, c, from, to, wanted, miss } = bending;
  const { sections } = h.hole;
  const { curvature, factor, logTime, jacobian } = room;
  for (let k = 0; k < blocks; k++) {
    for (let l = 0; l <= k; l++) {
      let q = 0;
      for (let j = from; j < to; j++) q += b[k * sections + j]! * w[l * sections + j]!;
      curvature[k * most + l] = q;
      curvature[l * most + k] = q;
      for (let i = 0; i < l; i++) q -= factor[k * most + i]! * factor[l * most + i]!;
      if (k === l && !(q > SAME * curvature[k * most + k]!)) return false;
      factor[k * most + l] = k === l ? Math.sqrt(q) : q / factor[l * most + l]!;
    }
  }
  for (let k = 0; k < blocks; k++) {
    let x = -along[k]!;
    for (let l = 0; l < k; l++) x -= factor[k * most + l]! * c[l]!;
    c[k] = x / factor[k * most + k]!;
  }
  solveRoot(room, bending, c);
  wanted.fill(0, 0, blocks);
  if (!(timesAt(h, bending) > -Infinity)) return false;
  for (let k = 0; k < blocks; k++) {
    logTime[k] = -miss[k]!;
    for (let l = 0; l < blocks; l++) jacobian[k * most + l] = bending.jacobian[k * most + l]!;
  }
  if (bending.hasLoose) {
    room.logLoose = log(bending.loose_yr);
    room.ofLoose.set(bending.ofLoose);
  }
  return true;
}

/** Roughly the time of the loose block, yr, where `off` is c, as `logRough` leaves it. */
export function looseTime({ logLoose, ofLoose, off }: Rough, { blocks }: Bending): number {
  let sum = logLoose;
  for (let k = 0; k < blocks; k++) sum += ofLoose[k]! * off[k]!;
  return exp(sum);
}

/** Rough log density in c of what is `off` in log T from the bend that costs least; leaves c in its place. */
export function logRough({ jacobian, curvature, off }: Rough, { blocks, most }: Bending): number {
  solve(jacobian, most, blocks, off);
  let cost = 0;
  for (let k = 0; k < blocks; k++) {
    let q = 0;
    for (let l = 0; l < k; l++) q += curvature[k * most + l]! * off[l]!;
    cost += off[k]! * (2 * q + curvature[k * most + k]! * off[k]!);
  }
  return -0.5 * cost;
}

/** ½ log |A| and ½cᵀAc of the curvature A, and the c that x, a column of normal numbers, is of: N(0, A⁻¹); in its place. */
export function logRoot({ factor }: Rough, { blocks, most }: Bending): number {
  let sum = 0;
  for (let k = 0; k < blocks; k++) sum += log(factor[k * most + k]!);
  return sum;
}

export function costOf({ curvature }: Rough, { blocks, most }: Bending, c: Float64Array): number {
  let cost = 0;
  for (let k = 0; k < blocks; k++)
    for (let l = 0; l < blocks; l++) cost += 0.5 * c[k]! * c[l]! * curvature[k * most + l]!;
  return cost;
}

export function solveRoot({ factor }: Rough, { blocks, most }: Bending, x: Float64Array): void {
  for (let k = blocks - 1; k >= 0; k--) {
    for (let l = k + 1; l < blocks; l++) x[k] = x[k]! - factor[l * most + k]! * x[l]!;
    x[k] = x[k]! / factor[k * most + k]!;
  }
}

/** What the rough density is to be counted by where bends of other laws are compared: log |A|^½/|∂ log T/∂c|. */
export function logScale({ factor, jacobian }: Rough, { blocks, most }: Bending): number {
  let sum = 0;
  for (let k = 0; k < blocks; k++) sum += log(factor[k * most + k]! / jacobian[k * most + k]!);
  return sum;
}
