/**
 * Coasts and grounds of a campaign's own, as GeoJSON (RFC 7946): lines and areas are a coast, an area with a name is a
 * ground. The side of the sea is known where the file says it: `sea` = left, right, inside or outside; areas called land
 * or island, sea or water; lines with OpenStreetMap's `natural` = coastline, which has the land on its left.
 */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { printed } from '@stillstand/output/words';
import type { Position } from '@stillstand/science/survey';
import { type CoastLine, type Ground, type MapShapes, NO_SHAPES } from './shapes.ts';

const MOST_PLACES = 200_000;

/** A problem where it is none, or holds nothing to draw. Never throws. */
export function readShapes(
  name: string,
  text: string,
): { shapes: MapShapes; problem: null } | { shapes: null; problem: Problem } {
  const refuse = (
    found: string,
    expected = 'GeoJSON with lines or areas in WGS 84 degrees, or a GeoPackage',
    fix = 'Export the coast again as GeoJSON (RFC 7946), longitude first.',
  ): { shapes: null; problem: Problem } => ({
    shapes: null,
    problem: problem({
      severity: 'error',
      code: 'not-geojson',
      table: name,
      found,
      expected,
      fix: `${fix} The map is drawn without it.`,
    }),
  });
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    return refuse(error instanceof Error ? error.message : 'no JSON');
  }
  const coasts: CoastLine[] = [];
  const grounds: Ground[] = [];
  let count = 0;
  const placesOf = (coordinates: unknown): Position[] => {
    const places = list(coordinates).flatMap((position) => {
      const [longitude_deg, latitude_deg] = list(position);
      return isDegrees(longitude_deg, 360) && isDegrees(latitude_deg, 90)
        ? [{ latitude_deg, longitude_deg }]
        : [];
    });
    count += places.length;
    return places;
  };
  const line = (coordinates: unknown, said: Said): void => {
    const places = placesOf(coordinates);
    if (places.length > 1) coasts.push({ places, isClosed: false, sea: said.ofLine });
  };
  const area = (coordinates: unknown, said: Said): void => {
    const rings = list(coordinates)
      .map(placesOf)
      .filter((places) => places.length > 1);
    if (said.ground !== null) {
      if (rings.length > 0) grounds.push({ name: said.ground, rings });
      return;
    }
    for (const [i, places] of rings.entries())
      coasts.push({ places, isClosed: true, sea: seaOfRing(places, said.ofArea, i > 0) });
  };
  const visit = (value: unknown, said: Said, depth: number): void => {
    if (typeof value !== 'object' || value === null || depth > 8) return;
    const { type, coordinates, geometry, geometries, features, properties } = value as Record<
      string,
      unknown
    >;
    const known = properties === undefined ? said : saidBy(properties);
    if (type === 'LineString') line(coordinates, known);
    else if (type === 'MultiLineString') for (const part of list(coordinates)) line(part, known);
    else if (type === 'Polygon') area(coordinates, known);
    else if (type === 'MultiPolygon') for (const part of list(coordinates)) area(part, known);
    else {
      visit(geometry, known, depth + 1);
      for (const part of list(geometries)) visit(part, known, depth + 1);
      for (const part of list(features)) visit(part, known, depth + 1);
    }
  };
  visit(parsed, NOTHING_SAID, 0);
  if (count > MOST_PLACES)
    return refuse(
      `${count} places`,
      `at most ${printed(MOST_PLACES)} places`,
      'Cut the coast to the part round the holes, or export a coarser one.',
    );
  return coasts.length + grounds.length === 0
    ? refuse('nothing that can be drawn')
    : { shapes: { ...NO_SHAPES, coasts, grounds }, problem: null };
}

export const joinedShapes = (all: readonly MapShapes[]): MapShapes => ({
  coasts: all.flatMap(({ coasts }) => coasts),
  grounds: all.flatMap(({ grounds }) => grounds),
  land: all.flatMap(({ land }) => land),
});

const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? (value as unknown[]) : []);
const isDegrees = (value: unknown, most: number): value is number =>
  typeof value === 'number' && Math.abs(value) <= most;

/** What the properties of a feature say. */
interface Said {
  ofLine: CoastLine['sea'];
  ofArea: 'inside' | 'outside' | null;
  /** The name of an area that is no coast; null for a coast. */
  ground: string | null;
}

const NOTHING_SAID: Said = { ofLine: null, ofArea: null, ground: null };

function saidBy(properties: unknown): Said {
  if (typeof properties !== 'object' || properties === null) return NOTHING_SAID;
  const words = new Map(
    Object.entries(properties).flatMap(([key, value]) =>
      typeof value === 'string' ? [[key.toLowerCase(), value.trim()] as const] : [],
    ),
  );
  const sea = words.get('sea')?.toLowerCase();
  const kinds = ['natural', 'type', 'class', 'kind', 'featurecla', 'place'].map(
    (key) => words.get(key)?.toLowerCase() ?? '',
  );
  const is = (pattern: RegExp): boolean => kinds.some((kind) => pattern.test(kind));
  const isCoastline = is(/^coastline$/);
  const ofArea =
    sea === 'inside' || sea === 'outside'
      ? sea
      : is(/^(?:sea|ocean|water|bay)$/)
        ? 'inside'
        : isCoastline || is(/^(?:land|island|islet)$/)
          ? 'outside'
          : null;
  const ofLine = sea === 'left' || sea === 'right' ? sea : isCoastline ? 'right' : null;
  const name = words.get('name') ?? '';
  return { ofLine, ofArea, ground: ofArea === null && name !== '' ? name : null };
}

/** On which side along a ring the sea lies; inside a hole of an area is the other of the two. */
function seaOfRing(places: readonly Position[], sea: Said['ofArea'], isHole: boolean): CoastLine['sea'] {
  if (sea === null) return null;
  // Twice the area: positive for a ring that runs against the clock, which has its inside on its left.
  const turn = places.reduce((sum, to, i) => {
    const from = places.at(i - 1)!;
    return sum + (from.longitude_deg * to.latitude_deg - to.longitude_deg * from.latitude_deg);
  }, 0);
  const isInsideLeft = turn > 0;
  return ((sea === 'inside') !== isHole) === isInsideLeft ? 'left' : 'right';
}
