/**
 * A map of a few kilometres: places in metres east and north of the middle, on the local scales of the WGS 84
 * ellipsoid. Meridians are drawn parallel: 14 km from the middle a length is off by up to 0.5 % at 70° of latitude
 * (plane.test.ts), at 2 km by less than 0.1 %.
 */
export interface Place {
  latitude_deg: number;
  longitude_deg: number;
}

interface Point {
  east_m: number;
  north_m: number;
}

export interface Plane {
  to(place: Place): Point;
  from(point: Point): Place;
}

/** WGS 84: half axis (m) and first eccentricity squared. */
const AXIS_M = 6_378_137;
const E2 = 0.006_694_379_990_14;
const RADIAN = Math.PI / 180;

export function planeAround(middle: Place): Plane {
  const sin = Math.sin(middle.latitude_deg * RADIAN);
  const w = Math.sqrt(1 - E2 * sin * sin);
  const north_m_per_deg = (RADIAN * AXIS_M * (1 - E2)) / (w * w * w);
  const east_m_per_deg = (RADIAN * AXIS_M * Math.cos(middle.latitude_deg * RADIAN)) / w;
  return {
    to: ({ latitude_deg, longitude_deg }) => ({
      east_m: turned(longitude_deg - middle.longitude_deg) * east_m_per_deg,
      north_m: (latitude_deg - middle.latitude_deg) * north_m_per_deg,
    }),
    from: ({ east_m, north_m }) => ({
      latitude_deg: middle.latitude_deg + north_m / north_m_per_deg,
      longitude_deg: turned(middle.longitude_deg + east_m / east_m_per_deg),
    }),
  };
}

/** Degrees within ±180, so that a map may lie across the date line. */
const turned = (deg: number): number => deg - 360 * Math.round(deg / 360);

/** Steps people count in, degrees: whole degrees, minutes, seconds and tenths of a second. */
const STEPS_DEG = [
  10,
  5,
  2,
  1,
  30 / 60,
  10 / 60,
  5 / 60,
  2 / 60,
  1 / 60,
  30 / 3600,
  10 / 3600,
  5 / 3600,
  2 / 3600,
  1 / 3600,
  0.5 / 3600,
  0.1 / 3600,
];

/** The longest step of which at least `least` fit into the span. */
export const graticuleStep = (span_deg: number, least: number): number =>
  STEPS_DEG.find((step) => span_deg / step >= least) ?? STEPS_DEG.at(-1)!;

/** 46° 24′ 40″ S; as many parts as the step needs. */
export function degreesWords(
  deg: number,
  step_deg: number,
  [plus, minus]: readonly [string, string],
): string {
  const tenths = Math.round(Math.abs(deg) * 36_000);
  const whole = Math.floor(tenths / 36_000);
  const minutes = Math.floor((tenths % 36_000) / 600);
  const seconds = (tenths % 600) / 10;
  const parts = [`${whole}°`];
  if (step_deg < 1) parts.push(`${String(minutes).padStart(2, '0')}′`);
  if (step_deg < 1 / 60) {
    const text = step_deg < 1 / 3600 ? seconds.toFixed(1) : seconds.toFixed(0);
    parts.push(`${text.padStart(step_deg < 1 / 3600 ? 4 : 2, '0')}″`);
  }
  return `${parts.join(' ')}${tenths === 0 ? '' : ` ${deg < 0 ? minus : plus}`}`;
}
