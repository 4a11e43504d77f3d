/** The elevation of a benchmark on its own datum: as stated, or from a height above the ellipsoid and the geoid there. */
import type { Row } from '@stillstand/campaign/tables';
import { orthometric } from '@stillstand/science/survey';
import type { Elevation } from './elevation.ts';

interface Own {
  value_m: number;
  isFromSatellite: boolean;
  parts: Elevation['benchmarks'];
}

/**
 * Metres, 1 sigma; null where neither is whole. From the ellipsoid, H = h − N, the two errors are parts of their own,
 * independent. A larger `sigma_m`, which is of the elevation as a whole, is taken instead of them.
 */
export function ownElevation(row: Row<'benchmarks'>): Own | null {
  const { benchmark, elevation_m, ellipsoidal_height_m, geoid_height_m } = row;
  const whole = [{ benchmark, sigma_m: row.sigma_m ?? 0 }];
  if (elevation_m !== null) return { value_m: elevation_m, isFromSatellite: false, parts: whole };
  if (ellipsoidal_height_m === null || geoid_height_m === null) return null;
  const above = { value_m: ellipsoidal_height_m, sigma_m: row.ellipsoid_sigma_m ?? 0 };
  const geoid = { value_m: geoid_height_m, sigma_m: row.geoid_sigma_m ?? 0 };
  const { value_m, sigma_m } = orthometric(above, geoid);
  if ((row.sigma_m ?? 0) >= sigma_m) return { value_m, isFromSatellite: true, parts: whole };
  const parts = [
    { benchmark, part: 'ellipsoid' as const, sigma_m: above.sigma_m },
    { benchmark, part: 'geoid' as const, sigma_m: geoid.sigma_m },
  ];
  return { value_m, isFromSatellite: true, parts: parts.filter((each) => each.sigma_m > 0) };
}
