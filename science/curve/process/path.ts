/**
 * Draws of level and rate at observed and reported ages given heights, ages, σ and ℓ: the simulation smoother of Durbin &
 * Koopman 2002, Biometrika 89:603–615. A path x⁺ and heights y⁺ are simulated from the model; what the smoother makes of
 * y − y⁺ is added to x⁺. Smoothing needs no inverse: with predictions m, P, innovations v of variance F and gain K,
 *   r ← Φᵀr beyond a node;  at an observed node r ← r + h(v/F − Kᵀr);  E x = m + P·r.
 */
import type { RandomStream } from '@stillstand/science/base';
import type { Observations } from './observations.ts';
import { STEP } from './rate-process.ts';
import { meanRate, type Rates, stepOver, trend_m } from './rates.ts';

/** Numbers kept for each stop on the way up: simulated f, r; predicted m, P; v, 1/F; a, b, p, q, w. */
const KEPT = 16;

export interface Path {
  /** Report ages, ascending. */
  age_ka: Float64Array;
  /** Further ages, ascending, set for each draw: the first so many. */
  more_ka: Float64Array;
  more: number;
  /** At report ages, then at the further ones: level with the mean rate's trend, m; rate, mm/yr. */
  level_m: Float64Array;
  rate_mm_yr: Float64Array;
  /** Level at the node of each observation, m. */
  levelAtNode_m: Float64Array;
  kept: Float64Array;
  /** All stops by age: node ≥ 0, or −1 − report age. */
  stop: Int32Array;
  stopAge_ka: Float64Array;
  step: Float64Array;
  noise: Float64Array;
}

export function path(nodes: number, report_age_ka: Float64Array, more: number = 0): Path {
  const reports = report_age_ka.length + more;
  return {
    age_ka: report_age_ka,
    more_ka: new Float64Array(more),
    more: 0,
    level_m: new Float64Array(reports),
    rate_mm_yr: new Float64Array(reports),
    levelAtNode_m: new Float64Array(nodes),
    kept: new Float64Array(KEPT * (nodes + reports)),
    stop: new Int32Array(nodes + reports),
    stopAge_ka: new Float64Array(nodes + reports),
    step: new Float64Array(STEP),
    noise: new Float64Array(3),
  };
}

/**
 * One draw, from `o.height_m` (shared errors taken off); a node of infinite variance is not observed, at least one is.
 */
export function drawPath(
  path: Path,
  o: Observations,
  rates: Rates,
  stream: Pick<RandomStream, 'normal'>,
): void {
  const { kept, stop, stopAge_ka, step, noise } = path;
  const { height_m, variance_m2 } = o;
  const stops = mergeStops(path, o);
  let start = 0;
  while (!(stop[start]! >= 0 && variance_m2[stop[start]!]! < Infinity)) start++;

  // Up: from the first observed node over all older stops, simulating and filtering at once.
  const first = stop[start]!;
  const firstVariance = variance_m2[first]!;
  let x0 = 0;
  let x1 = stream.normal();
  let x2 = stream.normal();
  let m0 = height_m[first]! - Math.sqrt(firstVariance) * stream.normal();
  let m1 = 0;
  let m2 = 0;
  let p00 = firstVariance;
  let p01 = 0;
  let p02 = 0;
  let p11 = 1;
  let p12 = 0;
  let p22 = 1;
  const start1 = x1;
  const start2 = x2;
  const startMean = m0;
  for (let at = start + 1; at < stops; at++) {
    stepOver(rates, stopAge_ka[at - 1]!, stopAge_ka[at]!, step);
    const a = step[0]!;
    const b = step[1]!;
    const p = step[2]!;
    const q = step[3]!;
    const w = step[4]!;
    drawNoise(step, stream, noise);
    const y0 = x0 - a * x1 - b * x2 + noise[0]!;
    const y1 = p * x1 + q * x2 + noise[1]!;
    x2 = w * x2 - q * x1 + noise[2]!;
    x0 = y0;
    x1 = y1;
    m0 -= a * m1 + b * m2;
    const n1 = p * m1 + q * m2;
    m2 = w * m2 - q * m1;
    m1 = n1;
    const x00 = p00 - a * p01 - b * p02;
    const x01 = p01 - a * p11 - b * p12;
    const x02 = p02 - a * p12 - b * p22;
    const x11 = p * p11 + q * p12;
    const x12 = p * p12 + q * p22;
    const x21 = w * p12 - q * p11;
    const x22 = w * p22 - q * p12;
    p00 = x00 - a * x01 - b * x02 + step[5]!;
    p01 = p * x01 + q * x02 + step[6]!;
    p02 = w * x02 - q * x01 + step[7]!;
    p11 = p * x11 + q * x12 + step[8]!;
    p12 = w * x12 - q * x11 + step[9]!;
    p22 = w * x22 - q * x21 + step[10]!;
    const i = KEPT * at;
    kept[i] = x0;
    kept[i + 1] = x1;
    kept[i + 2] = m0;
    kept[i + 3] = m1;
    kept[i + 4] = p00;
    kept[i + 5] = p01;
    kept[i + 6] = p02;
    kept[i + 7] = p11;
    kept[i + 8] = p12;
    kept[i + 10] = 0;
    kept[i + 11] = a;
    kept[i + 12] = b;
    kept[i + 13] = p;
    kept[i + 14] = q;
    kept[i + 15] = w;
    const node = stop[at]!;
    if (node < 0 || variance_m2[node] === Infinity) continue;
    const inverse = 1 / (p00 + variance_m2[node]!);
    const v = height_m[node]! - x0 - Math.sqrt(variance_m2[node]!) * stream.normal() - m0;
    kept[i + 9] = v;
    kept[i + 10] = inverse;
    const k0 = p00 * inverse;
    const k1 = p01 * inverse;
    const k2 = p02 * inverse;
    m0 += k0 * v;
    m1 += k1 * v;
    m2 += k2 * v;
    p22 -= k2 * p02;
    p12 -= k1 * p02;
    p11 -= k1 * p01;
    p02 -= k0 * p02;
    p01 -= k0 * p01;
    p00 -= k0 * p00;
  }

  // Down: the adjoint r, and the smoothed state at each stop.
  let r0 = 0;
  let r1 = 0;
  let r2 = 0;
  for (let at = stops - 1; at > start; at--) {
    const i = KEPT * at;
    const inverse = kept[i + 10]!;
    const s00 = kept[i + 4]!;
    const s01 = kept[i + 5]!;
    const s02 = kept[i + 6]!;
    if (inverse > 0) r0 += inverse * (kept[i + 9]! - (s00 * r0 + s01 * r1 + s02 * r2));
    const level = kept[i]! + kept[i + 2]! + s00 * r0 + s01 * r1 + s02 * r2;
    const rate = kept[i + 1]! + kept[i + 3]! + s01 * r0 + kept[i + 7]! * r1 + kept[i + 8]! * r2;
    store(path, at, level, rate, rates);
    const a = kept[i + 11]!;
    const b = kept[i + 12]!;
    const p = kept[i + 13]!;
    const q = kept[i + 14]!;
    const w = kept[i + 15]!;
    const t1 = p * r1 - a * r0 - q * r2;
    r2 = q * r1 - b * r0 + w * r2;
    r1 = t1;
  }
  x0 = startMean + firstVariance * r0;
  x1 = start1 + r1;
  x2 = start2 + r2;
  store(path, start, x0, x1, rates);

  // Younger than every observation: the process run backwards in time (level and slope change sign), nothing to learn.
  for (let at = start - 1; at >= 0; at--) {
    stepOver(rates, stopAge_ka[at + 1]!, stopAge_ka[at]!, step);
    drawNoise(step, stream, noise);
    const y0 = x0 + step[0]! * x1 - step[1]! * x2 - noise[0]!;
    const y1 = step[2]! * x1 - step[3]! * x2 + noise[1]!;
    x2 = step[4]! * x2 + step[3]! * x1 - noise[2]!;
    x0 = y0;
    x1 = y1;
    store(path, at, x0, x1, rates);
  }
}

