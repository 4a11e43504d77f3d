/**
 * What the smooth-rate model returns, described once. Ages are cal BP (yr before 1950 CE), heights metres above the
 * campaign datum, rates mm/yr positive towards a rising sea.
 */
import { agreement, bandShape, summaryShape } from '@stillstand/science/base';
import {
  as,
  list,
  number,
  numbers,
  orNull,
  record,
  type ShapeValue,
  sigma,
  text,
  word,
  yesNo,
} from '@stillstand/science/shape';

const priors = record('prior distributions', {
  level_sd_m: number('1 sd of the height at 1950 CE where there is no tie', 'm'),
  rate_mean_mm_yr: number('mean of the rate', 'mm/yr'),
  rate_sd_scale_mm_yr: number('scale of the half-normal prior of the sd of the rate', 'mm/yr'),
  length_median_ka: number('median of the lognormal prior of the correlation length of the rate', 'ka'),
  length_log_sd: number('log-sd of the same', ''),
});
export type CurvePriors = ShapeValue<typeof priors>;

const outliers = record('what is assumed of dates and heights that are wrong by more than their errors say', {
  age_probability: number('probability that a date is an outlier', ''),
  too_old_share: number('share of those that are too old', ''),
  age_scales_yr: list(
    'scales of exponentials, equally probable, of how far the date is off',
    number('a scale', 'yr'),
  ),
  height_probability: number('probability that a height is an outlier', ''),
  height_times: list(
    'sds of its further error, equally probable',
    number('an sd, in sds of the whole of the point’s own error', ''),
  ),
});
export type OutlierPriors = ShapeValue<typeof outliers>;

const RATE_MODELS = ['constant', 'stepwise', 'smooth'] as const;

export const rateModelShape = record('how the rate varies', {
  kind: word('constant; constant between changes; or a smooth process', RATE_MODELS),
  changes: number(
    'stepwise: changes of the rate; smooth: most breaks, at which it starts afresh, each number from 0 on equally probable',
    'changes',
  ),
  changes_from_cal_bp: number('oldest age at which it may change', 'cal BP'),
  changes_to_cal_bp: number('youngest', 'cal BP'),
  jump_sd_m: number('1 sd of a jump of the level at each change; 0: none', 'm'),
  slowing_mm_yr_ka: number(
    'scale of the half-normal prior of how much larger its mean was a thousand years earlier; 0: it was not',
    'mm/yr per ka',
  ),
});
export type RateModel = ShapeValue<typeof rateModelShape>;

const settings = record('what was asked of the model', {
  priors,
  rate_model: rateModelShape,
  outliers: orNull(outliers),
  depth_order: yesNo('ages of a hole are in the order of their depths where these do not overlap'),
  extra_scatter_m: number(
    'scale of the half-normal prior of the sd by which all index points scatter beyond their errors; 0: they do not',
    'm',
  ),
  burial_percent: orNull(
    number(
      'scale of the half-normal prior of what compressible sediment below a sample lost; null: none did',
      '%',
    ),
  ),
  tie: orNull(
    record('sea level is 0 ± sd at the mid-year of the tidal epoch; null for none', {
      year_ce: number('mid-year of the tidal epoch', 'CE'),
      sd_m: number('1 sd', 'm'),
    }),
  ),
  ages_cal_bp: list('ages asked for, in any order', number('an age', 'cal BP')),
  intervals: list(
    'intervals asked for',
    record('one interval', {
      older_cal_bp: number('older end', 'cal BP'),
      younger_cal_bp: number('younger end', 'cal BP'),
    }),
  ),
  age_range_cal_bp: record('range in which latent radiocarbon ages lie', {
    youngest: number('youngest', 'cal BP'),
    oldest: number('oldest', 'cal BP'),
  }),
  seed: number('seed of the random streams', ''),
  chains: number('chains', ''),
  draws: number(
    'most kept draws of each chain: it stops at half of them or more, as soon as every number has settled',
    'draws',
  ),
});
export type CurveSettings = ShapeValue<typeof settings>;

