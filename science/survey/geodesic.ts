import { atan2, cos, power, sin, square } from '@stillstand/science/base';
import { along, ECCENTRICITY2, EQUATOR_RADIUS_M, FLATTENING, POLAR_RADIUS_M } from './ellipsoid.ts';

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

/** An angle by its sine and cosine. */
interface Turn {
  sin: number;
  cos: number;
}

/** The shortest way in the canonical placing: distance in polar radii, direction at either end. */
interface Way {
  distance: number;
  start: Turn;
  end: Turn;
}

const RADIAN = Math.PI / 180;
const NEXT_TO_1 = power(2, -52);
/** Its square is still a number: in place of a cosine of 0 at a pole. */
const TINY = power(2, -511);
/** Below this arc, about 7 m, the sphere of the middle latitude is right to the last digit. */
const SHORT_ARC = (0.1 * power(2, -26)) / Math.sqrt((FLATTENING * (1 - FLATTENING / 2)) / 2);

/**
 * Geodesic between two positions on WGS 84: Karney 2013, J. Geodesy 87:43–55, doi 10.1007/s00190-012-0578-z, his
 * integrals by Gauss's rule in place of series, so that the same digits come in every engine. Within 15 nm for any two
 * positions. NaN for a position that is none.
 */
export function geodesic(from: Position, to: Position): Geodesic {
  const nowhere = { distance_m: Number.NaN, azimuth_deg: Number.NaN };
  if (!(Math.abs(from.latitude_deg) <= 90 && Math.abs(to.latitude_deg) <= 90)) return nowhere;
  const east_deg = eastward(from.longitude_deg, to.longitude_deg);
  if (Number.isNaN(east_deg)) return nowhere;

  // Placed so that the start is the farther from the equator, in the south, and the way leads east.
  const isSwapped = Math.abs(from.latitude_deg) < Math.abs(to.latitude_deg);
  const [first, second] = isSwapped ? [to, from] : [from, to];
  // Of two ways of one length along the equator, the northern.
  const isNorth = !(first.latitude_deg < 0);
  const flip = isNorth ? -1 : 1;
  const way = canonical(flip * first.latitude_deg, flip * second.latitude_deg, Math.abs(east_deg));

  const { sin, cos } = isSwapped ? way.end : way.start;
  const isTurned = isSwapped !== isNorth;
  const azimuth = atan2(east_deg < 0 ? -sin : sin, isTurned ? -cos : cos);
  return { distance_m: way.distance * POLAR_RADIUS_M, azimuth_deg: azimuth / RADIAN };
}

/** From one longitude to the other, −180 to 180. */
function eastward(from_deg: number, to_deg: number): number {
  const turn = ((to_deg % 360) - (from_deg % 360)) % 360;
  return turn > 180 ? turn - 360 : turn < -180 ? turn + 360 : turn;
}

/** Latitudes with −90 ≤ first ≤ 0 and |second| ≤ −first, 0 ≤ east ≤ 180, degrees. */
function canonical(first_deg: number, second_deg: number, east_deg: number): Way {
  const east = turnOf(east_deg);
  const first = reduced(fromEquator(first_deg));
  const second = reduced(fromEquator(second_deg));
  // Latitudes of one size have sines and cosines of one size, to the last digit.
  if (Math.abs(second_deg) === -first_deg) second.cos = first.cos;

  if (first_deg === -90 || east.sin === 0) {
    const way = alongMeridian(first, second, east);
    if (way !== null) return way;
  }
  if (first.sin === 0 && east_deg <= 180 * (1 - FLATTENING)) {
    const due = { sin: 1, cos: 0 };
    const distance = (east_deg * RADIAN * EQUATOR_RADIUS_M) / POLAR_RADIUS_M;
    return { distance, start: due, end: due };
  }
  const guess = onSphere(first, second, east, east_deg * RADIAN);
  return guess.short ?? solved(first, second, east, guess.start);
}

