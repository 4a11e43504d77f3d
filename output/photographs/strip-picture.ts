/**
 * The strip as a small picture of its own, straight and on in-situ depth, so that a figure holds what it shows and no
 * more. Made in three steps by whoever has a drawing machine (a renderer of SVG, a canvas): the core cut out and
 * straight, as fine as the picture; its slices moved to where they lay in the ground; halved until it is small.
 */
import type { PhotographResult } from '@stillstand/campaign/results';
import { power } from '@stillstand/science/base';
import type { PictureFault } from './picture-file.ts';
import { type Matrix, type PictureSize, reachOnPicture, sliceTransform, stripPlace } from './strip.ts';

/** On paper: width of a strip, and the longest column that is drawn; points. */
export const STRIP_PAPER = { width: 14, height: 470 } as const;
const DOTS_PER_POINT = 300 / 72;
/** Of the straight core before it is halved: 64 MB while it is drawn (common practice, no source). */
const MOST_PX = 16_000_000;

/** A strip as a figure takes it: an address that holds the picture, or why there is none. */
export type StripPicture = { url: string } | { fault: PictureFault };

export interface StripPlan {
  /** Of the straight core and of its slices in the ground, px. */
  large: PictureSize;
  /** From the upright picture to the straight core, which fills the large size. */
  matrix: Matrix;
  /** Rows of the straight core, and the rows they fill in the ground, px of the large size. */
  slices: { from: Rows; to: Rows }[];
  /** How often the large size is halved across and along. */
  halvings: { across: number; along: number };
}

interface Rows {
  top: number;
  bottom: number;
}

/** In-situ depth of its upper and lower end, m; null where a photograph has no strip or no place. */
export function stripSpan({ strip, slices }: PhotographResult): { from_m: number; to_m: number } | null {
  const [first, last] = [slices[0], slices.at(-1)];
  if (strip === null || first === undefined || last === undefined) return null;
  const span = { from_m: first.depth_from_m, to_m: last.depth_to_m };
  return span.to_m > span.from_m ? span : null;
}

/**
 * What to draw: 300 dots to the inch at the printed size in a column `bottom_m` deep, and not more than the picture
 * has. A whole column is 58 × 1,958 pixels at most. Depth increases evenly down the strip.
 */
export function stripPlan(
  photograph: PhotographResult,
  picture: PictureSize,
  bottom_m: number,
): StripPlan | PictureFault {
  const { strip, slices } = photograph;
  const place = strip === null ? null : stripPlace(strip.mark_1, strip.mark_2);
  const span = stripSpan(photograph);
  if (strip === null || place === null || span === null) return 'off-picture';
  if (reachOnPicture({ ...strip, width_m: 0 }, picture) === null) return 'off-picture';
  const core = { from_m: slices[0]!.from_m, to_m: slices.at(-1)!.to_m };
  const depth_m = span.to_m - span.from_m;
  const has = {
    across: strip.width_m * place.px_per_m,
    along: (core.to_m - core.from_m) * place.px_per_m,
  };
  const small = {
    across: pixels(STRIP_PAPER.width * DOTS_PER_POINT, has.across),
    along: pixels((STRIP_PAPER.height * DOTS_PER_POINT * depth_m) / bottom_m, has.along),
  };
  const halvings = { across: 0, along: 0 };
  const large = () => ({
    width_px: small.across * power(2, halvings.across),
    height_px: small.along * power(2, halvings.along),
  });
  for (const side of ['across', 'along'] as const)
    while (small[side] * power(2, halvings[side] + 1) <= has[side] && area(large()) * 2 <= MOST_PX)
      halvings[side] += 1;
  const size = large();
  const box = { left: 0, top: 0, right: size.width_px, bottom: size.height_px };
  const row = (at: number, { from_m, to_m }: { from_m: number; to_m: number }): number =>
    ((at - from_m) * size.height_px) / (to_m - from_m);
  return {
    large: size,
    matrix: sliceTransform(strip, core, box)!,
    halvings,
    slices: slices.flatMap((slice) => {
      const from = { top: row(slice.from_m, core), bottom: row(slice.to_m, core) };
      const to = { top: row(slice.depth_from_m, span), bottom: row(slice.depth_to_m, span) };
      const k = (to.bottom - to.top) / (from.bottom - from.top);
      // One row more, which the next slice covers: no seam between them.
      return k > 0
        ? [
            {
              from: { top: from.top, bottom: from.bottom + 1 / k },
              to: { top: to.top, bottom: to.bottom + 1 },
            },
          ]
        : [];
    }),
  };
}

const pixels = (wanted: number, most: number): number => Math.max(1, Math.round(Math.min(wanted, most)));
const area = ({ width_px, height_px }: PictureSize): number => width_px * height_px;