const interval = record('one interval', {
  older_cal_bp: number('older end', 'cal BP'),
  younger_cal_bp: number('younger end', 'cal BP'),
  rate_mm_yr: as('mean rate over the interval, mm/yr', summaryShape),
  prior_halved_mm_yr: orNull(
    number('the mean with the rate-sd prior halved; null: not asked for, or the draws do not reach', 'mm/yr'),
  ),
  prior_doubled_mm_yr: orNull(
    number(
      'the mean with the rate-sd prior doubled; null: not asked for, or the draws do not reach',
      'mm/yr',
    ),
  ),
  no_outliers_mm_yr: orNull(
    number(
      'the mean with every date and height taken as given; null: not asked for, or outliers are not in the model',
      'mm/yr',
    ),
  ),
  no_burial_mm_yr: orNull(
    number(
      'the mean with no sample lowered by burial; null: not asked for, or none is in the model',
      'mm/yr',
    ),
  ),
  without_intercalated_mm_yr: orNull(
    number('the mean without the intercalated points; null: not asked for', 'mm/yr'),
  ),
});

const priorRow = record('one prior', {
  prior: word('which', [
    'rate_sd_scale',
    'length_median',
    'slowing',
    'extra_scatter',
    'level_sd',
    'age_probability',
    'height_probability',
    'burial_percent',
  ]),
  factor: number('times what it is in the settings', ''),
  rate_mm_yr: orNull(
    number(
      'mean of the first interval’s rate under it; null: the draws do not reach so far, or the level at 0 cal BP was not asked for',
      'mm/yr',
    ),
  ),
  moved_mm_yr: orNull(number('the same less the mean under the prior as it is', 'mm/yr')),
  mcse_mm_yr: orNull(number('Monte-Carlo error of the mean under it', 'mm/yr')),
});

const depthOrder = record('ages of a hole in the order of their depths; null where there are none', {
  pairs: number('pairs of points whose depths say that the lower is the older', 'pairs'),
  contradicting: list(
    'pairs whose dates contradict it',
    record('one pair', {
      upper: text('label of the upper point'),
      lower: text('label of the lower point'),
      p_lower_older: number('probability that the lower is the older, from the two dates alone', ''),
      imposed: yesNo('in the model the lower is the older all the same; else the pair is left as it is'),
    }),
  ),
});

const othersLevel = record('relative sea level at the mean of its date as all other points have it', {
  mean: number('mean', 'm'),
  sd: number('standard deviation; the error of its own height is not in it', 'm'),
});
const OTHERS_BY = ['weights', 'chains'] as const;

const point = record('one point', {
  id: text('label of the point'),
  kind: word('index point or limit', ['index', 'terrestrial', 'marine']),
  height_m: number('height above the campaign datum, as given', 'm'),
  own_sigma_m: sigma('1 sigma of its height, all shapes together, shared errors apart', 'm'),
  age_cal_bp: as('age given curve and neighbours, cal BP', summaryShape),
  residual_m: number('observed minus modelled height at the latent age, shared errors taken off', 'm'),
  age_shift_sd: number('posterior minus prior median age, in prior sd; beyond ±1 is flagged', 'prior sd'),
  prior_age_cal_bp: record('age before the curve', {
    mean: number('mean', 'cal BP'),
    sd: number('standard deviation', 'yr'),
  }),
  age_outlier_p: number('probability that its date is an outlier; 0 where outliers are not asked for', ''),
  height_outlier_p: number('probability that its height is an outlier; 0 where they are not asked for', ''),
  influence: number('share by which 2σ of the headline rate grows without the point', ''),
  predictive_p: orNull(
    number(
      'as all other points and its own date have it; index: probability of a height as low as that found or lower, so that both ends are improbable; limits: that the sea keeps to its side; null in a preview',
      '',
    ),
  ),
  others_level_m: orNull(othersLevel),
  others_by: orNull(
    word('whether both are of the draws by weight, or of chains without the point', OTHERS_BY),
  ),
  score: orNull(
    number(
      'leave-one-out score: natural log of the density of its height (index; per metre) or of the probability that the sea keeps to its side (limits), as its own date and all other points have it; null in a preview',
      '',
    ),
  ),
  score_mcse: orNull(number('Monte-Carlo standard error of the score; null in a preview', '')),
  score_k: orNull(
    number(
      'shape of the tail of the weights that gave the score, null where chains without the point gave it, and in a preview',
      '',
    ),
  ),
});

