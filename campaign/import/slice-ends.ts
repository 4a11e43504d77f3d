/** Slices of which only the middle is stated: one below the other from the surface, each ends where the next begins. */
import { type PlaceInCore, placeInCore } from './core-place.ts';
import { compare, type Decimal, negated, sum, times } from './decimal.ts';
import type { Given } from './given.ts';
import type { Mapping } from './mapping.ts';
import { inMetres, readLength, writtenLength } from './read-cell.ts';

/** Where each line of one core lies, in the order of the table; exact. */
export function sliceEnds(givens: readonly Given[], mapping: Mapping): PlaceInCore[] {
  let top: Decimal | null = { digits: 0n, scale: 0 };
  return givens.map((given) => {
    const place = placeInCore(given, mapping);
    const depth = given.said.get('depth');
    if (!place.isPoint || depth === undefined) return place;
    const middle = readLength(depth, mapping).from;
    if (middle === null || top === null) return place;
    // A line of the surface itself has no slice.
    if (middle.value.digits === 0n) return place;
    const bottom = sum(times(middle.value, 2, 0), negated(top));
    if (compare(bottom, middle.value) <= 0) {
      top = null;
      return place;
    }
    const { unit } = middle;
    const from = { value: top, unit };
    const to = { value: bottom, unit };
    top = bottom;
    return {
      ...place,
      top: writtenLength(from),
      bottom: writtenLength(to),
      top_m: inMetres(from),
      bottom_m: inMetres(to),
      isPoint: false,
      notes: [...place.notes, `${depth.column.heading}: ${depth.text}`],
    };
  });
}
