/** A coast or other lines of the campaign's own, as GeoJSON (RFC 7946): only what can be drawn on the map. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Place } from './plane.ts';

export interface Coast {
  /** Lines and rings, in order. */
  lines: { places: Place[]; isClosed: boolean }[];
}

const MOST_PLACES = 200_000;

/** Reads GeoJSON; a problem where it is none, or holds nothing to draw. Never throws. */
export function readCoast(
  name: string,
  text: string,
): { coast: Coast; problem: null } | { coast: null; problem: Problem } {
  const refuse = (found: string): { coast: null; problem: Problem } => ({
    coast: null,
    problem: problem({
      severity: 'error',
      code: 'not-geojson',
      table: name,
      found,
      expected: 'GeoJSON with lines or areas in WGS 84 degrees',
      fix: 'Export the coast again as GeoJSON (RFC 7946), longitude first. The map is drawn without it.',
    }),
  });
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    return refuse(error instanceof Error ? error.message : 'no JSON');
  }
  const lines: Coast['lines'] = [];
  let count = 0;
  const line = (coordinates: unknown, isClosed: boolean): void => {
    if (!Array.isArray(coordinates)) return;
    const places = (coordinates as unknown[]).flatMap((position) => {
      const [longitude_deg, latitude_deg] = Array.isArray(position) ? (position as unknown[]) : [];
      return typeof longitude_deg === 'number' &&
        typeof latitude_deg === 'number' &&
        Math.abs(latitude_deg) <= 90 &&
        Math.abs(longitude_deg) <= 360
        ? [{ latitude_deg, longitude_deg }]
        : [];
    });
    count += places.length;
    if (places.length > 1 && count <= MOST_PLACES) lines.push({ places, isClosed });
  };
  const each = (value: unknown, visit: (part: unknown) => void): void => {
    if (Array.isArray(value)) for (const part of value as unknown[]) visit(part);
  };
  const visit = (value: unknown, depth: number): void => {
    if (typeof value !== 'object' || value === null || depth > 8) return;
    const { type, coordinates, geometry, geometries, features } = value as Record<string, unknown>;
    if (type === 'LineString') line(coordinates, false);
    else if (type === 'MultiLineString') each(coordinates, (part) => line(part, false));
    else if (type === 'Polygon') each(coordinates, (part) => line(part, true));
    else if (type === 'MultiPolygon') each(coordinates, (rings) => each(rings, (part) => line(part, true)));
    else {
      visit(geometry, depth + 1);
      each(geometries, (part) => visit(part, depth + 1));
      each(features, (part) => visit(part, depth + 1));
    }
  };
  visit(parsed, 0);
  if (count > MOST_PLACES) return refuse(`${count} places`);
  return lines.length === 0 ? refuse('nothing that can be drawn') : { coast: { lines }, problem: null };
}
