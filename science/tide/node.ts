/**
 * Node corrections: how the 18.6-year turning of the moon's node (and, for L2 and M1, its perigee) changes amplitude
 * (factor f) and argument (angle u). Schureman 1958, Special Publication 98; equation numbers in brackets. Obliquity
 * and inclination are those of 1900, as in the published node tables.
 */
import { atan2, cos, power, sin, square } from '@stillstand/science/base';

export type NodeName = 'M2' | 'O1' | 'K1' | 'K2' | 'J1' | 'OO1' | 'MF' | 'MM' | 'M3' | 'L2' | 'M1';

export interface NodeCorrection {
  f: number;
  u_deg: number;
}

const RAD = Math.PI / 180;

/** At a longitude of the ascending node and of the lunar perigee, degrees. */
export function nodeCorrections(N_deg: number, p_deg: number): Readonly<Record<NodeName, NodeCorrection>> {
  const N = N_deg * RAD;
  const cosI = 0.9136949 - 0.0356926 * cos(N);
  const sinI = Math.sqrt((1 - cosI) * (1 + cosI));
  const sin2I = 2 * sinI * cosI;
  const sinNu = (0.0897056 * sin(N)) / sinI;
  const cosNu = Math.sqrt((1 - sinNu) * (1 + sinNu));
  const nu = atan2(sinNu, cosNu);
  // 2 atan(0.64412 tan(N/2)), by tan(N/2) = sin N/(1 + cos N).
  const xi = atan2(sin(N), cos(N)) - 2 * atan2(0.64412 * sin(N), 1 + cos(N)) - nu;
  const nuK1 = atan2(sinNu, cosNu + 0.334766 / sin2I);
  const twoNuK2 = atan2(sin(2 * nu), cos(2 * nu) + 0.0726184 / square(sinI));
  // cos²(I/2), sin²(I/2), tan²(I/2).
  const cosHalf2 = (1 + cosI) / 2;
  const sinHalf2 = (1 - cosI) / 2;
  const tanHalf2 = sinHalf2 / cosHalf2;

  const fM2 = square(cosHalf2) / 0.91544; // (78)
  const uM2 = 2 * xi - 2 * nu;
  const fO1 = (sinI * cosHalf2) / 0.37988; // (75)
  // Perigee from the lunar intersection: (204), (213) to (215) for L2; (197), (202), (206) for M1.
  const P = p_deg * RAD - xi;
  const fL2 = fM2 * Math.sqrt(1 - 12 * tanHalf2 * cos(2 * P) + 36 * square(tanHalf2));
  const R = atan2(sin(2 * P), 1 / (6 * tanHalf2) - cos(2 * P));
  const fM1 = fO1 * Math.sqrt(0.25 + 1.5 * (cosI / cosHalf2) * cos(2 * P) + 2.25 * square(cosI / cosHalf2));
  const Q = atan2((5 * cosI - 1) * sin(P), (7 * cosI + 1) * cos(P));

  const of = (f: number, u: number): NodeCorrection => ({ f, u_deg: u / RAD });
  return {
    M2: of(fM2, uM2),
    O1: of(fO1, 2 * xi - nu),
    K1: of(Math.sqrt(0.8965 * square(sin2I) + 0.6001 * sin2I * cos(nu) + 0.1006), -nuK1), // (227)
    K2: of(Math.sqrt(19.0444 * power(sinI, 4) + 2.7702 * square(sinI) * cos(2 * nu) + 0.0981), -twoNuK2), // (235)
    J1: of(sin2I / 0.7214, -nu), // (76)
    OO1: of((sinI * sinHalf2) / 0.0164, -2 * xi - nu), // (77)
    MF: of(square(sinI) / 0.1578, -2 * xi), // (74)
    MM: of((2 / 3 - square(sinI)) / 0.5021, 0), // (73)
    M3: of(power(cosHalf2, 3) / 0.8758, 1.5 * uM2), // (149)
    L2: of(fL2, uM2 - R),
    // Its argument V holds the perigee, which Q replaces: (202) on T − s + h.
    M1: of(fM1, xi - nu + Q - p_deg * RAD),
  };
}
