/**
 * A position as people write it, on WGS 84: decimal degrees, degrees and minutes, degrees, minutes and seconds, the UTM
 * grid, or the grid that the campaign has chosen. What can be read in two ways is read in both, the usual one first;
 * nothing is guessed in silence.
 */
import { readDegrees, withPlainSigns } from './degrees.ts';
import { isOnPlane, readOnPlane } from './plane-place.ts';
import { type PlaneGrid, type PositionReading, refused } from './reading.ts';
import { readUtm } from './utm-place.ts';

/**
 * Degrees with N, S, E, W (before or behind, or a minus for south and west), latitude first where no letter says which is
 * which; or a UTM zone with easting and northing. Decimal point or comma. A letter behind the zone is its hemisphere, or
 * the band of latitude that the military grid names so: “10 S” may be either, which gives two readings. Easting and
 * northing without a zone are read in `grid`; null: the campaign has none.
 */
export function readPosition(text: string, grid: PlaneGrid | null = null): PositionReading {
  const plain = withPlainSigns(text);
  if (plain === '') return refused('Type both coordinates.');
  if (/(?:^|[\d\s'"°])O(?:$|[\d\s,;])/i.test(plain))
    return refused('O is east in some languages and west in others: write E or W.');
  const unnamed = plain.replace(LABEL, ' ').trim();
  const names = [...plain.matchAll(LABEL)].map(([name]) => (/^la/i.test(name) ? 'lat' : 'lon'));
  const utm = readUtm(unnamed);
  if (utm !== null) return utm;
  return isOnPlane(unnamed) ? readOnPlane(unnamed, grid) : readDegrees(withPoint(unnamed), names);
}

/** Which half it stands before. */
const LABEL = /\b(?:latitude|lat|longitude|long|lon|lng)\b\.?\s*[:=]?/gi;

/** Commas between digits are decimal where nothing else is, and something else parts the two halves. */
const withPoint = (text: string): string =>
  !text.includes('.') && /\d,\d/.test(text) && /[\s;NSEW°]/i.test(text)
    ? text.replace(/(\d),(?=\d)/g, '$1.')
    : text;