/** Sine and cosine of an angle in degrees, exact at quarter turns. */
function turnOf(angle_deg: number): Turn {
  const quarters = Math.round(angle_deg / 90);
  const rest = (angle_deg - 90 * quarters) * RADIAN;
  const [s, c] = [sin(rest), cos(rest)];
  // Adding 0 makes −0 into 0.
  const sines = [s, c, -s, -c];
  return { sin: sines[quarters & 3]! + 0, cos: sines[(quarters + 1) & 3]! + 0 };
}

/** A latitude 0 or at least 2⁻⁵⁷ degrees, 1 pm, from the equator, so that no square of its sine vanishes while it does not. */
function fromEquator(latitude_deg: number): number {
  const size = Math.abs(latitude_deg);
  const rounded = size < 1 / 16 ? 1 / 16 - (1 / 16 - size) : size;
  return latitude_deg < 0 ? -rounded : rounded;
}

/** The reduced latitude β, tan β = (1 − f) tan φ (6). */
function reduced(latitude_deg: number): Turn {
  const latitude = turnOf(latitude_deg);
  const { sin, cos } = unit((1 - FLATTENING) * latitude.sin, latitude.cos);
  return { sin, cos: Math.max(TINY, cos) };
}

function unit(s: number, c: number): Turn {
  const length = Math.sqrt(s * s + c * c);
  return { sin: s / length, cos: c / length };
}

/** The angle from one direction to another that is not before it. */
const between = (a: Turn, b: Turn): number =>
  atan2(Math.max(0, a.cos * b.sin - a.sin * b.cos), a.cos * b.cos + a.sin * b.sin);

/** √(1 + k² sin²σ) at a latitude: k sin σ = e′ sin β (9, 10). */
const stretchedAt = (latitude: Turn): number => Math.sqrt(1 + ECCENTRICITY2 * square(latitude.sin));

/** Null where a shorter way leaves the meridian: nearly opposite places. */
function alongMeridian(first: Turn, second: Turn, east: Turn): Way | null {
  const from = unit(first.sin, east.cos * first.cos);
  const to = unit(second.sin, second.cos);
  const arc = between(from, to);
  const { distance, stretch } = along(atan2(from.sin, from.cos), arc, ECCENTRICITY2);
  if (arc >= 1 && reducedLength(first, second, from, to, stretch) < 0) return null;
  return { distance, start: east, end: { sin: 0, cos: 1 } };
}

/** How far neighbouring geodesics part, in polar radii (38): below 0 past the point opposite. */
function reducedLength(first: Turn, second: Turn, from: Turn, to: Turn, stretch: number): number {
  return (
    stretchedAt(second) * from.cos * to.sin -
    stretchedAt(first) * from.sin * to.cos -
    from.cos * to.cos * stretch
  );
}

/** The direction on a sphere; of a short way all, where that is right to the last digit (section 4, and 49–51). */
function onSphere(
  first: Turn,
  second: Turn,
  east: Turn,
  east_rad: number,
): { start: Turn; short: Way | null } {
  const north = second.sin * first.cos - second.cos * first.sin;
  const isNear =
    second.cos * first.cos + second.sin * first.sin >= 0 && north < 0.5 && second.cos * east_rad < 0.5;
  let turn = east;
  let stretched = 1;
  if (isNear) {
    const middle = square(first.sin + second.sin);
    stretched = Math.sqrt(1 + (ECCENTRICITY2 * middle) / (middle + square(first.cos + second.cos)));
    const omega = east_rad / ((1 - FLATTENING) * stretched);
    turn = { sin: sin(omega), cos: cos(omega) };
  }
  // 1 − cos without loss.
  const versed = turn.cos >= 0 ? square(turn.sin) / (1 + turn.cos) : 1 - turn.cos;
  const s = second.cos * turn.sin;
  const c = north + second.cos * first.sin * versed;
  const chord = Math.sqrt(s * s + c * c);
  const start = chord > 0 ? { sin: s / chord, cos: c / chord } : { sin: 1, cos: 0 };
  if (!isNear || chord >= SHORT_ARC) return { start, short: null };
  const arc = atan2(chord, first.sin * second.sin + first.cos * second.cos * turn.cos);
  const end = unit(first.cos * turn.sin, north - first.cos * second.sin * versed);
  return { start, short: { distance: arc * stretched, start, end } };
}

const MOST_NEWTON = 20;
const MOST_STEPS = 90;

