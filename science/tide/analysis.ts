/**
 * Harmonic analysis of a record: mean level and constants by least squares, each column carrying its node correction
 * at every reading, so that a record of any length gives constants for all times.
 */
import { atan2, cholesky, cos, median, sin, solveCholesky, square } from '@stillstand/science/base';
import { meanLongitudes } from './astronomy.ts';
import type { Constituent } from './constituent.ts';
import { nodeCorrections } from './node.ts';
import { argumentAt, type TidalConstant } from './prediction.ts';
import { resolvableConstituents, type Separation } from './separation.ts';

export interface TideRecord {
  /** UTC, in order; gaps are allowed. */
  time_ms: ArrayLike<number>;
  height_m: ArrayLike<number>;
}

export interface AnalysedConstant extends TidalConstant {
  amplitude_sigma_m: number;
  phase_sigma_deg: number;
}

export interface Analysis {
  mean_m: number;
  mean_sigma_m: number;
  constants: AnalysedConstant[];
  /** Of a reading about the fitted tide, 1 sd: weather and reading errors. */
  residual_sd_m: number;
  /** Correlation of residuals one step apart; 0 where the record is too uneven to tell. */
  residual_correlation: number;
  readings: number;
  duration_days: number;
  left_out: Separation['left_out'];
}

const RAD = Math.PI / 180;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/**
 * Fits the constituents that the record can tell apart (`wanted`: of these). Error bars hold for residuals that remember
 * the one before (first-order autoregressive): white noise of the same sd times their spectrum at the constituent's
 * speed. Null where there are fewer readings than unknowns, or they do not settle them.
 */
export function analyse(record: TideRecord, wanted?: readonly Constituent[]): Analysis | null {
  const n = record.time_ms.length;
  if (n < 4) return null;
  const first = record.time_ms[0]!;
  const duration_h = (record.time_ms[n - 1]! - first) / HOUR_MS;
  const step_h = usualStep(record.time_ms) / HOUR_MS;
  const { chosen, left_out } = resolvableConstituents(duration_h, step_h, wanted);
  const m = 1 + 2 * chosen.length;
  if (n <= m) return null;

  const normal = new Float64Array(m * m);
  const right = new Float64Array(m);
  const row = new Float64Array(m);
  const columns = columnsOf(chosen);
  for (let i = 0; i < n; i++) {
    columns(record.time_ms[i]!, row);
    const height = record.height_m[i]!;
    for (let a = 0; a < m; a++) {
      right[a]! += row[a]! * height;
      for (let b = 0; b <= a; b++) normal[a * m + b]! += row[a]! * row[b]!;
    }
  }
  const l = cholesky(normal, m);
  if (l === null) return null;
  const fitted = solveCholesky(l, right, m);

  const residual = new Float64Array(n);
  let squares = 0;
  for (let i = 0; i < n; i++) {
    columns(record.time_ms[i]!, row);
    let height = 0;
    for (let a = 0; a < m; a++) height += row[a]! * fitted[a]!;
    residual[i] = record.height_m[i]! - height;
    squares += square(residual[i]!);
  }
  const variance = squares / (n - m);
  const correlation = stepCorrelation(record.time_ms, residual, step_h * HOUR_MS);
  const spectrum = (speed_deg_h: number): number =>
    (1 - square(correlation)) / (1 - 2 * correlation * cos(speed_deg_h * step_h * RAD) + square(correlation));

  const unit = new Float64Array(m);
  const covariance = (a: number): Float64Array => {
    unit.fill(0);
    unit[a] = 1;
    return solveCholesky(l, unit, m);
  };
  const constants = chosen.map((constituent, k): AnalysedConstant => {
    const c = fitted[1 + 2 * k]!;
    const s = fitted[2 + 2 * k]!;
    const ofC = covariance(1 + 2 * k);
    const ofS = covariance(2 + 2 * k);
    const scale = variance * spectrum(constituent.speed_deg_h);
    const cc = scale * ofC[1 + 2 * k]!;
    const cs = scale * ofC[2 + 2 * k]!;
    const ss = scale * ofS[2 + 2 * k]!;
    const amplitude_m = Math.sqrt(c * c + s * s);
    const along = (c * c * cc + 2 * c * s * cs + s * s * ss) / square(amplitude_m);
    const across = (s * s * cc - 2 * c * s * cs + c * c * ss) / square(amplitude_m);
    return {
      constituent: constituent.name,
      amplitude_m,
      phase_deg: (atan2(s, c) / RAD + 360) % 360,
      amplitude_sigma_m: Math.sqrt(along),
      // Beyond 104° (uniform on the circle) the phase is not known at all.
      phase_sigma_deg: Math.min(180 / Math.sqrt(3), Math.sqrt(across) / amplitude_m / RAD),
    };
  });
  return {
    mean_m: fitted[0]!,
    mean_sigma_m: Math.sqrt(variance * spectrum(0) * covariance(0)[0]!),
    constants,
    residual_sd_m: Math.sqrt(variance),
    residual_correlation: correlation,
    readings: n,
    duration_days: duration_h / 24,
    left_out,
  };
}

/** Fills 1, f·cos(V + u), f·sin(V + u), … for a moment; node corrections are those of its day. */
function columnsOf(chosen: readonly Constituent[]): (time_ms: number, row: Float64Array) => void {
  let midnight = Number.NaN;
  let at: { f: number; u_deg: number }[] = [];
  return (time_ms, row) => {
    const day = Math.floor(time_ms / DAY_MS) * DAY_MS;
    if (day !== midnight) {
      midnight = day;
      const noon = meanLongitudes(day + DAY_MS / 2);
      const nodes = nodeCorrections(noon.N_deg, noon.p_deg);
      const longitudes = meanLongitudes(day);
      at = chosen.map((constituent) => argumentAt(constituent, longitudes, nodes));
    }
    row[0] = 1;
    const hours = (time_ms - midnight) / HOUR_MS;
    for (let k = 0; k < chosen.length; k++) {
      const { f, u_deg } = at[k]!;
      const angle = ((u_deg + chosen[k]!.speed_deg_h * hours) % 360) * RAD;
      row[1 + 2 * k] = f * cos(angle);
      row[2 + 2 * k] = f * sin(angle);
    }
  };
}

/** The middle of the steps between readings, ms. */
function usualStep(time_ms: ArrayLike<number>): number {
  return median(Float64Array.from({ length: time_ms.length - 1 }, (_, i) => time_ms[i + 1]! - time_ms[i]!));
}

/** Of residuals one usual step apart; 0 with fewer than 30 such pairs. */
function stepCorrelation(time_ms: ArrayLike<number>, residual: Float64Array, step_ms: number): number {
  let together = 0;
  let alone = 0;
  let pairs = 0;
  for (let i = 1; i < residual.length; i++) {
    if (Math.abs(time_ms[i]! - time_ms[i - 1]! - step_ms) > 0.05 * step_ms) continue;
    together += residual[i]! * residual[i - 1]!;
    alone += (square(residual[i]!) + square(residual[i - 1]!)) / 2;
    pairs++;
  }
  return pairs < 30 || alone === 0 ? 0 : Math.min(0.999, Math.max(0, together / alone));
}
