/**
 * Ties between the contacts of two holes, as the table `correlations` has them. A tie names a row of the unit whose base
 * is tied, and so outlives every new label; what was typed by hand may name the unit by its label.
 */
import { correlatedUnit } from '@stillstand/campaign/holes';
import type { Results } from '@stillstand/campaign/results';
import type { DocRow } from '../../store/index.ts';

/** The base of a unit of a hole. */
export interface Place {
  hole: string;
  /** Of the unit in the results; null where there is none (any more). */
  row_id: string | null;
  /** Its label, or what the tie says where it is not found. */
  label: string;
}

export interface Tied {
  row: DocRow;
  a: Place;
  b: Place;
  confidence: string;
  /** Name typed in this row; empty for none. */
  horizon: string;
  /** Not proposed by a program and not refused by a person: drawn. */
  isAccepted: boolean;
  isRefused: boolean;
}

export const tiesOf = (ties: readonly DocRow[], units: readonly DocRow[], results: Results): Tied[] => {
  const pieces = units.map(({ row_id, cells }) => ({
    row_id,
    hole: cells['hole']?.trim() ?? '',
    unit: cells['unit']?.trim() ?? '',
  }));
  const placeOf = (tie: DocRow, side: 'a' | 'b'): Place => {
    const hole = tie.cells[`hole_${side}`]?.trim() ?? '';
    const named = tie.cells[`unit_${side}`]?.trim() ?? '';
    const { label, unit } = correlatedUnit(named, hole, pieces, results.holes);
    return { hole, row_id: unit?.row_id ?? null, label };
  };
  return ties.map((row) => ({
    row,
    a: placeOf(row, 'a'),
    b: placeOf(row, 'b'),
    confidence: row.cells['confidence']?.trim() || 'probable',
    horizon: row.cells['horizon']?.trim() ?? '',
    isRefused: row.cells['status']?.trim() === 'refused',
    isAccepted: ['', 'accepted'].includes(row.cells['status']?.trim() ?? ''),
  }));
};

export const isSame = (a: Place, b: Place): boolean =>
  a.hole === b.hole && a.row_id !== null && a.row_id === b.row_id;
export const isBetween = (tie: Tied, p: Place, q: Place): boolean =>
  (isSame(tie.a, p) && isSame(tie.b, q)) || (isSame(tie.a, q) && isSame(tie.b, p));

/** Sides of a tie at the base of the layer that has these rows. */
export function sidesAt(
  tie: { cells: Readonly<Record<string, string>> },
  hole: string,
  layer: { label: string; pieces: readonly { row: { row_id: string } }[] },
): ('a' | 'b')[] {
  return (['a', 'b'] as const).filter((side) => {
    const named = tie.cells[`unit_${side}`]?.trim() ?? '';
    return (
      tie.cells[`hole_${side}`]?.trim() === hole &&
      named !== '' &&
      (named === layer.label || layer.pieces.some(({ row }) => row.row_id === named))
    );
  });
}
