/** Where the holes of a section stand on paper: at their distance where they can, moved apart where they touch. */
import type { DateResult, HoleResult, Results } from '@stillstand/campaign/results';
import { placeAlong, type Scale, scale } from '@stillstand/output/drawing';

export interface Stand {
  hole: HoleResult;
  /** Left edge and full (gravel) width of its column, points. */
  x: number;
  width: number;
  /** Where it truly is on the distance staff; null where the section line is not known. */
  at: number | null;
  ground_m: number;
  bottom_m: number;
  dates: { date: DateResult; elevation_m: number }[];
}

export interface SectionLayout {
  stands: Stand[];
  /** Holes that cannot be hung, and why. */
  missing: { hole: string; why: string }[];
  distance: Scale | null;
  top_m: number;
  bottom_m: number;
}

/** Room right of a column for its ages, points. */
export const AGES = 30;
/** Between one hole's things and the next hole's column, points. */
const GAP = 4;
/** Where the hole itself is in its column, as a share of the width: the middle of a clay. */
export const AXIS = 0.275;

export function sectionLayout(results: Results, left: number, right: number): SectionLayout {
  const missing: SectionLayout['missing'] = [];
  const drawn = results.holes.filter((hole) => {
    if (hole.ground_elevation_m === null) {
      missing.push({ hole: hole.hole, why: 'height of the ground not known' });
      return false;
    }
    if (hole.state === 'planned') {
      missing.push({ hole: hole.hole, why: 'planned' });
      return false;
    }
    return true;
  });
  const located = drawn.length > 0 && drawn.every((hole) => hole.section_m !== null);
  const holes = located ? [...drawn].sort((a, b) => a.section_m! - b.section_m!) : drawn;
  const ages = holes.map((hole) => (results.dates.some((d) => d.hole === hole.hole) ? AGES : 6));
  const room = right - left - ages.reduce((sum, a) => sum + a + GAP, 0);
  const width = Math.max(7, Math.min(38, room / Math.max(1, holes.length)));
  const sizes = ages.map((a) => width + a + GAP);
  const first = located ? holes[0]!.section_m! : 0;
  const last = located ? holes.at(-1)!.section_m! : 1;
  const distance =
    located && last > first
      ? scale(first, last, left + AXIS * width, right - ages.at(-1)! - (1 - AXIS) * width - GAP)
      : null;
  const centres =
    distance === null
      ? holes.map((_, i) => left + ((right - left) * (i + 0.5)) / holes.length)
      : placeAlong(
          // A place is column and ages; it is wanted where the hole itself is.
          holes.map((hole, i) => ({
            at: distance(hole.section_m!) - AXIS * width + sizes[i]! / 2,
            size: sizes[i]!,
          })),
          left,
          right,
        );
  const squeezed = Math.min(
    1,
    (right - left) /
      Math.max(
        1,
        sizes.reduce((sum, size) => sum + size, 0),
      ),
  );
  const elevations = new Map(results.samples.map((s) => [s.sample, s.elevation_m?.value ?? null]));
  const stands = holes.map((hole, i) => {
    const ground_m = hole.ground_elevation_m!.value;
    const deepest = Math.max(0.1, hole.penetration_m ?? 0, ...hole.units.map((u) => u.depth_bottom_m.value));
    return {
      hole,
      x: centres[i]! - (sizes[i]! * squeezed) / 2,
      width: width * squeezed,
      at: distance === null ? null : distance(hole.section_m!),
      ground_m,
      bottom_m: ground_m - deepest,
      dates: results.dates
        .flatMap((date) => {
          const elevation_m = date.hole === hole.hole ? (elevations.get(date.sample) ?? null) : null;
          return elevation_m === null ? [] : [{ date, elevation_m }];
        })
        .sort((a, b) => b.elevation_m - a.elevation_m || a.date.median_cal_bp - b.date.median_cal_bp),
    };
  });
  return {
    stands,
    missing,
    distance,
    top_m: Math.max(0.1, ...stands.map((s) => s.ground_m)),
    bottom_m: Math.min(0, ...stands.map((s) => s.bottom_m)),
  };
}
