export interface BelowSettings {
  /** Holes that are asked, the nearest first. */
  holes: number;
  /** What a mean elevation is known to beforehand, m (1 sigma), about that of the bases seen. */
  level_sd_m: number;
  /** Dip that contacts have in common beforehand, and of each by itself besides, m per m (1 sigma, east and north alike). */
  dip: number;
  own_dip: number;
  /** Metres over which bases lose each other; beyond some tenth of it elevations differ no more by distance. */
  range_m: number;
  /** Variance of elevation by metre of distance, m²/m, each as probable beforehand as the next. */
  roughness_m2_m: readonly number[];
  /** Share of it that all contacts of a section have in common. */
  common: readonly number[];
  /** Relief of a contact within a few metres, m (1 sigma). */
  relief_m: readonly number[];
  /** How often a contact is not where its surface would have it (scoured, slumped, another one taken for it), and then so many times as far off. */
  odd: number;
  odd_times: number;
  /** How often a contact is missing between holes that have it: believed beforehand, as much as so many cases say; the holes say the rest. */
  missing: number;
  missing_cases: number;
  /** How often it is there though none of the holes next to this one has it. */
  unforeseen: number;
}

/** Common practice, no source: docs/methods/below.md says how they were set. */
export const belowDefaults: BelowSettings = {
  holes: 8,
  level_sd_m: 10,
  dip: 0.02,
  own_dip: 0.01,
  range_m: 5000,
  roughness_m2_m: [1e-4, 3e-4, 1e-3, 3e-3, 1e-2, 3e-2, 0.1, 0.3],
  common: [0, 0.3, 0.6, 0.85, 0.97],
  relief_m: [0.03, 0.1, 0.3],
  odd: 0.1,
  odd_times: 4,
  missing: 0.15,
  missing_cases: 10,
  unforeseen: 0.03,
};
