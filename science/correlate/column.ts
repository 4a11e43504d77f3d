/** What is known of the units of a hole when they are compared with those of another. */

/** A value with its 1 sigma, in one unit for both holes. */
export interface Measured {
  value: number;
  sigma: number;
}

/** A unit, from the top down in its column. */
export interface CorrelatedUnit {
  /** Names of the main and the secondary sediment; null where none is given. */
  sediment: string | null;
  secondary_sediment: string | null;
  /** Elevation of top and base, m, positive up. */
  top_m: Measured;
  base_m: Measured;
  /** m; at least this where the base is not seen. 1 sigma of its own, without what shifts top and base alike. */
  thickness_m: Measured;
  /** False for a unit in which the hole ends: it may go on below. */
  isBaseSeen: boolean;
  /** Values measured on it, and its age, by name; those that both units have are compared. */
  properties: Readonly<Record<string, Measured>>;
  /** Bounds on the age of its base, cal BP; null where nothing bounds it. */
  base_age: AgeBounds | null;
}

/** What superposition leaves for an age: dates above a contact are no older than it, dates below no younger. */
export interface AgeBounds {
  youngest_cal_bp: number | null;
  oldest_cal_bp: number | null;
}

/** One hole's units from the top down. */
export interface CorrelatedColumn {
  units: readonly CorrelatedUnit[];
  /** False where the ground has no elevation: `top_m` and `base_m` are then minus the depth, and compared with no other. */
  hasElevations: boolean;
}

/** A contact of a hole: what bounds its age, and its elevation, m; null where it is not known. */
export interface DatedContact {
  age: AgeBounds | null;
  elevation_m: number | null;
}

/**
 * Years by which two contacts would have to differ in age beyond what a contact may that climbs: at the edge of a rising
 * sea it is younger upslope. 0 where they can be one. Bounds that contradict each other (dates out of order) say nothing.
 * @param years_per_m how much younger one metre higher, at most
 */
export function yearsApart(a: DatedContact, b: DatedContact, years_per_m: number): number {
  if (a.age === null || b.age === null || isContradictory(a.age) || isContradictory(b.age)) return 0;
  const [aOverB, bOverA] = [gap(a.age, b.age), gap(b.age, a.age)];
  const [older, younger] = aOverB > 0 ? [a, b] : [b, a];
  const climb_m =
    older.elevation_m === null || younger.elevation_m === null ? 0 : younger.elevation_m - older.elevation_m;
  return Math.max(0, Math.max(aOverB, bOverA) - years_per_m * Math.max(0, climb_m));
}

/** Years by which the first is older whatever is true. */
const gap = (older: AgeBounds, younger: AgeBounds): number =>
  (older.youngest_cal_bp ?? -Infinity) - (younger.oldest_cal_bp ?? Infinity);

const isContradictory = ({ youngest_cal_bp, oldest_cal_bp }: AgeBounds): boolean =>
  youngest_cal_bp !== null && oldest_cal_bp !== null && youngest_cal_bp > oldest_cal_bp;
