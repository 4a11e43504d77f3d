/**
 * exp, log, expm1, log1p from + − × ÷ and rounding only. IEEE 754 fixes those to the last bit, so every engine gives
 * the same answer, which `Math.exp` and `Math.log` do not promise (ECMA-262 leaves them to the implementation).
 *
 * exp: table-driven argument reduction (Tang 1989, ACM Trans. Math. Softw. 15:144–157): x = (64k + j)·ln2/64 + r,
 * |r| ≤ ln2/128, exp x = 2^k · 2^(j/64) · (1 + r + … + r⁵/120); the next Taylor term is below 4e-17.
 * log: x = 2^k·(1 + f) with √½ ≤ 1 + f < √2, s = f/(2 + f), ln(1 + f) = 2 artanh s. The artanh series is replaced by
 * a polynomial through Chebyshev nodes (computed for this file with 90 digits; relative error 5e-18).
 * Errors against 60-digit values are measured in the test: docs/methods/base.md.
 */

const POW2_LEAST = -1074;
/** 2^k at index k − POW2_LEAST, k = −1074 … 1023, exact: the scaling needs no look at bits. */
const POW2 = powersOfTwo();

/** 2^(j/64), j = 0 … 63, nearest doubles. */
const ROOTS = new Float64Array([
  1.0,
  1.0108892860517005,
  1.0218971486541166,
  1.0330248790212284,
  1.0442737824274138,
  1.0556451783605572,
  1.0671404006768237,
  1.0787607977571199,
  1.0905077326652577,
  1.102382583307841,
  1.1143867425958924,
  1.1265216186082418,
  1.1387886347566916,
  1.1511892299529827,
  1.1637248587775775,
  1.1763969916502812,
  1.189207115002721,
  1.202156731452703,
  1.215247359980469,
  1.22848053610687,
  1.241857812073484,
  1.255380757024691,
  1.2690509571917332,
  1.2828700160787783,
  1.2968395546510096,
  1.3109612115247644,
  1.3252366431597413,
  1.339667524053303,
  1.3542555469368927,
  1.3690024229745905,
  1.383909881963832,
  1.3989796725383112,
  Math.SQRT2,
  1.42961333839197,
  1.4451808069770467,
  1.460917794180647,
  1.4768261459394993,
  1.4929077282912648,
  1.5091644275934228,
  1.5255981507445384,
  1.5422108254079407,
  1.559004400237837,
  1.5759808451078865,
  1.593142151342267,
  1.6104903319492543,
  1.6280274218573478,
  1.645755478153965,
  1.6636765803267364,
  1.681792830507429,
  1.7001063537185235,
  1.718619298122478,
  1.7373338352737062,
  1.7562521603732995,
  1.7753764925265212,
  1.7947090750031072,
  1.8142521755003989,
  1.8340080864093424,
  1.8539791250833855,
  1.8741676341103,
  1.8945759815869656,
  1.9152065613971474,
  1.9360617934922943,
  1.9571441241754002,
  1.978456026387951,
]);

/** 64/ln 2, and ln2/64 in two parts: the first has 33 bits, so n times it is exact. */
const STEPS_PER_E = 92.33248261689366;
const STEP_HIGH = 0.010830424695086549;
const STEP_LOW = 1.162596423439437e-12;

/** ln 2 in two parts: the first has 40 bits, so k times it is exact. */
const LN2_HIGH = 0.6931471805592082;
const LN2_LOW = 7.371002565167799e-13;

/** 1.5 · 2^52: adding and taking it away rounds to the nearest whole number. */
const ROUNDER = 6755399441055744;

/** e^x. Within 1.1 units in the last place; 0 below −745.2, ∞ above 709.78, NaN for NaN. */
export function exp(x: number): number {
  // The plus tells a compiler that this too is a number: without it callers box every result (a third slower, measured).
  if (!(x > -708 && x < 709)) return +expAtTheEdge(x);
  const n = x * STEPS_PER_E + ROUNDER - ROUNDER;
  const r = x - n * STEP_HIGH - n * STEP_LOW;
  const scaled = ROOTS[n & 63]! * POW2[(n >> 6) - POW2_LEAST]!;
  return scaled + scaled * expm1OfRest(r);
}

/** e^r − 1 for |r| ≤ ln2/128; pairs of terms apart, so that they run side by side. */
function expm1OfRest(r: number): number {
  const r2 = r * r;
  return r + r2 * (1 / 2 + r * (1 / 6) + r2 * (1 / 24 + r * (1 / 120)));
}

