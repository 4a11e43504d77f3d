/** What a section is made of and what is drawn of it. Metres along the line from its first hole; elevations up. */

/** A described unit, elevations of its top and base. */
export interface SectionUnit {
  /** Unique on the line. */
  id: string;
  top_m: number;
  bottom_m: number;
  sediment: string;
  /** Contact at its base as described; null: not said. */
  base: string | null;
  /** False where the hole ends in it, or nobody described what lies below it. */
  isBaseSeen: boolean;
}

/** One hole, units from the top down. */
export interface SectionColumn {
  hole: string;
  along_m: number;
  ground_m: number;
  units: readonly SectionUnit[];
}

/** The base of a unit of one hole is that of a unit of another. */
export interface SectionTie {
  row_id: string;
  hole_a: string;
  unit_a: string;
  hole_b: string;
  unit_b: string;
  confidence: string | null;
  horizon: string | null;
}

export type Ending = 'continuous' | 'pinch_out' | 'truncated' | 'interfingered' | 'unknown';

/** What a person says of one contact between two holes. */
export interface SectionBoundary {
  row_id: string;
  /** The horizon of a tie, or the id of the unit of `hole_a` whose base it is. */
  horizon: string;
  hole_a: string;
  /** Null: whichever neighbour has no such contact. */
  hole_b: string | null;
  ending: Ending;
  /** Where it ends, from `hole_a` (0) to `hole_b` (1); null: half way. */
  at_fraction: number | null;
  /** Its middle above a straight line. */
  lift_m: number | null;
}

export interface ProfilePoint {
  along_m: number;
  elevation_m: number;
}

export type Point = readonly [along_m: number, elevation_m: number];

/** One sediment as far as it runs. Its outline is closed: the last point joins the first. */
export interface Body {
  /** The id of the first of its units. */
  id: string;
  units: readonly { hole: string; unit: string }[];
  sediment: string;
  outline: readonly Point[];
}

export interface ContactLine {
  hole_a: string;
  unit_a: string;
  /** Null where the contact ends before the next hole. */
  hole_b: string | null;
  unit_b: string | null;
  horizon: string | null;
  /** Null: nobody has correlated it. */
  confidence: 'certain' | 'probable' | 'possible' | null;
  ending: Ending;
  isErosional: boolean;
  /** True for the side of two bodies that meet between the holes; false for a base. */
  isLateral: boolean;
  line: readonly Point[];
  /** Rows it is drawn from. */
  tie: string | null;
  boundary: string | null;
}

export type SectionFinding =
  | { kind: 'tie_crosses'; row_id: string; other: string }
  | { kind: 'boundary_without_contact'; row_id: string }
  | { kind: 'boundary_off_line'; row_id: string; hole: string }
  | { kind: 'boundary_not_neighbours'; row_id: string }
  /** It says that a contact ends, and a tie that it goes on. */
  | { kind: 'boundary_against_tie'; row_id: string; tie: string }
  | { kind: 'boundary_twice'; row_id: string; other: string }
  /** Only one unit of each hole can meet in fingers, each of its own sediment. */
  | { kind: 'no_fingers'; row_id: string }
  /** The lift asked for would take the line through another. */
  | { kind: 'lift_clamped'; row_id: string; asked_m: number; drawn_m: number }
  | { kind: 'one_place'; hole_a: string; hole_b: string };

export interface FilledSection {
  bodies: Body[];
  contacts: ContactLine[];
  ground: Point[];
  /** Where nobody knows: a ? stands here. */
  queries: Point[];
  problems: SectionFinding[];
}
