/**
 * Another state of the hole, the joint draws of its depth model, with the dated horizons at other depths and of the ages they
 * have: the history bends for it, smoothly, as in `bend.ts`. With b_k = Q⁻¹w_k of the blocks between the horizons at their
 * median depths, there is one history u + Σ c_k b_k in each state in which the horizons have these ages, and from each of
 * them the others are the same; among a few the chain chooses by π(u)/|∂T/∂c|. The shift by a guide (`states.ts`) moves all
 * ages of a stretch alike; where a centimetre is decades, few states fit so.
 */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { logLikelihood } from './date-likelihood.ts';
import { gapsAbove, type History, tell } from './history.ts';
import type { Hole } from './hole.ts';
import { logSections } from './law.ts';

export interface Depths {
  /** Horizons whose ages are kept, by depth: more than a section apart. */
  kept: Int32Array;
  /** [kept × section]: metres of each block at the median depths, and the bends for it. */
  w: Float64Array;
  b: Float64Array;
  /** By kept horizon: age with gaps, c, log T wanted, what it is off by; [kept × kept]: ∂ log T/∂c, factored. */
  age: Float64Array;
  c: Float64Array;
  wanted: Float64Array;
  miss: Float64Array;
  jacobian: Float64Array;
  diagonal: Float64Array;
  off: Float64Array;
  yr_per_m: Float64Array;
  u: Float64Array;
  trial: Float64Array;
}

/** States to choose among besides the present one. */
const AMONG = 3;
/** More horizons make the equations too dear. */
const MOST = 40;

/** Null for a hole of one state. */
export function depthsOf(hole: Hole): Depths | null {
  const { sections, section_m, states, horizons } = hole;
  if (states === 1) return null;
  const sorted = horizons.map((_, i) => i).sort((a, b) => horizons[a]!.median_m - horizons[b]!.median_m);
  const kept: number[] = [];
  for (const i of sorted) {
    const before = kept.length === 0 ? 0 : horizons[kept.at(-1)!]!.median_m;
    if (horizons[i]!.median_m > before + 0.5 * section_m) kept.push(i);
  }
  if (kept.length === 0 || kept.length > MOST) return null;
  const n = kept.length;
  const of = (count: number): Float64Array => new Float64Array(count);
  const w = of(n * sections);
  let above = 0;
  for (const [k, i] of kept.entries()) {
    const { median_m } = horizons[i]!;
    for (let j = 0; j < sections; j++) {
      const top = j * section_m;
      w[k * sections + j] = Math.max(0, Math.min(median_m, top + section_m) - Math.max(above, top));
    }
    above = median_m;
  }
  return {
    kept: Int32Array.from(kept),
    w,
    b: of(n * sections),
    age: of(n),
    c: of(n),
    wanted: of(n),
    miss: of(n),
    jacobian: of(n * n),
    diagonal: of(sections),
    off: of(sections),
    yr_per_m: of(sections),
    u: of(sections),
    trial: of(sections),
  };
}

/** Chooses a state anew; returns whether it is another. */
export function drawDepths(h: History, room: Depths, stream: RandomStream): boolean {
  const { hole } = h;
  const n = hole.dates.length;
  const { kept, age, c } = room;
  bends(h, room);
  for (let k = 0; k < kept.length; k++) {
    const i = kept[k]!;
    age[k] = h.bare_cal_bp[i]! + h.gaps_yr[i]!;
  }
  c.fill(0);
  const here = jacobianIn(h, room, h.state);
  if (Number.isNaN(here)) return false;
  let level = 0;
  for (let i = 0; i < n; i++) level += h.level[i]!;
  let peak =
    logSections(h.u, hole.isCut, h.law.mean, h.variation, h.memory) + level - here - log(stream.exponential());
  let chosen = -1;
  for (let m = 0; m < AMONG; m++) {
    const state = stream.integer(hole.states);
    const noise = -log(stream.exponential());
    if (state === h.state) continue;
    const weight = inState(h, room, state) + noise;
    if (weight > peak) {
      peak = weight;
      chosen = state;
      room.trial.set(room.u);
    }
  }
  if (chosen < 0) return false;
  h.u.set(room.trial);
  h.state = chosen;
  tell(h);
  return true;
}

