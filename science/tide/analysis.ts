/**
 * Harmonic analysis of a record: mean level and constants by least squares, each column carrying its node correction
 * at every reading, so that a record of any length gives constants for all times. What the record cannot separate is
 * settled by what is expected (expected.ts), and what that leaves open is in the error bars.
 */
import { atan2, cholesky, cos, median, sin, solveCholesky, square } from '@stillstand/science/base';
import { designRow } from './design-row.ts';
import { type Expected, expectedConstituents } from './expected.ts';
import { DIURNAL_DEG_H, type FittedLine, type Noise, noiseOf } from './noise.ts';
import { PHASE_UNKNOWN_DEG, type TidalConstant } from './prediction.ts';
import { resolvableConstituents, spanOf, type Unresolved } from './separation.ts';

export interface TideRecord {
  /** UTC, in order; gaps are allowed. */
  time_ms: ArrayLike<number>;
  height_m: ArrayLike<number>;
}

export interface AnalysedConstant extends TidalConstant {
  amplitude_sigma_m: number;
  phase_sigma_deg: number;
  /** What it cannot be separated from, as in `unresolved`: what is expected settles it. Null where it is resolved. */
  unresolved_from: string | null;
}

export interface Analysis {
  mean_m: number;
  /** Seasons that the record is too short for are in it. */
  mean_sigma_m: number;
  constants: AnalysedConstant[];
  /** Of a reading about the fitted tide, 1 sd: weather and reading errors. */
  residual_sd_m: number;
  /** Correlation of residuals one step apart; 0 where the record is too uneven to tell. */
  residual_correlation: number;
  readings: number;
  /** What the readings cover, each speaking for one step. */
  duration_days: number;
  unresolved: Unresolved[];
  /** Left out: the readings are too far apart for them. */
  too_fast: string[];
}

const RAD = Math.PI / 180;
const HOUR_MS = 3_600_000;
/** A neighbour's amplitude sets how far its followers may be: it is taken from the fit before. */
const ROUNDS = 2;
/** Noise before there is a fit, as a share of the record's sd. */
const FIRST_NOISE = 0.2;

/**
 * Fits every constituent that the record's step can see. Error bars are of the noise at each constituent's speed and of
 * what `expected` leaves open. Null where no constituent is resolved, or there are fewer readings than unknowns.
 */
export function analyse(record: TideRecord, expected = expectedConstituents()): Analysis | null {
  const n = record.time_ms.length;
  if (n < 4) return null;
  const first_ms = record.time_ms[0]!;
  const step_ms = usualStep(record.time_ms);
  const step_h = step_ms / HOUR_MS;
  const span_h = spanOf(first_ms, record.time_ms[n - 1]!, step_ms) / HOUR_MS;
  const separation = resolvableConstituents(
    span_h,
    step_h,
    expected.filter(({ isUnlisted }) => !isUnlisted).map(({ constituent }) => constituent),
  );
  if (separation.resolved.length === 0 || n <= 1 + 2 * separation.resolved.length) return null;
  const seen = seenBy(step_h, expected);

  const sums = sumsOf(record, seen);
  if (sums === null) return null;
  const { m } = sums;
  let noise: Noise = {
    sd_m: FIRST_NOISE * sums.sd_m,
    correlation: 0,
    at: () => square(FIRST_NOISE * sums.sd_m),
  };
  let sizes = firstSizes(seen, sums.sd_m);
  let fit: Fit | null = null;
  for (let round = 0; round < 2 * ROUNDS; round++) {
    fit = fitOf(sums, seen, sizes, noise);
    if (fit === null) return null;
    const { beta } = fit;
    sizes = seen.map((_, k) => Math.sqrt(square(beta[1 + 2 * k]!) + square(beta[2 + 2 * k]!)));
    const variance = Math.max(fit.squares, 1e-12 * sums.squares) / Math.max(1, n - fit.used);
    // At first the noise is white; then its colour is looked at, once.
    if (round === ROUNDS - 1) {
      const slot = Float64Array.from({ length: n }, (_, i) =>
        Math.round((record.time_ms[i]! - first_ms) / step_ms),
      );
      noise = noiseOf(slot, residualOf(record, seen, fit.beta, sums), step_h, variance, fit.lines);
    } else if (round < ROUNDS - 1) noise = { sd_m: Math.sqrt(variance), correlation: 0, at: () => variance };
  }
  const { beta, inverse } = fit!;
  const covariance = covarianceOf(sums, seen, sizes, noise, inverse);
  const from = new Map(separation.unresolved.map((u) => [u.constituent, u.from]));
  const constants = seen.flatMap(({ constituent: { name }, isUnlisted }, k): AnalysedConstant[] => {
    if (isUnlisted) return [];
    const [c, s] = [1 + 2 * k, 2 + 2 * k];
    const constant = constantOf(beta[c]!, beta[s]!, {
      cc: covariance[c * m + c]!,
      cs: covariance[c * m + s]!,
      ss: covariance[s * m + s]!,
    });
    return [{ constituent: name, ...constant, unresolved_from: from.get(name) ?? null }];
  });
  return {
    mean_m: sums.zero_m + beta[0]!,
    mean_sigma_m: Math.sqrt(covariance[0]!),
    constants,
    residual_sd_m: noise.sd_m,
    residual_correlation: noise.correlation,
    readings: n,
    duration_days: span_h / 24,
    unresolved: separation.unresolved,
    too_fast: separation.too_fast,
  };
}

