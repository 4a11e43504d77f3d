/** From kept draws to the result: bands, summaries, diagnostics over every reported number. */
import {
  bandOf,
  diagnosis,
  exp,
  hasSettled,
  log,
  mean,
  pooled,
  quantileSorted,
  summaryOf,
} from '@stillstand/science/base';
import { quantileOf } from '@stillstand/science/clocks';
import type { CurveRun } from '../chain/curve-sampler.ts';
import type { Draws } from '../chain/draws.ts';
import { oneBreakAges } from '../chain/one-break.ts';
import { againstDepths } from '../problem/depth-order.ts';
import type { Problem } from '../problem/problem.ts';
import { growthWithout, ownVariance } from './influence.ts';
import { priorSensitivity } from './prior-sensitivity.ts';
import { priorWeights, weightedMean } from './prior-weights.ts';
import { quantitiesOf, type Reported } from './reported.ts';
import type { CurveResult, FromOthers } from './result.ts';

/** `others`: what all other points have of each; null where that was not asked. */
export function summariseCurve(
  problem: Problem,
  { draws, kept, sweeps, all, expected }: CurveRun,
  others: readonly FromOthers[] | null,
): CurveResult {
  const { settings, points, refused, groups, burials, offsets, ages } = problem;
  const chainsOf = (pick: (d: Draws) => Float64Array): Float64Array[] =>
    draws.map((d) => pick(d).subarray(0, kept));
  const rate = headline(problem, draws, kept);
  const residuals = points.map((_, i) => pooled(chainsOf((d) => d.residual_m[i]!)));
  const ownSigma = points.map((point) => Math.sqrt(ownVariance(point)));
  const { remarks, ...found } = diagnosis(quantitiesOf(all));
  const rate_sd_mm_yr = pooled(chainsOf((d) => d.rate_sd_mm_yr));
  const halved = priorWeights(0.5, settings, rate_sd_mm_yr);
  const doubled = priorWeights(2, settings, rate_sd_mm_yr);
  return {
    settings,
    ages_cal_bp: Float64Array.from(settings.ages_cal_bp),
    level_m: bandOf(all.level),
    rate_mm_yr: bandOf(all.rate),
    intervals: settings.intervals.map((interval, k) => {
      const rates = pooled(all.interval[k]!.chains);
      return {
        older_cal_bp: interval.older_cal_bp,
        younger_cal_bp: interval.younger_cal_bp,
        rate_mm_yr: summaryOf(all.interval[k]!),
        prior_halved_mm_yr: weightedMean(rates, halved),
        prior_doubled_mm_yr: weightedMean(rates, doubled),
        no_outliers_mm_yr: null,
        no_burial_mm_yr: null,
        without_intercalated_mm_yr: null,
      };
    }),
    prior_sensitivity: priorSensitivity(problem, draws, kept),
    points: points.map((point, i) => {
      const prior = ages[i]!;
      const age = summaryOf(all.age[i]!);
      return {
        id: point.id,
        kind: point.kind,
        height_m: point.height_m,
        own_sigma_m: ownSigma[i]!,
        age_cal_bp: age,
        residual_m: mean(residuals[i]!),
        // By medians: what a date may be off by as an outlier moves every mean.
        age_shift_sd: prior.sd_yr > 0 ? (age.median - quantileOf(prior, 0.5)) / prior.sd_yr : 0,
        prior_age_cal_bp: { mean: prior.mean_cal_bp, sd: prior.sd_yr },
        age_outlier_p: mean(pooled(chainsOf((d) => d.age_outlier[i]!))),
        height_outlier_p: mean(pooled(chainsOf((d) => d.height_outlier[i]!))),
        influence: growthWithout(point.kind, ownSigma[i]!, rate, residuals[i]!),
        predictive_p: others?.[i]?.predictive_p ?? null,
        others_level_m: others?.[i]?.level_m ?? null,
        others_by: others?.[i]?.by ?? null,
        score: others?.[i]?.score ?? null,
        score_mcse: others?.[i]?.score_mcse ?? null,
        score_k: others?.[i]?.score_k ?? null,
      };
    }),
    depth_order: orderFound(problem),
    groups: groups.slice(0, groups.length - burials).map((group, g) => ({
      group,
      sigma_m: problem.groupSigma_m[g]!,
      shift_m: summaryOf(all.shift[g]!),
    })),
    burials: groups.slice(groups.length - burials).map((hole, k) => {
      const g = groups.length - burials + k;
      return {
        hole,
        thickest_m: (100 * problem.groupSigma_m[g]!) / settings.burial_percent!,
        lowering_m: summaryOf(all.shift[g]!),
      };
    }),
    offsets: offsets.map((group, g) => ({
      group,
      sigma_yr: problem.offsetSigma_yr[g]!,
      shift_yr: summaryOf(all.offset[g]!),
    })),
    rate_sd_mm_yr: summaryOf(all.rate_sd[0]!),
    length_ka: all.length.length > 0 ? summaryOf(all.length[0]!) : null,
    slowing_mm_yr_ka: all.slowing.length > 0 ? summaryOf(all.slowing[0]!) : null,
    scatter_m: all.scatter.length > 0 ? summaryOf(all.scatter[0]!) : null,
    changes: all.change.map((age, k) => ({
      age_cal_bp: summaryOf(age),
      older_mm_yr: summaryOf(all.older[k]!),
      younger_mm_yr: summaryOf(all.younger[k]!),
      jump_m: all.jump.length > 0 ? summaryOf(all.jump[k]!) : null,
    })),
    one_break: oneBreakFound(problem, draws, expected),
    breaks_p: breaksFound(settings, pooled(chainsOf((d) => d.breaks))),
    diagnostics: {
      ...found,
      mcse_level_max_m: Math.max(0, ...all.level.map((q) => summaryOf(q).mcse)),
      mcse_rate_max_mm_yr: Math.max(0, ...all.rate.map((q) => summaryOf(q).mcse)),
      sweeps,
      chains: settings.chains,
      draws: kept,
      remarks: [
        ...refused.map((r) => `${r.id} was left out: ${r.found}; expected ${r.expected}.`),
        ...remarks,
        ...changesApart(all),
      ],
    },
    draws: {
      level_m: interleaved(draws, kept, (d) => d.level_m),
      rate_mm_yr: interleaved(draws, kept, (d) => d.rate_mm_yr),
      rate_sd_mm_yr,
      length_ka: pooled(chainsOf((d) => d.length_ka)),
      residual_m: interleaved(draws, kept, (d) => d.residual_m),
    },
  };
}

