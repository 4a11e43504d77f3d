/** A place on the grid of the campaign: easting and northing, with their letters or without. */
import { power } from '@stillstand/science/base';
import type { Position } from '../geodesic.ts';
import { type Area, type PlaneGrid, type PositionReading, type ReadPosition, refused } from './reading.ts';

const PLANE_NUMBER = /([EN])?\s*[:=]?\s*(-?\d{1,8}(?:[.,]\d+)?)\s*(?:m\b)?\s*([EN])?(?=$|[\s,;/])/gi;
const EXPECTED = 'easting and northing, in metres: E 401234 N 712345';

/** More than any degrees: a number that can only be counted in metres. */
const NO_DEGREES = 360;

interface Numbers {
  numbers: [PlaneNumber, PlaneNumber];
  /** A letter says which is which. */
  isLettered: boolean;
}

interface PlaneNumber {
  letter: string | null;
  value: number;
  decimals: number;
}

/** Whether two numbers are a place on a plane and no degrees. */
export const isOnPlane = (text: string): boolean => numbersIn(text) !== null;

function numbersIn(text: string): Numbers | null {
  if (/[°'"]/.test(text)) return null;
  const found = [...text.matchAll(PLANE_NUMBER)];
  // Two numbers and nothing else but what parts them.
  if (found.length !== 2 || /[^\s,;/:=]/.test(text.replace(PLANE_NUMBER, ''))) return null;
  const [first, second] = found.map(([, before, digits = '', behind]): PlaneNumber => {
    const plain = digits.replace(',', '.');
    const letter = (before ?? behind)?.toUpperCase() ?? null;
    return { letter, value: Number(plain), decimals: plain.split('.')[1]?.length ?? 0 };
  });
  const isPlane = Math.abs(first!.value) > NO_DEGREES || Math.abs(second!.value) > NO_DEGREES;
  return isPlane
    ? { numbers: [first!, second!], isLettered: first!.letter !== null || second!.letter !== null }
    : null;
}

/** For a text that `isOnPlane`. Exchanged, it is read the other way, too, where that lies in the grid's area of use. */
export function readOnPlane(text: string, grid: PlaneGrid | null): PositionReading {
  const { numbers, isLettered } = numbersIn(text)!;
  const [first, second] = numbers;
  if (grid === null)
    return refused(
      'Easting and northing need their grid: choose the national grid under The campaign, or type a UTM zone before them: 10 south 475811 4860093.',
    );
  if (first.letter !== null && first.letter === second.letter)
    return refused('Both numbers have the same letter: E is the easting, N the northing.', EXPECTED);
  const isNorthFirst = first.letter === 'N' || second.letter === 'E';
  const [east, north] = isNorthFirst ? [second, first] : [first, second];
  const resolution_m = 0.5 * power(0.1, Math.min(first.decimals, second.decimals));
  type Place = Position & Pick<ReadPosition, 'isOutside'>;
  const at = (easting: number, northing: number): Place | null => {
    const place = grid.toDegrees(easting, northing);
    return place && { ...place, isOutside: grid.area !== null && !isInside(place, grid.area) };
  };
  const reading = (place: Place, order: string, doubt: string | null): ReadPosition => ({
    ...place,
    read_as: `${grid.name}${order}`,
    resolution_m,
    doubt,
    caution: grid.caution,
  });
  const usual = at(east.value, north.value);
  const other = at(north.value, east.value);
  const otherReading =
    other?.isOutside === false && grid.area !== null
      ? [
          reading(
            other,
            isNorthFirst ? ', easting first' : ', northing first',
            usual?.isOutside === false ? 'easting and northing were taken to be exchanged' : null,
          ),
        ]
      : [];
  if (usual === null) {
    const [only] = otherReading;
    return only === undefined
      ? refused(`${grid.name} has no such place: check for a digit too many or few.`, EXPECTED)
      : { ok: true, readings: [{ ...only, doubt: 'easting and northing were taken to be exchanged' }] };
  }
  if (!usual.isOutside)
    return { ok: true, readings: [reading(usual, '', null), ...(isLettered ? [] : otherReading)] };
  const doubt = `it lies outside the area of use of ${grid.name}: ${
    otherReading.length > 0
      ? 'easting and northing may be exchanged'
      : 'check the digits, and whether it is this grid and zone'
  }`;
  return { ok: true, readings: [reading(usual, '', doubt), ...otherReading] };
}

/** A place so far outside the area of use may still be meant, degrees: it is a frame round a coast. */
const MARGIN_DEG = 0.1;

function isInside({ latitude_deg, longitude_deg }: Position, { west, south, east, north }: Area): boolean {
  const middle = (west + east) / 2;
  const off = longitude_deg - middle - 360 * Math.round((longitude_deg - middle) / 360);
  return (
    Math.abs(off) <= (east - west) / 2 + MARGIN_DEG &&
    latitude_deg >= south - MARGIN_DEG &&
    latitude_deg <= north + MARGIN_DEG
  );
}