/** Where 2^k itself would overflow or lose bits: 64 octaves nearer to 1, then back by one exact multiplication. */
function expAtTheEdge(x: number): number {
  if (x < -745.2) return 0;
  if (x > 709.79) return Infinity;
  if (Number.isNaN(x)) return NaN;
  const n = x * STEPS_PER_E + ROUNDER - ROUNDER;
  const r = x - n * STEP_HIGH - n * STEP_LOW;
  const shift = x < 0 ? 64 : -64;
  const scaled = ROOTS[n & 63]! * POW2[(n >> 6) + shift - POW2_LEAST]!;
  return (scaled + scaled * expm1OfRest(r)) * POW2[-shift - POW2_LEAST]!;
}

const WIDE = new Float64Array(1);
const WORDS = new Int32Array(WIDE.buffer);
/** Which of the two words holds sign and exponent: byte order is the machine's. */
const HIGH_WORD = ((): 0 | 1 => {
  WIDE[0] = 1;
  return WORDS[0] === 0 ? 1 : 0;
})();

const LEAST_NORMAL = 2.2250738585072014e-308;

/** Natural logarithm. Within 1 unit in the last place; −∞ at 0, NaN below 0. */
export function log(x: number): number {
  if (!(x >= LEAST_NORMAL && x < Infinity)) return +logAtTheEdge(x);
  WIDE[0] = x;
  // 0x95f62 lifts mantissas from √2 on into the next octave, so that f stays within √½ − 1 … √2 − 1.
  const k = ((WORDS[HIGH_WORD]! + 0x95f62) >> 20) - 1023;
  const f = x * POW2[-k - POW2_LEAST]! - 1;
  // Where k = 0 its products are 0 and change nothing.
  return k * LN2_HIGH + logOfOnePlus(f, k * LN2_LOW);
}

/** Numbers below the smallest normal one are brought up by 2^54 first. */
function logAtTheEdge(x: number): number {
  if (x > 0 && x < Infinity) return log(x * POW2[54 - POW2_LEAST]!) - 54 * LN2_HIGH - 54 * LN2_LOW;
  return x === 0 ? -Infinity : x === Infinity ? Infinity : NaN;
}

/** ln(1 + f) + small for √½ − 1 ≤ f < √2 − 1. With 2s = f − s·f, 2s + s·R becomes f − (f²/2 − s·(f²/2 + R)): the
 * large term f enters unrounded. */
function logOfOnePlus(f: number, small: number): number {
  const s = f / (2 + f);
  const z = s * s;
  // Odd and even powers apart: two short chains run side by side.
  const w = z * z;
  const even = w * (0.3999999999989889 + w * (0.22222211089379496 + w * 0.15331611722055008));
  const odd =
    z * (0.666666666666667 + w * (0.28571428626253836 + w * (0.1818289243253687 + w * 0.14617807153417325)));
  const R = odd + even;
  const half = 0.5 * f * f;
  return f - (half - (s * (half + R) + small));
}

/** ln(1 + x), also for tiny x. Within 2 units in the last place; −∞ at −1, NaN below. */
export function log1p(x: number): number {
  if (x > -0.29 && x < 0.41) return logOfOnePlus(x, 0);
  const u = 1 + x;
  // What rounding 1 + x lost, carried to first order.
  if (!(u > 0 && u < Infinity)) return log(u);
  return log(u) + (x >= 1 ? 1 - (u - x) : x - (u - 1)) / u;
}

/** e^x − 1, also for tiny x. Within 3 units in the last place. */
export function expm1(x: number): number {
  if (!(x > -0.5 && x < 0.5)) return exp(x) - 1;
  // Taylor to x¹⁵/15!; the next term is below 1e-18 of the sum.
  let tail = 0;
  for (let n = 15; n >= 2; n--) tail = (x / n) * (1 + tail);
  return x + x * tail;
}

function powersOfTwo(): Float64Array {
  const table = new Float64Array(1023 - POW2_LEAST + 1);
  table[-POW2_LEAST] = 1;
  for (let k = 1; k <= 1023; k++) table[k - POW2_LEAST] = 2 * table[k - 1 - POW2_LEAST]!;
  for (let k = -1; k >= POW2_LEAST; k--) table[k - POW2_LEAST] = table[k + 1 - POW2_LEAST]! / 2;
  return table;
}
