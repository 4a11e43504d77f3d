/** The cumulative distribution of a date, its density even within whole years. */
import { expm1, log } from '@stillstand/science/base';

export interface Sums {
  /** Beginning of the first year. */
  from_cal_bp: number;
  /** Share of the date that is younger than the beginning of each year, and than the end of the last. */
  sums: Float64Array;
}

export function sumsOf({ from_cal_bp, density }: { from_cal_bp: number; density: Float64Array }): Sums {
  const sums = new Float64Array(density.length + 1);
  for (let i = 0; i < density.length; i++) sums[i + 1] = sums[i]! + density[i]!;
  const whole = sums[density.length]!;
  return { from_cal_bp: from_cal_bp - 0.5, sums: sums.map((sum) => sum / whole) };
}

/** Share of the date that is younger than an age. */
export function younger({ from_cal_bp, sums }: Sums, age_cal_bp: number): number {
  const x = age_cal_bp - from_cal_bp;
  if (!(x > 0)) return 0;
  if (!(x < sums.length - 1)) return 1;
  const year = Math.floor(x);
  return sums[year]! + (x - year) * (sums[year + 1]! - sums[year]!);
}

/** The age that a share of the date, 0 to 1, is younger than. */
export function yearAt({ from_cal_bp, sums }: Sums, share: number): number {
  let low = 0;
  let high = sums.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (sums[middle]! <= share) low = middle;
    else high = middle;
  }
  return from_cal_bp + low + (share - sums[low]!) / (sums[high]! - sums[low]!);
}

/** Where the first of `count` ages that are anywhere lies, as a share of the way, negative: (1 − lot)^(1/count) − 1. */
export const between = (lot: number, count: number): number => expm1(log(1 - lot) / count);
