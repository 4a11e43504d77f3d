/**
 * A position as people write it, on WGS 84: decimal degrees, degrees and minutes, degrees, minutes and seconds, or the
 * UTM grid. What can be read in two ways is read in both, the usual one first; nothing is guessed in silence.
 */
import { readDegrees, withPlainSigns } from './degrees.ts';
import { readGrid } from './grid.ts';
import { type PositionReading, refused } from './reading.ts';

/**
 * Degrees with N, S, E, W (before or behind, or a minus for south and west), latitude first where no letter says which is
 * which; or a UTM zone with easting and northing. Decimal point or comma. A letter behind the zone is its hemisphere, or
 * the band of latitude that the military grid names so: “10 S” may be either, which gives two readings.
 */
export function readPosition(text: string): PositionReading {
  const plain = withPlainSigns(text);
  if (plain === '') return refused('Type both coordinates.');
  if (/(?:^|[\d\s'"°])O(?:$|[\d\s,;])/i.test(plain))
    return refused('O is east in some languages and west in others: write E or W.');
  const unnamed = plain.replace(LABEL, ' ').trim();
  const names = [...plain.matchAll(LABEL)].map(([name]) => (/^la/i.test(name) ? 'lat' : 'lon'));
  return readGrid(unnamed) ?? readDegrees(withPoint(unnamed), names);
}

/** Which half it stands before. */
const LABEL = /\b(?:latitude|lat|longitude|long|lon|lng)\b\.?\s*[:=]?/gi;

/** Commas between digits are decimal where nothing else is, and something else parts the two halves. */
const withPoint = (text: string): string =>
  !text.includes('.') && /\d,\d/.test(text) && /[\s;NSEW°]/i.test(text)
    ? text.replace(/(\d),(?=\d)/g, '$1.')
    : text;
