/**
 * From a picture of a core to the core: two marks of known depth fix a similarity (scale, turn, shift). No perspective
 * and no lens is corrected. Pixels from the upper left of the upright picture, x to the right, y down; along the core
 * positive downward, across it positive to the right with the top up; metres.
 */
import type { PhotographResult } from '@stillstand/campaign/results';

export type Strip = NonNullable<PhotographResult['strip']>;
export type Slice = PhotographResult['slices'][number];
export type PictureMark = Strip['mark_1'];

export interface PicturePoint {
  x_px: number;
  y_px: number;
}

export interface CorePoint {
  along_m: number;
  across_m: number;
}

export interface PictureSize {
  width_px: number;
  height_px: number;
}

/** The core on its picture. */
export interface StripPlace {
  px_per_m: number;
  /** Unit vectors on the picture: down the core, and to the right of that with the top up. */
  down: { x: number; y: number };
  right: { x: number; y: number };
  toPicture(point: CorePoint): PicturePoint;
  toCore(point: PicturePoint): CorePoint;
}

/** Null where the marks are at one place or of one depth, or a number is not finite: they fix no scale then. */
export function stripPlace(one: PictureMark, two: PictureMark): StripPlace | null {
  const x = two.x_px - one.x_px;
  const y = two.y_px - one.y_px;
  const along_m = two.at_m - one.at_m;
  const apart_px = Math.sqrt(x * x + y * y);
  const px_per_m = apart_px / Math.abs(along_m);
  if (!(px_per_m > 0 && px_per_m < Infinity)) return null;
  const sense = along_m > 0 ? apart_px : -apart_px;
  const down = { x: x / sense, y: y / sense };
  // Down the page is (0, 1), and its right (1, 0).
  const right = { x: down.y, y: -down.x };
  return {
    px_per_m,
    down,
    right,
    toPicture: ({ along_m: d, across_m }) => ({
      x_px: one.x_px + px_per_m * ((d - one.at_m) * down.x + across_m * right.x),
      y_px: one.y_px + px_per_m * ((d - one.at_m) * down.y + across_m * right.y),
    }),
    toCore: ({ x_px, y_px }) => ({
      along_m: one.at_m + ((x_px - one.x_px) * down.x + (y_px - one.y_px) * down.y) / px_per_m,
      across_m: ((x_px - one.x_px) * right.x + (y_px - one.y_px) * right.y) / px_per_m,
    }),
  };
}

/** Left and right side of the core across it, from the line through the marks. */
export const sidesOf = ({ width_m, offset_m }: Pick<Strip, 'width_m' | 'offset_m'>) => ({
  left_m: offset_m - width_m / 2,
  right_m: offset_m + width_m / 2,
});

/** Corners of the strip on the picture: upper left, upper right, lower right, lower left with the top up. */
export function stripCorners(strip: Strip): PicturePoint[] | null {
  const place = stripPlace(strip.mark_1, strip.mark_2);
  if (place === null) return null;
  const { left_m, right_m } = sidesOf(strip);
  const at = (along_m: number, across_m: number): PicturePoint => place.toPicture({ along_m, across_m });
  return [
    at(strip.top_m, left_m),
    at(strip.top_m, right_m),
    at(strip.bottom_m, right_m),
    at(strip.bottom_m, left_m),
  ];
}

/** Where along the strip the core is on the picture in its whole width; null: nowhere. */
export function reachOnPicture(strip: Strip, size: PictureSize): { from_m: number; to_m: number } | null {
  const corners = stripCorners(strip);
  if (corners === null) return null;
  const [a, b, c, d] = corners as [PicturePoint, PicturePoint, PicturePoint, PicturePoint];
  // Of each side, as parts of its length: inside all four edges.
  let from = 0;
  let to = 1;
  for (const [upper, lower] of [
    [a, d],
    [b, c],
  ] as const) {
    for (const [start, end, most] of [
      [upper.x_px, lower.x_px, size.width_px],
      [upper.y_px, lower.y_px, size.height_px],
    ] as const) {
      const step = end - start;
      if (step === 0) {
        if (start < 0 || start > most) return null;
        continue;
      }
      const ends = [-start / step, (most - start) / step];
      from = Math.max(from, Math.min(...ends));
      to = Math.min(to, Math.max(...ends));
    }
  }
  if (!(from < to)) return null;
  const length = strip.bottom_m - strip.top_m;
  return { from_m: strip.top_m + from * length, to_m: strip.top_m + to * length };
}

/** A box on the paper or screen, y down. */
export interface SliceBox {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

/** x′ = a·x + c·y + e, y′ = b·x + d·y + f: as SVG’s `matrix` and a canvas take it. */
export interface Matrix {
  a: number;
  b: number;
  c: number;
  d: number;
  e: number;
  f: number;
}

/**
 * From pixels of the upright picture to the paper: the piece of core from `from_m` to `to_m`, as wide as the strip,
 * fills the box. What else is on the picture falls outside it and must be clipped. Null where the marks fix no scale or
 * the piece has no length.
 */
export function sliceTransform(
  strip: Strip,
  { from_m, to_m }: Pick<Slice, 'from_m' | 'to_m'>,
  box: SliceBox,
): Matrix | null {
  const place = stripPlace(strip.mark_1, strip.mark_2);
  const kAcross = (box.right - box.left) / strip.width_m;
  const kAlong = (box.bottom - box.top) / (to_m - from_m);
  if (place === null || !Number.isFinite(kAcross) || !Number.isFinite(kAlong)) return null;
  const { down, right, px_per_m } = place;
  const { x_px, y_px, at_m } = strip.mark_1;
  const x = kAcross / px_per_m;
  const y = kAlong / px_per_m;
  return {
    a: x * right.x,
    b: y * down.x,
    c: x * right.y,
    d: y * down.y,
    e: box.left - kAcross * sidesOf(strip).left_m - x * (x_px * right.x + y_px * right.y),
    f: box.top + kAlong * (at_m - from_m) - y * (x_px * down.x + y_px * down.y),
  };
}

/** For the attribute `transform`. */
export const matrixText = ({ a, b, c, d, e, f }: Matrix): string =>
  `matrix(${[a, b, c, d, e, f].map((n) => Number(n.toPrecision(9))).join(' ')})`;
