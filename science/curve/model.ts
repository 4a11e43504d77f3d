/**
 * What the smooth-rate model takes and gives. Ages are cal BP (yr before 1950 CE), heights metres above the campaign
 * datum, rates mm/yr positive towards a rising sea.
 */

import type { Band } from '@stillstand/science/base';
import type { YearlyCurve } from '@stillstand/science/dating';

/** What is known of a point's age. */
export type AgeKnowledge =
  | { kind: 'normal'; mean_cal_bp: number; sd_yr: number }
  | {
      kind: 'radiocarbon';
      c14_age: number;
      /** 1 sigma, laboratory. */
      error_yr: number;
      curve: YearlyCurve;
      /** ΔR added to the curve, and its 1 sigma. */
      offset_yr: number;
      offset_sd_yr: number;
      /** Ages of one group share the error of one reservoir offset; null: the error is this age's own. */
      offset_group: string | null;
    }
  /** Any other distribution, on a yearly grid: `density[i]` at `from_cal_bp + i`, need not be normalised. */
  | { kind: 'density'; from_cal_bp: number; density: Float64Array };

export interface CurvePoint {
  id: string;
  /** Terrestrial: the sea was below `height_m`. Marine: it was above. */
  kind: 'index' | 'terrestrial' | 'marine';
  height_m: number;
  /** 1 sigma of the independent normal part; > 0. */
  sigma_m: number;
  /** Half width of an independent uniform part; 0 for none. Index points only. */
  half_range_m: number;
  /** Scale (half-normal) of an unknown lowering of the sample by compaction; 0 for none. Index points only. */
  lowering_m: number;
  /** Errors shared with other points: each group is one standard-normal constant, here with its 1 sigma in metres. */
  shared: { group: string; sigma_m: number }[];
  age: AgeKnowledge;
}

export interface CurvePriors {
  /** 1 sd of the height at 1950 CE where there is no tie, m. */
  level_sd_m: number;
  /** Mean of the rate, mm/yr. */
  rate_mean_mm_yr: number;
  /** Scale of the half-normal prior of the rate's standard deviation, mm/yr. */
  rate_sd_scale_mm_yr: number;
  /** Median (ka) and log-sd of the lognormal prior of the rate's correlation length. */
  length_median_ka: number;
  length_log_sd: number;
}

export interface CurveSettings {
  priors: CurvePriors;
  /** RSL is 0 ± sd at the mid-year of the tidal epoch; null for none. */
  tie: { year_ce: number; sd_m: number } | null;
  /** Ages at which level and rate are reported, cal BP, any order. */
  ages_cal_bp: readonly number[];
  /** Intervals whose mean rates are reported; older > younger. */
  intervals: readonly { older_cal_bp: number; younger_cal_bp: number }[];
  /** Latent radiocarbon ages lie in this range, cal BP. */
  age_range_cal_bp: { youngest: number; oldest: number };
  seed: number;
  chains: number;
  /** Most kept draws of each chain: it stops at half of them or more, as soon as every number has settled. */
  draws: number;
}

export interface Summary {
  mean: number;
  sd: number;
  median: number;
  lower95: number;
  upper95: number;
  /** Monte-Carlo standard error of the mean. */
  mcse: number;
  rhat: number;
  ess_bulk: number;
  ess_tail: number;
}

/** What all other points have of one: see the points of `CurveResult`. */
export interface FromOthers {
  predictive_p: number;
  level_m: { mean: number; sd: number };
  by: 'weights' | 'chains';
}

export interface CurveResult {
  model: 'smooth';
  settings: CurveSettings;
  ages_cal_bp: Float64Array;
  level_m: Band;
  rate_mm_yr: Band;
  intervals: {
    older_cal_bp: number;
    younger_cal_bp: number;
    rate_mm_yr: Summary;
    /** The same mean with the rate-sd prior halved and doubled: of the draws by weight. Null where they do not carry so
     * far; `curveSensitivity` then computes it. */
    prior_halved_mm_yr: number | null;
    prior_doubled_mm_yr: number | null;
    /** The same mean with the intercalated points left out; filled by `curveSensitivity`. */
    without_intercalated_mm_yr: number | null;
  }[];
  points: {
    id: string;
    kind: CurvePoint['kind'];
    /** 1 sigma of the height's own error, all shapes together, shared errors apart. */
    own_sigma_m: number;
    age_cal_bp: Summary;
    /** Posterior mean of observed minus modelled height at the latent age, shared errors taken off. */
    residual_m: number;
    /** (posterior mean age − prior mean age) ÷ prior sd; beyond ±1 is flagged. */
    age_shift_sd: number;
    /** Mean and sd of the point's prior age. */
    prior_age_cal_bp: { mean: number; sd: number };
    /** About how much the 2σ of the headline rate grows without the point, as a share of it (0.18: by 18 %). */
    influence: number;
    /**
     * As all other points and the point's own date have it. Index: probability of a height as low as that found or lower,
     * so that both ends of 0–1 are improbable. Limit: probability that the sea keeps to its side. Null in a preview.
     */
    predictive_p: number | null;
    /** Level at the mean of its date, as all other points have it: 1 sigma, its own height's error not in it. */
    others_level_m: { mean: number; sd: number } | null;
    /** Whether both are of the draws by weight, or of chains without the point. */
    others_by: 'weights' | 'chains' | null;
  }[];
  groups: { group: string; sigma_m: number; shift_m: Summary }[];
  /** What the reservoir offsets that ages share turned out to be above those stated, 14C yr; 1 sigma before the curve. */
  offsets: { group: string; sigma_yr: number; shift_yr: Summary }[];
  rate_sd_mm_yr: Summary;
  length_ka: Summary;
  diagnostics: {
    converged: boolean;
    rhat_max: number;
    ess_bulk_min: number;
    ess_tail_min: number;
    /** Largest Monte-Carlo error of a reported level, m, and rate, mm/yr. */
    mcse_level_max_m: number;
    mcse_rate_max_mm_yr: number;
    /** Sweeps of the longest chain, warm-up included; chains; kept draws of each. */
    sweeps: number;
    chains: number;
    draws: number;
    /** What did not converge, in words. */
    remarks: string[];
  };
  /** Kept draws, chain after chain, row-major [draw][age] and [draw]. */
  draws: {
    level_m: Float64Array;
    rate_mm_yr: Float64Array;
    rate_sd_mm_yr: Float64Array;
    length_ka: Float64Array;
    /** Height of each point less level and shared errors at its age, row-major [draw][point]. */
    residual_m: Float64Array;
  };
}
