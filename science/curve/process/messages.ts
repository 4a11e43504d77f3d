/**
 * What all other heights say about the level at any age, with the path integrated out, while one point after another is
 * taken out of the chain and put back.
 *
 * Forward messages are filtered states (mean, covariance) at each node from the younger side; backward messages are
 * likelihoods exp(−½xᵀΛx + ηᵀx) of the state at each node from its own and all older heights. A cursor walks the chain:
 * forward messages are valid before it, backward messages behind it, and the node at the cursor is in neither, so it may
 * move freely. Where it jumps over neighbours, only the messages of those crossed are made anew, and they are exactly
 * those that are valid once it has landed. The storage is indexed by node, so nothing is shifted.
 *
 * For an age t between neighbours L and R: with S, m the prediction of the state at R from L alone, the older side adds
 * u = (I + ΛS)⁻¹(η − Λm) and W = (I + ΛS)⁻¹Λ, which do not depend on t, and
 *   E f(t) = m₀(t) + cᵀu,  Var f(t) = P₀₀(t) − cᵀWc,  c = Cov(x(R), f(t)) = Φ(R − t)·P(t)·(1, 0, 0)ᵀ
 * (the smoothing recursion of Bryson & Frazier 1963 for a node without observation).
 *
 * Long because three-by-three algebra is written out, here as in the filter and the smoother: loops and small arrays would
 * cost most of the time. One function for the prediction over a gap made whole curves 1 to 3 % slower (40 runs each, of 20
 * and 60 points, in turns).
 */
import type { Observations } from './observations.ts';
import { STEP } from './rate-process.ts';
import { type Rates, stepOver, transitionOver } from './rates.ts';

export interface Messages {
  o: Observations;
  rates: Rates;
  cursor: number;
  /** Forward: mean (3) and covariance (6: 00 01 02 11 12 22) by node. */
  mean: Float64Array;
  covariance: Float64Array;
  /** Backward: η (3) and Λ (6) by node. */
  eta: Float64Array;
  information: Float64Array;
  /** u (3), W (6) of the gap whose younger node is i, at 9·(i + 1); good where the stamp is the current one. */
  gap: Float64Array;
  gapStamp: Int32Array;
  stamp: number;
  /** Positions furthest from the cursor that have their messages without the node at the cursor. */
  youngestDone: number;
  oldestDone: number;
  step: Float64Array;
  next: Float64Array;
  /** u and W in the making, and |I + ΛS|. */
  made: Float64Array;
  /** Prediction at an older node: covariance (6) and mean (3). */
  ahead: Float64Array;
  /** Outcome of `predictLevel`: mean and variance of the level, m and m², mean of rate/σ. */
  level_m: number;
  variance_m2: number;
  rate: number;
  /** Positions of the neighbours of the last age asked for, the node at the cursor left out; −1 and count for none. */
  younger: number;
  older: number;
}

export function messages(o: Observations, rates: Rates): Messages {
  const n = o.count;
  return {
    o,
    rates,
    cursor: 0,
    mean: new Float64Array(3 * n),
    covariance: new Float64Array(6 * n),
    eta: new Float64Array(3 * n),
    information: new Float64Array(6 * n),
    gap: new Float64Array(9 * (n + 1)),
    gapStamp: new Int32Array(n + 1),
    stamp: 0,
    youngestDone: 0,
    oldestDone: 0,
    step: new Float64Array(STEP),
    next: new Float64Array(STEP),
    made: new Float64Array(10),
    ahead: new Float64Array(9),
    level_m: 0,
    variance_m2: 0,
    rate: 0,
    younger: 0,
    older: 0,
  };
}

/** New heights, σ or ℓ: all messages anew, the cursor at the youngest or the oldest node. */
export function restart(m: Messages, rates: Rates, atOldest: boolean): void {
  m.rates = rates;
  const { order } = m.o;
  const count = order.length;
  if (atOldest) {
    m.cursor = count - 1;
    for (let k = 0; k < count - 1; k++) forward(m, order[k]!, k > 0 ? order[k - 1]! : -1);
  } else {
    m.cursor = 0;
    for (let k = count - 1; k > 0; k--) backward(m, order[k]!, k < count - 1 ? order[k + 1]! : -1);
  }
}

