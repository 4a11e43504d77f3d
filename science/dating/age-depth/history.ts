/** One history of a hole, in one state of it, and changes of it that leave most of it as it is. */
import { exp } from '@stillstand/science/base';
import { logLikelihood } from './date-likelihood.ts';
import type { Hole } from './hole.ts';
import { type Law, type Memory, memory, roomForMemory } from './law.ts';
import type { Places } from './places.ts';
import { logProfiles } from './profiles.ts';

export interface History {
  hole: Hole;
  /** State of the hole. */
  state: number;
  ground_cal_bp: number;
  gap_yr: Float64Array;
  law: Law;
  variation: number;
  memory: Memory;
  /** Room for that of another law. */
  spare: Memory;
  /** By section: ln(yr/m) and yr/m; age of its top, gaps left out, and at last of the bottom. */
  u: Float64Array;
  yr_per_m: Float64Array;
  top_cal_bp: Float64Array;
  /** By section: what is new of w in its sds; and how much that grows when all w above and here grow by one. */
  fresh: Float64Array;
  stiffness: Float64Array;
  /** By horizon: age without gaps, the gaps above it, log likelihood of its date. */
  bare_cal_bp: Float64Array;
  gaps_yr: Float64Array;
  level: Float64Array;
  /** Log likelihood of what reads many depths at once. */
  ofProfiles: number;
  /** The change proposed last. */
  change: Change;
}

/** Sections `from` to `middle` take `above` times as long, those to `to` `below` times. */
interface Change {
  from: number;
  middle: number;
  to: number;
  above: number;
  below: number;
  logAbove: number;
  logBelow: number;
  ground_cal_bp: number;
  /** −1 for none. */
  gap: number;
  gap_yr: number;
  /** Whether all below `to` stays. */
  isClosed: boolean;
  /** Horizons that change, and how. */
  count: number;
  horizon: Int32Array;
  bare_cal_bp: Float64Array;
  gaps_yr: Float64Array;
  level: Float64Array;
  ofProfiles: number;
}

export function emptyHistory(hole: Hole, law: Law): History {
  const of = (n: number): Float64Array => new Float64Array(n);
  const dates = hole.dates.length;
  const change: Change = {
    from: 0,
    middle: 0,
    to: 0,
    above: 0.5,
    below: 0.5,
    logAbove: 0.5,
    logBelow: 0.5,
    ground_cal_bp: 0.5,
    gap: -1,
    gap_yr: 0.5,
    isClosed: false,
    count: 0,
    horizon: new Int32Array(dates),
    bare_cal_bp: of(dates),
    gaps_yr: of(dates),
    level: of(dates),
    ofProfiles: 0.5,
  };
  return {
    hole,
    state: 0,
    ground_cal_bp: 0.5,
    gap_yr: of(hole.breaks.length),
    law,
    variation: exp(law.log_variation),
    memory: memory(hole, exp(law.log_persistence), roomForMemory(hole.sections)),
    spare: roomForMemory(hole.sections),
    u: of(hole.sections),
    yr_per_m: of(hole.sections),
    top_cal_bp: of(hole.sections + 1),
    fresh: of(hole.sections),
    stiffness: of(hole.sections),
    bare_cal_bp: of(dates),
    gaps_yr: of(dates),
    level: of(dates),
    ofProfiles: 0.5,
    change,
  };
}

/** Everything that follows from ground, gaps, u and state. */
export function tell(h: History): void {
  const { hole, u, yr_per_m, top_cal_bp, bare_cal_bp, gaps_yr, level } = h;
  const { sd, newSd, coefficient } = h.memory;
  let age = h.ground_cal_bp;
  top_cal_bp[0] = age;
  for (let j = 0; j < hole.sections; j++) {
    const x = exp(u[j]!);
    yr_per_m[j] = x;
    age += hole.thickness_m[j]! * x;
    top_cal_bp[j + 1] = age;
    h.stiffness[j] = j === 0 || hole.isCut[j] === 1 ? 1 / sd[j]! : (1 - coefficient[j]!) / newSd[j]!;
  }
  renew(h, 0, hole.sections);
  for (let i = 0; i < level.length; i++) {
    bare_cal_bp[i] = bareAge(h, i, h.state);
    gaps_yr[i] = gapsAbove(h, i, h.state);
    level[i] = logLikelihood(hole.dates[i]!, bare_cal_bp[i]! + gaps_yr[i]!);
  }
  h.ofProfiles = profilesAlong(hole, top_cal_bp, yr_per_m);
}

