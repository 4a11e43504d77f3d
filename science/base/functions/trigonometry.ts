/**
 * Sine, cosine and arctangent from + − × ÷ and rounding only, the same in every engine (ECMA-262 leaves `Math.sin` and
 * its kin to the implementation).
 *
 * sin, cos: r = x − n·π/2 with |r| ≤ π/4 (Cody & Waite 1980, Software Manual for the Elementary Functions: π/2 in three
 * parts, the products with the first two exact), then Taylor's series to r¹⁷ and r¹⁶; the next terms are below 2e-18 of
 * the sum. Angles beyond 1.6 million, or nearer to n·π/2 than n·2^−62, are reduced in whole numbers of 1,200 bits (Payne & Hanek 1983, SIGNUM Newsl. 18:19–24), slowly and exactly.
 * atan: t = c + …, c the nearest eighth: atan t = atan c + atan((t − c)/(1 + ct)), the rest by Taylor to u¹³.
 * Errors against 60-digit values are measured in the test: docs/methods/base.md.
 */
import { power } from './powers.ts';

const TWO_OVER_PI = 0.6366197723675814;
/** π/2 in three parts; the first two have 33 bits, so n times them is exact for n below 2^20. */
const HALF_PI_FIRST = 1.5707963267341256;
const HALF_PI_SECOND = 6.077100506303966e-11;
const HALF_PI_THIRD = 2.0222662487959506e-21;
const QUARTER_PI = 0.7853981633974483;
/** 1.5 · 2^52: adding and subtracting it rounds to the nearest whole number. */
const ROUNDER = 6755399441055744;
const MOST_TURNS = power(2, 20);
const LEAST_REST = power(2, -62);

/** sin x, x in radians. Within 1 unit in the last place for every finite x; NaN for others. */
export function sin(x: number): number {
  // −0 stays −0, which the series would lose.
  if (x > -QUARTER_PI && x < QUARTER_PI) return x === 0 ? x : sinOfRest(x, 0);
  return sinFurtherOn(x, 0);
}

/** cos x, x in radians. Within 1 unit in the last place for every finite x; NaN for others. */
export function cos(x: number): number {
  if (x > -QUARTER_PI && x < QUARTER_PI) return cosOfRest(x, 0);
  return sinFurtherOn(x, 1);
}

/** The sine some quarter turns further on: of x + quarters · π/2. */
function sinFurtherOn(x: number, quarters: number): number {
  const n = x * TWO_OVER_PI + ROUNDER - ROUNDER;
  const first = x - n * HALF_PI_FIRST;
  const second = n * HALF_PI_SECOND;
  const third = n * HALF_PI_THIRD;
  const both = first - second;
  const r = both - third;
  // What is lacking of π/2 stays below a sixteenth of a digit of r.
  if (!(Math.abs(n) < MOST_TURNS && Math.abs(r) > LEAST_REST * Math.abs(n)))
    return +sinReducedExactly(x, quarters);
  // What either subtraction rounded off.
  return ofQuarter(n + quarters, r, both - r - third + (first - both - second));
}

/** sin of n · π/2 + r + rest. */
function ofQuarter(n: number, r: number, rest: number): number {
  const value = (n & 1) === 0 ? sinOfRest(r, rest) : cosOfRest(r, rest);
  return (n & 2) === 0 ? value : -value;
}

/** sin(r + rest) for a rest of less than a digit of r. */
function sinOfRest(r: number, rest: number): number {
  const z = r * r;
  const w = z * z;
  // Pairs of terms apart, so that they run side by side.
  const low = -1 / 6 + z * (1 / 120) + w * (-1 / 5040 + z * (1 / 362_880));
  const high =
    -1 / 39_916_800 + z * (1 / 6_227_020_800) + w * (-1 / 1_307_674_368_000 + z * (1 / 355_687_428_096_000));
  return r + (r * (z * (low + w * w * high)) + rest * (1 - 0.5 * z));
}