/** Amplitude and phase with their errors from both components. An amplitude no larger than its error is that of noise. */
function constantOf(
  c: number,
  s: number,
  { cc, cs, ss }: { cc: number; cs: number; ss: number },
): Omit<AnalysedConstant, 'constituent' | 'unresolved_from'> {
  const square_m2 = c * c + s * s;
  const along = (c * c * cc + 2 * c * s * cs + s * s * ss) / square_m2;
  const across = (s * s * cc - 2 * c * s * cs + c * c * ss) / square_m2;
  return {
    amplitude_m: Math.sqrt(square_m2),
    phase_deg: (atan2(s, c) / RAD + 360) % 360,
    // |Z| = H + a + b²/2H, with a along and b across: the last term's mean square, until it is all of b.
    amplitude_sigma_m: Math.sqrt(along + Math.min(across, (0.75 * square(across)) / square_m2)),
    phase_sigma_deg: Math.min(PHASE_UNKNOWN_DEG, Math.sqrt(across / square_m2) / RAD),
  };
}

/** Those with two readings or more in a period, and whose neighbour has them too; neighbours by their place. */
type Seen = Expected & { neighbour: number; species: number };
function seenBy(step_h: number, expected: readonly Expected[]): Seen[] {
  const isSeen = ({ constituent, from }: Expected): boolean =>
    constituent.speed_deg_h * step_h < 180 &&
    (from === null || expected.some((other) => other.constituent.name === from && isSeen(other)));
  const seen = expected.filter(isSeen);
  const place = new Map(seen.map(({ constituent }, k) => [constituent.name, k]));
  return seen.map((of) => ({
    ...of,
    neighbour: of.from === null ? -1 : place.get(of.from)!,
    species: of.constituent.argument[0],
  }));
}

interface Sums {
  m: number;
  /** XᵀX, whole; Xᵀy and yᵀy of heights above `zero_m`. */
  normal: Float64Array;
  right: Float64Array;
  squares: number;
  zero_m: number;
  sd_m: number;
}

/** Null where all heights are alike: there is no tide in them. */
function sumsOf({ time_ms, height_m }: TideRecord, seen: readonly Seen[]): Sums | null {
  const n = time_ms.length;
  const m = 1 + 2 * seen.length;
  let zero_m = 0;
  for (let i = 0; i < n; i++) zero_m += height_m[i]! / n;
  const normal = new Float64Array(m * m);
  const right = new Float64Array(m);
  const row = new Float64Array(m);
  const columns = designRow(seen.map(({ constituent }) => constituent));
  let squares = 0;
  for (let i = 0; i < n; i++) {
    columns(time_ms[i]!, row);
    const height = height_m[i]! - zero_m;
    squares += height * height;
    for (let a = 0; a < m; a++) {
      const x = row[a]!;
      right[a]! += x * height;
      for (let b = 0; b <= a; b++) normal[a * m + b]! += x * row[b]!;
    }
  }
  for (let a = 0; a < m; a++) for (let b = 0; b < a; b++) normal[b * m + a] = normal[a * m + b]!;
  return squares > 0 ? { m, normal, right, squares, zero_m, sd_m: Math.sqrt(squares / n) } : null;
}

/** Amplitudes before there is a fit; neighbours come before those that follow them. */
function firstSizes(seen: readonly Seen[], sd_m: number): number[] {
  const size = (k: number): number => {
    const { neighbour, ratio, off_neighbour, off_record, off_m } = seen[k]!;
    return neighbour < 0
      ? (off_record / 2) * sd_m + off_m
      : Math.max(ratio, off_neighbour / 2) * size(neighbour);
  };
  return seen.map((_, k) => size(k));
}

/** Precision of what is expected of a constituent, m⁻², either component. */
const precisionOf = (of: Seen, sizes: readonly number[], sd_m: number): number =>
  1 /
  (square(of.neighbour < 0 ? 0 : of.off_neighbour * sizes[of.neighbour]!) +
    square(of.off_record * sd_m) +
    square(of.off_m));

/** Adds `weight` times both pseudo-observations Z − r·e^(iθ)·Z′ = 0 of a constituent to a matrix. */
function addExpected(to: Float64Array, m: number, of: Seen, k: number, weight: number): void {
  const c = of.ratio * cos(of.turn_deg * RAD);
  const s = of.ratio * sin(of.turn_deg * RAD);
  const p = 1 + 2 * of.neighbour;
  for (const row of of.neighbour < 0 || of.ratio === 0
    ? [[[1 + 2 * k, 1]] as const, [[2 + 2 * k, 1]] as const]
    : [
        [
          [1 + 2 * k, 1],
          [p, -c],
          [p + 1, s],
        ] as const,
        [
          [2 + 2 * k, 1],
          [p, -s],
          [p + 1, -c],
        ] as const,
      ]) {
    for (const [a, x] of row) for (const [b, y] of row) to[a * m + b]! += weight * x * y;
  }
}

