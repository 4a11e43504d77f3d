/** How the rate of a chain varies, by the settings and by what the chain has drawn. */
import { exp, type RandomStream } from '@stillstand/science/base';
import type { Problem } from '../problem/problem.ts';
import type { Rates } from '../process/rates.ts';

const ROOT_3 = Math.sqrt(3);

/** Breaks from their prior: as many as the model has, of a smooth rate none to begin with. σ and ℓ are not yet set. */
export function startRates({ settings }: Problem, stream: RandomStream): Rates {
  const { rate_model: model, priors } = settings;
  const break_ka = new Float64Array(model.changes + 1);
  const breaks = model.kind === 'stepwise' ? model.changes : 0;
  const { from_ka, to_ka } = breakRange(settings);
  for (let k = 0; k < breaks; k++) break_ka[k] = from_ka + (to_ka - from_ka) * stream.uniform();
  break_ka.subarray(0, breaks).sort();
  return {
    sd_mm_yr: 1,
    lambda: 1,
    kappa_m: 1,
    mean_mm_yr: priors.rate_mean_mm_yr,
    slowing_mm_yr_ka: model.slowing_mm_yr_ka === 0 ? 0 : model.slowing_mm_yr_ka * Math.abs(stream.normal()),
    break_ka,
    breaks,
    jump_sd_m: model.jump_sd_m,
  };
}

/** Between which ages the rate may change, ka. */
export const breakRange = ({
  rate_model: { changes_from_cal_bp: older, changes_to_cal_bp: younger },
}: Problem['settings']): { from_ka: number; to_ka: number } => ({
  from_ka: younger / 1000,
  to_ka: older / 1000,
});

export function setScale(rates: Rates, { settings }: Problem, log_rate_sd: number, log_length: number): void {
  rates.sd_mm_yr = exp(log_rate_sd);
  rates.lambda = settings.rate_model.kind === 'smooth' ? ROOT_3 * exp(-log_length) : 0;
  rates.kappa_m = rates.lambda === 0 ? 0 : rates.sd_mm_yr / rates.lambda;
}

/** Breaks and slowing of where another chain stood, as far as this model has them. */
export function goOnWith(
  rates: Rates,
  { settings }: Problem,
  state: { break_ka: readonly number[]; slowing_mm_yr_ka: number },
): void {
  const { kind, changes, slowing_mm_yr_ka } = settings.rate_model;
  const { from_ka, to_ka } = breakRange(settings);
  const known = state.break_ka.filter((age) => age >= from_ka && age <= to_ka);
  if (kind === 'smooth' ? known.length <= changes : known.length === changes) {
    rates.break_ka.set(known);
    rates.breaks = known.length;
  }
  if (slowing_mm_yr_ka > 0) rates.slowing_mm_yr_ka = state.slowing_mm_yr_ka;
}
