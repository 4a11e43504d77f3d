import geographic from 'geographiclib-geodesic';

/** WGS 84, degrees. */
export interface Position {
  latitude_deg: number;
  longitude_deg: number;
}

/** Shortest way over the ellipsoid, and the direction it starts in, degrees clockwise from north (−180 to 180). */
export interface Geodesic {
  distance_m: number;
  azimuth_deg: number;
}

/**
 * Geodesic between two positions on WGS 84 (Karney 2013, J. Geodesy 87:43–55, doi 10.1007/s00190-012-0578-z, in the
 * author's library): error below 15 nm. NaN for a position that is none.
 */
export function geodesic(from: Position, to: Position): Geodesic {
  const line = geographic.Geodesic.WGS84.Inverse(
    from.latitude_deg,
    from.longitude_deg,
    to.latitude_deg,
    to.longitude_deg,
  );
  return { distance_m: line.s12 ?? Number.NaN, azimuth_deg: line.azi1 ?? Number.NaN };
}
