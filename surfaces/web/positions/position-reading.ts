/** What a position that is being typed comes to: its cells, what is said of it, and what it may be instead. */
import { degreesMinutes, degreesOf } from '@stillstand/campaign/holes';
import { capital } from '@stillstand/campaign/tables';
import { printed } from '@stillstand/output/words';
import {
  amongOthers,
  hasNeighbour,
  isFarOff,
  type PlaneGrid,
  type Position,
  type PositionReading,
  type ReadPosition,
  readPosition,
} from '@stillstand/science/survey';

/** Columns of a position, as they are kept. */
const POSITION_COLUMNS = ['latitude_deg', 'longitude_deg', 'position_as_written'] as const;
export type PositionCells = Record<(typeof POSITION_COLUMNS)[number], string>;

/** Whether a form asks with the field of the position for a column of a table: at the first part of it, not again at the others. */
export function positionPart(table: string, column: string): 'first' | 'other' | null {
  const part = table === 'holes' || table === 'sites' ? POSITION_COLUMNS.indexOf(column as never) : -1;
  return part === -1 ? null : part === 0 ? 'first' : 'other';
}

export interface PositionSaid {
  cells: PositionCells;
  /** What was read, in a sentence; null where nothing was. */
  words: string | null;
  /** What speaks against it. */
  cautions: string[];
  fault: string | null;
  /** What the same text may be instead. */
  instead: { words: string; cells: PositionCells }[];
}

/** The positions of sites and holes that have one, but that of the row itself. */
export function otherPositions(
  rows: (table: 'holes' | 'sites') => readonly { row_id: string; cells: Readonly<Record<string, string>> }[],
  row_id: string | null,
): (Position & { label: string })[] {
  return (['holes', 'sites'] as const).flatMap((table) =>
    rows(table).flatMap((row) => {
      const number = (column: string): number => {
        const cell = row.cells[column]?.trim() ?? '';
        return cell === '' ? Number.NaN : Number(cell.replace(',', '.').replace('−', '-'));
      };
      const [latitude_deg, longitude_deg] = [number('latitude_deg'), number('longitude_deg')];
      return row.row_id === row_id || Number.isNaN(latitude_deg) || Number.isNaN(longitude_deg)
        ? []
        : [{ latitude_deg, longitude_deg, label: row.cells[table === 'holes' ? 'hole' : 'site'] ?? '' }];
    }),
  );
}

/** Coarser than a hole is wide away from its neighbours. */
const COARSE_M = 10;

/** As a person reads it back: what was written, else the degrees. */
export const writtenPosition = (cells: Readonly<Partial<PositionCells>>): string => {
  const written = cells.position_as_written?.trim() ?? '';
  if (written !== '') return written;
  const halves = [cells.latitude_deg?.trim() ?? '', cells.longitude_deg?.trim() ?? ''];
  return halves.every((half) => half === '') ? '' : halves.join(', ').replaceAll('-', '−');
};

/** `grid`: in which easting and northing are read; null for none. */
export function positionSaid(
  text: string,
  others: readonly (Position & { label: string })[],
  grid: PlaneGrid | null = null,
): PositionSaid {
  const typed = text.trim();
  if (typed === '')
    return { cells: cellsOf('', '', ''), words: null, cautions: [], fault: null, instead: [] };
  const read: PositionReading = readPosition(typed, grid);
  if (!read.ok)
    return {
      cells: cellsOf('', '', typed),
      words: null,
      cautions: [],
      fault: `Found “${typed}”; expected ${read.expected}. ${read.fix}`,
      instead: [],
    };
  const [first, ...rest] = read.readings;
  const among = amongOthers(first, others);
  const written = (place: ReadPosition): PositionCells =>
    place.read_as === 'decimal degrees' && place === first
      ? cellsOf(degrees(place.latitude_deg), degrees(place.longitude_deg), '')
      : cellsOf(degrees(place.latitude_deg), degrees(place.longitude_deg), typed);
  const way = (metres: number): string =>
    metres < 1000 ? `${printed(metres)} m` : `${printed(metres / 1000, metres < 10_000 ? 1 : 0)} km`;
  const cautions = [
    ...(first.doubt === null ? [] : [`${capital(first.doubt)}.`]),
    ...(first.caution === null ? [] : [`In this grid: ${first.caution}.`]),
    ...(first.resolution_m >= COARSE_M
      ? [`Its last digit counts ${way(2 * first.resolution_m)}: type more digits where you have them.`]
      : []),
    ...(among !== null && isFarOff(among)
      ? [`It is ${way(among.distance_m)} from ${among.nearest}, the nearest of the others.`]
      : []),
  ];
  const near = among === null || isFarOff(among) ? '' : `; ${way(among.distance_m)} from ${among.nearest}`;
  return {
    cells: written(first),
    words: `Read as ${first.read_as}: ${degreesMinutes(first.latitude_deg, first.longitude_deg)}${near}.`,
    cautions,
    fault: null,
    instead: [
      // Another order of plain numbers is offered only where it lies among the others, or there are none.
      ...rest
        .filter(
          (place) =>
            place.doubt === null || among === null || (isFarOff(among) && hasNeighbour(place, others)),
        )
        .map((place) => ({
          words: `Read as ${place.read_as === first.read_as ? 'longitude, latitude' : place.read_as}: ${degreesMinutes(place.latitude_deg, place.longitude_deg)}`,
          cells: written(place),
        })),
      ...(among?.instead == null
        ? []
        : [
            {
              words: `Use ${degreesOf(among.instead)} (${among.instead.change}), ${way(among.instead.distance_m)} from the others`,
              cells: cellsOf(degrees(among.instead.latitude_deg), degrees(among.instead.longitude_deg), ''),
            },
          ]),
    ],
  };
}

const cellsOf = (
  latitude_deg: string,
  longitude_deg: string,
  position_as_written: string,
): PositionCells => ({ latitude_deg, longitude_deg, position_as_written });

/** To 1e-7 degrees, a centimetre, without zeros that nobody typed. */
const degrees = (value: number): string => String(Number(value.toFixed(7)));
