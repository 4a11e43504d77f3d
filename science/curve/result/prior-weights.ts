/** Draws under one prior as draws under another, by weight. */
import { exp, power } from '@stillstand/science/base';
import type { CurveSettings } from './result.ts';

/** They are taken as draws under the other prior where their weights are worth at least this share of them. */
const WORTH = 0.3;

/**
 * Weights of draws that make the half-normal prior of σ with scale S one of scale kS: exp(−σ²(k⁻² − 1)/2S²), adding to 1;
 * null where the effective number of weights, 1/Σw², is less than 0.3 of the draws.
 */
export const priorWeights = (
  factor: number,
  { priors }: CurveSettings,
  rate_sd_mm_yr: Float64Array,
): Float64Array | null => weightsOf(scaleExponent(factor, priors.rate_sd_scale_mm_yr, rate_sd_mm_yr));

/** Log ratio, up to a constant, of a normal or half-normal prior about 0 of k times the scale to one of the scale. */
export function scaleExponent(factor: number, scale: number, values: Float64Array): Float64Array {
  const steepness = (power(factor, -2) - 1) / (2 * scale * scale);
  return values.map((x) => -steepness * x * x);
}

/** From log ratios of the priors; null as above. */
export function weightsOf(logRatio: Float64Array): Float64Array | null {
  const largest = logRatio.reduce((most, x) => Math.max(most, x), -Infinity);
  const weight = logRatio.map((x) => exp(x - largest));
  const sum = weight.reduce((total, w) => total + w, 0);
  const squares = weight.reduce((total, w) => total + w * w, 0);
  if (!((sum * sum) / squares >= WORTH * weight.length)) return null;
  return weight.map((w) => w / sum);
}

/** Null without weights. */
export function weightedMean(values: Float64Array, weight: Float64Array | null): number | null {
  return weight === null ? null : values.reduce((sum, x, k) => sum + x * weight[k]!, 0);
}
