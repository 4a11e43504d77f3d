/** The lead-210 profile of a hole, as the history of the hole reads it: from the ground of the day it was collected. */
import type { AgeDepthInput } from '@stillstand/science/dating';
import { type LeadProfile, leadLikelihood } from '@stillstand/science/lead';

/** A profile that begins deeper says nothing of the ground: a millimetre is rounding. */
const AT_THE_GROUND_M = 0.001;

export type ReadInHistory = Pick<Required<AgeDepthInput>, 'profiles'> & {
  surface: { age_cal_bp: number; sd_yr: number };
};

/** Null where a history cannot read it; `whyNot` says why. */
export function leadInHistory(
  label: string,
  profile: LeadProfile,
  bottom_m: number,
  breaks_m: readonly number[],
): ReadInHistory | null {
  const { likelihood } = leadLikelihood(profile);
  if (likelihood === null || profile.collected_ce === null || whyNot(profile, bottom_m, breaks_m) !== null)
    return null;
  return {
    profiles: [{ id: label, ...likelihood }],
    surface: { age_cal_bp: 1950 - profile.collected_ce, sd_yr: 0 },
  };
}

/** In words, of a profile whose activities can be read. */
export function whyNot(profile: LeadProfile, bottom_m: number, breaks_m: readonly number[]): string | null {
  const { likelihood } = leadLikelihood(profile);
  if (likelihood === null) return 'no activities with a density, or no date of collection';
  const { ends_m } = likelihood;
  const deepest = ends_m.at(-1)!;
  if (ends_m[0]! > AT_THE_GROUND_M) return `a first slice at ${(100 * ends_m[0]!).toFixed(1)} cm`;
  if (deepest > bottom_m) return `slices to ${deepest.toFixed(2)} m, the hole to ${bottom_m.toFixed(2)} m`;
  if (breaks_m.some((depth) => depth <= deepest)) return 'an erosional contact among its slices';
  return null;
}
