/** Ties between the contacts of two holes, as the table `correlations` has them. */
import type { Results } from '@stillstand/campaign/results';
import type { DocRow } from '../../store/index.ts';

/** The base of a unit of a hole. */
export interface Place {
  hole: string;
  contact: string;
}

export interface Tied {
  row: DocRow;
  a: Place;
  b: Place;
  confidence: string;
}

export const tiesOf = (rows: readonly DocRow[]): Tied[] =>
  rows.map((row) => ({
    row,
    a: { hole: row.cells['hole_a']?.trim() ?? '', contact: row.cells['unit_a']?.trim() ?? '' },
    b: { hole: row.cells['hole_b']?.trim() ?? '', contact: row.cells['unit_b']?.trim() ?? '' },
    confidence: row.cells['confidence']?.trim() || 'probable',
  }));

export const isSame = (a: Place, b: Place): boolean => a.hole === b.hole && a.contact === b.contact;
export const isBetween = (tie: Tied, p: Place, q: Place): boolean =>
  (isSame(tie.a, p) && isSame(tie.b, q)) || (isSame(tie.a, q) && isSame(tie.b, p));
export const isKnown = (results: Results, place: Place): boolean =>
  results.holes.some((h) => h.hole === place.hole && h.units.some((u) => u.unit === place.contact));
