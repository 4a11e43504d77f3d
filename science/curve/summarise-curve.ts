/** From kept draws to the result: bands, summaries, diagnostics over every reported number. */
import { mean, summarize } from '@stillstand/science/base';
import type { Draws } from './draws.ts';
import { influences } from './influence.ts';
import type { Band, CurveResult, Summary } from './model.ts';
import type { Problem, Refusal } from './problem.ts';

/** Asked of every reported number (Vehtari et al. 2021, Bayesian Anal. 16:667–718). */
const RHAT = 1.01;
const ESS = 400;
export const hasConverged = (s: Summary): boolean => s.rhat < RHAT && s.ess_bulk >= ESS;

/** `draws` of each chain; `sweeps` each chain has done, warm-up included. */
export function summariseCurve(
  problem: Problem,
  draws: readonly Draws[],
  sweeps: number,
  refused: readonly Refusal[],
): CurveResult {
  const { settings, points, groups, offsets, ages } = problem;
  const watch = new Watch();
  const chainsOf = (pick: (d: Draws) => Float64Array): Float64Array[] => draws.map(pick);
  const band = (pick: (d: Draws) => Float64Array[], name: string): { band: Band; mcse: number } => {
    const n = settings.ages_cal_bp.length;
    const band: Band = {
      mean: new Float64Array(n),
      sd: new Float64Array(n),
      median: new Float64Array(n),
      lower68: new Float64Array(n),
      upper68: new Float64Array(n),
      lower95: new Float64Array(n),
      upper95: new Float64Array(n),
    };
    let mcse = 0;
    for (let k = 0; k < n; k++) {
      const chains = chainsOf((d) => pick(d)[k]!);
      const s = watch.wholeSummary(`${name} at ${settings.ages_cal_bp[k]} cal BP`, chains);
      band.mean[k] = s.mean;
      band.sd[k] = s.sd;
      band.median[k] = s.median;
      band.lower68[k] = s.lower68;
      band.upper68[k] = s.upper68;
      band.lower95[k] = s.lower95;
      band.upper95[k] = s.upper95;
      mcse = Math.max(mcse, s.mcse);
    }
    return { band, mcse };
  };

  const level = band((d) => d.level_m, 'level');
  const rate = band((d) => d.rate_mm_yr, 'rate');
  const intervals = settings.intervals.map((interval, k) => ({
    older_cal_bp: interval.older_cal_bp,
    younger_cal_bp: interval.younger_cal_bp,
    rate_mm_yr: watch.summary(
      `rate from ${interval.older_cal_bp} to ${interval.younger_cal_bp} cal BP`,
      chainsOf((d) => d.interval_mm_yr[k]!),
    ),
    prior_halved_mm_yr: null,
    prior_doubled_mm_yr: null,
    without_intercalated_mm_yr: null,
  }));
  const influence = influences(
    headline(problem, draws),
    points.map((_, i) => pooled(chainsOf((d) => d.logFactor[i]!))),
  );
  const result: CurveResult = {
    model: 'smooth',
    settings,
    ages_cal_bp: Float64Array.from(settings.ages_cal_bp),
    level_m: level.band,
    rate_mm_yr: rate.band,
    intervals,
    points: points.map((point, i) => {
      const prior = ages[i]!;
      const age = watch.summary(
        `age of ${point.id}`,
        chainsOf((d) => d.age_cal_bp[i]!),
      );
      return {
        id: point.id,
        age_cal_bp: age,
        residual_m: mean(pooled(chainsOf((d) => d.residual_m[i]!))),
        age_shift_sd: prior.sd_yr > 0 ? (age.mean - prior.mean_cal_bp) / prior.sd_yr : 0,
        prior_age_cal_bp: { mean: prior.mean_cal_bp, sd: prior.sd_yr },
        influence: influence[i]!,
      };
    }),
    groups: groups.map((group, g) => {
      const sigma_m = largestLoading(problem, g);
      const name = `shared error ${group}`;
      return {
        group,
        sigma_m,
        shift_m: watch.summary(
          name,
          chainsOf((d) => d.shift_m[g]!.map((b) => b * sigma_m)),
        ),
      };
    }),
    rate_sd_mm_yr: watch.summary(
      'sd of the rate',
      chainsOf((d) => d.rate_sd_mm_yr),
    ),
    length_ka: watch.summary(
      'length of the rate',
      chainsOf((d) => d.length_ka),
    ),
    diagnostics: {
      converged: false,
      rhat_max: 0,
      ess_bulk_min: 0,
      ess_tail_min: 0,
      mcse_level_max_m: level.mcse,
      mcse_rate_max_mm_yr: rate.mcse,
      sweeps,
      chains: settings.chains,
      draws: settings.draws,
      remarks: [],
    },
    draws: {
      level_m: interleaved(draws.map((d) => d.level_m)),
      rate_mm_yr: interleaved(draws.map((d) => d.rate_mm_yr)),
      rate_sd_mm_yr: pooled(chainsOf((d) => d.rate_sd_mm_yr)),
      length_ka: pooled(chainsOf((d) => d.length_ka)),
      log_height: interleaved(draws.map((d) => d.logFactor)),
    },
  };
  offsets.forEach((offset, g) => {
    watch.summary(
      `reservoir error ${offset}`,
      chainsOf((d) => d.offset[g]!),
    );
  });
  result.diagnostics.converged = watch.remarks.length === 0;
  result.diagnostics.rhat_max = watch.rhat;
  result.diagnostics.ess_bulk_min = watch.bulk;
  result.diagnostics.ess_tail_min = watch.tail;
  result.diagnostics.remarks = [
    ...refused.map((r) => `${r.id} was left out: ${r.found}; expected ${r.expected}.`),
    ...watch.remarks,
  ];
  return result;
}

