/** What a map shows besides holes: coasts and grounds of a campaign, and the land of the Earth. */
import type { Position } from '@stillstand/science/survey';

export interface CoastLine {
  places: readonly Position[];
  isClosed: boolean;
  /** The side of the sea, along the line; null where it is not stated. */
  sea: 'left' | 'right' | null;
}

/** An area with a name: a bank, a marsh, a concession. */
export interface Ground {
  name: string;
  rings: readonly (readonly Position[])[];
}

/** Rings of a piece of land, the outer first: longitude and latitude, degrees. */
export type Land = readonly (readonly (readonly [longitude_deg: number, latitude_deg: number])[])[];

export interface MapShapes {
  coasts: readonly CoastLine[];
  grounds: readonly Ground[];
  /** Land of the whole Earth, for the inset; empty for none. */
  land: readonly Land[];
}

export const NO_SHAPES: MapShapes = { coasts: [], grounds: [], land: [] };