/** Log weight of the history's form in a state, which is left in `u`; −∞ where it has none. */
function inState(h: History, room: Depths, state: number): number {
  const { hole } = h;
  const { sections, section_m, dates } = hole;
  const { kept, age, wanted, c, miss, jacobian, u, yr_per_m, b } = room;
  const n = kept.length;
  let before = h.ground_cal_bp;
  for (let k = 0; k < n; k++) {
    const bare = age[k]! - gapsAbove(h, kept[k]!, state);
    if (!(bare > before)) return -Infinity;
    wanted[k] = log(bare - before);
    before = bare;
  }
  c.fill(0);
  let logDet = Number.NaN;
  for (let step = 0; step < 24; step++) {
    logDet = jacobianIn(h, room, state);
    if (Number.isNaN(logDet)) return -Infinity;
    let off = 0;
    for (let k = 0; k < n; k++) off = Math.max(off, Math.abs(miss[k]!));
    if (off < 1e-10) break;
    if (step === 23) return -Infinity;
    for (let k = 0; k < n; k++)
      for (let l = 0; l < k; l++) miss[k] = miss[k]! - jacobian[k * n + l]! * miss[l]!;
    for (let k = n - 1; k >= 0; k--) {
      for (let l = k + 1; l < n; l++) miss[k] = miss[k]! - jacobian[k * n + l]! * miss[l]!;
      miss[k] = miss[k]! / jacobian[k * n + k]!;
    }
    let longest = 0;
    for (let j = 0; j < sections; j++) {
      let d = 0;
      for (let k = 0; k < n; k++) d += miss[k]! * b[k * sections + j]!;
      longest = Math.max(longest, Math.abs(d));
    }
    const cut = longest > 2 ? 2 / longest : 1;
    for (let k = 0; k < n; k++) c[k] = c[k]! + cut * miss[k]!;
  }
  let weight = logSections(u, hole.isCut, h.law.mean, h.variation, h.memory) - logDet;
  let top = h.ground_cal_bp;
  let next = 0;
  for (let i = 0; i < dates.length; i++) {
    const at = state * dates.length + i;
    const j = hole.section[at]!;
    if (j < next) {
      top = h.ground_cal_bp;
      next = 0;
    }
    for (; next < j; next++) top += section_m * yr_per_m[next]!;
    weight += logLikelihood(dates[i]!, top + hole.below_m[at]! * yr_per_m[j]! + gapsAbove(h, i, state));
  }
  return weight;
}

/** log |∂T/∂c| of the horizons' places in a state at c; leaves u, yr/m, what log T is off by, and the factored rows. NaN where it is none. */
function jacobianIn(h: History, room: Depths, state: number): number {
  const { hole } = h;
  const { sections, section_m } = hole;
  const { kept, b, c, wanted, miss, jacobian, u, yr_per_m } = room;
  const n = kept.length;
  for (let j = 0; j < sections; j++) {
    let d = 0;
    for (let k = 0; k < n; k++) d += c[k]! * b[k * sections + j]!;
    u[j] = h.u[j]! + d;
    yr_per_m[j] = d === 0 ? h.yr_per_m[j]! : h.yr_per_m[j]! * exp(d);
  }
  jacobian.fill(0);
  let sum = 0;
  let j = 0;
  let used = 0;
  for (let k = 0; k < n; k++) {
    const at = state * hole.dates.length + kept[k]!;
    const last = hole.section[at]!;
    const reach = hole.below_m[at]!;
    let time = 0;
    for (; j <= last; j++) {
      const metres = (j < last ? section_m : reach) - used;
      if (metres < 0) return Number.NaN;
      const x = metres * yr_per_m[j]!;
      time += x;
      if (x > 0) for (let l = 0; l < n; l++) jacobian[k * n + l] = jacobian[k * n + l]! + x * b[l * sections + j]!;
      if (j === last) break;
      used = 0;
    }
    if (j > last) return Number.NaN;
    used = reach;
    if (!(time > 0)) return Number.NaN;
    const l = log(time);
    sum += l;
    miss[k] = wanted[k]! - l;
    for (let e = 0; e < n; e++) jacobian[k * n + e] = jacobian[k * n + e]! / time;
  }
  for (let k = 0; k < n; k++) {
    const p = jacobian[k * n + k]!;
    if (!(p > 1e-12)) return Number.NaN;
    sum += log(p);
    for (let r = k + 1; r < n; r++) {
      const f = jacobian[r * n + k]! / p;
      jacobian[r * n + k] = f;
      if (f === 0) continue;
      for (let e = k + 1; e < n; e++) jacobian[r * n + e] = jacobian[r * n + e]! - f * jacobian[k * n + e]!;
    }
  }
  return sum;
}

/** b = Q⁻¹w of the whole hole by the present law. */
function bends({ hole, variation, memory: m }: History, { w, b, diagonal, off, kept }: Depths): void {
  const { sections, isCut } = hole;
  const perFirst = 1 / (m.sd * variation);
  const perNew = 1 / (m.newSd * variation);
  const perOld = m.coefficient * perNew;
  let before = 0;
  for (let j = 0; j < sections; j++) {
    const isNew = j === 0 || isCut[j] === 1;
    const own = isNew ? perFirst : perNew;
    const next = j + 1 < sections && isCut[j + 1] === 0 ? perOld : 0;
    let d = own * own + next * next;
    if (!isNew) {
      off[j] = (-perOld * perNew) / before;
      d += perOld * perNew * off[j]!;
    } else off[j] = 0;
    diagonal[j] = d;
    before = d;
  }
  for (let k = 0; k < kept.length; k++) {
    const at = k * sections;
    let last = 0;
    for (let j = 0; j < sections; j++) {
      last = w[at + j]! - off[j]! * last;
      b[at + j] = last;
    }
    let below = 0;
    for (let j = sections - 1; j >= 0; j--) {
      below = b[at + j]! / diagonal[j]! - (j + 1 < sections ? off[j + 1]! * below : 0);
      b[at + j] = below;
    }
  }
}
