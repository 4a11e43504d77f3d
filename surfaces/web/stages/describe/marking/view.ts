/** The part of a picture that is shown, and how large: screen pixels from the upper left of the pad, picture pixels as elsewhere. */
import type { PicturePoint, PictureSize } from '@stillstand/output/photographs';

export interface View {
  /** Screen pixels for one of the picture. */
  k: number;
  /** Of the picture, at the upper left corner of the pad. */
  x_px: number;
  y_px: number;
}

export interface Spot {
  x: number;
  y: number;
}

export interface Pad {
  width: number;
  height: number;
}

/** Paper around a picture that is shown whole: a strip that runs off it is seen to. */
const MARGIN = 20;
/** At most so large: a pixel is then a square to aim at. */
const MOST = 8;

/** The whole picture in the middle of the pad. */
export function wholeView(size: PictureSize, pad: Pad): View {
  const k = Math.max(
    1e-4,
    Math.min((pad.width - 2 * MARGIN) / size.width_px, (pad.height - 2 * MARGIN) / size.height_px, MOST),
  );
  return {
    k,
    x_px: size.width_px / 2 - pad.width / 2 / k,
    y_px: size.height_px / 2 - pad.height / 2 / k,
  };
}

export const onScreen = (view: View, { x_px, y_px }: PicturePoint): Spot => ({
  x: (x_px - view.x_px) * view.k,
  y: (y_px - view.y_px) * view.k,
});

export const onPicture = (view: View, { x, y }: Spot): PicturePoint => ({
  x_px: view.x_px + x / view.k,
  y_px: view.y_px + y / view.k,
});

/** The same picture point under another spot, larger by a factor: no larger than its pixels bear, no smaller than half of whole. */
export function zoomedView(view: View, by: number, from: Spot, to: Spot, size: PictureSize, pad: Pad): View {
  const least = wholeView(size, pad).k / 2;
  const k = Math.min(Math.max(MOST, least), Math.max(least, view.k * by));
  const held = onPicture(view, from);
  return inSight({ k, x_px: held.x_px - to.x / k, y_px: held.y_px - to.y / k }, size, pad);
}

/** The middle of the pad never leaves the picture. */
function inSight(view: View, size: PictureSize, pad: Pad): View {
  const halfX = pad.width / 2 / view.k;
  const halfY = pad.height / 2 / view.k;
  return {
    k: view.k,
    x_px: Math.min(size.width_px, Math.max(0, view.x_px + halfX)) - halfX,
    y_px: Math.min(size.height_px, Math.max(0, view.y_px + halfY)) - halfY,
  };
}

/** The view moved just so far that a point lies well inside it. */
export function viewOf(view: View, point: PicturePoint, pad: Pad): View {
  const edge = Math.min(60, pad.width / 4, pad.height / 4);
  const { x, y } = onScreen(view, point);
  const off = (at: number, most: number): number =>
    at < edge ? at - edge : at > most - edge ? at - (most - edge) : 0;
  return {
    k: view.k,
    x_px: view.x_px + off(x, pad.width) / view.k,
    y_px: view.y_px + off(y, pad.height) / view.k,
  };
}
