/** What is said of a scale. */
import { type PictureSize, reachOnPicture, type Strip } from '@stillstand/output/photographs';
import { writtenLength } from '../length.ts';

/** How a picture is turned so that down the core is down the page, to the degree. */
export function turnWords(down: { x: number; y: number }): string {
  const turn = Math.round((Math.atan2(down.x, down.y) * 180) / Math.PI);
  if (turn === 0) return '0°';
  return `${Math.abs(turn)}° ${turn > 0 ? 'clockwise' : 'anticlockwise'}`;
}

/** How much of the core runs off the picture, in words; null where all of it is on it, to the millimetre. */
export function beyondPicture(strip: Strip, size: PictureSize): string | null {
  const reach = reachOnPicture(strip, size);
  if (reach === null)
    return 'The core is not on the picture in its whole width. What is missing stays blank.';
  const parts = [
    [strip.top_m, reach.from_m],
    [reach.to_m, strip.bottom_m],
  ].filter(([from, to]) => to! - from! >= 0.001);
  if (parts.length === 0) return null;
  const length_m = parts.reduce((sum, [from, to]) => sum + to! - from!, 0);
  const where = parts.map(([from, to]) => `${writtenLength(from!, 'm')} to ${writtenLength(to!, 'm')}`);
  return `${writtenLength(length_m, 'm')} of the core runs off the picture: ${where.join(' and ')}. It stays blank.`;
}
