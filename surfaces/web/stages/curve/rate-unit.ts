/** Rates in the units people compare them in; the model's own is mm/yr. */
export const RATE_UNITS = {
  'mm/yr': { per_mm_yr: 1, about: 'millimetres a year, the same as metres in 1,000 years' },
  'cm/century': { per_mm_yr: 10, about: 'centimetres in 100 years' },
  'm/kyr': { per_mm_yr: 1, about: 'metres in 1,000 years' },
} as const;

export type RateUnit = keyof typeof RATE_UNITS;
export const UNIT_NAMES = Object.keys(RATE_UNITS) as RateUnit[];
