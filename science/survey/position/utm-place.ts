/** A place on the UTM grid: zone, hemisphere or band, easting, northing. */
import { power } from '@stillstand/science/base';
import { fromUtm, type UtmPlace } from '../utm.ts';
import { type PositionReading, type ReadPosition, refused } from './reading.ts';

const ZONE = /(?:^|[\s,;])(?:utm\s*)?(?:zone\s*)?(\d{1,2})\s*(north|south|[A-Z])?(?=$|[\s,;:])/i;
const GRID_NUMBER = /([EN])?\s*[:=]?\s*(\d{1,8}(?:[.,]\d+)?)\s*(?:m)?\s*([EN])?(?![\w.])/gi;

/** Latitudes of the bands C to X, 8° each from 80° S, X of 12°; I and O are left out. */
const BANDS = 'CDEFGHJKLMNPQRSTUVWX';
const bandSouth = (letter: string): number => -80 + 8 * BANDS.indexOf(letter);
const inBand = (letter: string, latitude_deg: number): boolean =>
  latitude_deg >= bandSouth(letter) && latitude_deg <= bandSouth(letter) + (letter === 'X' ? 12 : 8);

/** Null for what is no grid reference. */
export function readUtm(text: string): PositionReading | null {
  const isNamed = /utm|zone/i.test(text);
  const zoneText = ZONE.exec(text);
  if (zoneText === null) return isNamed ? refused('Type the zone with N or S, such as 10S.') : null;
  const rest = ` ${text.slice(0, zoneText.index)} ${text.slice(zoneText.index + zoneText[0].length)} `;
  const numbers = [...rest.matchAll(GRID_NUMBER)].map(([, before, digits = '', behind]) => ({
    letter: (before ?? behind)?.toUpperCase() ?? null,
    digits: digits.replace(',', '.'),
  }));
  // Numbers below 100 km are degrees, and no easting.
  if (numbers.length !== 2 || numbers.every(({ digits }) => Number(digits) < 100_000))
    return isNamed ? refused('Type zone, easting and northing, in metres: 10S 475811 4860093.') : null;
  if (
    numbers.filter(({ letter }) => letter !== null).length === 2 &&
    numbers[0]!.letter === numbers[1]!.letter
  )
    return refused('Both numbers have the same letter: E is the easting, N the northing.');
  const isNorthFirst = numbers[0]!.letter === 'N' || numbers[1]!.letter === 'E';
  const [east, north] = isNorthFirst ? [numbers[1]!, numbers[0]!] : [numbers[0]!, numbers[1]!];
  const word = zoneText[2]?.toUpperCase() ?? '';
  if (word === '')
    return refused(
      `Say in which hemisphere zone ${zoneText[1]} is meant: ${zoneText[1]} north or ${zoneText[1]} south.`,
    );
  const zone = Number(zoneText[1]);
  const at = (hemisphere: UtmPlace['hemisphere'], band: string | null): ReadPosition[] => {
    const place = fromUtm({
      easting_m: Number(east.digits),
      northing_m: Number(north.digits),
      zone,
      hemisphere,
    });
    if (place === null || (band !== null && !inBand(band, place.latitude_deg))) return [];
    const off = Math.abs(place.longitude_deg - (6 * zone - 183));
    const decimals = Math.min(...[east, north].map(({ digits }) => digits.split('.')[1]?.length ?? 0));
    return [
      {
        ...place,
        read_as: `UTM zone ${zone} ${hemisphere === 'N' ? 'north' : 'south'}${band === null ? '' : `, band ${band}`}`,
        resolution_m: 0.5 * power(0.1, decimals),
        // A zone is 6° wide; neighbours are used over its edge, 32 V and the north of Svalbard up to 6° from the middle.
        isOutside: off > 4,
        doubt: off > 4 ? `it lies ${(off - 3).toFixed(1)}° outside zone ${zone}` : null,
        caution: null,
      },
    ];
  };
  const readings =
    word === 'NORTH' || word === 'N'
      ? at('N', null)
      : word === 'SOUTH'
        ? at('S', null)
        : word === 'S'
          ? [...at('S', null), ...at('N', 'S')]
          : BANDS.includes(word)
            ? at(word < 'N' ? 'S' : 'N', word)
            : [];
  const [usual, ...others] = readings;
  return usual === undefined
    ? refused(
        'Zones are 1 to 60, eastings 100,000 to 900,000 m, northings 0 to 10,000,000 m, and a band of latitude holds the northing: check for a digit too many or few, or easting and northing exchanged.',
        'a place of the UTM grid: zone, hemisphere or band, easting, northing',
      )
    : { ok: true, readings: [usual, ...others] };
}