/**
 * Noise that weighs what is expected against the readings: one for a species, so that the matrix stays symmetric; the
 * long-period ones have no neighbours, and each its own.
 */
const weighing = (noise: Noise, of: Seen): number =>
  noise.at(of.species === 0 ? of.constituent.speed_deg_h : DIURNAL_DEG_H * of.species, of.species);

interface Fit {
  beta: Float64Array;
  /** (N + DP)⁻¹ */
  inverse: Float64Array;
  /** Sum of squared residuals. */
  squares: number;
  /** Unknowns that the readings settled: the trace of (N + DP)⁻¹N; and of each constituent. */
  used: number;
  lines: FittedLine[];
}

/** (N + DP)β = Xᵀy. */
function fitOf(sums: Sums, seen: readonly Seen[], sizes: readonly number[], noise: Noise): Fit | null {
  const { m, normal, right } = sums;
  const matrix = normal.slice();
  seen.forEach((of, k) => {
    addExpected(matrix, m, of, k, weighing(noise, of) * precisionOf(of, sizes, sums.sd_m));
  });
  const l = cholesky(matrix, m);
  if (l === null) return null;
  const beta = solveCholesky(l, right, m);
  const inverse = inverseOf(l, m);
  let squares = sums.squares;
  let used = 0;
  const lines = seen.map(({ constituent, species }): FittedLine => {
    return { speed_deg_h: constituent.speed_deg_h, species, settled: 0 };
  });
  for (let a = 0; a < m; a++) {
    let fitted = 0;
    let settled = 0;
    for (let b = 0; b < m; b++) {
      fitted += normal[a * m + b]! * beta[b]!;
      settled += inverse[a * m + b]! * normal[a * m + b]!;
    }
    squares += beta[a]! * (fitted - 2 * right[a]!);
    used += settled;
    if (a > 0) lines[(a - 1) >> 1]!.settled += settled / 2;
  }
  return { beta, inverse, squares, used, lines };
}

/** (LLᵀ)⁻¹ = L⁻ᵀL⁻¹. */
function inverseOf(l: Float64Array, m: number): Float64Array {
  const lower = new Float64Array(m * m);
  for (let j = 0; j < m; j++) {
    lower[j * m + j] = 1 / l[j * m + j]!;
    for (let i = j + 1; i < m; i++) {
      let sum = 0;
      for (let k = j; k < i; k++) sum -= l[i * m + k]! * lower[k * m + j]!;
      lower[i * m + j] = sum / l[i * m + i]!;
    }
  }
  const inverse = new Float64Array(m * m);
  for (let k = 0; k < m; k++)
    for (let i = 0; i <= k; i++) {
      const x = lower[k * m + i]!;
      for (let j = 0; j <= k; j++) inverse[i * m + j]! += x * lower[k * m + j]!;
    }
  return inverse;
}

/** A⁻¹(D^½ND^½ + DPD)A⁻¹: of the noise, and of what is expected. */
function covarianceOf(
  sums: Sums,
  seen: readonly Seen[],
  sizes: readonly number[],
  noise: Noise,
  inverse: Float64Array,
): Float64Array {
  const { m, normal } = sums;
  const root = new Float64Array(m);
  root[0] = Math.sqrt(noise.at(0, 0));
  seen.forEach(({ constituent, species }, k) => {
    root[1 + 2 * k] = root[2 + 2 * k] = Math.sqrt(noise.at(constituent.speed_deg_h, species));
  });
  const middle = normal.map((value, i) => value * root[Math.floor(i / m)]! * root[i % m]!);
  seen.forEach((of, k) => {
    const weight = square(weighing(noise, of)) * precisionOf(of, sizes, sums.sd_m);
    addExpected(middle, m, of, k, weight);
  });
  return product(product(inverse, middle, m), inverse, m);
}

function product(a: Float64Array, b: Float64Array, m: number): Float64Array {
  const c = new Float64Array(m * m);
  for (let i = 0; i < m; i++)
    for (let k = 0; k < m; k++) {
      const x = a[i * m + k]!;
      for (let j = 0; j < m; j++) c[i * m + j]! += x * b[k * m + j]!;
    }
  return c;
}

function residualOf(
  { time_ms, height_m }: TideRecord,
  seen: readonly Seen[],
  beta: Float64Array,
  { m, zero_m }: Sums,
): Float64Array {
  const row = new Float64Array(m);
  const columns = designRow(seen.map(({ constituent }) => constituent));
  return Float64Array.from({ length: time_ms.length }, (_, i) => {
    columns(time_ms[i]!, row);
    let left = height_m[i]! - zero_m;
    for (let a = 0; a < m; a++) left -= row[a]! * beta[a]!;
    return left;
  });
}

/** The middle of the steps between readings, ms. */
function usualStep(time_ms: ArrayLike<number>): number {
  return median(Float64Array.from({ length: time_ms.length - 1 }, (_, i) => time_ms[i + 1]! - time_ms[i]!));
}
