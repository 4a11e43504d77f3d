/** The lane of the table in which every age stands: the time scale that its head and its rows share. */
import { type Scale, scale, textWidth } from '@stillstand/output/drawing';
import { years } from '@stillstand/output/words';

/** Pixels of the screen for one point: 7 pt are 13 px. */
export const PX = 13 / 7;

/** From the oldest to the youngest, cal BP, over a lane of so many pixels; a year written at either end is not cut. */
export function laneScale(oldest: number, youngest: number, lane: number): Scale {
  const room = (year: number): number => Math.max(4, textWidth(years(year)) / 2 + 1);
  return scale(oldest, youngest, room(oldest), lane / PX - room(Math.max(0, youngest)));
}
