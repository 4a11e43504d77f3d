/**
 * A run of neighbouring dated horizons whose ages are drawn again, between two section boundaries whose ages stay. Where
 * nothing dated lies below, the lower end is open: all below shifts with the last horizon. Where the ground's age is not
 * known and nothing dated lies above, the upper end may be open: the ground is then so much younger than the first horizon
 * as the sections above it take. Where a break lies in the run its gap may be free: the block about the break then takes
 * what time it takes, and the gap what is left between the horizons above and below it.
 *
 * Ages of a run are without gaps, but with the free one below its break: so the ages beyond the run stay where it changes.
 */
import type { RandomStream } from '@stillstand/science/base';
import { type Bending, bendingOf } from './bending.ts';
import type { History } from './history.ts';
import type { Hole } from './hole.ts';
import { type Rough, roughOf } from './rough.ts';
import { type Sums, sumsOf } from './sums.ts';

/** Horizons at once, at most. */
export const AT_ONCE = 5;
/** How often the two boundaries are next to the nearest horizons, each. */
const NEAREST = 0.6;
/** How often the upper end is open where it may be. */
const OPEN = 0.5;
/** How often a gap is free where one may be. */
const FREE = 0.5;

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
  /** The break whose gap is free, −1 for none; horizons of the run above it. */
  gap: number;
  aboveGap: number;
  /** Candidates are drawn from the lowest horizon up. */
  goesUp: boolean;
}

/** Room to work in, of a chain. */
export interface Bends {
  dates: readonly Sums[];
  /** [state × horizons]: the horizons by depth. */
  order: Int16Array;
  bending: Bending;
  /** By horizon of the run: age of the candidate, and of the one chosen so far; gaps above it but for the free one. */
  age: Float64Array;
  chosen: Float64Array;
  gaps_yr: Float64Array;
  /** By block, from the upper end to the lower one, open ones too: metres as they count. */
  metres: Float64Array;
  /** With the chosen ages. */
  ground_cal_bp: number;
  gap_yr: number;
  rough: Rough;
}

/** For runs of so many horizons at most. */
export function bendsOf(hole: Hole, atOnce = AT_ONCE): Bends {
  const { states, dates, section, below_m, edge_m } = hole;
  const blocks = atOnce + 1;
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
    age: new Float64Array(atOnce),
    chosen: new Float64Array(atOnce),
    gaps_yr: new Float64Array(atOnce),
    metres: new Float64Array(blocks),
    ground_cal_bp: 0.5,
    gap_yr: 0.5,
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
export function runOf(h: History, { order }: Bends, start: number, count: number, stream: RandomStream): Run {
  const { hole, state, top_cal_bp } = h;
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
  const run: Run = {
    start,
    count,
    from,
    to,
    begin: opensUp ? hole.settings.age_range_cal_bp.youngest : top_cal_bp[from]!,
    end: opensDown ? Infinity : top_cal_bp[to]!,
    opensUp,
    opensDown,
    gap: -1,
    aboveGap: 0,
    goesUp: stream.uniform() < 0.5,
  };
  freeGap(h, order, run, stream);
  return run;
}

/** That of all horizons, from the ground to the bottom; the ground goes along where its age is not known. */
export function wholeRun(h: History, { order, gaps_yr }: Bends, stream: RandomStream): Run {
  const { hole, ground_cal_bp } = h;
  const count = hole.dates.length;
  const opensUp = hole.surface === null;
  const run: Run = {
    start: 0,
    count,
    from: 0,
    to: hole.sections,
    begin: opensUp ? hole.settings.age_range_cal_bp.youngest : ground_cal_bp,
    end: Infinity,
    opensUp,
    opensDown: true,
    gap: -1,
    aboveGap: 0,
    goesUp: false,
  };
  freeGap(h, order, run, stream);
  otherGaps(h, order, gaps_yr, run);
  return run;
}

/** Of the horizons of another run, whose ages are told, so many from a place on, the others staying; `room` gets their gaps. */
export function subRun(
  { age, gaps_yr }: Bends,
  all: Run,
  room: Bends,
  start: number,
  count: number,
  stream: RandomStream,
): Run {
  const { gap, aboveGap } = all;
  room.gaps_yr.set(gaps_yr.subarray(start, start + count));
  const holdsGap = gap >= 0 && aboveGap >= start && aboveGap <= start + count;
  return {
    ...all,
    start,
    count,
    begin: start > 0 ? age[start - 1]! : all.begin,
    end: start + count < all.count ? age[start + count]! : all.end,
    opensUp: all.opensUp && start === 0,
    opensDown: all.opensDown && start + count === all.count,
    gap: holdsGap ? gap : -1,
    aboveGap: holdsGap ? aboveGap - start : 0,
    goesUp: stream.uniform() < 0.5,
  };
}

/** Frees the gap of one of the breaks of a run, now and then; none in an open end, where the run's ages do not ask for it. */
function freeGap({ hole, state, gap_yr }: History, order: Int16Array, run: Run, stream: RandomStream): void {
  const { start, count, from, to, opensUp, opensDown } = run;
  const { breaks, edge_m, dates, isBelow } = hole;
  if (breaks.length === 0) return;
  const place = state * dates.length;
  const above = (gap: number): number => {
    let horizons = 0;
    while (
      horizons < count &&
      isBelow[(place + order[place + start + horizons]!) * breaks.length + gap] === 0
    )
      horizons++;
    return horizons;
  };
  const may: number[] = [];
  for (const [gap, { depth_m }] of breaks.entries()) {
    const d = depth_m[state]!;
    if (!(d > edge_m[from]! && d < edge_m[to]!)) continue;
    const horizons = above(gap);
    if ((opensUp && horizons === 0) || (opensDown && horizons === count)) continue;
    may.push(gap);
  }
  if (may.length === 0 || stream.uniform() >= FREE) return;
  run.gap = may[stream.integer(may.length)]!;
  run.aboveGap = above(run.gap);
  if (!opensDown) run.end += gap_yr[run.gap]!;
}

/** The ages of the run as they are. */
export function presentAges(h: History, { order, age }: Bends, { start, count, gap, aboveGap }: Run): void {
  const place = h.state * h.hole.dates.length + start;
  for (let k = 0; k < count; k++) {
    age[k] = h.bare_cal_bp[order[place + k]!]!;
    if (gap >= 0 && k >= aboveGap) age[k] = age[k]! + h.gap_yr[gap]!;
  }
}

/** Gaps above each horizon of a run, but for the free one. */
export function otherGaps(
  h: History,
  order: Int16Array,
  into_yr: Float64Array,
  { start, count, gap, aboveGap }: Run,
): void {
  const place = h.state * h.hole.dates.length + start;
  for (let k = 0; k < count; k++) {
    into_yr[k] = h.gaps_yr[order[place + k]!]!;
    if (gap >= 0 && k >= aboveGap) into_yr[k] = into_yr[k]! - h.gap_yr[gap]!;
  }
}