/** Nodes, report ages and further ones in one ascending list; returns how many. */
function mergeStops(path: Path, o: Observations): number {
  const { age_ka: reportAge, more_ka, more, stop, stopAge_ka } = path;
  const reports = reportAge.length;
  let report = 0;
  let further = 0;
  let at = 0;
  // Up to a node's age; those that are as old as it are older.
  const upTo = (age: number): void => {
    while (report < reports || further < more) {
      const isReport = report < reports && !(further < more && more_ka[further]! < reportAge[report]!);
      const next = isReport ? reportAge[report]! : more_ka[further]!;
      if (!(next < age)) return;
      stop[at] = -1 - (isReport ? report++ : reports + further++);
      stopAge_ka[at++] = next;
    }
  };
  for (let k = 0; k < o.order.length; k++) {
    const node = o.order[k]!;
    upTo(o.age_ka[node]!);
    stop[at] = node;
    stopAge_ka[at++] = o.age_ka[node]!;
  }
  upTo(Infinity);
  return at;
}

/** Level (m) and rate/σ of a stop, the mean rate put back. */
function store(path: Path, at: number, level: number, rate: number, rates: Rates): void {
  const which = path.stop[at]!;
  const age_ka = path.stopAge_ka[at]!;
  const level_m = level - trend_m(rates, age_ka);
  if (which >= 0) path.levelAtNode_m[which] = level_m;
  else {
    path.level_m[-1 - which] = level_m;
    path.rate_mm_yr[-1 - which] = meanRate(rates, age_ka) + rates.sd_mm_yr * rate;
  }
}

/** N(0, Q) by Cholesky factor. Over no gap there is no noise; rounding may make the last pivots negative. */
function drawNoise(step: Float64Array, stream: Pick<RandomStream, 'normal'>, out: Float64Array): void {
  const q00 = step[5]!;
  const e0 = stream.normal();
  const e1 = stream.normal();
  const e2 = stream.normal();
  if (!(q00 > 0)) {
    out.fill(0);
    return;
  }
  const l00 = Math.sqrt(q00);
  const l10 = step[6]! / l00;
  const l20 = step[7]! / l00;
  const l11 = Math.sqrt(Math.max(0, step[8]! - l10 * l10));
  const l21 = l11 > 0 ? (step[9]! - l20 * l10) / l11 : 0;
  const l22 = Math.sqrt(Math.max(0, step[10]! - l20 * l20 - l21 * l21));
  out[0] = l00 * e0;
  out[1] = l10 * e0 + l11 * e1;
  out[2] = l20 * e0 + l21 * e1 + l22 * e2;
}
