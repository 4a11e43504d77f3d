import { square } from '@stillstand/science/base';

/** An elevation on the campaign datum with the parts of its error, 1 sigma each. */
export interface Elevation {
  value_m: number;
  /** Levelling alone; null where nobody stated it. */
  levelling_sigma_m: number | null;
  /** What the levelling error is shared with beyond the hole; null: the hole only. */
  group: string | null;
  /** `part`: which of the two heights of a benchmark from satellites; none where the elevation itself is stated. */
  benchmarks: { benchmark: string; part?: 'ellipsoid' | 'geoid'; sigma_m: number }[];
  shifts: { name: string; sigma_m: number }[];
}

/** 1 sigma of an elevation, all parts together. */
export function elevationSigma(elevation: Elevation): number {
  let variance = square(elevation.levelling_sigma_m ?? 0);
  for (const part of [...elevation.benchmarks, ...elevation.shifts]) variance += square(part.sigma_m);
  return Math.sqrt(variance);
}

/** 1 sigma of the benchmarks alone. */
export const benchmarkSigma = ({ benchmarks }: Elevation): number =>
  benchmarks.length === 1
    ? benchmarks[0]!.sigma_m
    : Math.sqrt(benchmarks.reduce((sum, { sigma_m }) => sum + square(sigma_m), 0));

/** What brings a height to the campaign datum. */
export interface ToDatum {
  /** To be added, m. */
  shift_m: number;
  /** The shifts it is the sum of, each with its 1 sigma: points that use one share its error. */
  shifts: Elevation['shifts'];
}
