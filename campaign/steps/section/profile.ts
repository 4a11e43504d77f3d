/** The ground as profiled along a line, held against the levelled ground of its holes. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Row } from '@stillstand/campaign/tables';
import { heightAt, held, type ProfilePoint } from '@stillstand/science/correlate';
import type { Complain } from '../complaint.ts';
import { unsignedMetres } from '../words/numbers.ts';
import type { HoleOnLine, PlacedLine } from './placed.ts';

export type ProfileRow = Row<'section_profile'>;

/** A profile is read at a distance that may be out by a step: less than this is no misfit, m. */
const MISFIT_M = 0.1;

/** Places of the profile, nothing moved: the section bends it to the holes (docs/methods/section.md). */
export function profileOf(
  campaign: Campaign,
  { row, holes, areDistancesKnown }: PlacedLine,
  complain: Complain<ProfileRow>,
): ProfilePoint[] {
  const rows = campaign.rows.section_profile
    .filter(({ line }) => line === row?.line)
    .toSorted((a, b) => a.distance_m - b.distance_m);
  const [first, last] = [rows[0], rows.at(-1)];
  if (first === undefined || last === undefined) return [];
  if (!areDistancesKnown) {
    complain(
      first,
      'section-profile-without-distances',
      'distance_m',
      'a profile of a line with a hole of unknown position',
      'a position of every hole of the line',
      'Read the positions. Until then the profile is not drawn.',
      'warning',
    );
    return [];
  }
  const line = rows.map((each): [number, number] => [each.distance_m, each.elevation_m]);
  rows.slice(1).forEach((each, i) => {
    const before = rows[i]!;
    if (before.distance_m === each.distance_m && before.elevation_m !== each.elevation_m)
      complain(
        each,
        'section-profile-twice',
        'distance_m',
        `${unsignedMetres(before.elevation_m)} and ${unsignedMetres(each.elevation_m)} m at ${unsignedMetres(each.distance_m)} m`,
        'one height at a distance',
        'Correct the distance or delete one. Until then the ground is drawn at their mean.',
        'warning',
      );
  });
  const [from, to] = [holes[0]!.along_m, holes.at(-1)!.along_m];
  if (first.distance_m > from + MISFIT_M || last.distance_m < to - MISFIT_M)
    complain(
      last,
      'section-profile-short',
      'distance_m',
      `ground from ${unsignedMetres(first.distance_m)} to ${unsignedMetres(last.distance_m)} m`,
      `ground from the first hole to the last, ${unsignedMetres(from)} to ${unsignedMetres(to)} m`,
      'Level the rest, or check where the profile begins. Until then the ground is straight there.',
      'warning',
    );
  for (const on of holes) complainOfMisfit(on, rows, line, complain);
  return rows.map(({ distance_m, elevation_m }) => ({ along_m: distance_m, elevation_m }));
}

function complainOfMisfit(
  { hole, along_m }: HoleOnLine,
  rows: readonly ProfileRow[],
  line: readonly (readonly [number, number])[],
  complain: Complain<ProfileRow>,
): void {
  if (heightAt(line, along_m) === null) return;
  const { value, sigma } = hole.ground_elevation_m!;
  const off_m = held(line, along_m) - value;
  if (Math.abs(off_m) <= Math.max(MISFIT_M, 2 * sigma)) return;
  const nearest = rows.reduce((best, each) =>
    Math.abs(each.distance_m - along_m) < Math.abs(best.distance_m - along_m) ? each : best,
  );
  complain(
    nearest,
    'section-profile-misses-hole',
    'elevation_m',
    `${unsignedMetres(Math.abs(off_m))} m ${off_m > 0 ? 'above' : 'below'} the ground of ${hole.hole} at ${unsignedMetres(along_m)} m`,
    `the levelled ground within ${unsignedMetres(Math.max(MISFIT_M, 2 * sigma))} m`,
    'Check the distances, the zero of the heights and the hole. Until then the ground is bent to the hole.',
    'warning',
  );
}