/** Chains that have a change at other ages: both are told, since each may be an answer. */
function changesApart(all: Reported): string[] {
  return all.change.flatMap((quantity, k) => {
    if (hasSettled(summaryOf(quantity))) return [];
    const ages = quantity.chains.map((chain) =>
      Math.round(quantileSorted(Float64Array.from(chain).sort(), 0.5)),
    );
    return `Change ${k + 1} is at ${ages.join(', ')} cal BP in the single chains: where they lie apart each may be an answer; fewer changes, or one that jumps, may hold both.`;
  });
}

/** Mean of the ratios over ages and asked draws, and where it is largest. */
function oneBreakFound(
  { settings }: Problem,
  draws: readonly Draws[],
  asked: number,
): CurveResult['one_break'] {
  const age_ka = oneBreakAges(settings);
  if (age_ka.length === 0 || asked === 0) return null;
  const columns = Array.from(age_ka, (_, k) => pooled(draws.map((d) => d.one_break[k]!.subarray(0, asked))));
  const most = columns.reduce((high, column) => column.reduce((a, x) => Math.max(a, x), high), -Infinity);
  const each = columns.map((column) => mean(column.map((x) => exp(x - most))));
  const best = each.reduce((to, x, k) => (x > each[to]! ? k : to), 0);
  return {
    log_evidence_ratio: most + log(mean(Float64Array.from(each))),
    age_cal_bp: 1000 * age_ka[best]!,
  };
}

function breaksFound({ rate_model }: Problem['settings'], breaks: Float64Array): number[] {
  if (rate_model.kind !== 'smooth' || rate_model.changes === 0) return [];
  return Array.from(
    { length: rate_model.changes + 1 },
    (_, n) => breaks.reduce((sum, k) => sum + (k === n ? 1 : 0), 0) / breaks.length,
  );
}

function orderFound({ order, points }: Problem): CurveResult['depth_order'] {
  if (order === null) return null;
  return {
    pairs: order.pairs.length,
    contradicting: againstDepths(order).map(({ upper, lower, p, isImposed }) => ({
      upper: points[upper]!.id,
      lower: points[lower]!.id,
      p_lower_older: p,
      imposed: isImposed,
    })),
  };
}

/** The rate influence is measured on: the first interval, else the mean rate over all reported ages. */
function headline(problem: Problem, draws: readonly Draws[], kept: number): Float64Array {
  const { ages_cal_bp, intervals } = problem.settings;
  const all = (pick: (d: Draws) => Float64Array): Float64Array =>
    pooled(draws.map((d) => pick(d).subarray(0, kept)));
  if (intervals.length > 0) return all((d) => d.interval_mm_yr[0]!);
  if (ages_cal_bp.length === 0) return all((d) => d.rate_sd_mm_yr);
  const old = ages_cal_bp.indexOf(Math.max(...ages_cal_bp));
  const young = ages_cal_bp.indexOf(Math.min(...ages_cal_bp));
  if (old === young) return all((d) => d.rate_mm_yr[old]!);
  return all((d) => d.level_m[young]!.map((f, k) => f - d.level_m[old]![k]!));
}

/** Columns [age or point][draw] of each chain to rows, chain after chain, [draw][age or point]. */
function interleaved(
  draws: readonly Draws[],
  kept: number,
  pick: (d: Draws) => Float64Array[],
): Float64Array {
  const width = pick(draws[0]!).length;
  const rows = new Float64Array(draws.length * kept * width);
  draws.forEach((one, c) => {
    pick(one).forEach((column, k) => {
      for (let d = 0; d < kept; d++) rows[(c * kept + d) * width + k] = column[d]!;
    });
  });
  return rows;
}