/** Brings the cursor to a node, which is thereby taken out. */
export function takeOut(m: Messages, node: number): void {
  const { order, place } = m.o;
  const count = order.length;
  const to = place[node]!;
  while (m.cursor < to) {
    forward(m, order[m.cursor]!, m.cursor > 0 ? order[m.cursor - 1]! : -1);
    m.cursor++;
  }
  while (m.cursor > to) {
    backward(m, order[m.cursor]!, m.cursor < count - 1 ? order[m.cursor + 1]! : -1);
    m.cursor--;
  }
  m.stamp++;
  m.youngestDone = to;
  m.oldestDone = to;
}

/** Puts the node at the cursor back, at an age between the neighbours `predictLevel` found for it. */
export function putBack(m: Messages, age_ka: number, younger: number, older: number): void {
  const { order, place } = m.o;
  const from = m.cursor;
  const node = order[from]!;
  m.o.age_ka[node] = age_ka;
  let to = from;
  if (older < from) {
    for (to = from; to > older; to--) {
      order[to] = order[to - 1]!;
      place[order[to]!] = to;
    }
  } else if (younger > from) {
    for (to = from; to < younger; to++) {
      order[to] = order[to + 1]!;
      place[order[to]!] = to;
    }
  }
  order[to] = node;
  place[node] = to;
  m.cursor = to;
}

/**
 * Level at an age from all heights but that of the node at the cursor: fills `level_m`, `variance_m2`, `rate`, and the
 * neighbours.
 */
export function predictLevel(m: Messages, age_ka: number): void {
  const { order, age_ka: ages } = m.o;
  const count = order.length;
  let younger = m.cursor - 1;
  let older = m.cursor + 1;
  while (younger >= 0 && age_ka < ages[order[younger]!]!) {
    if (younger < m.youngestDone) {
      backward(m, order[younger]!, older < count ? order[older]! : -1);
      m.youngestDone = younger;
    }
    older = younger--;
  }
  while (older < count && age_ka > ages[order[older]!]!) {
    if (older > m.oldestDone) {
      forward(m, order[older]!, younger >= 0 ? order[younger]! : -1);
      m.oldestDone = older;
    }
    younger = older++;
  }
  m.younger = younger;
  m.older = older;
  if (younger < 0) extrapolate(m, age_ka, order[older]!);
  else interpolate(m, age_ka, order[younger]!, older < count ? order[older]! : -1);
}

/** Younger than all others: the state at the first node, given everything, run backwards in time. */
function extrapolate(m: Messages, age_ka: number, first: number): void {
  const l = m.information;
  const i = 6 * first;
  const e = 3 * first;
  // Posterior of the state: information plus the stationary prior of rate and slope, level flat.
  const l00 = l[i]!;
  const l01 = l[i + 1]!;
  const l02 = l[i + 2]!;
  const l11 = l[i + 3]! + 1;
  const l12 = l[i + 4]!;
  const l22 = l[i + 5]! + 1;
  const c00 = l11 * l22 - l12 * l12;
  const c01 = l02 * l12 - l01 * l22;
  const c02 = l01 * l12 - l02 * l11;
  const inverse = 1 / (l00 * c00 + l01 * c01 + l02 * c02);
  const p00 = c00 * inverse;
  const p01 = c01 * inverse;
  const p02 = c02 * inverse;
  const p11 = (l00 * l22 - l02 * l02) * inverse;
  const p12 = (l01 * l02 - l00 * l12) * inverse;
  const p22 = (l00 * l11 - l01 * l01) * inverse;
  const h0 = m.eta[e]!;
  const h1 = m.eta[e + 1]!;
  const h2 = m.eta[e + 2]!;
  const x0 = p00 * h0 + p01 * h1 + p02 * h2;
  const x1 = p01 * h0 + p11 * h1 + p12 * h2;
  const x2 = p02 * h0 + p12 * h1 + p22 * h2;
  const s = m.step;
  stepOver(m.rates, m.o.age_ka[first]!, age_ka, s);
  const a = s[0]!;
  const b = s[1]!;
  m.level_m = x0 + a * x1 - b * x2;
  m.rate = s[2]! * x1 - s[3]! * x2;
  const v0 = p00 + a * p01 - b * p02;
  const v1 = p01 + a * p11 - b * p12;
  const v2 = p02 + a * p12 - b * p22;
  m.variance_m2 = v0 + a * v1 - b * v2 + s[5]!;
}

