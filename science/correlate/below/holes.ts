/** Holes as what lies below one of them is foretold from the others. */
import type { Measured } from '../column.ts';

export interface UnitBelow {
  /** Its own among those of its hole. */
  id: string;
  sediment: string | null;
  /** Environment it formed in; null where none is said. */
  environment: string | null;
  /** Elevation of its base, m, positive up. */
  base_m: Measured;
  /** False for a unit in which the hole ends. */
  isBaseSeen: boolean;
}

export interface HoleBelow {
  hole: string;
  /** In a plane, from any origin, m. */
  east_m: number;
  north_m: number;
  /** Elevation of its ground, m; null where it is not known. */
  ground_m: Measured | null;
  /** From the top down. */
  units: readonly UnitBelow[];
}

/** Bases of two units of two holes that are one contact. */
export interface TiedBases {
  hole_a: string;
  unit_a: string;
  hole_b: string;
  unit_b: string;
}
