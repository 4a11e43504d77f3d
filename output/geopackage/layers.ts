/**
 * What the file holds: every table of the results (`TABLES`), with the cells they have in CSV. Those whose rows have a
 * place are map layers, by the coordinates that GeoJSON gives them; all others are tables without geometry.
 */
import type { HoleResult, Results } from '@stillstand/campaign/results';
import { coordinatesOf, type ResultTable, TABLES } from '@stillstand/output/report';
import { noFormula } from '@stillstand/output/spreadsheet';
import { columnNames } from './column-names.ts';

interface Column {
  name: string;
  title: string;
  about: string;
  isNumber: boolean;
}

export interface Layer {
  /** Name of the table in the file. */
  name: string;
  about: string;
  columns: readonly Column[];
  rows: readonly (readonly (string | number | null)[])[];
  /** Of each row, longitude and latitude in degrees or null where not known; null for a table without geometry. */
  places: readonly (readonly [number, number] | null)[] | null;
}

/** Names that every table, or every layer, has for itself. */
export const KEY = 'fid';
export const GEOMETRY = 'geom';

/** SQLite takes 2,000 columns in a table (SQLITE_MAX_COLUMN); there is one for every part of an error somebody named. */
const MOST_COLUMNS = 1990;

/** Headings of heights above the datum. */
const HEIGHT = /(?:^|_)(?:elevation|rsl|level)(?:_|$)/;

/** Tables whose rows have a place: of each row in its order, what it lies at. */
const PLACED: Readonly<Record<string, (results: Results) => readonly Placed[]>> = {
  'holes.csv': ({ holes }) => holes,
  'samples.csv': ({ holes, samples }) => atHoles(holes, samples),
  'points.csv': ({ holes, points }) => atHoles(holes, points),
  'published_points.csv': ({ published }) => published,
};
type Placed = Parameters<typeof coordinatesOf>[0];

/** The hole of each, which is where it lies. */
function atHoles(holes: readonly HoleResult[], each: readonly { hole: string | null }[]): Placed[] {
  const byName = new Map(holes.map((hole) => [hole.hole, hole]));
  return each.map(({ hole }) => byName.get(hole ?? '') ?? null);
}

export const layersOf = (results: Results): Layer[] => TABLES.map((table) => layerOf(table, results));

function layerOf(table: ResultTable, results: Results): Layer {
  const { columns, rows } = table.sheet(results);
  const places = PLACED[table.file]?.(results).map(coordinatesOf) ?? null;
  const own = columns.slice(0, MOST_COLUMNS);
  const names = columnNames(
    own.map(({ heading }) => heading),
    places === null ? [KEY] : [KEY, GEOMETRY, DATUM.name],
  );
  const { label } = results.datum;
  return {
    name: table.file.replace(/\.csv$/, ''),
    about: sentences([
      table.about,
      places === null ? null : withoutPlace(places),
      own.some(({ heading }) => HEIGHT.test(heading)) ? `Elevations and sea levels: m above ${label}` : null,
      own.length === columns.length ? null : `${columns.length - own.length} more columns: ${table.file}`,
    ]),
    columns: [
      ...own.map(({ heading, about, isNumber }, i) => ({
        name: names[i]!,
        title: textIn(heading),
        about,
        isNumber,
      })),
      ...(places === null ? [] : [DATUM]),
    ],
    rows: rows.map((row) => [
      ...own.map(({ isNumber }, i) => cellIn(row[i]!, isNumber)),
      ...(places === null ? [] : [textIn(noFormula(label))]),
    ]),
    places,
  };
}

/** As in GeoJSON: a layer is handed on by itself. */
const DATUM: Column = {
  name: 'datum',
  title: 'datum',
  about: 'zero of elevations and sea levels',
  isNumber: false,
};

const withoutPlace = (places: NonNullable<Layer['places']>): string | null => {
  const missing = places.filter((place) => place === null).length;
  return missing === 0 ? null : `${missing} of ${places.length} without a position: no geometry`;
};

const sentences = (parts: readonly (string | null)[]): string =>
  parts
    .filter((part) => part !== null)
    .map((part) => `${textIn(part)}.`)
    .join(' ');

const cellIn = (cell: string, isNumber: boolean): string | number | null =>
  cell === '' ? null : isNumber ? Number(cell) : textIn(cell);

/** Well-formed, and without the zero at which programs in C end a text. */
const textIn = (text: string): string => text.toWellFormed().replaceAll('\0', '\ufffd');
