/**
 * How fast the string goes down, and the sign that it will not much longer.
 *
 * Rule (ours, no source): the *usual* rate is the median of the last five drives that were not themselves slow; a drive
 * below half of it is *slowing*, below a tenth of it *refusal*. A slow drive never becomes the measure of the next, so
 * that a rate which falls step by step is named as surely as one that falls at once. With three drives one odd one moves
 * nothing; one or two are taken as they are, because a string that stops in its second drive sticks as fast as one that
 * stops in its tenth: the words then say on how few it rests. Below 5 cm in a minute is refusal whatever came before.
 *
 * Trend: Theil–Sen slope of ln(rate) against the depth of the drive's middle (median over all pairs; Theil 1950, Sen
 * 1968, J. Am. Stat. Ass. 63:1379–1389, from memory), with Sen's 95 % interval from the normal approximation to Kendall's
 * S. Up to 29 % of the drives may be anything.
 */
import { exp, log, median, quantileSorted } from '@stillstand/science/base';

export type Pace = 'steady' | 'slowing' | 'refusal';

interface PacedDrive {
  from_m: number;
  to_m: number;
  rate_m_per_min: number | null;
  frequency_hz: number | null;
  pace: Pace | null;
}

const SLOWING = 0.5;
const REFUSAL = 0.1;
const REFUSAL_M_PER_MIN = 0.05;
/** Drives that say what is usual, at most. */
const MOST = 5;

export interface Usual {
  rate_m_per_min: number;
  frequency_hz: number | null;
  /** Drives it is the median of, 1 to 5. */
  drives: number;
}

/** What is usual in this hole before its next drive; null before its first timed one. */
export function usualPace(before: readonly PacedDrive[]): Usual | null {
  const told = before.filter((d) => d.rate_m_per_min !== null && (d.pace === null || d.pace === 'steady'));
  const last = told.slice(-MOST);
  if (last.length === 0) return null;
  const speeds = last.flatMap((d) => (d.frequency_hz === null ? [] : [d.frequency_hz]));
  return {
    rate_m_per_min: median(last.map((d) => d.rate_m_per_min!)),
    frequency_hz: speeds.length === 0 ? null : median(speeds),
    drives: last.length,
  };
}

/** Null where the drive was not timed, or none was before it. */
export function paceOf(rate_m_per_min: number | null, usual: Usual | null): Pace | null {
  if (rate_m_per_min === null) return null;
  if (rate_m_per_min < REFUSAL_M_PER_MIN) return 'refusal';
  if (usual === null) return null;
  if (rate_m_per_min < REFUSAL * usual.rate_m_per_min) return 'refusal';
  return rate_m_per_min < SLOWING * usual.rate_m_per_min ? 'slowing' : 'steady';
}

export interface PaceTrend {
  drives: number;
  /** Of ln(rate) per metre: negative slows. 95 % interval; null with fewer than four drives. */
  slope_per_m: number;
  lower95: number | null;
  upper95: number | null;
  /** Rate the trend gives at the depth of the last drive. */
  rate_m_per_min: number;
  /** Metres in which the rate halves; null where it does not fall. */
  halving_m: number | null;
  /** `slowing` where the whole interval is below 0. */
  verdict: 'slowing' | 'quickening' | 'even';
}

/** Slower than this no drive is timed; keeps the logarithm of a standing string finite. */
const LEAST_M_PER_MIN = 1e-3;

/** Trend over the timed drives of a hole; null with fewer than three at different depths. */
export function paceTrend(drives: readonly Omit<PacedDrive, 'pace'>[]): PaceTrend | null {
  const timed = drives.filter((d) => d.rate_m_per_min !== null);
  const depth = timed.map((d) => (d.from_m + d.to_m) / 2);
  const rate = timed.map((d) => log(Math.max(LEAST_M_PER_MIN, d.rate_m_per_min!)));
  const pairs = new Float64Array((timed.length * (timed.length - 1)) / 2);
  let told = 0;
  for (let i = 0; i < timed.length; i++) {
    for (let j = 0; j < i; j++) {
      const step = depth[i]! - depth[j]!;
      if (Math.abs(step) > 1e-9) pairs[told++] = (rate[i]! - rate[j]!) / step;
    }
  }
  if (timed.length < 3 || told < 3) return null;
  const slopes = pairs.subarray(0, told).sort();
  const slope = quantileSorted(slopes, 0.5);
  const n = timed.length;
  const half = 1.959963984540054 * Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
  const low = Math.round((slopes.length - half) / 2) - 1;
  const high = Math.round((slopes.length + half) / 2);
  const bounded = n > 3 && low >= 0 && high < slopes.length;
  const lower95 = bounded ? slopes[low]! : null;
  const upper95 = bounded ? slopes[high]! : null;
  const at = median(rate.map((r, i) => r - slope * depth[i]!));
  return {
    drives: n,
    slope_per_m: slope,
    lower95,
    upper95,
    rate_m_per_min: exp(at + slope * depth[n - 1]!),
    halving_m: slope < 0 ? Math.LN2 / -slope : null,
    verdict:
      upper95 !== null && upper95 < 0 ? 'slowing' : lower95 !== null && lower95 > 0 ? 'quickening' : 'even',
  };
}
