/** Positions of sites and holes: what was written against the degrees there are, and what lies where no other does. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { gridOf } from '@stillstand/science/grids';
import {
  amongOthers,
  geodesic,
  hasNeighbour,
  type PlaneGrid,
  type Position,
  readPosition,
} from '@stillstand/science/survey';

type Placed = Row<'sites'> | Row<'holes'>;

const labelOf = (row: Placed): string => ('hole' in row ? row.hole : row.site);

/** The position of a row, or of a hole in the results; null where it has none, or half of one. */
export const positionOf = ({
  latitude_deg,
  longitude_deg,
}: Pick<Placed, 'latitude_deg' | 'longitude_deg'>): Position | null =>
  latitude_deg === null || longitude_deg === null ? null : { latitude_deg, longitude_deg };

/** "46.41088, −121.31485": degrees to a metre, as they are said in a sentence. */
export const degreesOf = ({ latitude_deg, longitude_deg }: Position): string =>
  `${latitude_deg.toFixed(5)}, ${longitude_deg.toFixed(5)}`.replaceAll('-', '−');

/** "52° 21.345′ N, 4° 53.120′ E": degrees and decimal minutes as they are said by radio; 0.001′ is 1.9 m. */
export const degreesMinutes = (latitude_deg: number, longitude_deg: number): string =>
  `${half(latitude_deg, 'N', 'S')}, ${half(longitude_deg, 'E', 'W')}`;

function half(deg: number, positive: string, negative: string): string {
  const thousandths = Math.round(Math.abs(deg) * 60_000);
  const degrees = Math.floor(thousandths / 60_000);
  const minutes = ((thousandths - degrees * 60_000) / 1000).toFixed(3).padStart(6, '0');
  return `${degrees}° ${minutes}′ ${deg < 0 ? negative : positive}`;
}

export function positionProblems({ rows, lines }: Pick<Campaign, 'rows' | 'lines'>): Problem[] {
  const all = [
    ...rows.sites.map((row) => ({ table: 'sites' as const, row: row as Placed })),
    ...rows.holes.map((row) => ({ table: 'holes' as const, row: row as Placed })),
  ];
  const placed = all.flatMap(({ row }) => {
    const at = positionOf(row);
    return at === null ? [] : [{ ...at, label: labelOf(row), row }];
  });
  const { grid, problems } = gridSet(rows.settings);
  const found = all.flatMap(({ table, row }) => {
    const told = (parts: Pick<Problem, 'code' | 'column' | 'found' | 'expected' | 'fix'>): Problem =>
      problem({
        severity: 'warning',
        table,
        row_id: row.row_id,
        line: lines.get(row.row_id) ?? null,
        label: labelOf(row),
        ...parts,
      });
    const at = positionOf(row);
    const others = placed.filter((other) => other.row !== row);
    return [halfOf(row), writtenOtherwise(row, at, grid), amongNone(at, others)].flatMap((parts) =>
      parts === null ? [] : [told(parts)],
    );
  });
  return [...problems, ...found];
}

/** The grid of easting and northing that the campaign has chosen; null without one that can be used. */
function gridSet(settings: readonly Row<'settings'>[]): { grid: PlaneGrid | null; problems: Problem[] } {
  const row = settings.find(({ name }) => name === 'position_grid');
  if (row === undefined || row.value.trim() === '') return { grid: null, problems: [] };
  const read = gridOf(row.value);
  if (read.ok) return { grid: read.grid, problems: [] };
  const { expected, fix } = read;
  return {
    grid: null,
    problems: [
      problem({
        severity: 'warning',
        code: 'grid-not-read',
        table: 'settings',
        row_id: row.row_id,
        label: row.name,
        column: 'value',
        found: row.value,
        expected,
        fix: `${fix} Until then positions are read in degrees and UTM only.`,
      }),
    ],
  };
}

type Found = Pick<Problem, 'code' | 'column' | 'found' | 'expected' | 'fix'>;

function halfOf({ latitude_deg, longitude_deg }: Placed): Found | null {
  if ((latitude_deg === null) === (longitude_deg === null)) return null;
  return {
    code: 'half-a-position',
    column: latitude_deg === null ? 'latitude_deg' : 'longitude_deg',
    found: '',
    expected: `a ${latitude_deg === null ? 'latitude' : 'longitude'}, as the other half is given`,
    fix: 'Type the missing half; until then it has no position.',
  };
}

function writtenOtherwise(row: Placed, at: Position | null, grid: PlaneGrid | null): Found | null {
  const written = row.position_as_written;
  if (written === null) return null;
  const read = readPosition(written, grid);
  const column = 'position_as_written';
  if (!read.ok) {
    const fix = `${read.fix} ${at === null ? 'Until then it has no position.' : 'The degrees are used as they are.'}`;
    return { code: 'position-not-read', column, found: written, expected: read.expected, fix };
  }
  const off = (place: Position & { resolution_m: number }): number =>
    at === null
      ? Number.POSITIVE_INFINITY
      : (geodesic(place, at)?.distance_m ?? Number.POSITIVE_INFINITY) - 2 * place.resolution_m;
  // A metre more than the last digit of either.
  const meant = read.readings.find((place) => off(place) <= 1);
  if (meant !== undefined)
    return meant.isOutside
      ? {
          code: 'position-outside-grid',
          column,
          found: written,
          expected: `a place of its grid and zone; ${meant.doubt}`,
          fix: 'Correct the digits, the zone or the grid of the campaign. It is used as it is.',
        }
      : null;
  const [first] = read.readings;
  return {
    code: 'position-written-otherwise',
    column,
    found: written,
    expected:
      at === null ? `degrees of it: ${degreesOf(first)}` : `a writing of ${degreesOf(at)}, which is used`,
    fix: 'Correct whichever is wrong: the degrees are used, what was written is kept as it is.',
  };
}

function amongNone(at: Position | null, others: readonly (Position & { label: string })[]): Found | null {
  // Asked at every edit: most holes have a neighbour, and need not be held against all.
  if (at === null || hasNeighbour(at, others)) return null;
  const among = amongOthers(at, others);
  if (among === null || among.instead === null) return null;
  const { change, distance_m, latitude_deg, longitude_deg } = among.instead;
  return {
    code: 'position-far-off',
    column: 'latitude_deg',
    found: degreesOf(at),
    expected: `a place among the others; ${among.nearest}, the nearest, is ${Math.round(among.distance_m / 1000)} km away`,
    fix: `Is it ${degreesOf({ latitude_deg, longitude_deg })} (${change})? That is ${(distance_m / 1000).toFixed(1)} km from the nearest.`,
  };
}
