/**
 * Harmonic analysis of a record: mean level and constants by least squares, each column carrying its node correction
 * at every reading, so that a record of any length gives constants for all times. What the record cannot separate is
 * settled by what is expected (expected.ts), and what that leaves open is in the error bars.
 */
import { atan2, square } from '@stillstand/science/base';
import { type Expected, expectedConstituents } from './expected.ts';
import { covarianceOf, type Fit, firstSizes, fitOf, residualOf, type Seen, sumsOf } from './expected-fit.ts';
import { type Noise, noiseOf } from './noise.ts';
import { PHASE_UNKNOWN_DEG, type TidalConstant } from './prediction.ts';
import { type TideRecord, usualStep } from './record.ts';
import { resolvableConstituents, spanOf, type Unresolved } from './separation.ts';

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
