/**
 * A run of neighbouring dated horizons whose ages are drawn again, between two section boundaries whose ages stay. Where
 * nothing dated lies below, the lower end is open: all below shifts with the last horizon. Where the ground's age is not
 * known and nothing dated lies above, the upper end may be open: the ground is then so much younger than the first horizon
 * as the sections above it take. Where a break lies in the run its gap may be free: the block about the break then takes
 * what time it takes, and the gap what is left between the horizons above and below it.
 *
 * Ages of a run are without gaps, but with the free one below its break: so the ages beyond the run stay where it changes.
 */
import { log, type RandomStream } from '@stillstand/science/base';
import { type Bending, bendBetween, bendingOf, bendTo, logVolume, makeBends, setBlock } from './bending.ts';
import { logLikelihood } from './date-likelihood.ts';
import type { History } from './history.ts';
import type { Hole } from './hole.ts';
import { logRough, looseTime, type Rough, roughBy, roughOf } from './rough.ts';
import { type Sums, sumsOf } from './sums.ts';

/** Horizons at once, at most. */
export const AT_ONCE = 5;
/** How often the two boundaries are next to the nearest horizons, each. */
const NEAREST = 0.6;
/** How often the upper end is open where it may be. */
const OPEN = 0.5;
/** How often a gap is free where one may be. */
const FREE = 0.5;
/** A gap that is roughly too short by this share of the time next to it is e times less likely for it. */
const TOO_SHORT = 0.1;

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
function otherGaps(
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

/** Makes bends and rough density of a run for the history as it is; log |∂T/∂c| there, NaN where there is none. */
export function readyRun(h: History, room: Bends, run: Run): number {
  const { bending, rough, order, gaps_yr } = room;
  otherGaps(h, order, gaps_yr, run);
  bendBetween(h, bending, run.from, run.to);
  blocksOf(h, room, run);
  makeBends(bending, h.hole.sections);
  const volume = logVolume(h, bending);
  return volume > -Infinity && roughBy(h, bending, rough) ? volume : Number.NaN;
}

/** Whether the time of a block is asked, the blocks being numbered from the upper end to the lower one. */
const isAsked = ({ count, opensUp, opensDown, gap, aboveGap }: Run, block: number): boolean =>
  !(opensUp && block === 0) && !(opensDown && block === count) && !(gap >= 0 && block === aboveGap);

/** The blocks that the horizons part the ground into, as the bends are made for and as their times are asked. */
export function blocksOf({ hole, state }: History, { order, bending, metres }: Bends, run: Run): void {
  const { start, count, from, to, gap, aboveGap } = run;
  const { section, below_m, thickness_m, edge_m, sections } = hole;
  const { w } = bending;
  const place = state * hole.dates.length;
  bending.blocks = 0;
  for (let block = 0; block <= count; block++) if (isAsked(run, block)) bending.blocks++;
  bending.hasLoose = gap >= 0;
  let asked = 0;
  let above = from;
  let used = 0;
  for (let block = 0; block <= count; block++) {
    const isLast = block === count;
    const at = isLast ? 0 : place + order[place + start + block]!;
    const j = isLast ? to - 1 : section[at]!;
    const reached = isLast ? thickness_m[j]! : below_m[at]!;
    metres[block] = edge_m[j]! + reached - edge_m[above]! - used + 0.01 * thickness_m[above]!;
    if (isAsked(run, block)) {
      const k = asked++;
      setBlock(bending, hole, k, above, used, j, reached);
      const { firstMetres } = bending;
      for (let i = from; i < to; i++)
        w[k * sections + i] =
          i < above || i > j ? 0 : i === above ? firstMetres[k]! : i === j ? reached : thickness_m[i]!;
    } else if (gap >= 0 && block === aboveGap)
      setBlock(bending, hole, bending.blocks, above, used, j, reached);
    above = j;
    used = reached;
  }
}

/** Bends for the ages in `chosen`, and leaves the ground's age and the free gap with them; log |∂T/∂c| there, NaN where they cannot be. */
export function bendToChosen(h: History, room: Bends, run: Run): number {
  const { bending, chosen } = room;
  const { count, begin, end, opensUp, gap, aboveGap } = run;
  let k = 0;
  for (let block = 0; block <= count; block++)
    if (isAsked(run, block))
      bending.wanted[k++] = log(
        (block < count ? chosen[block]! : end) - (block > 0 ? chosen[block - 1]! : begin),
      );
  const volume = bendTo(h, bending);
  if (!(volume > -Infinity)) return Number.NaN;
  if (gap >= 0) {
    const below = aboveGap < count ? chosen[aboveGap]! : end;
    room.gap_yr = below - (aboveGap > 0 ? chosen[aboveGap - 1]! : begin) - bending.loose_yr;
    if (!(room.gap_yr > 0)) return Number.NaN;
  }
  room.ground_cal_bp = opensUp ? groundBent(h, room, run) : h.ground_cal_bp;
  const { youngest, oldest } = h.hole.settings.age_range_cal_bp;
  const mayBe = !opensUp || (room.ground_cal_bp >= youngest && room.ground_cal_bp <= oldest);
  return mayBe ? volume : Number.NaN;
}

/** Log prior density of the free gap, up to a constant: as it is, and with the chosen ages. */
export const logGapHere = ({ gap_yr, hole }: History, { gap }: Run): number =>
  gap < 0 ? 0 : -gap_yr[gap]! / hole.settings.gap_mean_yr;
export const logGapThere = ({ hole }: History, { gap_yr }: Bends, { gap }: Run): number =>
  gap < 0 ? 0 : -gap_yr / hole.settings.gap_mean_yr;

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
export function roughly(h: History, { order, age, gaps_yr, rough, bending }: Bends, run: Run): number {
  const { start, count, begin, end, opensUp, gap, aboveGap } = run;
  let sum = 0;
  let k = 0;
  let loose = 0;
  let above = begin;
  for (let block = 0; block <= count; block++) {
    const below = block < count ? age[block]! : end;
    if (opensUp && block === 0 ? !(below >= above) : !(below > above)) return -Infinity;
    if (isAsked(run, block)) {
      const logTime = log(below - above);
      sum -= logTime;
      rough.off[k] = logTime - rough.logTime[k]!;
      k++;
    } else if (block === aboveGap) loose = below - above;
    above = below;
  }
  sum += logRough(rough, bending);
  if (gap >= 0) {
    // `off` is now c.
    const time = looseTime(rough, bending);
    const left = loose - time;
    sum -= left > 0 ? left / h.hole.settings.gap_mean_yr : -left / (TOO_SHORT * time);
  }
  const place = h.state * h.hole.dates.length + start;
  for (let i = 0; i < count; i++)
    sum += logLikelihood(h.hole.dates[order[place + i]!]!, age[i]! + gaps_yr[i]!);
  return sum;
}
