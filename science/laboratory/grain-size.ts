/**
 * Grain size: φ = −log2(mm) (Krumbein 1934), Udden–Wentworth classes (Wentworth 1922, J. Geology 30:377–392), and the
 * graphic statistics of Folk & Ward 1957, J. Sed. Petrology 27:3–26.
 */
import { exp, log } from '@stillstand/science/base';

/** φ of a diameter in millimetres, > 0. */
export function phiFromMillimetres(mm: number): number {
  if (!(mm > 0)) throw new RangeError(`diameter ${mm} mm: expected more than 0`);
  return -log(mm) / Math.LN2;
}

/** Diameter, mm, of a size in φ; of a mean in φ the geometric mean. */
export const millimetresFromPhi = (phi: number): number => exp(-phi * Math.LN2);

/** Share of mass coarser than each φ: what a stack of sieves gives, coarsest first. */
export interface GrainSizeCurve {
  /** Strictly rising (towards finer). */
  phi: readonly number[];
  /** Cumulative per cent coarser than `phi[i]`, not falling, 0–100. */
  percent_coarser: readonly number[];
}

/** φ at which `percent` of the mass is coarser, linear between sieves; null where the sieves do not reach it. */
export function phiAt(curve: GrainSizeCurve, percent: number): number | null {
  const { phi, percent_coarser: share } = curve;
  for (let i = 0; i < phi.length; i++) {
    const reached = share[i]!;
    if (reached < percent) continue;
    if (reached === percent) return phi[i]!;
    if (i === 0) return null;
    const before = share[i - 1]!;
    return phi[i - 1]! + ((percent - before) / (reached - before)) * (phi[i]! - phi[i - 1]!);
  }
  return null;
}

export interface FolkWard {
  /** Graphic mean, φ. */
  mean_phi: number;
  /** Inclusive graphic standard deviation, φ. */
  sorting_phi: number;
  /** Inclusive graphic skewness, −1 … 1; positive: a fine tail. */
  skewness: number;
  /** Graphic kurtosis, > 0.41; 1 for a normal. */
  kurtosis: number;
  sorting_class: string;
  skewness_class: string;
  kurtosis_class: string;
}

/** φ at 5, 16, 25, 50, 75, 84 and 95 % coarser, not falling, the first below the last. */
export type FolkWardPercentiles = readonly [number, number, number, number, number, number, number];

/** Null where the percentiles are too close to divide by (φ84 = φ16, φ95 = φ5 or φ75 = φ25). */
export function folkWard(percentiles: FolkWardPercentiles): FolkWard | null {
  const [p5, p16, p25, p50, p75, p84, p95] = percentiles;
  const middle = p84 - p16;
  const whole = p95 - p5;
  const quartiles = p75 - p25;
  if (!(middle > 0 && whole > 0 && quartiles > 0)) return null;
  const sorting_phi = middle / 4 + whole / 6.6;
  const skewness = (p16 + p84 - 2 * p50) / (2 * middle) + (p5 + p95 - 2 * p50) / (2 * whole);
  const kurtosis = whole / (2.44 * quartiles);
  return {
    mean_phi: (p16 + p50 + p84) / 3,
    sorting_phi,
    skewness,
    kurtosis,
    sorting_class: named(sorting_phi, SORTING, 'extremely poorly sorted'),
    skewness_class: named(skewness, SKEWNESS, 'strongly fine skewed'),
    kurtosis_class: named(kurtosis, KURTOSIS, 'extremely leptokurtic'),
  };
}

/** Upper limits, φ. A value on a limit belongs to the class above it. */
const SORTING: readonly [number, string][] = [
  [0.35, 'very well sorted'],
  [0.5, 'well sorted'],
  [0.71, 'moderately well sorted'],
  [1, 'moderately sorted'],
  [2, 'poorly sorted'],
  [4, 'very poorly sorted'],
];
const SKEWNESS: readonly [number, string][] = [
  [-0.3, 'strongly coarse skewed'],
  [-0.1, 'coarse skewed'],
  [0.1, 'near symmetrical'],
  [0.3, 'fine skewed'],
];
const KURTOSIS: readonly [number, string][] = [
  [0.67, 'very platykurtic'],
  [0.9, 'platykurtic'],
  [1.11, 'mesokurtic'],
  [1.5, 'leptokurtic'],
  [3, 'very leptokurtic'],
];

function named(value: number, limits: readonly [number, string][], beyond: string): string {
  for (const [limit, name] of limits) if (value < limit) return name;
  return beyond;
}

/** A size class, millimetres: mm_min ≤ diameter < mm_max; null where it is open. */
export interface SizeClass {
  name: string;
  mm_min: number | null;
  mm_max: number | null;
}

/**
 * The class a diameter belongs to; a grain that just fails to pass a sieve belongs to the class it lies on. Null
 * where `classes` do not reach.
 */
export function sizeClass<Class extends SizeClass>(mm: number, classes: readonly Class[]): Class | null {
  return (
    classes.find((c) => (c.mm_min === null || mm >= c.mm_min) && (c.mm_max === null || mm < c.mm_max)) ?? null
  );
}
