/**
 * The ages of one or a few neighbouring dated horizons drawn again, the history about them bending for it (`bending.ts`): the
 * way of dates from in place to out of it and back, and of several that contradict each other from the one reading to the
 * other. A history that only scales (`moves.ts`) breaks at the horizons, which accumulation that persists forbids; here it
 * gives way as far up and down as it would by itself.
 *
 * The horizons part the ground between two section boundaries, whose ages stay, into blocks. Candidates are drawn from one
 * horizon down to the next, of the date's own years that are left or from anywhere before the end; one of them or the ages
 * as they are is chosen by weight (iterated sampling-importance resampling: Andrieu, Lee & Vihola 2018, Bernoulli
 * 24:842–872), which leaves the density as it is. Where nothing below stays the last block is left out, and all below shifts.
 */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { type Bending, bendBetween, bendingOf, bendTo, logVolume, makeBends, setBlock } from './bending.ts';
import { datesBent, profilesBent } from './bent.ts';
import { logLikelihood } from './date-likelihood.ts';
import { type History, tell } from './history.ts';
import type { Hole } from './hole.ts';
import { logRough, type Rough, roughBy, roughOf } from './rough.ts';
import { between, type Sums, sumsOf, yearAt, younger } from './sums.ts';

/** Horizons at once, at most. */
export const AT_ONCE = 5;
/** How often the two boundaries are next to the nearest horizons, each. */
const NEAREST = 0.6;
/** How often an age is drawn from its date. */
const IN_PLACE = 0.6;
/** Where less of a date is left than this it is not drawn from. */
const LEAST = 1e-9;

export interface Bends {
  dates: readonly Sums[];
  /** [state × horizons]: the horizons by depth. */
  order: Int16Array;
  bending: Bending;
  /** By horizon of the run, without gaps: age of the candidate, and of the one chosen so far. */
  age: Float64Array;
  chosen: Float64Array;
  rough: Rough;
}

export function bendsOf(hole: Hole): Bends {
  const { states, dates, section, below_m, edge_m } = hole;
  const blocks = AT_ONCE + 1;
  const order = new Int16Array(states * dates.length);
  const all = [...dates.keys()];
  for (let k = 0; k < states; k++) {
    const first = k * dates.length;
    const depth = (i: number): number => edge_m[section[first + i]!]! + below_m[first + i]!;
    order.set(
      all.toSorted((a, b) => depth(a) - depth(b)),
      first,
    );
  }
  return {
    dates: hole.horizons.map(({ age }) => sumsOf(age)),
    order,
    bending: bendingOf(hole, blocks),
    age: new Float64Array(AT_ONCE),
    chosen: new Float64Array(AT_ONCE),
    rough: roughOf(blocks),
  };
}

/** Draws for `count` horizons from place `start` on in the order of depth, for each among so many ages; returns whether they are others. */
export function drawAges(
  h: History,
  room: Bends,
  start: number,
  count: number,
  among: number,
  stream: RandomStream,
): boolean {
  const { hole, top_cal_bp } = h;
  const { order, bending, age, rough, chosen } = room;
  const n = hole.dates.length;
  const place = h.state * n;
  const { from, to } = boundaries(hole, room, place, start, count, stream);
  const isOpen = to === hole.sections;
  bendBetween(h, bending, from, to);
  blocksOf(hole, room, place, start, count, isOpen);
  makeBends(bending, hole.sections);
  const { blocks, wanted, c, along, added, most } = bending;
  const volume = logVolume(h, bending);
  if (!(volume > -Infinity) || !roughBy(h, bending, rough)) return false;
  const begin = top_cal_bp[from]!;
  const end = isOpen ? Infinity : top_cal_bp[to]!;

  // By the rough density, from the ages as they are.
  for (let k = 0; k < count; k++) age[k] = h.bare_cal_bp[order[place + start + k]!]!;
  chosen.set(age);
  const roughHere = roughly(h, room, start, count, begin, end);
  if (!(roughHere > -Infinity)) return false;
  let roughThere = roughHere;
  let isChosen = false;
  let peak = roughHere - logProposal(h, room, start, count, begin, end) - log(stream.exponential());
  for (let m = 0; m < count * among; m++) {
    propose(h, room, start, count, begin, end, stream);
    const noise = -log(stream.exponential());
    const value = roughly(h, room, start, count, begin, end);
    if (!(value > -Infinity)) continue;
    const weight = noise + value - logProposal(h, room, start, count, begin, end);
    if (!(weight > peak)) continue;
    peak = weight;
    isChosen = true;
    roughThere = value;
    chosen.set(age);
  }
  if (!isChosen) return false;

  // The exact density decides.
  let above = begin;
  for (let k = 0; k < blocks; k++) {
    const below = k < count ? chosen[k]! : end;
    wanted[k] = log(below - above);
    above = below;
  }
  const volumeThere = bendTo(h, bending);
  if (!(volumeThere > -Infinity)) return false;
  let gain = volume - volumeThere + roughHere - roughThere + datesBent(h, bending, h.state);
  for (let i = 0; i < n; i++) {
    const j = hole.section[place + i]!;
    if (j >= from && (isOpen || j < to)) gain -= h.level[i]!;
  }
  gain += profilesBent(h, bending) - h.ofProfiles;
  for (let k = 0; k < blocks; k++) {
    gain -= c[k]! * along[k]!;
    for (let l = 0; l < blocks; l++) gain -= 0.5 * c[k]! * c[l]! * rough.curvature[k * most + l]!;
  }
  if (!(gain >= 0 || stream.uniform() < exp(gain))) return false;
  for (let j = from; j < to; j++) h.u[j] = h.u[j]! + added[j]!;
  tell(h);
  return true;
}

