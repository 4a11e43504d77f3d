/**
 * The walk over the states of the hole, the joint draws of its depth model. Another state puts the horizons elsewhere, and
 * with the history as it is their ages would miss their dates; so the history may go with them. The hole is cut at a few
 * section boundaries; with A(d) a fixed guide, the chain's own mean ages of the warm-up, and d_m(k) where state k has the
 * horizons near boundary m, the age there moves by A(d_m(old)) − A(d_m(new)), and parts are scaled to fit. This shift
 * depends on nothing but the two states, and shifts add up: the history has one form in each state, and among these the
 * chain may choose by their density. In u the measure is dT/T·dshape, hence the factor Π T/T'.
 *
 * It chooses among a few: states in the order of their mean depth, every so many ranks, the present one among them at a
 * place drawn by lot, so that each of them would have drawn the same few as likely.
 */
import { log, type RandomStream } from '@stillstand/science/base';
import { logLikelihood } from './date-likelihood.ts';
import { gapsAbove, type History, profilesAlong, tell } from './history.ts';
import type { Hole } from './hole.ts';
import { logSections } from './law.ts';
import { nearestEdge } from './section.ts';

export interface States {
  /** State at each rank of mean depth; rank of each state. */
  order: Int32Array;
  rank: Int32Array;
  /** From no shift to many parts. */
  guides: Guide[];
  /** Room to work in. */
  trial: Float64Array;
  yr_per_m: Float64Array;
  top_cal_bp: Float64Array;
}

interface Guide {
  /** Section boundaries, ascending, and the one of each horizon. */
  edges: Int32Array;
  edgeOf: Int32Array;
  /** [state × edges]: mean guide age of the horizons there. */
  cal_bp: Float64Array;
  /** States it chooses among. */
  among: number;
}

/** Least sections of a part, and states to choose among; without a cut nothing shifts, and many are soon looked at. */
const GUIDES = [
  { part: Infinity, among: 16 },
  { part: 8, among: 6 },
  { part: 3, among: 6 },
  { part: 1, among: 6 },
];
/** Ranks from one to the next. */
const STRIDES = [1, 7, 50];

export function statesOf(hole: Hole): States {
  const { states, horizons, edge_m, sections } = hole;
  const meanDepth = Float64Array.from({ length: states }, (_, k) =>
    horizons.reduce((sum, { depth_m }) => sum + depth_m[k]!, 0),
  );
  const order = Int32Array.from({ length: states }, (_, k) => k).sort(
    (a, b) => meanDepth[a]! - meanDepth[b]!,
  );
  const rank = new Int32Array(states);
  for (let r = 0; r < states; r++) rank[order[r]!] = r;
  const near = horizons.map(({ median_m }) => Math.max(1, nearestEdge(edge_m, Math.max(0, median_m))));
  const guides = GUIDES.map(({ part, among }): Guide => {
    const edges: number[] = [];
    if (part < Infinity) {
      for (const e of new Set(near.toSorted((a, b) => a - b)))
        if (e >= (edges.at(-1) ?? 0) + part) edges.push(e);
    }
    const distance = (i: number, e: number): number => Math.abs(near[i]! - e);
    const edgeOf = Int32Array.from(near, (_, i) =>
      edges.reduce((best, e, m) => (best < 0 || distance(i, e) < distance(i, edges[best]!) ? m : best), -1),
    );
    return {
      edges: Int32Array.from(edges),
      edgeOf,
      cal_bp: new Float64Array(states * edges.length),
      among: Math.min(among, states),
    };
  });
  const of = (n: number): Float64Array => new Float64Array(n);
  const names = guides.map(({ edges }) => edges.join());
  return {
    order,
    rank,
    guides: guides.filter((_, g) => names.indexOf(names[g]!) === g),
    trial: of(sections),
    yr_per_m: of(sections),
    top_cal_bp: of(sections + 1),
  };
}

