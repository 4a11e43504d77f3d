/** The part of topojson-client that we use, and the file it is used on. */
declare module 'topojson-client' {
  type Ring = [number, number][];
  type Geometry = { type: 'Polygon'; coordinates: Ring[] } | { type: 'MultiPolygon'; coordinates: Ring[][] };
  export function feature(topology: unknown, object: unknown): { features: { geometry: Geometry }[] };
}
declare module 'world-atlas/land-110m.json' {
  const topology: { objects: { land: unknown } };
  export = topology;
}