/** Log likelihood of the profiles in a history of these ages. */
export const profilesAlong = (
  { profiles }: Hole,
  top_cal_bp: Float64Array,
  yr_per_m: Float64Array,
): number =>
  profiles.length === 0 ? 0 : logProfiles(profiles, (j, below_m) => top_cal_bp[j]! + below_m * yr_per_m[j]!);

/** Of the place numbered i, of the horizons where no others are named, in a state of the hole: its age without gaps, and the gaps above it. */
export function bareAge(
  { hole, top_cal_bp, yr_per_m }: History,
  i: number,
  state: number,
  places: Places = hole,
): number {
  const at = state * places.count + i;
  const j = places.section[at]!;
  return top_cal_bp[j]! + places.below_m[at]! * yr_per_m[j]!;
}

export function gapsAbove(
  { hole, gap_yr }: History,
  i: number,
  state: number,
  places: Places = hole,
): number {
  const at = (state * places.count + i) * gap_yr.length;
  let sum = 0;
  for (let b = 0; b < gap_yr.length; b++) if (places.isBelow[at + b] === 1) sum += gap_yr[b]!;
  return sum;
}

/**
 * Proposes that sections `from` ≤ j < `middle` take `above` times as long and those to `to` `below` times (their logarithms with them); all
 * below shifts with them, or stays where the change `isClosed`. Returns how much that changes the log density of the sections and the dates.
 */
export function propose(
  h: History,
  from: number,
  middle: number,
  to: number,
  above: number,
  below: number,
  logAbove: number,
  logBelow: number,
  isClosed: boolean,
  ground_cal_bp: number = h.ground_cal_bp,
  gap = -1,
  gap_yr = 0,
): number {
  const { hole, top_cal_bp, bare_cal_bp, gaps_yr, level, change, variation } = h;
  change.from = from;
  change.middle = middle;
  change.to = to;
  change.above = above;
  change.below = below;
  change.logAbove = logAbove;
  change.logBelow = logBelow;
  change.ground_cal_bp = ground_cal_bp;
  change.gap = gap;
  change.gap_yr = gap_yr;
  change.isClosed = isClosed;

  // Of the squares of what is new: inside a block all w shift alike, at its ends by themselves.
  const by = 1 / variation;
  const a = logAbove * by;
  const b = logBelow * by;
  let squares = from < middle ? atEnd(h, from, 0, a) : 0;
  squares += inside(h, from + 1, middle, a);
  if (middle < to) squares += atEnd(h, middle, from < middle ? a : 0, b) + inside(h, middle + 1, to, b);
  if (from < to && to < hole.sections) squares += atEnd(h, to, middle < to ? b : a, 0);

  // Straight maps of ages: above `from`, in the two blocks, below them.
  const lift = ground_cal_bp - h.ground_cal_bp;
  const a0 = top_cal_bp[from]!;
  const a1 = top_cal_bp[middle]!;
  const a2 = top_cal_bp[to]!;
  const b0 = a0 + lift;
  const b1 = b0 + above * (a1 - a0);
  const b2 = b1 + below * (a2 - a1);
  let sum = 0;
  const first = h.state * level.length;
  const breaks = h.gap_yr.length;
  let count = 0;
  const isLocal = gap < 0 && lift === 0;
  for (let i = 0; i < level.length; i++) {
    const j = hole.section[first + i]!;
    if (isLocal && (j < from || (isClosed && j >= to))) continue;
    const old = bare_cal_bp[i]!;
    let age = old + lift;
    if (j >= to) age = isClosed ? old : old + (b2 - a2);
    else if (j >= middle) age = b1 + below * (old - a1);
    else if (j >= from) age = b0 + above * (old - a0);
    let gaps = gaps_yr[i]!;
    if (gap >= 0 && hole.isBelow[(first + i) * breaks + gap] === 1) gaps += gap_yr - h.gap_yr[gap]!;
    const l = logLikelihood(hole.dates[i]!, age + gaps);
    change.horizon[count] = i;
    change.bare_cal_bp[count] = age;
    change.gaps_yr[count] = gaps;
    change.level[count] = l;
    sum += l - level[i]!;
    count++;
  }
  change.count = count;
  change.ofProfiles = h.ofProfiles;
  if (hole.profiles.some(({ last }) => last >= from) || lift !== 0) {
    const { yr_per_m } = h;
    change.ofProfiles = logProfiles(hole.profiles, (j, below_m) => {
      const old = top_cal_bp[j]! + below_m * yr_per_m[j]!;
      if (j >= to) return isClosed ? old : old + (b2 - a2);
      if (j >= middle) return b1 + below * (old - a1);
      return j >= from ? b0 + above * (old - a0) : old + lift;
    });
    sum += change.ofProfiles - h.ofProfiles;
  }
  return sum - 0.5 * squares;
}

