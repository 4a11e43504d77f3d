/** WGS 84, and the integrals along a geodesic on it (Karney 2013, J. Geodesy 87:43–55, equations in brackets). */
import { cos, sin, square } from '@stillstand/science/base';

export const EQUATOR_RADIUS_M = 6_378_137;
export const FLATTENING = 1 / 298.257223563;
export const POLAR_RADIUS_M = EQUATOR_RADIUS_M * (1 - FLATTENING);
/** Second eccentricity squared. */
export const ECCENTRICITY2 = (FLATTENING * (2 - FLATTENING)) / square(1 - FLATTENING);

/** Along an arc of the auxiliary sphere. */
export interface Along {
  /** Distance in polar radii, ∫√(1 + k² sin²σ) dσ (7). */
  distance: number;
  /** What the longitude on the sphere loses to that on the ellipsoid, in units of f·sin α₀ (8). */
  longitude: number;
  /** ∫k² sin²σ/√(1 + k² sin²σ) dσ, for the reduced length (40). */
  stretch: number;
}

const POINTS = 16;
const [PLACES, WEIGHTS] = gaussLegendre(POINTS);

/**
 * The three integrals from σ to σ + arc (at most half a turn), k² ≤ 0.0068, by Gauss's rule at 16 places: its error is
 * below 1e-17, for the integrands are constant but for terms of k²/4 in 2σ, its square in 4σ, and so on. As integrals over
 * the arc itself, not differences of two, they keep their digits on the shortest lines.
 */
export function along(from: number, arc: number, k2: number): Along {
  const half = arc / 2;
  const middle = from + half;
  let distance = 0;
  let longitude = 0;
  let stretch = 0;
  for (let i = 0; i < POINTS; i++) {
    const bulge = k2 * square(sin(middle + half * PLACES[i]!));
    const root = Math.sqrt(1 + bulge);
    const weight = WEIGHTS[i]! * half;
    distance += weight * root;
    longitude += (weight * (2 - FLATTENING)) / (1 + (1 - FLATTENING) * root);
    stretch += (weight * bulge) / root;
  }
  return { distance, longitude, stretch };
}

/** Places and weights on −1 … 1: zeros of Legendre's polynomial by Newton (Abramowitz & Stegun 1964, 25.4.29). */
function gaussLegendre(n: number): [Float64Array, Float64Array] {
  const places = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 8; step++) {
      let before = 0;
      let p = 1;
      for (let k = 1; k <= n; k++) [before, p] = [p, ((2 * k - 1) * x * p - (k - 1) * before) / k];
      slope = (n * (x * p - before)) / (x * x - 1);
      x -= p / slope;
    }
    places[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  return [places, weights];
}