/** Summaries, and the worst diagnostics among them. */
class Watch {
  rhat = 1;
  bulk = Infinity;
  tail = Infinity;
  readonly remarks: string[] = [];

  summary(name: string, chains: Float64Array[]): Summary {
    const { lower68, upper68, ...summary } = this.wholeSummary(name, chains);
    return summary;
  }

  wholeSummary(name: string, chains: Float64Array[]): ReturnType<typeof summarize> {
    const s = summarize(chains);
    this.rhat = Math.max(this.rhat, s.rhat);
    this.bulk = Math.min(this.bulk, s.ess_bulk);
    this.tail = Math.min(this.tail, s.ess_tail);
    if (!hasConverged(s)) {
      this.remarks.push(
        `${name} did not converge: R-hat ${s.rhat.toFixed(3)} (below ${RHAT} wanted), ` +
          `${Math.round(s.ess_bulk)} effective draws (${ESS} wanted).`,
      );
    }
    return s;
  }
}

/** The rate influence is measured on: the first interval, else the mean rate over all reported ages. */
function headline(problem: Problem, draws: readonly Draws[]): Float64Array {
  const { ages_cal_bp, intervals } = problem.settings;
  if (intervals.length > 0) return pooled(draws.map((d) => d.interval_mm_yr[0]!));
  if (ages_cal_bp.length === 0) return pooled(draws.map((d) => d.rate_sd_mm_yr));
  const old = ages_cal_bp.indexOf(Math.max(...ages_cal_bp));
  const young = ages_cal_bp.indexOf(Math.min(...ages_cal_bp));
  if (old === young) return pooled(draws.map((d) => d.rate_mm_yr[old]!));
  return pooled(draws.map((d) => d.level_m[young]!.map((f, k) => f - d.level_m[old]![k]!)));
}

function largestLoading(problem: Problem, g: number): number {
  const { nodes, loading_m } = problem;
  return loading_m.subarray(g * nodes, (g + 1) * nodes).reduce((most, l) => Math.max(most, l), 0);
}

function pooled(chains: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(chains.reduce((sum, c) => sum + c.length, 0));
  let at = 0;
  for (const c of chains) {
    all.set(c, at);
    at += c.length;
  }
  return all;
}

/** Columns [chain][age or point][draw] to rows, chain after chain, [draw][age or point]. */
function interleaved(chains: readonly Float64Array[][]): Float64Array {
  const ages = chains[0]!.length;
  if (ages === 0) return new Float64Array(0);
  const draws = chains[0]![0]!.length;
  const rows = new Float64Array(chains.length * draws * ages);
  chains.forEach((columns, c) => {
    columns.forEach((column, k) => {
      for (let d = 0; d < draws; d++) rows[(c * draws + d) * ages + k] = column[d]!;
    });
  });
  return rows;
}