/** Rough log density of the ages in `age`, with what their dates say. */
function roughly(
  h: History,
  { order, age, rough, bending }: Bends,
  start: number,
  count: number,
  begin: number,
  end: number,
): number {
  let sum = 0;
  let above = begin;
  for (let k = 0; k < bending.blocks; k++) {
    const below = k < count ? age[k]! : end;
    if (!(below > above)) return -Infinity;
    const logTime = log(below - above);
    sum -= logTime;
    rough.off[k] = logTime - rough.logTime[k]!;
    above = below;
  }
  sum += logRough(rough, bending);
  const place = h.state * h.hole.dates.length + start;
  for (let k = 0; k < count; k++) {
    const i = order[place + k]!;
    sum += logLikelihood(h.hole.dates[i]!, age[k]! + h.gaps_yr[i]!);
  }
  return sum;
}

/** Place of horizon i in the order of depth, in the state as it is. */
export function rankOf({ state, hole }: History, { order }: Bends, i: number): number {
  const place = state * hole.dates.length;
  let rank = 0;
  while (order[place + rank] !== i) rank++;
  return rank;
}

/** From a boundary below another horizon to one above another, the nearest or any: both stay. */
function boundaries(
  hole: Hole,
  { order }: Bends,
  place: number,
  start: number,
  count: number,
  stream: RandomStream,
): { from: number; to: number } {
  const n = hole.dates.length;
  const sectionAt = (rank: number): number => hole.section[place + order[place + rank]!]!;
  const above = stream.uniform() < NEAREST ? start - 1 : stream.integer(start + 1) - 1;
  const end = start + count;
  const under = stream.uniform() < NEAREST ? end : end + stream.integer(n - end + 1);
  return {
    from: above >= 0 && sectionAt(above) < sectionAt(start) ? sectionAt(above) + 1 : 0,
    to: under < n && sectionAt(under) > sectionAt(end - 1) ? sectionAt(under) : hole.sections,
  };
}

/** The blocks that the horizons part the ground into, as the bends are made for and as their times are asked. */
function blocksOf(
  hole: Hole,
  { order, bending }: Bends,
  place: number,
  start: number,
  count: number,
  isOpen: boolean,
): void {
  const { section, below_m, thickness_m, sections } = hole;
  const { firstMetres, w, from, to } = bending;
  bending.blocks = isOpen ? count : count + 1;
  let above = from;
  let used = 0;
  for (let k = 0; k < bending.blocks; k++) {
    const at = place + (k < count ? order[place + start + k]! : 0);
    const j = k < count ? section[at]! : to - 1;
    const reached = k < count ? below_m[at]! : thickness_m[j]!;
    setBlock(bending, hole, k, above, used, j, reached);
    for (let i = from; i < to; i++)
      w[k * sections + i] =
        i < above || i > j ? 0 : i === above ? firstMetres[k]! : i === j ? reached : thickness_m[i]!;
    above = j;
    used = reached;
  }
}

/** Ages for the run, each older than the one above. */
function propose(
  h: History,
  { dates, order, age, bending }: Bends,
  start: number,
  count: number,
  begin: number,
  end: number,
  stream: RandomStream,
): void {
  const place = h.state * h.hole.dates.length + start;
  let above = begin;
  for (let k = 0; k < count; k++) {
    const i = order[place + k]!;
    const gaps = h.gaps_yr[i]!;
    const date = dates[i]!;
    const inPlace = stream.uniform() < IN_PLACE;
    const lot = stream.uniform();
    const low = younger(date, above + gaps);
    const share = younger(date, end + gaps) - low;
    if (inPlace && share > LEAST) above = yearAt(date, low + share * lot) - gaps;
    // The youngest of as many as are left, anywhere before the end; or after a time as usual in the hole.
    else if (end < Infinity) above += (end - above) * -between(lot, count - k);
    else above -= usual(h, bending, k) * log(1 - lot);
    age[k] = above;
  }
}

/** Log density of the ages in `age` by that. */
function logProposal(
  h: History,
  { dates, order, age, bending }: Bends,
  start: number,
  count: number,
  begin: number,
  end: number,
): number {
  const place = h.state * h.hole.dates.length + start;
  let sum = 0;
  let above = begin;
  for (let k = 0; k < count; k++) {
    const i = order[place + k]!;
    const gaps = h.gaps_yr[i]!;
    const date = dates[i]!;
    const t = age[k]!;
    const share = younger(date, end + gaps) - younger(date, above + gaps);
    let anywhere: number;
    if (end < Infinity) {
      const left = count - k;
      anywhere = left / (end - above);
      for (let r = 1; r < left; r++) anywhere *= (end - t) / (end - above);
    } else {
      const scale = usual(h, bending, k);
      anywhere = exp((above - t) / scale) / scale;
    }
    const cell = Math.floor(t + gaps - date.from_cal_bp);
    const inside = cell >= 0 && cell < date.sums.length - 1;
    const density = inside ? date.sums[cell + 1]! - date.sums[cell]! : 0;
    sum += log(share > LEAST ? (IN_PLACE * density) / share + (1 - IN_PLACE) * anywhere : anywhere);
    above = t;
  }
  return sum;
}

/** Time of a block at the hole's own accumulation. */
function usual(
  { law, hole: { edge_m, thickness_m } }: History,
  { first, last, firstMetres, lastMetres }: Bending,
  k: number,
): number {
  const whole = last[k]! > first[k]! ? edge_m[last[k]!]! - edge_m[first[k]! + 1]! : 0;
  const metres = firstMetres[k]! + whole + (last[k]! > first[k]! ? lastMetres[k]! : 0);
  return (metres + 0.01 * thickness_m[first[k]!]!) * exp(law.mean);
}
