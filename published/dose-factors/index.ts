/** Figures for dose rates of luminescence dating, each set with its source. */
export { DOSE_FACTOR_SETS, DOSE_FACTORS, type DoseFactorSet, isDoseFactorSet } from './dose-factors.ts';
