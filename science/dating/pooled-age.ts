/** Several results on one thing as one (Ward & Wilson 1978, Archaeometry 20:19–31). */
import { chiSquareUpperTail, square } from '@stillstand/science/base';

export interface PooledAge {
  c14_age: number;
  error_yr: number;
  /** Test statistic T, chi-square with `degrees` degrees of freedom if all results are of one age. */
  chi_square: number;
  degrees: number;
  /** Probability of a T as large or larger by chance; below 0.05 the results disagree. */
  p: number;
}

/**
 * Weighted mean of conventional ages (14C yr BP, 1 sigma > 0) on one sample; curve error enters once, at calibration.
 * @throws RangeError for no result, or an error that is not above 0.
 */
export function pooledAge(results: readonly { c14_age: number; error_yr: number }[]): PooledAge {
  if (results.length === 0 || !results.every((r) => Number.isFinite(r.c14_age) && r.error_yr > 0)) {
    throw new RangeError(
      `pooledAge: ${JSON.stringify(results)}; expected at least one finite age with an error above 0`,
    );
  }
  let weights = 0;
  let sum = 0;
  for (const r of results) {
    const weight = 1 / square(r.error_yr);
    weights += weight;
    sum += weight * r.c14_age;
  }
  const c14_age = sum / weights;
  let chi_square = 0;
  for (const r of results) chi_square += square((r.c14_age - c14_age) / r.error_yr);
  const degrees = results.length - 1;
  return {
    c14_age,
    error_yr: 1 / Math.sqrt(weights),
    chi_square,
    degrees,
    p: degrees === 0 ? 1 : chiSquareUpperTail(chi_square, degrees),
  };
}
