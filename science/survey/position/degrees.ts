/** Degrees, with minutes and seconds or without, one half behind the other. */
import { power } from '@stillstand/science/base';
import { type PositionReading, type ReadPosition, refused } from './reading.ts';

/** A degree of latitude, metres; near enough for a last digit. */
const DEGREE_M = 111_000;

interface Half {
  /** Degrees, south and west negative. */
  value: number;
  letter: string | null;
  /** 1: degrees alone, 2: with minutes, 3: with seconds, too. */
  parts: number;
  resolution_deg: number;
}

const FORMS = ['decimal degrees', 'degrees and minutes', 'degrees, minutes and seconds'];

/** The many signs that keyboards and programs put for minus, minutes, seconds and degrees, as one each. */
export const withPlainSigns = (text: string): string =>
  text
    .replace(/[−–—]/g, '-')
    .replace(/[’′´`]/g, "'")
    .replace(/[”″“]|''/g, '"')
    .replace(/[º˚]/g, '°')
    .normalize('NFKC')
    .trim();

/** `names`: which half the words before them say they are, “lat” or “lon”. */
export function readDegrees(text: string, names: readonly string[]): PositionReading {
  const halves = halvesOf(text);
  if (halves === null)
    return refused('Type latitude and longitude, each with as many parts, with a comma or a letter between.');
  const [first, second] = halves.map(readHalf);
  if (first === null || second === null || first === undefined || second === undefined)
    return refused(
      'Minutes and seconds are below 60, and only the last part has decimals; a half has a minus or a letter, not both.',
    );
  const axis = (half: Half): 'lat' | 'lon' | null =>
    half.letter === null ? null : /[NS]/.test(half.letter) ? 'lat' : 'lon';
  if (axis(first) !== null && axis(first) === axis(second))
    return refused(
      `${first.letter} and ${second.letter} name the same direction: one half has N or S, the other E or W.`,
    );
  if (first.parts !== second.parts)
    return refused('Type both halves with as many parts: degrees alone, with minutes, or with seconds, too.');
  const isNamed = names.length === 2 && names[0] !== names[1];
  const isTurned = axis(first) === 'lon' || axis(second) === 'lat' || (isNamed && names[0] === 'lon');
  const saysWhich = isNamed || axis(first) !== null || axis(second) !== null;
  if (isNamed && axis(first) !== null && axis(first) !== names[0])
    return refused(`${first.letter} does not go with the name before it.`);
  const orders: [Half, Half][] = isTurned
    ? [[second, first]]
    : saysWhich
      ? [[first, second]]
      : [
          [first, second],
          [second, first],
        ];
  const readings = orders.flatMap(([lat, lon], i): ReadPosition[] => {
    if (Math.abs(lat.value) > 90 || Math.abs(lon.value) > 180) return [];
    return [
      {
        latitude_deg: lat.value,
        longitude_deg: lon.value,
        read_as: FORMS[lat.parts - 1]!,
        resolution_m: Math.max(lat.resolution_deg, lon.resolution_deg) * DEGREE_M,
        doubt: i === 1 ? 'the longitude was taken to stand first' : null,
        isOutside: false,
        caution: null,
      },
    ];
  });
  const [only, ...others] = readings;
  return only === undefined
    ? refused('A latitude is at most 90°, a longitude at most 180°.')
    : { ok: true, readings: [only, ...others] };
}

/** The two halves of a text; null where it does not fall into two. */
function halvesOf(text: string): [string, string] | null {
  const marked = text.split(/[,;/]|\s-\s(?=\d)/).map((half) => half.trim());
  if (marked.length === 2 && marked.every((half) => half !== '')) return [marked[0]!, marked[1]!];
  if (marked.length > 2) return null;
  // By letters: before both numbers or behind both.
  const before = /^([NSEW][^NSEW]+)([NSEW][^NSEW]+)$/i.exec(text);
  if (before !== null) return [before[1]!, before[2]!];
  const behind = /^([^NSEW]+[NSEW])([^NSEW]+[NSEW])$/i.exec(text);
  if (behind !== null) return [behind[1]!, behind[2]!];
  // By count: two, four or six numbers.
  const numbers = [...text.matchAll(/[+-]?\d+(?:\.\d+)?/g)];
  const middle = numbers[numbers.length / 2];
  return numbers.length % 2 === 1 || numbers.length > 6 || middle === undefined
    ? null
    : [text.slice(0, middle.index), text.slice(middle.index)];
}

const HALF =
  /^([NSEW])?\s*([+-])?\s*(\d{1,3}(?:\.\d+)?)\s*(?:°|d|deg)?\s*(?:(\d{1,2}(?:\.\d+)?)\s*(?:'|m|min)?\s*)?(?:(\d{1,2}(?:\.\d+)?)\s*(?:"|sec|s(?=\s*[NSEW]$))?\s*)?([NSEW])?$/i;

/** One of the two, in plain signs; null for what is none. */
export function readHalf(text: string): Half | null {
  const form = HALF.exec(text.trim());
  if (form === null) return null;
  const [, before, sign, ...rest] = form;
  const behind = rest.pop();
  if (before !== undefined && behind !== undefined) return null;
  const letter = (before ?? behind)?.toUpperCase() ?? null;
  if (sign === '-' && letter !== null) return null;
  const parts = rest.filter((part) => part !== undefined);
  if (parts.slice(0, -1).some((part) => part.includes('.'))) return null;
  const [degrees = 0, minutes = 0, seconds = 0] = parts.map(Number);
  if (minutes >= 60 || seconds >= 60) return null;
  const size = degrees + minutes / 60 + seconds / 3600;
  const decimals = parts.at(-1)!.split('.')[1]?.length ?? 0;
  return {
    value: sign === '-' || letter === 'S' || letter === 'W' ? -size : size,
    letter,
    parts: parts.length,
    resolution_deg: (0.5 * power(0.1, decimals)) / power(60, parts.length - 1),
  };
}