function interpolate(m: Messages, age_ka: number, younger: number, older: number): void {
  const s = m.step;
  stepOver(m.rates, m.o.age_ka[younger]!, age_ka, s);
  const a = s[0]!;
  const b = s[1]!;
  const p = s[2]!;
  const q = s[3]!;
  const w = s[4]!;
  const i = 6 * younger;
  const cov = m.covariance;
  const p00 = cov[i]!;
  const p01 = cov[i + 1]!;
  const p02 = cov[i + 2]!;
  const p11 = cov[i + 3]!;
  const p12 = cov[i + 4]!;
  const p22 = cov[i + 5]!;
  const x0 = m.mean[3 * younger]!;
  const x1 = m.mean[3 * younger + 1]!;
  const x2 = m.mean[3 * younger + 2]!;
  const v0 = p00 - a * p01 - b * p02;
  const v1 = p01 - a * p11 - b * p12;
  const v2 = p02 - a * p12 - b * p22;
  const c0 = v0 - a * v1 - b * v2 + s[5]!;
  const level = x0 - a * x1 - b * x2;
  const rate = p * x1 + q * x2;
  if (older < 0) {
    m.level_m = level;
    m.variance_m2 = c0;
    m.rate = rate;
    return;
  }
  // Covariances of level and of rate with the state here, then with the state at the older neighbour.
  const c1 = p * v1 + q * v2 + s[6]!;
  const c2 = w * v2 - q * v1 + s[7]!;
  const r1 = p * p11 + q * p12;
  const r2 = p * p12 + q * p22;
  const d1 = p * r1 + q * r2 + s[8]!;
  const d2 = w * r2 - q * r1 + s[9]!;
  const n = m.next;
  transitionOver(m.rates, age_ka, m.o.age_ka[older]!, n);
  const na = n[0]!;
  const nb = n[1]!;
  const np = n[2]!;
  const nq = n[3]!;
  const nw = n[4]!;
  const f0 = c0 - na * c1 - nb * c2;
  const f1 = np * c1 + nq * c2;
  const f2 = nw * c2 - nq * c1;
  const g0 = c1 - na * d1 - nb * d2;
  const g1 = np * d1 + nq * d2;
  const g2 = nw * d2 - nq * d1;
  const gap = gapOf(m, younger, older);
  const t = m.gap;
  const u0 = t[gap]!;
  const u1 = t[gap + 1]!;
  const u2 = t[gap + 2]!;
  m.level_m = level + f0 * u0 + f1 * u1 + f2 * u2;
  m.rate = rate + g0 * u0 + g1 * u1 + g2 * u2;
  m.variance_m2 =
    c0 -
    (f0 * (f0 * t[gap + 3]! + 2 * (f1 * t[gap + 4]! + f2 * t[gap + 5]!)) +
      f1 * (f1 * t[gap + 6]! + 2 * f2 * t[gap + 7]!) +
      f2 * f2 * t[gap + 8]!);
}

/** Place of u and W of a gap, made when first needed. */
function gapOf(m: Messages, younger: number, older: number): number {
  const at = 9 * (younger + 1);
  if (m.gapStamp[younger + 1] === m.stamp) return at;
  m.gapStamp[younger + 1] = m.stamp;
  // `next` still holds the transition of the age asked for, already read.
  meet(m, m.rates, younger, older);
  for (let k = 0; k < 9; k++) m.gap[at + k] = m.made[k]!;
  return at;
}

/** u and W where the forward message of a node and the backward message of an older one meet, into `made`; what the younger
 * side alone predicts for the older node, its covariance and mean, into `ahead`. */
export function meet(m: Messages, rates: Rates, younger: number, older: number): void {
  const s = m.next;
  stepOver(rates, m.o.age_ka[younger]!, m.o.age_ka[older]!, s);
  const a = s[0]!;
  const b = s[1]!;
  const p = s[2]!;
  const q = s[3]!;
  const w = s[4]!;
  const i = 6 * younger;
  const cov = m.covariance;
  const p11 = cov[i + 3]!;
  const p12 = cov[i + 4]!;
  const p22 = cov[i + 5]!;
  const x00 = cov[i]! - a * cov[i + 1]! - b * cov[i + 2]!;
  const x01 = cov[i + 1]! - a * p11 - b * p12;
  const x02 = cov[i + 2]! - a * p12 - b * p22;
  const x11 = p * p11 + q * p12;
  const x12 = p * p12 + q * p22;
  const x21 = w * p12 - q * p11;
  const x22 = w * p22 - q * p12;
  const m1 = m.mean[3 * younger + 1]!;
  const m2 = m.mean[3 * younger + 2]!;
  const to = m.ahead;
  to[0] = x00 - a * x01 - b * x02 + s[5]!;
  to[1] = p * x01 + q * x02 + s[6]!;
  to[2] = w * x02 - q * x01 + s[7]!;
  to[3] = p * x11 + q * x12 + s[8]!;
  to[4] = w * x12 - q * x11 + s[9]!;
  to[5] = w * x22 - q * x21 + s[10]!;
  to[6] = m.mean[3 * younger]! - a * m1 - b * m2;
  to[7] = p * m1 + q * m2;
  to[8] = w * m2 - q * m1;
  absorb(m, older, to[0], to[1], to[2], to[3], to[4], to[5], to[6], to[7], to[8]);
}

