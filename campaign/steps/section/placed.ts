/** Holes set on their line: metres along it and off it. */
import { positionOf } from '@stillstand/campaign/holes';
import type { HoleResult } from '@stillstand/campaign/results';
import { bentLine } from '@stillstand/science/survey';
import type { Complain } from '../complaint.ts';
import { type AskedLine, isLevelled, type LineRow } from './asked.ts';

export interface HoleOnLine {
  hole: HoleResult;
  along_m: number;
  /** Null where distances are not known. */
  offset_m: number | null;
}

export interface PlacedLine {
  row: LineRow | null;
  holes: readonly HoleOnLine[];
  areDistancesKnown: boolean;
}

/** Apart from each other where a distance is not known, m; the same as for correlations. */
const UNKNOWN_M = 100;

/** `offsets_m` of the line through all holes, by hole. */
export function placedLine(
  { row, holes, within_m }: AskedLine,
  all: readonly HoleResult[],
  offsets_m: ReadonlyMap<string, number>,
  complain: Complain<LineRow>,
): PlacedLine {
  const unplaced = holes.filter((hole) => positionOf(hole) === null);
  if (unplaced.length > 0) {
    if (row !== null)
      complain(
        row,
        'section-hole-without-place',
        'holes',
        unplaced.map(({ hole }) => hole).join(', '),
        'holes with a position',
        'Read the position of the hole. Until then the holes of the line are drawn 100 m apart, and no profile is used.',
        'warning',
      );
    // Through all holes those with a place are enough.
    const known = row === null ? holes.filter(({ section_m }) => section_m !== null) : [];
    if (known.length < 2)
      return {
        row,
        holes: holes.map((hole, i) => ({ hole, along_m: i * UNKNOWN_M, offset_m: null })),
        areDistancesKnown: false,
      };
    return placedLine({ row, holes: known, within_m }, all, offsets_m, complain);
  }
  if (row === null) {
    const along = holes.map((hole) => ({
      hole,
      along_m: hole.section_m!,
      offset_m: offsets_m.get(hole.hole) ?? null,
    }));
    const first = Math.min(...along.map(({ along_m }) => along_m));
    return {
      row,
      holes: along.map((each) => ({ ...each, along_m: each.along_m - first })).sort(byPlace),
      areDistancesKnown: true,
    };
  }
  const line = bentLine(holes.map((hole) => positionOf(hole)!));
  const [crossing] = line.crossings;
  if (crossing !== undefined) {
    const piece = (k: number): string => `${holes[k]!.hole} to ${holes[k + 1]!.hole}`;
    complain(
      row,
      'section-line-crosses-itself',
      'holes',
      `${piece(crossing[0])} crosses ${piece(crossing[1])}`,
      'a line that does not cross itself',
      'Put its holes in the order in which they lie along it, or make two lines of it. Until then it is drawn as given.',
      'warning',
    );
  }
  const named = new Set(holes);
  const near = all.flatMap((hole): HoleOnLine[] => {
    const position = positionOf(hole);
    if (named.has(hole) || position === null || !isLevelled(hole) || holes.length < 2) return [];
    const { along_m, offset_m } = line.placeOf(position);
    return within_m !== null && Math.abs(offset_m) <= within_m ? [{ hole, along_m, offset_m }] : [];
  });
  const own = holes.map((hole, i) => ({ hole, along_m: line.corners_m[i]!, offset_m: 0 }));
  return { row, holes: [...own, ...near].sort(byPlace), areDistancesKnown: true };
}

const byPlace = (a: HoleOnLine, b: HoleOnLine): number => a.along_m - b.along_m;