/** Change of squares where the w above shifts by `before` and this one by `here`. */
function atEnd({ hole, fresh, memory: m }: History, j: number, before: number, here: number): number {
  const isNew = j === 0 || hole.isCut[j] === 1;
  const d = isNew ? here / m.sd[j]! : (here - m.coefficient[j]! * before) / m.newSd[j]!;
  return d * (2 * fresh[j]! + d);
}

/** The same of sections that all shift with those above them. */
function inside({ fresh, stiffness }: History, from: number, to: number, shift: number): number {
  let linear = 0;
  let square = 0;
  for (let j = from; j < to; j++) {
    const g = stiffness[j]!;
    linear += g * fresh[j]!;
    square += g * g;
  }
  return shift * (2 * linear + shift * square);
}

/** What is new in the sections `from` ≤ j < `to`. */
export function renew(
  { hole, u, fresh, law, variation, memory: m }: History,
  from: number,
  to: number,
): void {
  for (let j = from; j < to; j++) {
    const w = u[j]! - law.mean;
    const isNew = j === 0 || hole.isCut[j] === 1;
    fresh[j] =
      (isNew ? w / m.sd[j]! : (w - m.coefficient[j]! * (u[j - 1]! - law.mean)) / m.newSd[j]!) / variation;
  }
}

/** Makes the change proposed last. */
export function accept(h: History): void {
  const { change: c, u, yr_per_m, top_cal_bp, hole } = h;
  for (let j = c.from; j < c.to; j++) {
    u[j] = u[j]! + (j < c.middle ? c.logAbove : c.logBelow);
    yr_per_m[j] = yr_per_m[j]! * (j < c.middle ? c.above : c.below);
  }
  renew(h, c.from, Math.min(hole.sections, c.to + 1));
  h.ground_cal_bp = c.ground_cal_bp;
  if (c.from === 0) top_cal_bp[0] = c.ground_cal_bp;
  const end = c.isClosed ? c.to - 1 : hole.sections;
  for (let j = c.from; j < end; j++) top_cal_bp[j + 1] = top_cal_bp[j]! + hole.thickness_m[j]! * yr_per_m[j]!;
  h.ofProfiles = c.ofProfiles;
  if (c.gap >= 0) h.gap_yr[c.gap] = c.gap_yr;
  for (let n = 0; n < c.count; n++) {
    const i = c.horizon[n]!;
    h.bare_cal_bp[i] = c.bare_cal_bp[n]!;
    h.gaps_yr[i] = c.gaps_yr[n]!;
    h.level[i] = c.level[n]!;
  }
}