/** u = (I + ΛS)⁻¹(η − Λx) and W = (I + ΛS)⁻¹Λ of a node's backward message, into `made`. */
function absorb(
  m: Messages,
  node: number,
  s00: number,
  s01: number,
  s02: number,
  s11: number,
  s12: number,
  s22: number,
  x0: number,
  x1: number,
  x2: number,
): void {
  const l = m.information;
  const i = 6 * node;
  const l00 = l[i]!;
  const l01 = l[i + 1]!;
  const l02 = l[i + 2]!;
  const l11 = l[i + 3]!;
  const l12 = l[i + 4]!;
  const l22 = l[i + 5]!;
  const a00 = 1 + l00 * s00 + l01 * s01 + l02 * s02;
  const a01 = l00 * s01 + l01 * s11 + l02 * s12;
  const a02 = l00 * s02 + l01 * s12 + l02 * s22;
  const a10 = l01 * s00 + l11 * s01 + l12 * s02;
  const a11 = 1 + l01 * s01 + l11 * s11 + l12 * s12;
  const a12 = l01 * s02 + l11 * s12 + l12 * s22;
  const a20 = l02 * s00 + l12 * s01 + l22 * s02;
  const a21 = l02 * s01 + l12 * s11 + l22 * s12;
  const a22 = 1 + l02 * s02 + l12 * s12 + l22 * s22;
  // Inverse by cofactors; the determinant is at least 1.
  const c00 = a11 * a22 - a12 * a21;
  const c01 = a02 * a21 - a01 * a22;
  const c02 = a01 * a12 - a02 * a11;
  const c10 = a12 * a20 - a10 * a22;
  const c11 = a00 * a22 - a02 * a20;
  const c12 = a02 * a10 - a00 * a12;
  const c20 = a10 * a21 - a11 * a20;
  const c21 = a01 * a20 - a00 * a21;
  const c22 = a00 * a11 - a01 * a10;
  const determinant = a00 * c00 + a01 * c10 + a02 * c20;
  const inverse = 1 / determinant;
  const e = 3 * node;
  const h0 = m.eta[e]! - (l00 * x0 + l01 * x1 + l02 * x2);
  const h1 = m.eta[e + 1]! - (l01 * x0 + l11 * x1 + l12 * x2);
  const h2 = m.eta[e + 2]! - (l02 * x0 + l12 * x1 + l22 * x2);
  const out = m.made;
  out[0] = (c00 * h0 + c01 * h1 + c02 * h2) * inverse;
  out[1] = (c10 * h0 + c11 * h1 + c12 * h2) * inverse;
  out[2] = (c20 * h0 + c21 * h1 + c22 * h2) * inverse;
  out[3] = (c00 * l00 + c01 * l01 + c02 * l02) * inverse;
  out[4] = (c00 * l01 + c01 * l11 + c02 * l12) * inverse;
  out[5] = (c00 * l02 + c01 * l12 + c02 * l22) * inverse;
  out[6] = (c10 * l01 + c11 * l11 + c12 * l12) * inverse;
  out[7] = (c10 * l02 + c11 * l12 + c12 * l22) * inverse;
  out[8] = (c20 * l02 + c21 * l12 + c22 * l22) * inverse;
  out[9] = determinant;
}

