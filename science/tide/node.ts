/**
 * Node corrections: how the 18.6-year turning of the moon's node (and, for L2 and M1, its perigee) changes amplitude
 * (factor f) and argument (angle u). Schureman 1958, Special Publication 98; equation numbers in brackets. Obliquity
 * and inclination are those of 1900, as in the published node tables.
 */

export type NodeName = 'M2' | 'O1' | 'K1' | 'K2' | 'J1' | 'OO1' | 'MF' | 'MM' | 'M3' | 'L2' | 'M1';

export interface NodeCorrection {
  f: number;
  u_deg: number;
}

const RAD = Math.PI / 180;

/** At a longitude of the ascending node and of the lunar perigee, degrees. */
export function nodeCorrections(N_deg: number, p_deg: number): Readonly<Record<NodeName, NodeCorrection>> {
  const N = N_deg * RAD;
  const cosI = 0.9136949 - 0.0356926 * Math.cos(N);
  const I = Math.acos(cosI);
  const sinI = Math.sin(I);
  const sin2I = Math.sin(2 * I);
  const nu = Math.asin((0.0897056 * Math.sin(N)) / sinI);
  const n = Math.atan2(Math.sin(N), Math.cos(N));
  const xi = n - 2 * Math.atan(0.64412 * Math.tan(n / 2)) - nu;
  const nuK1 = Math.atan2(Math.sin(nu), Math.cos(nu) + 0.334766 / sin2I);
  const twoNuK2 = Math.atan2(Math.sin(2 * nu), Math.cos(2 * nu) + 0.0726184 / sinI ** 2);
  const cosHalf = Math.cos(I / 2);
  const tanHalf = Math.tan(I / 2);

  const fM2 = cosHalf ** 4 / 0.91544; // (78)
  const uM2 = 2 * xi - 2 * nu;
  const fO1 = (sinI * cosHalf ** 2) / 0.37988; // (75)
  // Perigee from the lunar intersection: (204), (213) to (215) for L2; (197), (202), (206) for M1.
  const P = p_deg * RAD - xi;
  const fL2 = fM2 * Math.sqrt(1 - 12 * tanHalf ** 2 * Math.cos(2 * P) + 36 * tanHalf ** 4);
  const R = Math.atan2(Math.sin(2 * P), 1 / (6 * tanHalf ** 2) - Math.cos(2 * P));
  const fM1 =
    fO1 * Math.sqrt(0.25 + 1.5 * (cosI / cosHalf ** 2) * Math.cos(2 * P) + 2.25 * (cosI / cosHalf ** 2) ** 2);
  const Q = Math.atan2((5 * cosI - 1) * Math.sin(P), (7 * cosI + 1) * Math.cos(P));

  const of = (f: number, u: number): NodeCorrection => ({ f, u_deg: u / RAD });
  return {
    M2: of(fM2, uM2),
    O1: of(fO1, 2 * xi - nu),
    K1: of(Math.sqrt(0.8965 * sin2I ** 2 + 0.6001 * sin2I * Math.cos(nu) + 0.1006), -nuK1), // (227)
    K2: of(Math.sqrt(19.0444 * sinI ** 4 + 2.7702 * sinI ** 2 * Math.cos(2 * nu) + 0.0981), -twoNuK2), // (235)
    J1: of(sin2I / 0.7214, -nu), // (76)
    OO1: of((sinI * Math.sin(I / 2) ** 2) / 0.0164, -2 * xi - nu), // (77)
    MF: of(sinI ** 2 / 0.1578, -2 * xi), // (74)
    MM: of((2 / 3 - sinI ** 2) / 0.5021, 0), // (73)
    M3: of(cosHalf ** 6 / 0.8758, 1.5 * uM2), // (149)
    L2: of(fL2, uM2 - R),
    // Its argument V holds the perigee, which Q replaces: (202) on T − s + h.
    M1: of(fM1, xi - nu + Q - p_deg * RAD),
  };
}
