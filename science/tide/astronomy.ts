/** Mean longitudes of moon and sun: what every tidal argument is made of. */

export interface MeanLongitudes {
  /** Hour angle of the mean sun at Greenwich, 180° at midnight UT. */
  T_deg: number;
  /** Mean longitude of the moon. */
  s_deg: number;
  /** Mean longitude of the sun. */
  h_deg: number;
  /** Longitude of the lunar perigee. */
  p_deg: number;
  /** Longitude of the moon's ascending node. */
  N_deg: number;
  /** Longitude of the solar perigee. */
  p1_deg: number;
}

const J2000_MS = Date.UTC(2000, 0, 1, 12);
const DAY_MS = 86_400_000;
const CENTURY_MS = 36_525 * DAY_MS;

/**
 * Degrees, not reduced to a circle, at a moment in UTC. Polynomials of Meeus 1998, Astronomical Algorithms (2nd ed.),
 * ch. 25 and 47; they ask for terrestrial time, some 70 s ahead of UTC, which is left out: 0.01° of the moon, 3 s of
 * tide.
 */
export function meanLongitudes(time_ms: number): MeanLongitudes {
  const t = (time_ms - J2000_MS) / CENTURY_MS;
  return {
    T_deg: (360 * (time_ms % DAY_MS)) / DAY_MS + 180,
    s_deg: 218.3164477 + t * (481267.88123421 + t * (-0.0015786 + t * (1 / 538841 - t / 65194000))),
    h_deg: 280.46646 + t * (36000.76983 + t * 0.0003032),
    p_deg: 83.3532465 + t * (4069.0137287 + t * (-0.01032 + t * (-1 / 80053 + t / 18999000))),
    N_deg: 125.0445479 + t * (-1934.1362891 + t * (0.0020754 + t * (1 / 467441 - t / 60616000))),
    p1_deg: 282.93735 + t * (1.71946 + t * 0.00046),
  };
}
