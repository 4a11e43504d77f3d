/** A height above some zero, metres, with its 1 sigma. */
import { square } from '@stillstand/science/base';

export interface Height {
  value_m: number;
  sigma_m: number;
}

/**
 * Height above the geoid from a height above the ellipsoid: H = h − N, N the geoid above the ellipsoid, all metres.
 * The two errors are taken as independent.
 */
export function orthometric(ellipsoidal: Height, geoid: Height): Height {
  return {
    value_m: ellipsoidal.value_m - geoid.value_m,
    sigma_m: Math.sqrt(square(ellipsoidal.sigma_m) + square(geoid.sigma_m)),
  };
}
