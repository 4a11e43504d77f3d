/** The lead-210 profile of a hole, as the history of the hole reads it: from the ground of the day it was collected. */
import type { AgeDepthInput } from '@stillstand/science/dating';
import { type LeadProfile, leadLikelihood } from '@stillstand/science/lead';

/** A profile that begins deeper says nothing of the ground: a millimetre is rounding. */
const AT_THE_GROUND_M = 0.001;

export type LeadInHistory =
  | ({ kind: 'read' } & Required<Pick<AgeDepthInput, 'profiles' | 'surface'>>)
  | { kind: 'not_read'; reason: string };

/** @param breaks_m highest place of each erosional contact and of each bed laid down at once, m below the ground */
export function leadInHistory(
  label: string,
  profile: LeadProfile,
  bottom_m: number,
  breaks_m: readonly number[],
): LeadInHistory {
  const not = (reason: string): LeadInHistory => ({ kind: 'not_read', reason });
  const { likelihood } = leadLikelihood(profile);
  if (likelihood === null || profile.collected_ce === null)
    return not('no activities with a density, or no date of collection');
  const [first, last] = [likelihood.ends_m[0]!, likelihood.ends_m.at(-1)!];
  if (!(first >= 0 && first <= AT_THE_GROUND_M))
    return not(`a first slice at ${(100 * first).toFixed(1)} cm`);
  if (last > bottom_m) return not(`slices to ${last.toFixed(2)} m, the hole to ${bottom_m.toFixed(2)} m`);
  if (breaks_m.some((depth) => depth <= last))
    return not('an erosional contact or a bed laid down at once among its slices');
  return {
    kind: 'read',
    profiles: [{ id: label, ...likelihood }],
    surface: { age_cal_bp: 1950 - profile.collected_ce, sd_yr: 0 },
  };
}
