/**
 * A run of neighbouring dated horizons whose ages are drawn again, between two section boundaries whose ages stay. Where
 * nothing dated lies below, the lower end is open: all below shifts with the last horizon. Where the ground's age is not
 * known and nothing dated lies above, the upper end may be open: the ground is then so much younger than the first horizon
 * as the sections above it take.
 */
import { log, type RandomStream } from '@stillstand/science/base';
import { type Bending, bendBetween, bendingOf, bendTo, logVolume, makeBends, setBlock } from './bending.ts';
import { logLikelihood } from './date-likelihood.ts';
import type { History } from './history.ts';
import type { Hole } from './hole.ts';
import { logRough, type Rough, roughBy, roughOf } from './rough.ts';
import { type Sums, sumsOf } from './sums.ts';

/** Horizons at once, at most. */
export const AT_ONCE = 5;
/** How often the two boundaries are next to the nearest horizons, each. */
const NEAREST = 0.6;
/** How often the upper end is open where it may be. */
const OPEN = 0.5;
export interface Run {
  /** The first horizon by place in the order of depth, and how many. */
  start: number;
  count: number;
  /** Sections from ≤ j < to bend. */
  from: number;
  to: number;
  /** All ages of the run lie between, cal BP: of the two boundaries; the youngest there can be, and ∞, where open. */
  begin: number;
  end: number;
  opensUp: boolean;
  opensDown: boolean;
  /** Candidates are drawn from the lowest horizon up. */
  goesUp: boolean;
}

/** Room to work in, of a chain. */
export interface Bends {
  dates: readonly Sums[];
  /** [state × horizons]: the horizons by depth. */
  order: Int16Array;
  bending: Bending;
  /** By horizon of the run, without gaps: age of the candidate, and of the one chosen so far. */
  age: Float64Array;
  chosen: Float64Array;
  /** With the chosen ages. */
  ground_cal_bp: number;
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
    ground_cal_bp: 0.5,
    rough: roughOf(blocks),
  };
}

/** Place of horizon i in the order of depth, in the state as it is. */
export function rankOf({ state, hole }: History, { order }: Bends, i: number): number {
  const place = state * hole.dates.length;
  let rank = 0;
  while (order[place + rank] !== i) rank++;
  return rank;
}

/** From a boundary below another horizon to one above another, the nearest or any: both stay, where the ends are not open. */
export function runOf(
  { hole, state, top_cal_bp }: History,
  { order }: Bends,
  start: number,
  count: number,
  stream: RandomStream,
): Run {
  const n = hole.dates.length;
  const place = state * n;
  const sectionAt = (rank: number): number => hole.section[place + order[place + rank]!]!;
  const above = stream.uniform() < NEAREST ? start - 1 : stream.integer(start + 1) - 1;
  const next = start + count;
  const under = stream.uniform() < NEAREST ? next : next + stream.integer(n - next + 1);
  const from = above >= 0 && sectionAt(above) < sectionAt(start) ? sectionAt(above) + 1 : 0;
  const to = under < n && sectionAt(under) > sectionAt(next - 1) ? sectionAt(under) : hole.sections;
  const mayOpen = start === 0 && hole.surface === null && hole.profiles.length === 0;
  const opensUp = mayOpen && stream.uniform() < OPEN;
  const opensDown = to === hole.sections;
  return {
    start,
    count,
    from,
    to,
    begin: opensUp ? hole.settings.age_range_cal_bp.youngest : top_cal_bp[from]!,
    end: opensDown ? Infinity : top_cal_bp[to]!,
    opensUp,
    opensDown,
    goesUp: stream.uniform() < 0.5,
  };
}

/** The ages of the run as they are. */
export function presentAges(h: History, { order, age }: Bends, { start, count }: Run): void {
  const place = h.state * h.hole.dates.length + start;
  for (let k = 0; k < count; k++) age[k] = h.bare_cal_bp[order[place + k]!]!;
}

/** Makes bends and rough density of a run for the history as it is; log |∂T/∂c| there, NaN where there is none. */
export function readyRun(h: History, room: Bends, run: Run): number {
  const { bending, rough } = room;
  bendBetween(h, bending, run.from, run.to);
  blocksOf(h, room, run);
  makeBends(bending, h.hole.sections);
  const volume = logVolume(h, bending);
  return volume > -Infinity && roughBy(h, bending, rough) ? volume : Number.NaN;
}

/** The blocks that the horizons part the ground into, as the bends are made for and as their times are asked. */
function blocksOf(
  { hole, state }: History,
  { order, bending }: Bends,
  { start, count, from, to, opensUp, opensDown }: Run,
): void {
  const { section, below_m, thickness_m, sections } = hole;
  const { firstMetres, w } = bending;
  const place = state * hole.dates.length;
  const lead = opensUp ? 1 : 0;
  bending.blocks = count - lead + (opensDown ? 0 : 1);
  const first = place + order[place + start]!;
  let above = opensUp ? section[first]! : from;
  let used = opensUp ? below_m[first]! : 0;
  for (let k = 0; k < bending.blocks; k++) {
    const isLast = k + lead === count;
    const at = isLast ? 0 : place + order[place + start + k + lead]!;
    const j = isLast ? to - 1 : section[at]!;
    const reached = isLast ? thickness_m[j]! : below_m[at]!;
    setBlock(bending, hole, k, above, used, j, reached);
    for (let i = from; i < to; i++)
      w[k * sections + i] =
        i < above || i > j ? 0 : i === above ? firstMetres[k]! : i === j ? reached : thickness_m[i]!;
    above = j;
    used = reached;
  }
}

/** Bends for the ages in `chosen`, and leaves the ground's age with them; log |∂T/∂c| there, NaN where they cannot be. */
export function bendToChosen(h: History, room: Bends, run: Run): number {
  const { bending, chosen } = room;
  const { count, begin, end, opensUp } = run;
  const lead = opensUp ? 1 : 0;
  let above = opensUp ? chosen[0]! : begin;
  for (let k = 0; k < bending.blocks; k++) {
    const below = k + lead < count ? chosen[k + lead]! : end;
    bending.wanted[k] = log(below - above);
    above = below;
  }
  const volume = bendTo(h, bending);
  if (!(volume > -Infinity)) return Number.NaN;
  room.ground_cal_bp = opensUp ? groundBent(h, room, run) : h.ground_cal_bp;
  const { youngest, oldest } = h.hole.settings.age_range_cal_bp;
  const mayBe = !opensUp || (room.ground_cal_bp >= youngest && room.ground_cal_bp <= oldest);
  return mayBe ? volume : Number.NaN;
}

/** Age of the ground where the upper end is open. */
function groundBent({ hole, state }: History, { order, bending, chosen }: Bends, { start }: Run): number {
  const { dates, section, below_m, thickness_m } = hole;
  const { yr_per_m } = bending;
  const at = state * dates.length + order[state * dates.length + start]!;
  const j = section[at]!;
  let time = below_m[at]! * yr_per_m[j]!;
  for (let i = 0; i < j; i++) time += thickness_m[i]! * yr_per_m[i]!;
  return chosen[0]! - time;
}

/** Rough log density of the ages in `age`, with what their dates say. */
export function roughly(
  h: History,
  { order, age, rough, bending }: Bends,
  { start, count, begin, end, opensUp }: Run,
): number {
  const lead = opensUp ? 1 : 0;
  let sum = 0;
  let above = opensUp ? age[0]! : begin;
  if (!(above >= begin)) return -Infinity;
  for (let k = 0; k < bending.blocks; k++) {
    const below = k + lead < count ? age[k + lead]! : end;
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