/**
 * The direction at the start that ends at the asked longitude, by Newton (47), halving its bracket where a step leaves it;
 * a direction pointing more to the north ends less to the east.
 */
function solved(first: Turn, second: Turn, east: Turn, guess: Turn): Way {
  let start = guess;
  let low: Turn = { sin: TINY, cos: 1 };
  let high: Turn = { sin: TINY, cos: -1 };
  let isNearlyThere = false;
  let isNarrow = false;
  for (let step = 0; ; step++) {
    const at = followed(first, second, east, start);
    const isThere = !(Math.abs(at.miss) >= (isNearlyThere ? 8 : 1) * NEXT_TO_1);
    if (isThere || isNarrow || step === MOST_STEPS) return { distance: at.distance, start, end: at.end };

    const direction = start.cos / start.sin;
    if (at.miss > 0 && (step > MOST_NEWTON || direction > high.cos / high.sin)) high = start;
    else if (at.miss < 0 && (step > MOST_NEWTON || direction < low.cos / low.sin)) low = start;

    const change = step < MOST_NEWTON && at.slope > 0 ? -at.miss / at.slope : Number.NaN;
    const s = start.sin * cos(change) + start.cos * sin(change);
    if (Math.abs(change) < Math.PI && s > 0) {
      start = unit(s, start.cos * cos(change) - start.sin * sin(change));
      isNearlyThere = Math.abs(at.miss) <= 16 * NEXT_TO_1;
    } else {
      start = unit((low.sin + high.sin) / 2, (low.cos + high.cos) / 2);
      isNearlyThere = false;
      isNarrow = apart(low, start) < NEXT_TO_1 || apart(start, high) < NEXT_TO_1;
    }
  }
}

const apart = (a: Turn, b: Turn): number => Math.abs(a.sin - b.sin) + (a.cos - b.cos);

/** Where a geodesic of this direction is at the second latitude: by how much it passes the asked longitude. */
function followed(first: Turn, second: Turn, east: Turn, direction: Turn) {
  // At the equator due east is the one direction that never leaves it: a hair to the south.
  const start = first.sin === 0 && direction.cos === 0 ? { sin: direction.sin, cos: -TINY } : direction;
  // α₀ at the equator (5); α₂ by Clairaut, its cosine by what loses fewest digits (45).
  const equatorSin = start.sin * first.cos;
  const k2 = ECCENTRICITY2 * (square(start.cos) + square(start.sin * first.sin));
  const isMirrored = second.cos === first.cos && Math.abs(second.sin) === -first.sin;
  const gained =
    first.cos < -first.sin
      ? (second.cos - first.cos) * (first.cos + second.cos)
      : (first.sin - second.sin) * (first.sin + second.sin);
  const end = {
    sin: isMirrored ? start.sin : equatorSin / second.cos,
    cos: isMirrored ? Math.abs(start.cos) : Math.sqrt(square(start.cos * first.cos) + gained) / second.cos,
  };
  // σ and ω (11, 12) at both.
  const from = unit(first.sin, start.cos * first.cos);
  const to = unit(second.sin, end.cos * second.cos);
  const arc = between(from, to);
  const omegaFrom = { sin: equatorSin * first.sin, cos: start.cos * first.cos };
  const omegaTo = { sin: equatorSin * second.sin, cos: end.cos * second.cos };
  const omegaSin = Math.max(0, omegaFrom.cos * omegaTo.sin - omegaFrom.sin * omegaTo.cos);
  const omegaCos = omegaFrom.cos * omegaTo.cos + omegaFrom.sin * omegaTo.sin;
  const past = atan2(omegaSin * east.cos - omegaCos * east.sin, omegaCos * east.cos + omegaSin * east.sin);
  const { distance, longitude, stretch } = along(atan2(from.sin, from.cos), arc, k2);
  const slope =
    end.cos === 0
      ? (-2 * (1 - FLATTENING) * stretchedAt(first)) / first.sin
      : (reducedLength(first, second, from, to, stretch) * (1 - FLATTENING)) / (end.cos * second.cos);
  return { distance, end, miss: past - FLATTENING * equatorSin * longitude, slope };
}
