/// <reference path="./topojson-client.d.ts" />
/**
 * Land of the Earth at 1:110 million, from Natural Earth (public domain) as the package world-atlas carries it (ISC). A
 * coast is right to some ten kilometres: enough for a map of a continent, never for one of a site.
 */

/** Rings of one piece of land, the outer first: longitude and latitude, degrees. */
export type LandPolygon = readonly (readonly (readonly [longitude_deg: number, latitude_deg: number])[])[];

let land: Promise<readonly LandPolygon[]> | null = null;

/** Read when it is first asked for; the same afterwards. */
export function worldLand(): Promise<readonly LandPolygon[]> {
  land ??= read();
  return land;
}

async function read(): Promise<readonly LandPolygon[]> {
  const [{ feature }, { default: topology }] = await Promise.all([
    import('topojson-client'),
    import('world-atlas/land-110m.json', { with: { type: 'json' } }),
  ]);
  return feature(topology, topology.objects.land).features.flatMap(({ geometry }) =>
    geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates,
  );
}
