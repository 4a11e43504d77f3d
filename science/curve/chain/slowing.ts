/** By how much the mean rate slowed, drawn exactly given all else: one more error that all heights share, never below 0. */
import { drawSharedErrors, logLikelihood } from '../process/likelihood.ts';
import type { Chain } from './chain.ts';
import { setHeights } from './shared-errors.ts';

/** A mean rate that is larger by c for each ka of age lifts the walked heights by ½ct², so c loads them by −½t². */
export function drawSlowing(chain: Chain): void {
  const { o, rates, stream, problem, slowing } = chain;
  const scale = problem.settings.rate_model.slowing_mm_yr_ka;
  if (scale === 0) return;
  const { work, height_m, loading_m, drawn } = slowing;
  for (let i = 0; i < o.count; i++) {
    const half = 0.5 * o.age_ka[i]! * o.age_ka[i]!;
    height_m[i] = o.height_m[i]! - rates.slowing_mm_yr_ka * half;
    loading_m[i] = -scale * half;
  }
  logLikelihood({ ...o, loading_m }, height_m, 1, rates, work);
  drawSharedErrors(1, 1, work, stream, drawn);
  rates.slowing_mm_yr_ka = scale * drawn[0]!;
  setHeights(chain);
}