/** Filtered state at a node from that at its younger neighbour (−1: none, the level flat). */
export function forward(m: Messages, node: number, younger: number): void {
  const { o, mean, covariance: cov } = m;
  const variance = o.variance_m2[node]!;
  const i = 6 * node;
  const e = 3 * node;
  if (younger < 0) {
    mean[e] = o.height_m[node]!;
    mean[e + 1] = 0;
    mean[e + 2] = 0;
    cov[i] = variance;
    cov[i + 1] = 0;
    cov[i + 2] = 0;
    cov[i + 3] = 1;
    cov[i + 4] = 0;
    cov[i + 5] = 1;
    return;
  }
  const s = m.next;
  stepOver(m.rates, o.age_ka[younger]!, o.age_ka[node]!, s);
  const a = s[0]!;
  const b = s[1]!;
  const p = s[2]!;
  const q = s[3]!;
  const w = s[4]!;
  const j = 6 * younger;
  const q11 = cov[j + 3]!;
  const q12 = cov[j + 4]!;
  const q22 = cov[j + 5]!;
  const x00 = cov[j]! - a * cov[j + 1]! - b * cov[j + 2]!;
  const x01 = cov[j + 1]! - a * q11 - b * q12;
  const x02 = cov[j + 2]! - a * q12 - b * q22;
  const x11 = p * q11 + q * q12;
  const x12 = p * q12 + q * q22;
  const x21 = w * q12 - q * q11;
  const x22 = w * q22 - q * q12;
  const p00 = x00 - a * x01 - b * x02 + s[5]!;
  const p01 = p * x01 + q * x02 + s[6]!;
  const p02 = w * x02 - q * x01 + s[7]!;
  const p11 = p * x11 + q * x12 + s[8]!;
  const p12 = w * x12 - q * x11 + s[9]!;
  const p22 = w * x22 - q * x21 + s[10]!;
  const m1 = mean[3 * younger + 1]!;
  const m2 = mean[3 * younger + 2]!;
  const m0 = mean[3 * younger]! - a * m1 - b * m2;
  const inverse = 1 / (p00 + variance);
  const k0 = p00 * inverse;
  const k1 = p01 * inverse;
  const k2 = p02 * inverse;
  const innovation = o.height_m[node]! - m0;
  mean[e] = m0 + k0 * innovation;
  mean[e + 1] = p * m1 + q * m2 + k1 * innovation;
  mean[e + 2] = w * m2 - q * m1 + k2 * innovation;
  cov[i] = p00 - k0 * p00;
  cov[i + 1] = p01 - k0 * p01;
  cov[i + 2] = p02 - k0 * p02;
  cov[i + 3] = p11 - k1 * p01;
  cov[i + 4] = p12 - k1 * p02;
  cov[i + 5] = p22 - k2 * p02;
}

/** Likelihood of the state at a node from its own height and the message of its older neighbour (−1: none):
 * Λ ← Φᵀ(I + ΛQ)⁻¹ΛΦ + hhᵀ/s², η ← Φᵀ(I + ΛQ)⁻¹η + h·y/s². */
function backward(m: Messages, node: number, older: number): void {
  const { o, information: l, eta } = m;
  const precision = 1 / o.variance_m2[node]!;
  const i = 6 * node;
  const e = 3 * node;
  if (older < 0) {
    l[i] = precision;
    for (let k = 1; k < 6; k++) l[i + k] = 0;
    eta[e] = precision * o.height_m[node]!;
    eta[e + 1] = 0;
    eta[e + 2] = 0;
    return;
  }
  const s = m.next;
  stepOver(m.rates, o.age_ka[node]!, o.age_ka[older]!, s);
  absorb(m, older, s[5]!, s[6]!, s[7]!, s[8]!, s[9]!, s[10]!, 0, 0, 0);
  const a = s[0]!;
  const b = s[1]!;
  const p = s[2]!;
  const q = s[3]!;
  const w = s[4]!;
  const t = m.made;
  const w00 = t[3]!;
  const w01 = t[4]!;
  const w02 = t[5]!;
  const w11 = t[6]!;
  const w12 = t[7]!;
  const w22 = t[8]!;
  // Rows of WΦ.
  const y01 = p * w01 - a * w00 - q * w02;
  const y02 = q * w01 - b * w00 + w * w02;
  const y11 = p * w11 - a * w01 - q * w12;
  const y12 = q * w11 - b * w01 + w * w12;
  const y21 = p * w12 - a * w02 - q * w22;
  const y22 = q * w12 - b * w02 + w * w22;
  l[i] = w00 + precision;
  l[i + 1] = y01;
  l[i + 2] = y02;
  l[i + 3] = p * y11 - a * y01 - q * y21;
  l[i + 4] = p * y12 - a * y02 - q * y22;
  l[i + 5] = q * y12 - b * y02 + w * y22;
  eta[e] = t[0]! + precision * o.height_m[node]!;
  eta[e + 1] = p * t[1]! - a * t[0]! - q * t[2]!;
  eta[e + 2] = q * t[1]! - b * t[0]! + w * t[2]!;
}
