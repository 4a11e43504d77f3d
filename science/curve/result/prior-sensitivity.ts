/**
 * What the headline rate would be under other priors, one at a time, from the draws already kept: each draw weighed by the
 * ratio of the priors at it. Dates and heights that may be outliers count by their probabilities at the draw, so that the
 * ratio is of the mixtures themselves, whichever state a draw happens to be in.
 */
import { essBulk, log, mean, pooled, square } from '@stillstand/science/base';
import type { Draws } from '../chain/draws.ts';
import type { Problem } from '../problem/problem.ts';
import { scaleExponent, weightsOf } from './prior-weights.ts';
import type { CurveResult } from './result.ts';

type Row = CurveResult['prior_sensitivity'][number];
type Prior = Row['prior'];

const FACTORS = [0.5, 2];
/** The largest probability of an outlier that settings allow. */
const MOST = 0.5;

/** Of the first interval, from the first `kept` draws of each chain; none where no interval was asked for. */
export function priorSensitivity(problem: Problem, draws: readonly Draws[], kept: number): Row[] {
  const { settings } = problem;
  if (settings.intervals.length === 0) return [];
  const chains = draws.map((d) => d.interval_mm_yr[0]!.subarray(0, kept));
  const rates = pooled(chains);
  const plain = mean(rates);
  const effective = Math.min(1, essBulk(chains) / rates.length);
  const column = (pick: (d: Draws) => Float64Array): Float64Array =>
    pooled(draws.map((d) => pick(d).subarray(0, kept)));
  return priorsOf(problem).flatMap((prior) =>
    FACTORS.map((factor): Row => {
      const logRatio = logRatioOf(problem, prior, factor, column);
      const weight = logRatio === null ? null : weightsOf(logRatio);
      if (weight === null) return { prior, factor, rate_mm_yr: null, moved_mm_yr: null, mcse_mm_yr: null };
      const rate = rates.reduce((sum, x, s) => sum + weight[s]! * x, 0);
      const variance = rates.reduce((sum, x, s) => sum + square(weight[s]! * (x - rate)), 0);
      return {
        prior,
        factor,
        rate_mm_yr: rate,
        moved_mm_yr: rate - plain,
        mcse_mm_yr: Math.sqrt(variance / (effective > 0 ? effective : 1)),
      };
    }),
  );
}

/** Those that are in the model. */
function priorsOf({ settings: { outliers, rate_model, extra_scatter_m }, burials }: Problem): Prior[] {
  return [
    'rate_sd_scale',
    ...(rate_model.kind === 'smooth' ? (['length_median'] as const) : []),
    ...(rate_model.slowing_mm_yr_ka > 0 ? (['slowing'] as const) : []),
    ...(extra_scatter_m > 0 ? (['extra_scatter'] as const) : []),
    'level_sd',
    ...((outliers?.age_probability ?? 0) > 0 ? (['age_probability'] as const) : []),
    ...((outliers?.height_probability ?? 0) > 0 ? (['height_probability'] as const) : []),
    ...(burials > 0 ? (['burial_percent'] as const) : []),
  ];
}

/** Log of the ratio at each draw, up to a constant; null where the draws do not say it, or no such prior is allowed. */
function logRatioOf(
  { settings, points, groups, burials, groupSigma_m }: Problem,
  prior: Prior,
  factor: number,
  column: (pick: (d: Draws) => Float64Array) => Float64Array,
): Float64Array | null {
  const { priors, outliers, ages_cal_bp } = settings;
  const none = (): Float64Array => column((d) => d.rate_sd_mm_yr).fill(0);
  switch (prior) {
    case 'rate_sd_scale':
      return scaleExponent(
        factor,
        priors.rate_sd_scale_mm_yr,
        column((d) => d.rate_sd_mm_yr),
      );
    case 'length_median': {
      // (x² − (x − ln k)²)/2s² of x = ln ℓ less the log of its median, but for what all draws share.
      const slope = log(factor) / square(priors.length_log_sd);
      return column((d) => d.length_ka).map((l) => slope * log(l));
    }
    case 'slowing':
      return scaleExponent(
        factor,
        settings.rate_model.slowing_mm_yr_ka,
        column((d) => d.slowing_mm_yr_ka),
      );
    case 'extra_scatter':
      return scaleExponent(
        factor,
        settings.extra_scatter_m,
        column((d) => d.scatter_m),
      );
    case 'level_sd': {
      const present = ages_cal_bp.indexOf(0);
      if (present === -1) return null;
      return scaleExponent(
        factor,
        priors.level_sd_m,
        column((d) => d.level_m[present]!),
      );
    }
    case 'age_probability':
    case 'height_probability': {
      const of = prior === 'age_probability' ? 'age_outlier' : 'height_outlier';
      const outlier = points.map((_, i) => column((d) => d[of][i]!));
      return mixtures(outliers![prior], factor, outlier, none());
    }
    case 'burial_percent': {
      const sum = none();
      for (let g = groups.length - burials; g < groups.length; g++) {
        const each = scaleExponent(
          factor,
          groupSigma_m[g]!,
          column((d) => d.shift_m[g]!),
        );
        for (let s = 0; s < sum.length; s++) sum[s] = sum[s]! + each[s]!;
      }
      return sum;
    }
  }
}

/** Σ ln((1 − p′)/(1 − p)·(1 − π) + p′/p·π) added to `sum`, π of each point the probability at each draw that it is an outlier. */
function mixtures(
  p: number,
  factor: number,
  outlier: readonly Float64Array[],
  sum: Float64Array,
): Float64Array | null {
  const other = factor * p;
  if (other > MOST) return null;
  const sound = (1 - other) / (1 - p);
  for (const each of outlier)
    for (let s = 0; s < sum.length; s++) sum[s] = sum[s]! + log(sound * (1 - each[s]!) + factor * each[s]!);
  return sum;
}
