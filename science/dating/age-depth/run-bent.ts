/** The history of a run bent: for the ages chosen, and roughly for any. */
import { log } from '@stillstand/science/base';
import { bendBetween, bendTo, logVolume, makeBends, setBlock } from './bending.ts';
import { logLikelihood } from './date-likelihood.ts';
import type { History } from './history.ts';
import { logRough, looseTime, roughBy } from './rough.ts';
import { type Bends, otherGaps, type Run } from './run.ts';

/** A gap that is roughly too short by this share of the time next to it is e times less likely for it. */
const TOO_SHORT = 0.1;

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
