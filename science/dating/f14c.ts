/** Fraction modern and conventional age (Stuiver & Polach 1977, Radiocarbon 19:355–363; symbol F14C: Reimer, Brown &
 * Reimer 2004, Radiocarbon 46:1299–1304). */
import { exp, log } from '@stillstand/science/base';

/** Libby mean life, 5568/ln 2 rounded as the convention has it, yr. */
export const LIBBY_MEAN_LIFE_YR = 8033;

/** F14C and its 1 sigma of a conventional age (14C yr BP, 1 sigma), to first order. */
export function f14cFromAge(c14_age: number, error_yr: number): { f14c: number; f14c_sigma: number } {
  const f14c = exp(-c14_age / LIBBY_MEAN_LIFE_YR);
  return { f14c, f14c_sigma: (f14c * error_yr) / LIBBY_MEAN_LIFE_YR };
}

export type AgeFromF14C =
  | {
      kind: 'age';
      c14_age: number;
      /** 1 sigma to first order. */
      error_yr: number;
      /** −8033·ln(F ± σ): what 1 sigma really reaches; asymmetric for old samples. */
      older_limit: number;
      younger_limit: number;
    }
  /** F below 2 sigma: only that the sample is older than this, 14C yr BP. */
  | { kind: 'older_than'; c14_age: number }
  | { kind: 'not_a_number'; reason: string };

/** Conventional age of a measured F14C with its 1 sigma (> 0). */
export function ageFromF14C(f14c: number, f14c_sigma: number): AgeFromF14C {
  if (!(Number.isFinite(f14c) && f14c_sigma > 0 && f14c_sigma < Infinity)) {
    return {
      kind: 'not_a_number',
      reason: `F14C ${f14c} ± ${f14c_sigma}; expected a finite value and an error above 0`,
    };
  }
  if (f14c < 2 * f14c_sigma) {
    return { kind: 'older_than', c14_age: -LIBBY_MEAN_LIFE_YR * log(Math.max(f14c, 0) + 2 * f14c_sigma) };
  }
  return {
    kind: 'age',
    c14_age: -LIBBY_MEAN_LIFE_YR * log(f14c),
    error_yr: (LIBBY_MEAN_LIFE_YR * f14c_sigma) / f14c,
    older_limit: -LIBBY_MEAN_LIFE_YR * log(f14c - f14c_sigma),
    younger_limit: -LIBBY_MEAN_LIFE_YR * log(f14c + f14c_sigma),
  };
}
