/** The strip that the marks of a photograph cut out, or why they cut out none. */
import type { PhotographResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import type { CorePlace } from './place.ts';

type Strip = NonNullable<PhotographResult['strip']>;

/** Fewer px per metre than a picture to look at has (common practice, no source): a mark's depth in another unit. */
const LEAST_PX_PER_M = 100;

export type ScaleFault = { column: string; found: string; expected: string; fix: string };

/** The strip that the marks cut out; null without marks, said where some of them are there or they fix no scale. */
export function stripOf(
  row: Row<'photos'>,
  { top_m, bottom_m }: CorePlace,
  warn: (fault: ScaleFault) => void,
): Strip | null {
  const needed = {
    mark_1: row.mark_1_m,
    mark_1_x_px: row.mark_1_x_px,
    mark_1_y_px: row.mark_1_y_px,
    mark_2: row.mark_2_m,
    mark_2_x_px: row.mark_2_x_px,
    mark_2_y_px: row.mark_2_y_px,
    strip_width: row.strip_width_m,
  };
  const missing = Object.entries(needed).filter(([, value]) => value === null);
  if (missing.length === Object.keys(needed).length) return null;
  if (missing.length > 0) {
    const names = missing.map(([name]) => name).join(', ');
    warn({
      column: missing[0]![0],
      found: `${names} empty`,
      expected: 'two marks, each with its depth and its place on the picture, and the width of the core',
      fix: 'Set the scale of the photograph; until then it is not cut out.',
    });
    return null;
  }
  const strip: Strip = {
    top_m,
    bottom_m,
    mark_1: { x_px: row.mark_1_x_px!, y_px: row.mark_1_y_px!, at_m: row.mark_1_m! },
    mark_2: { x_px: row.mark_2_x_px!, y_px: row.mark_2_y_px!, at_m: row.mark_2_m! },
    width_m: row.strip_width_m!,
    offset_m: row.strip_offset_m ?? 0,
  };
  const { mark_1, mark_2 } = strip;
  const [x, y] = [mark_2.x_px - mark_1.x_px, mark_2.y_px - mark_1.y_px];
  const apart_px = Math.sqrt(x * x + y * y);
  const along_m = Math.abs(mark_2.at_m - mark_1.at_m);
  if (apart_px === 0 || along_m === 0) {
    const isDepth = apart_px > 0;
    warn({
      column: isDepth ? 'mark_2' : 'mark_2_x_px',
      found: isDepth ? `both marks at ${mark_1.at_m} m` : `both marks at ${mark_1.x_px}, ${mark_1.y_px} px`,
      expected: isDepth ? 'marks of different depths' : 'marks at two places of the picture',
      fix: 'Set the scale again, with marks as far apart as the picture allows; until then it is not cut out.',
    });
    return null;
  }
  if (apart_px < LEAST_PX_PER_M * along_m) {
    warn({
      column: 'mark_2',
      found: `${Math.round(apart_px)} px for ${along_m} m of core`,
      expected: `at least ${LEAST_PX_PER_M} px per metre`,
      fix: 'Check the unit of both depths; until then the strip is cut out as they say.',
    });
  }
  return strip;
}