/** Takes these ages of the boundaries, gaps left out, for a guide. */
export function guideBy({ guides }: States, hole: Hole, top_cal_bp: Float64Array): void {
  const horizons = hole.horizons.length;
  for (const { edges, edgeOf, cal_bp } of guides) {
    cal_bp.fill(0);
    const count = new Float64Array(edges.length);
    for (const e of edgeOf) if (e >= 0) count[e] = count[e]! + 1;
    for (let k = 0; k < hole.states; k++) {
      for (let i = 0; i < horizons; i++) {
        const e = edgeOf[i]!;
        if (e < 0) continue;
        const j = hole.section[k * horizons + i]!;
        const share = hole.below_m[k * horizons + i]! / hole.thickness_m[j]!;
        const age = top_cal_bp[j]! + share * (top_cal_bp[j + 1]! - top_cal_bp[j]!);
        cal_bp[k * edges.length + e] = cal_bp[k * edges.length + e]! + age / count[e]!;
      }
    }
  }
}

/** Chooses a state anew, by one of the guides; returns whether it is another. */
export function drawState(h: History, s: States, stream: RandomStream): boolean {
  const { states } = h.hole;
  if (states === 1) return true;
  const guide = s.guides[stream.integer(s.guides.length)]!;
  const stride = Math.min(STRIDES[stream.integer(STRIDES.length)]!, Math.floor(states / guide.among));
  const first = s.rank[h.state]! + stride * (states - stream.integer(guide.among));
  // Gumbel's way of choosing by weight: the largest of the logarithms, each with noise of its own.
  let peak = -Infinity;
  let chosen = h.state;
  for (let c = 0; c < guide.among; c++) {
    const k = s.order[(first + c * stride) % states]!;
    const noisy = inState(h, s, guide, k) - log(stream.exponential());
    if (noisy > peak) {
      peak = noisy;
      chosen = k;
    }
  }
  if (chosen === h.state) return false;
  inState(h, s, guide, chosen);
  h.u.set(s.trial);
  h.state = chosen;
  tell(h);
  return true;
}

/** Log density of the history's form in state k; leaves it in `trial`. */
function inState(h: History, s: States, { edges, cal_bp }: Guide, k: number): number {
  const { hole, u, law } = h;
  const { trial, yr_per_m, top_cal_bp } = s;
  const { sections, thickness_m, dates } = hole;
  let gain = 0;
  let from = 0;
  let shiftAbove = 0;
  top_cal_bp[0] = h.top_cal_bp[0]!;
  for (let m = 0; m <= edges.length; m++) {
    const to = m < edges.length ? edges[m]! : sections;
    const shift =
      m < edges.length ? cal_bp[h.state * edges.length + m]! - cal_bp[k * edges.length + m]! : shiftAbove;
    const ratio = to > from ? 1 + (shift - shiftAbove) / (h.top_cal_bp[to]! - h.top_cal_bp[from]!) : 1;
    if (!(ratio > 0)) return -Infinity;
    const lift = ratio === 1 ? 0 : log(ratio);
    for (let j = from; j < to; j++) {
      trial[j] = u[j]! + lift;
      yr_per_m[j] = h.yr_per_m[j]! * ratio;
      top_cal_bp[j + 1] = top_cal_bp[j]! + thickness_m[j]! * yr_per_m[j]!;
    }
    gain -= lift;
    from = to;
    shiftAbove = shift;
  }
  if (edges.length > 0) gain += logSections(trial, hole.isCut, law.mean, h.variation, h.memory);
  for (let i = 0; i < dates.length; i++) {
    const at = k * dates.length + i;
    const j = hole.section[at]!;
    const age = top_cal_bp[j]! + hole.below_m[at]! * yr_per_m[j]! + gapsAbove(h, i, k);
    gain += logLikelihood(dates[i]!, age);
  }
  return gain + profilesAlong(hole, top_cal_bp, yr_per_m);
}
