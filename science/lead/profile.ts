/** A profile of lead-210 and caesium-137 as it was measured, and the constants it is read with. */

/** A specific activity, Bq/kg of dry sediment, at the date of collection. */
export interface Activity {
  /** The value; of a limit, what it is below. */
  bq_kg: number;
  /** 1 sigma, 0 or more; of a limit not used. */
  sigma_bq_kg: number;
  /** True for a limit: the activity lies anywhere from 0 to `bq_kg`. */
  is_limit?: boolean;
}

/** Depths are below the surface at collection, metres, positive down. */
export interface LeadSlice {
  id: string;
  top_m: number;
  bottom_m: number;
  /** Total lead-210; null where it was not measured. */
  total: Activity | null;
  /** Supported lead-210 of this slice: its radium-226, or lead-214 or bismuth-214; null where it was not measured. */
  supported: Activity | null;
  /** Dry mass over wet volume, g/cm³; null where it was not measured. */
  density_g_cm3: number | null;
  caesium: Activity | null;
}

export interface LeadProfile {
  /** In any order. */
  slices: readonly LeadSlice[];
  /** One supported activity, for all slices whatever they have; null: that of each slice, or else of the deepest. */
  supported: { bq_kg: number; sigma_bq_kg: number } | null;
  /** Decimal year CE; null where it is not known: ages then count from collection alone. */
  collected_ce: number | null;
}

export interface LeadSettings {
  /**
   * Half-life of lead-210 and its 1 sigma, yr: 22.20 ± 0.22 (evaluated nuclear structure data, from memory). Others in
   * use: 22.23, 22.26, 22.3.
   */
  half_life_yr: { value: number; sigma: number };
  /** Lead-210 below the last slice measured: estimated where that slice still has some, or taken to be none. */
  below: 'estimated' | 'none';
  /** Draws of the propagation. */
  draws: number;
}

export const leadDefaults: LeadSettings = {
  half_life_yr: { value: 22.2, sigma: 0.22 },
  below: 'estimated',
  draws: 4000,
};

export type LeadModel = 'constant_supply' | 'constant_concentration' | 'constant_flux';
export const LEAD_MODELS: readonly LeadModel[] = [
  'constant_supply',
  'constant_concentration',
  'constant_flux',
];

/** Something that cannot be so, or is to be known; what can be computed is. */
export interface LeadFault {
  code:
    | 'no_thickness'
    | 'overlap'
    | 'activity'
    | 'density'
    | 'no_density'
    | 'below_supported'
    | 'gap'
    | 'surface'
    | 'supported'
    | 'below'
    | 'caesium'
    | 'collected';
  /** Errors: not used. Warnings: used, in doubt. Notes: as it should be, said. */
  severity: 'error' | 'warning' | 'note';
  /** The slice; null for the profile. */
  slice: string | null;
  found: string;
  expected: string;
  fix: string;
}

/** Age in cal BP of what was laid down so many years before collection. */
export const calBp = (age_yr: number, collected_ce: number): number => age_yr + 1950 - collected_ce;