export const curveShape = record('relative sea level and its rate through time', {
  settings,
  ages_cal_bp: numbers('ages at which level and rate are reported', 'cal BP'),
  level_m: as('relative sea level above the campaign datum, m', bandShape),
  rate_mm_yr: as('rate, positive towards a rising sea, mm/yr', bandShape),
  intervals: list('mean rates over intervals', interval),
  prior_sensitivity: list(
    'rate of the first interval under other priors, one at a time; none where no interval was asked for',
    priorRow,
  ),
  points: list('what the curve made of each point', point),
  depth_order: orNull(depthOrder),
  groups: list(
    'errors shared between points',
    record('one group', {
      group: text('name of the group'),
      sigma_m: sigma('1 sigma before the curve', 'm'),
      shift_m: as('what the curve made of it, m', summaryShape),
    }),
  ),
  burials: list(
    'lowering of samples by the burial of compressible sediment below them, by hole',
    record('one hole', {
      hole: text('label of the hole'),
      thickest_m: number('thickest compressible sediment below a point of it', 'm'),
      lowering_m: as('what the curve made of the lowering of that point, m', summaryShape),
    }),
  ),
  offsets: list(
    'reservoir offsets that ages share, and systematic errors of dates measured together',
    record('one group', {
      group: text('name of the group; dose: before that of a systematic error of dates'),
      sigma_yr: sigma('1 sigma before the curve; of a reservoir offset 14C yr', 'yr'),
      shift_yr: as(
        'what the curve made of it, above what was stated; of a reservoir offset 14C yr',
        summaryShape,
      ),
    }),
  ),
  rate_sd_mm_yr: as('standard deviation of the rate process, mm/yr', summaryShape),
  length_ka: orNull(as('correlation length of a smooth rate, ka; null for the others', summaryShape)),
  slowing_mm_yr_ka: orNull(
    as(
      'how much larger the mean rate was a thousand years earlier, mm/yr per ka; null: not in the model',
      summaryShape,
    ),
  ),
  scatter_m: orNull(
    as('sd by which index points scatter beyond their errors, m; null: not in the model', summaryShape),
  ),
  changes: list(
    'changes of a stepwise rate, the oldest first',
    record('one change', {
      age_cal_bp: as('when, cal BP', summaryShape),
      older_mm_yr: as('rate before it, mm/yr', summaryShape),
      younger_mm_yr: as('rate after it, mm/yr', summaryShape),
      jump_m: orNull(as('by how much the level then rose at once, m; null: not in the model', summaryShape)),
    }),
  ),
  one_break: orNull(
    record('one abrupt change against none; null where the model has changes of its own, and in a preview', {
      log_evidence_ratio: number(
        'log of how many times better a smooth rate with one break and a jump of level (1 sd 2 m) at any of the reported ages suits the heights',
        '',
      ),
      age_cal_bp: number('the age where it suits them best', 'cal BP'),
    }),
  ),
  breaks_p: list(
    'probabilities that a smooth rate has no break, one, and so on; empty where it may have none',
    number('one probability', ''),
  ),
  diagnostics: record('whether the numbers can be trusted', {
    ...agreement,
    mcse_level_max_m: number('largest Monte-Carlo error of a reported level', 'm'),
    mcse_rate_max_mm_yr: number('largest Monte-Carlo error of a reported rate', 'mm/yr'),
    sweeps: number('sweeps of the longest chain, warm-up included', ''),
    chains: number('chains', ''),
    draws: number('kept draws of each chain', 'draws'),
    remarks: list('what did not converge', text('one remark')),
  }),
  draws: record('kept draws, chain after chain', {
    level_m: numbers('relative sea level', 'm', 'ages_cal_bp'),
    rate_mm_yr: numbers('rate', 'mm/yr', 'ages_cal_bp'),
    rate_sd_mm_yr: numbers('standard deviation of the rate process', 'mm/yr'),
    length_ka: numbers('correlation length', 'ka'),
    residual_m: numbers('height of each point less level and shared errors at its age', 'm', 'points'),
  }),
});
export type CurveResult = ShapeValue<typeof curveShape>;

/** What all other points have of one: see the points of `CurveResult`. */
export interface FromOthers {
  predictive_p: number;
  level_m: ShapeValue<typeof othersLevel>;
  by: (typeof OTHERS_BY)[number];
  score: number;
  score_mcse: number;
  score_k: number | null;
}
