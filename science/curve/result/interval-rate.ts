/** The mean rate over any interval between two reported ages, and which points decide it, from the draws already kept. */
import { hasSettled, type Summary, summarize } from '@stillstand/science/base';
import { meanRates, pathsOf, windowWithin } from '../answers/paths.ts';
import { growthWithout } from './influence.ts';
import { priorWeights, weightedMean } from './prior-weights.ts';
import type { CurveResult } from './result.ts';

export interface IntervalRate {
  /** Mean rate of each draw, mm/yr, chain after chain. */
  draws: Float64Array;
  rate_mm_yr: Summary;
  converged: boolean;
  /** Means with the prior of the rate's sd halved and doubled; null where the draws do not carry so far. */
  prior_halved_mm_yr: number | null;
  prior_doubled_mm_yr: number | null;
}

/** Null where an end is not one of the reported ages, or the older is not the older. Agrees with the reported intervals. */
export function intervalRate(
  curve: CurveResult,
  older_cal_bp: number,
  younger_cal_bp: number,
): IntervalRate | null {
  const older = curve.ages_cal_bp.indexOf(older_cal_bp);
  const younger = curve.ages_cal_bp.indexOf(younger_cal_bp);
  if (older === -1 || younger === -1 || !(older_cal_bp > younger_cal_bp)) return null;
  const ages = curve.ages_cal_bp.length;
  const { level_m } = curve.draws;
  const years = older_cal_bp - younger_cal_bp;
  const draws = Float64Array.from(
    { length: level_m.length / ages },
    (_, d) => (1000 * (level_m[d * ages + younger]! - level_m[d * ages + older]!)) / years,
  );
  return rateOfDraws(curve, draws);
}

/** The same of any interval within the reported ages: ends between two of them are read off the draws' paths. */
export function intervalRateWithin(
  curve: CurveResult,
  older_cal_bp: number,
  younger_cal_bp: number,
): IntervalRate | null {
  const exact = intervalRate(curve, older_cal_bp, younger_cal_bp);
  if (exact !== null) return exact;
  const window = windowWithin(pathsOf(curve), { older_cal_bp, younger_cal_bp });
  return 'expected' in window ? null : rateOfDraws(curve, meanRates(pathsOf(curve), window));
}

function rateOfDraws(curve: CurveResult, draws: Float64Array): IntervalRate {
  const { chains } = curve.diagnostics;
  const each = draws.length / chains;
  const rate_mm_yr = summarize(
    Array.from({ length: chains }, (_, c) => draws.subarray(c * each, (c + 1) * each)),
  );
  const under = (factor: number): number | null =>
    weightedMean(draws, priorWeights(factor, curve.settings, curve.draws.rate_sd_mm_yr));
  return {
    draws,
    rate_mm_yr,
    converged: hasSettled(rate_mm_yr),
    prior_halved_mm_yr: under(0.5),
    prior_doubled_mm_yr: under(2),
  };
}

/** About how much the sd of a rate grows without each point, as a share of it (0.18: by 18 %); the largest first. */
export function pointInfluence(curve: CurveResult, rate: IntervalRate): { id: string; growth: number }[] {
  const n = curve.points.length;
  const { residual_m } = curve.draws;
  return curve.points
    .map(({ id, kind, own_sigma_m }, i) => {
      const residuals = Float64Array.from(rate.draws, (_, d) => residual_m[d * n + i]!);
      return { id, growth: growthWithout(kind, own_sigma_m, rate.draws, residuals) };
    })
    .sort((a, b) => b.growth - a.growth);
}
