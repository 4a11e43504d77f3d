/**
 * A grid from what a person wrote: the EPSG code of a known one, a PROJ string or WKT. The projection is that of the
 * library proj4, better than a millimetre within a grid's area of use (plane-grid.test.ts, worked examples of the EPSG
 * Guidance Note 7-2); the shift of the datum is right to what the grid states. Never used for heights.
 */
import type { PlaneGrid } from '@stillstand/science/survey';
import proj4 from 'proj4';
import { KNOWN_GRIDS, type KnownGrid } from './known-grids.ts';

export type GridFound = { ok: true; grid: PlaneGrid } | { ok: false; expected: string; fix: string };

const EXPECTED = 'the EPSG code of a grid of the list, a PROJ string (+proj=…) or WKT (PROJCS[…])';
const refused = (fix: string): GridFound => ({ ok: false, expected: EXPECTED, fix });

const found = new Map<string, GridFound>();

/** The grid that a setting names; the same one for the same text. */
export function gridOf(text: string): GridFound {
  const key = text.trim();
  const known = found.get(key);
  if (known !== undefined) return known;
  const grid = read(key);
  found.set(key, grid);
  return grid;
}

function read(text: string): GridFound {
  const code = /^(?:epsg\s*:?\s*)?(\d{4,6})\b/i.exec(text)?.[1];
  if (code !== undefined) {
    const known = KNOWN_GRIDS.find((grid) => grid.code === Number(code));
    return known === undefined
      ? refused(`EPSG:${code} is not in the list: paste its PROJ string or WKT instead.`)
      : ofDefinition(known.proj, { name: known.name, area: known.area, caution: cautionOf(known) });
  }
  if (/^\s*\+proj=/.test(text)) return ofProj(text);
  const name = /^\s*PROJ(?:CS|CRS)\s*\[\s*"([^"]+)"/i.exec(text)?.[1];
  if (name === undefined) return refused('Choose a grid of the list, or paste its definition whole.');
  return ofDefinition(text, {
    name,
    area: null,
    caution: ofUnknownShift(/TOWGS84|ABRIDGEDTRANSFORMATION/i.test(text)),
  });
}

function ofProj(text: string): GridFound {
  const nadgrids = /\+nadgrids=(\S+)/.exec(text)?.[1];
  if (nadgrids !== undefined && nadgrids !== '@null')
    return refused(
      `Shift files such as ${nadgrids} are not read: write +towgs84= with three or seven parameters in its place.`,
    );
  const axis = /\+axis=(\S+)/.exec(text)?.[1];
  if (axis !== undefined && axis !== 'enu')
    return refused('Only grids with an easting and a northing are read, without +axis.');
  const shift = /\+towgs84=(\S+)/.exec(text)?.[1];
  const isOnWgs84 =
    /\+(?:datum|ellps)=(?:WGS84|GRS80)\b/.test(text) && (shift === undefined || /^[0.,]+$/.test(shift));
  return ofDefinition(text, {
    name: 'the grid of the campaign',
    area: null,
    caution: isOnWgs84 ? null : ofUnknownShift(shift !== undefined || text.includes('+datum=')),
  });
}

const ofUnknownShift = (isShifted: boolean): string =>
  isShifted
    ? 'its datum shift is that of its definition, and how far it may be off is not known'
    : 'its definition has no datum shift: it may be off by some hundred metres';

/** What a shift without its file may leave, metres; below 2 m nothing is said. */
function cautionOf({ accuracy_m, shift_file }: KnownGrid): string | null {
  if (accuracy_m < 2) return null;
  return shift_file === null
    ? `±${accuracy_m} m, the accuracy of its datum shift`
    : `±${accuracy_m} m without its shift file (${shift_file})`;
}

function ofDefinition(definition: string, facts: Omit<PlaneGrid, 'toDegrees'>): GridFound {
  try {
    const converter = proj4(definition, 'WGS84');
    // What proj4 does not know it finds out with the first place.
    converter.forward([1000, 1000]);
    return {
      ok: true,
      grid: {
        ...facts,
        toDegrees(easting, northing) {
          try {
            const [longitude_deg, latitude_deg] = converter.forward([easting, northing]);
            const [back_e, back_n] = converter.inverse([longitude_deg, latitude_deg]);
            return isPlace(longitude_deg, latitude_deg) && isSame(back_e - easting, back_n - northing)
              ? { latitude_deg, longitude_deg }
              : null;
          } catch {
            return null;
          }
        },
      },
    };
  } catch (error) {
    return refused(
      `The definition cannot be used (${error instanceof Error ? error.message : String(error)}): paste it whole, as its publisher gives it.`,
    );
  }
}

const isPlace = (longitude_deg: number, latitude_deg: number): boolean =>
  Math.abs(latitude_deg) <= 90 && Math.abs(longitude_deg) <= 180;

/** Far outside a grid its series no longer hold: there and back must be the same place, to a centimetre. */
const isSame = (east: number, north: number): boolean => Math.abs(east) < 0.01 && Math.abs(north) < 0.01;
