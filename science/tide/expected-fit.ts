/** Least squares of a record with what is expected of its constituents; formulae in docs/methods/tide.md. */
import { cholesky, cos, sin, solveCholesky, square } from '@stillstand/science/base';
import { designRow } from './design-row.ts';
import type { Expected } from './expected.ts';
import { DIURNAL_DEG_H, type FittedLine, type Noise } from './noise.ts';
import type { TideRecord } from './record.ts';

const RAD = Math.PI / 180;

/** A constituent that is fitted; its neighbour by place, −1 without. */
export type Seen = Expected & { neighbour: number; species: number };

export interface Sums {
  m: number;
  /** XᵀX, whole; Xᵀy and yᵀy of heights above `zero_m`. */
  normal: Float64Array;
  right: Float64Array;
  squares: number;
  zero_m: number;
  sd_m: number;
}

/** Null where all heights are alike: there is no tide in them. */
export function sumsOf({ time_ms, height_m }: TideRecord, seen: readonly Seen[]): Sums | null {
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
export function firstSizes(seen: readonly Seen[], sd_m: number): number[] {
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

export interface Fit {
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
export function fitOf(sums: Sums, seen: readonly Seen[], sizes: readonly number[], noise: Noise): Fit | null {
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
export function covarianceOf(
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

export function residualOf(
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
