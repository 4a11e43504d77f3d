/** What dates and profiles say of a history as it is bent. */
import type { Bending } from './bending.ts';
import { logLikelihood } from './date-likelihood.ts';
import { gapsAbove, type History } from './history.ts';
import { logProfiles } from './profiles.ts';

/** Log likelihood of the dates that lie in the sections that bend, in a state of the hole, those sections beginning at an age; a gap may be longer (`gap` −1 for none). */
export function datesBent(
  h: History,
  { from, to, yr_per_m }: Bending,
  state: number,
  begin_cal_bp: number,
  gap = -1,
  longer_yr = 0,
): number {
  const { hole } = h;
  const { dates, section, below_m, thickness_m, breaks, isBelow } = hole;
  const place = state * dates.length;
  let sum = 0;
  let top = begin_cal_bp;
  let next = from;
  for (let i = 0; i < dates.length; i++) {
    const j = section[place + i]!;
    if (j < from || j >= to) continue;
    if (j < next) {
      top = begin_cal_bp;
      next = from;
    }
    for (; next < j; next++) top += thickness_m[next]! * yr_per_m[next]!;
    const bare = top + below_m[place + i]! * yr_per_m[j]!;
    const isLonger = gap >= 0 && isBelow[(place + i) * breaks.length + gap] === 1;
    sum += logLikelihood(dates[i]!, bare + gapsAbove(h, i, state) + (isLonger ? longer_yr : 0));
  }
  return sum;
}

/** Log likelihood of all profiles. */
export function profilesBent(
  { hole, top_cal_bp, yr_per_m, ofProfiles }: History,
  { from, to, yr_per_m: bent }: Bending,
): number {
  if (!hole.profiles.some(({ last }) => last >= from)) return ofProfiles;
  let next = from;
  let top = top_cal_bp[from]!;
  return logProfiles(hole.profiles, (j, below_m) => {
    if (j < from || j >= to) return top_cal_bp[j]! + below_m * yr_per_m[j]!;
    if (j < next) {
      next = from;
      top = top_cal_bp[from]!;
    }
    for (; next < j; next++) top += hole.thickness_m[next]! * bent[next]!;
    return top + below_m * bent[j]!;
  });
}
