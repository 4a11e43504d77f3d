/** Clocks that read the ages of many depths at once, such as the activities of lead-210 down a core. */
import type { Profile } from './model.ts';
import { sectionAt } from './section.ts';

export interface PlacedProfile {
  /** By end of a slice: its section, and metres below the top of that. */
  section: Int16Array;
  below_m: Float64Array;
  /** Section of the lowest. */
  last: number;
  /** Room for the ages of the ends. */
  age_cal_bp: Float64Array;
  logLikelihood: Profile['logLikelihood'];
}

export function placed({ ends_m, logLikelihood }: Profile, edge_m: Float64Array): PlacedProfile {
  const section = Int16Array.from(ends_m, (d) => sectionAt(edge_m, d));
  return {
    section,
    below_m: ends_m.map((d, e) => d - edge_m[section[e]!]!),
    last: section.at(-1)!,
    age_cal_bp: new Float64Array(ends_m.length),
    logLikelihood,
  };
}

/** Log likelihood of all, where a depth in section j that lies so far below its top has that age. */
export function logProfiles(
  profiles: readonly PlacedProfile[],
  ageAt: (j: number, below_m: number) => number,
): number {
  let sum = 0;
  for (const { section, below_m, age_cal_bp, logLikelihood } of profiles) {
    for (let e = 0; e < section.length; e++) age_cal_bp[e] = ageAt(section[e]!, below_m[e]!);
    sum += logLikelihood(age_cal_bp);
  }
  return sum;
}