function cosOfRest(r: number, rest: number): number {
  const z = r * r;
  const w = z * z;
  const low = 1 / 24 + z * (-1 / 720) + w * (1 / 40_320 + z * (-1 / 3_628_800));
  const high = 1 / 479_001_600 + z * (-1 / 87_178_291_200) + w * (1 / 20_922_789_888_000);
  // 1 − z/2 rounds; what it lost is carried.
  const half = 0.5 * z;
  const most = 1 - half;
  return most + (1 - most - half + (w * (low + w * w * high) - r * rest));
}

const BITS = 1200n;
let halfPi = 0n;

/** As `sinFurtherOn`, x − n · π/2 in whole numbers of 2^−BITS. */
function sinReducedExactly(x: number, quarters: number): number {
  if (!Number.isFinite(x)) return Number.NaN;
  halfPi ||= halfPiInBits();
  // Doubles from ½ on are whole numbers of 2^−53.
  const size = Math.abs(x);
  const whole = size < power(2, 53) ? BigInt(size * power(2, 53)) << (BITS - 53n) : BigInt(size) << BITS;
  const n = (whole + halfPi / 2n) / halfPi;
  // No double comes nearer to a multiple of π/2 than 2^−62: 2^−160 leaves it more digits than it can hold.
  const r = Number((whole - n * halfPi) >> (BITS - 160n)) * power(2, -160);
  const turned = Number(n & 3n);
  return x < 0 ? ofQuarter(quarters - turned, -r, 0) : ofQuarter(quarters + turned, r, 0);
}

/** π/2 = 8 atan(1/5) − 2 atan(1/239), Machin 1706. */
function halfPiInBits(): bigint {
  const guard = 32n;
  const atanOfInverse = (k: bigint): bigint => {
    let sum = 0n;
    let part = (1n << (BITS + guard)) / k;
    for (let i = 1n; part !== 0n; i += 2n, part /= -k * k) sum += part / i;
    return sum;
  };
  return (8n * atanOfInverse(5n) - 2n * atanOfInverse(239n)) >> guard;
}

/** atan(j/8), j = 0 … 8: the nearest doubles, and what they lack. */
const ATAN_HIGH = [
  0,
  0.12435499454676144,
  0.24497866312686414,
  0.35877067027057225,
  0.4636476090008061,
  0.5585993153435624,
  0.6435011087932844,
  0.7188299996216245,
  QUARTER_PI,
] as const;
const ATAN_LOW = [
  0, -3.1253241424539383e-18, 1.0698755618734451e-17, -2.4623815582638635e-17, 2.2698777452961687e-17,
  -5.4556305485916264e-18, 1.5834785051444286e-17, -2.1478388444456983e-17, 3.061616997868383e-17,
] as const;

/** atan t for 0 ≤ t ≤ 1. */
function atanOfRatio(t: number): number {
  const j = Math.floor(8 * t + 0.5);
  const c = j / 8;
  const u = (t - c) / (1 + c * t);
  const z = u * u;
  const tail = z * (-1 / 3 + z * (1 / 5 + z * (-1 / 7 + z * (1 / 9 + z * (-1 / 11 + z * (1 / 13))))));
  return ATAN_HIGH[j]! + (ATAN_LOW[j]! + u * tail + u);
}

const HALF_PI = 2 * QUARTER_PI;
const HALF_PI_LACKS = 6.123233995736766e-17;
const PI_LACKS = 1.2246467991473532e-16;

/**
 * The angle of (x, y) from the x axis, radians, −π to π. Within 2 units in the last place; zeros and infinities as IEEE
 * 754 has them for `atan2` (the sign of a zero counts), NaN where either is.
 */
export function atan2(y: number, x: number): number {
  const across = Math.abs(y);
  const along = Math.abs(x);
  const isLeft = x < 0 || Object.is(x, -0);
  let angle: number;
  if (across > along) {
    const beyond = atanOfRatio(along / across);
    angle = isLeft ? HALF_PI + (beyond + HALF_PI_LACKS) : HALF_PI - (beyond - HALF_PI_LACKS);
  } else {
    // 0/0 and ∞/∞ have no ratio of their own; a NaN goes on as one.
    const ratio = across === along ? Math.sign(across) : across / along;
    angle = atanOfRatio(ratio);
    if (isLeft) angle = Math.PI - (angle - PI_LACKS);
  }
  return y < 0 || Object.is(y, -0) ? -angle : angle;
}
