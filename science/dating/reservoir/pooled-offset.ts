/** Several ΔR of one water as one: their mean, how well it is known, and how far shells lie from each other. */
import { chiSquareUpperTail, square } from '@stillstand/science/base';

/** 14C yr throughout. */
export interface PooledOffset {
  n: number;
  /** Weighted by 1/error². */
  mean_yr: number;
  /** (Σ1/s²)^−½: of the laboratory errors alone. */
  weighted_error_yr: number;
  /** Weighted scatter of the shells, not reduced by √n; null for one shell, which shows none. */
  scatter_yr: number | null;
  /** 1 sigma of the mean: the weighted error or the scatter over √n, whichever is larger. */
  error_of_mean_yr: number;
  /** How far a shell lies from the mean: the scatter, and no less than the laboratory errors would give. */
  spread_yr: number;
  /** 1 sigma of ΔR for a sample of its own: the mean's error and the spread, in quadrature. */
  new_sample_error_yr: number;
  chi_square: number;
  degrees: number;
  /** Probability of such a chi-square or larger if all shells have one ΔR; below 0.05 they differ. */
  p: number;
}

/**
 * Weighted mean and scatter {[Σ(d − m)²/s²/(n − 1)]/[Σ(1/s²)/n]}^½ (Stuiver, Pearson & Braziunas 1986; Mangerud et al.
 * 2006; from memory). A sample to be dated is one more shell of the water, not the mean of it: the error offered for it is that of a
 * prediction (Russell et al. 2011, from memory).
 * @throws RangeError for no offset, or an error that is not above 0.
 */
export function pooledOffset(offsets: readonly { offset_yr: number; error_yr: number }[]): PooledOffset {
  if (offsets.length === 0 || !offsets.every((o) => Number.isFinite(o.offset_yr) && o.error_yr > 0)) {
    throw new RangeError(
      `pooledOffset: ${JSON.stringify(offsets)}; expected at least one finite offset with an error above 0`,
    );
  }
  const n = offsets.length;
  let weights = 0;
  let sum = 0;
  for (const { offset_yr, error_yr } of offsets) {
    weights += 1 / square(error_yr);
    sum += offset_yr / square(error_yr);
  }
  const mean_yr = sum / weights;
  let chi_square = 0;
  for (const { offset_yr, error_yr } of offsets) chi_square += square((offset_yr - mean_yr) / error_yr);
  const degrees = n - 1;
  const weighted_error_yr = 1 / Math.sqrt(weights);
  const scatter_yr = n === 1 ? null : Math.sqrt(chi_square / degrees / (weights / n));
  const error_of_mean_yr = Math.max(weighted_error_yr, (scatter_yr ?? 0) / Math.sqrt(n));
  const spread_yr = Math.max(scatter_yr ?? 0, weighted_error_yr * Math.sqrt(n));
  return {
    n,
    mean_yr,
    weighted_error_yr,
    scatter_yr,
    error_of_mean_yr,
    spread_yr,
    new_sample_error_yr: Math.sqrt(square(error_of_mean_yr) + square(spread_yr)),
    chi_square,
    degrees,
    p: degrees === 0 ? 1 : chiSquareUpperTail(chi_square, degrees),
  };
}

/** Of fewer shells the spread is poorly known, and an error from it too small as often as not. */
export const FEW_SHELLS = 4;
