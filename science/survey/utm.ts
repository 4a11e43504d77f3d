/** Universal Transverse Mercator to latitude and longitude. */
import { atan2, cos, exp, power, sin } from '@stillstand/science/base';
import { EQUATOR_RADIUS_M, FLATTENING } from './ellipsoid.ts';

const SCALE = 0.9996;
const FALSE_EASTING_M = 500_000;
const FALSE_NORTHING_M = 10_000_000;
const DEGREES = 180 / Math.PI;

export interface UtmPlace {
  /** 100,000 to 900,000 m. */
  easting_m: number;
  /** 0 to 10,000,000 m. */
  northing_m: number;
  /** 1 to 60. */
  zone: number;
  hemisphere: 'N' | 'S';
}

/**
 * Krüger's series (Krüger 1912; coefficients as in Karney 2011, J. Geodesy 85:475–485, from memory) to the third power of
 * n: better than a millimetre within a zone. Null for what is no place of a zone. On the ellipsoid of the coordinates: a
 * shift between datums, as of NAD27 or ED50 (to 200 m), is not made.
 */
export function fromUtm({ easting_m, northing_m, zone, hemisphere }: UtmPlace): {
  latitude_deg: number;
  longitude_deg: number;
} | null {
  const isPlace =
    easting_m >= 100_000 &&
    easting_m <= 900_000 &&
    northing_m >= 0 &&
    northing_m <= FALSE_NORTHING_M &&
    Number.isInteger(zone) &&
    zone >= 1 &&
    zone <= 60;
  if (!isPlace) return null;
  const n = FLATTENING / (2 - FLATTENING);
  const n2 = n * n;
  const n3 = power(n, 3);
  const radius = (EQUATOR_RADIUS_M / (1 + n)) * (1 + n2 / 4 + (n2 * n2) / 64);
  const xi = (northing_m - (hemisphere === 'S' ? FALSE_NORTHING_M : 0)) / (SCALE * radius);
  const eta = (easting_m - FALSE_EASTING_M) / (SCALE * radius);
  const beta = [n / 2 - (2 / 3) * n2 + (37 / 96) * n3, n2 / 48 + n3 / 15, (17 / 480) * n3];
  let north = xi;
  let east = eta;
  for (const [i, b] of beta.entries()) {
    const k = 2 * (i + 1);
    north -= b * sin(k * xi) * cosh(k * eta);
    east -= b * cos(k * xi) * sinh(k * eta);
  }
  // Sine of the conformal latitude, and its angle.
  const s = sin(north) / cosh(east);
  const chi = atan2(s, Math.sqrt(1 - s * s));
  const delta = [2 * n - (2 / 3) * n2 - 2 * n3, (7 / 3) * n2 - (8 / 5) * n3, (56 / 15) * n3];
  const latitude = delta.reduce((sum, d, i) => sum + d * sin(2 * (i + 1) * chi), chi);
  const middle_deg = 6 * zone - 183;
  return {
    latitude_deg: latitude * DEGREES,
    longitude_deg: middle_deg + atan2(sinh(east), cos(north)) * DEGREES,
  };
}

const cosh = (x: number): number => (exp(x) + exp(-x)) / 2;
const sinh = (x: number): number => (exp(x) - exp(-x)) / 2;
