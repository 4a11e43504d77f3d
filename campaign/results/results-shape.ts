/**
 * The shape of the results file, property by property, in the order they are written: the one source of the
 * published schema, of the keys on disk and of the check on reading. Past 250 lines because it is one list.
 */
import type { Results } from './index.ts';
import {
  as,
  fixed,
  list,
  number,
  numbers,
  orNull,
  record,
  type ShapeValue,
  text,
  word,
  yesNo,
} from './shape.ts';

const rowId = () => text('identity of the table row it comes from');

const estimate = record(
  'a quantity with its uncertainty',
  {
    value: number('best value', 'unit of the property'),
    sigma: number('1 sigma', 'unit of the property'),
    lower95: number('lower end of the central 95 %', 'unit of the property'),
    upper95: number('upper end of the central 95 %', 'unit of the property'),
  },
  'estimate',
);
const anEstimate = (about: string) => as(about, estimate);
const perhapsEstimate = (about: string) => orNull(as(about, estimate));

const ageInterval = record(
  'an interval of a highest-density set',
  {
    older_cal_bp: number('older end', 'cal BP'),
    younger_cal_bp: number('younger end', 'cal BP'),
    probability: number('probability inside it', '0 to 1'),
  },
  'age_interval',
);

const component = record(
  'one part of a height error',
  {
    component: text('name of the part'),
    sigma_m: number('1 sigma of the declared shape; a uniform of half width h has h/√3', 'm'),
    shape: word('shape of the error', ['normal', 'uniform', 'one_sided']),
    shared_group: orNull(text('points that name the same group share this error; null: the point’s own')),
    source: text(
      'where the figure comes from; begins with “assumed” where it was neither measured nor declared',
    ),
  },
  'error_component',
);

const problem = record('what is wrong, where, what was expected, how to fix it', {
  severity: word('danger: someone can be hurt; error: not used; warning: used but doubtful; note', [
    'danger',
    'error',
    'warning',
    'note',
  ]),
  code: text('kind of problem, kebab-case, stable'),
  table: text('table it is in'),
  row_id: orNull(rowId()),
  line: orNull(number('line in the file as a spreadsheet numbers it, heading = 1', 'line')),
  label: orNull(text('label a person knows the row by')),
  column: orNull(text('column it is in')),
  found: text('what came, as typed, shortened past 80 characters'),
  expected: text('what was expected'),
  mend: text('how to fix it'),
});

const holeState = record('state of the hole after one reading', {
  seq: number('order of the reading in the hole', ''),
  table: text('table of the reading'),
  row_id: rowId(),
  time: orNull(text('when it was read, ISO 8601; information, never an order')),
  collar_to_shoe_m: orNull(number('collar to shoe', 'm')),
  stick_up_m: orNull(number('collar above the reference', 'm')),
  penetration_m: orNull(number('shoe below ground', 'm')),
  plug_m: orNull(number('sediment inside the string', 'm')),
  removed_m: number('everything the runs have removed', 'm'),
  entered_m: orNull(number('entered length: plug plus everything removed', 'm')),
  recovery: orNull(number('pipe recovery: entered length ÷ penetration', 'ratio')),
});

const drive = record('a spell of driving', {
  row_id: rowId(),
  seq: number('order in the hole', ''),
  from_m: number('penetration before', 'm'),
  to_m: number('penetration after', 'm'),
  entered_m: orNull(number('what entered during the drive, where soundings before and after tell', 'm')),
  recovery: orNull(number('entered ÷ driven', 'ratio')),
  rate_m_per_min: orNull(number('driven length per minute of vibrating', 'm/min')),
  usual_m_per_min: orNull(
    number('rate usual in the hole before it; null where too few drives tell', 'm/min'),
  ),
  pace: orNull(
    word('against the usual: below half of it slowing, below a tenth refusal', [
      'steady',
      'slowing',
      'refusal',
    ]),
  ),
  speed_hz: orNull(number('speed of the vibrator', 'Hz')),
  ended_by: orNull(text('what ended it')),
});

const run = record('a trip of the sampler, or a push of a one-piece corer', {
  row_id: rowId(),
  run: text('label'),
  method: word('sampler run in the string, or push', ['run', 'push']),
  removed_m: number('removed length', 'm'),
  removed_sigma_m: number('1 sigma of the removed length', 'm'),
  removed_from: word('what the removed length was taken from', [
    'soundings',
    'advance',
    'recovered',
    'nothing',
    'push',
  ]),
  recovered_m: number('length that came up', 'm'),
  fall_in_m: number('disturbed fall-in on top of what came up, excluded', 'm'),
  sampler_recovery: orNull(number('recovered ÷ removed', 'ratio')),
  loss_at: orNull(
    word('where what was removed but did not come up is missing; null for a push', [
      'top',
      'base',
      'spread',
      'unknown',
    ]),
  ),
  entered_top_m: number('top, along everything that entered', 'm'),
  entered_bottom_m: number('bottom, along everything that entered', 'm'),
  depth_top_m: anEstimate('in-situ depth of the top below the ground at the start of the hole, m'),
  depth_bottom_m: anEstimate('in-situ depth of the bottom below the ground at the start of the hole, m'),
});

const unit = record('a described layer', {
  row_id: rowId(),
  unit: text('label'),
  sediment: text('main sediment'),
  second: orNull(text('second sediment')),
  colour: orNull(text('colour')),
  contact_below: orNull(text('contact at its base')),
  structures: list('structures', text('one structure')),
  fossils: list('fossils', text('one fossil')),
  environment: orNull(text('interpreted environment')),
  description: orNull(text('free description')),
  core_top_m: orNull(number('top in the core, from the ground down', 'm')),
  core_bottom_m: orNull(number('bottom in the core, from the ground down', 'm')),
  depth_top_m: anEstimate('in-situ depth of the top, m'),
  depth_bottom_m: anEstimate('in-situ depth of the bottom, m'),
  elevation_top_m: perhapsEstimate('elevation of the top on the campaign datum, m'),
  elevation_bottom_m: perhapsEstimate('elevation of the bottom on the campaign datum, m'),
});

const paceTrend = record('how the rate of driving changes with depth', {
  drives: number('drives it is made from', 'drives'),
  slope_per_m: number('slope of the logarithm of the rate; negative slows', '1/m'),
  lower95: orNull(number('lower end of its 95 % interval; null with fewer than four drives', '1/m')),
  upper95: orNull(number('upper end of its 95 % interval; null with fewer than four drives', '1/m')),
  halving_m: orNull(number('depth in which the rate halves; null where it does not fall', 'm')),
  verdict: word('slowing where the whole interval is below 0', ['slowing', 'quickening', 'even']),
  line: list(
    'the trend for drawing',
    record('one place on it', {
      depth_m: number('penetration', 'm'),
      rate_m_per_min: number('rate', 'm/min'),
    }),
  ),
});

const rival = record('a simpler correction in common use, drawn next to ours', {
  model: word('one factor for the whole hole, or all that is missing taken off the top', [
    'uniform',
    'all_at_top',
  ]),
  line: list(
    'in-situ depth at entered length; straight between these',
    record('one corner', {
      entered_m: number('entered length', 'm'),
      depth_m: number('in-situ depth', 'm'),
    }),
  ),
  chi_square: number('residuals of the soundings against their full covariance', ''),
  degrees: number('degrees of freedom; 0: no sounding to tell it by', ''),
  rejected_sd: number('the same as so many sd of a normal; above 2 the soundings reject it', 'sd'),
  worst_m: number('largest difference from a sounding, of entered length', 'm'),
  units: list(
    'where it would put each unit',
    record('one unit', {
      row_id: rowId(),
      depth_top_m: number('in-situ depth of its top', 'm'),
      depth_bottom_m: number('in-situ depth of its bottom', 'm'),
    }),
  ),
});

const hole = record('a hole', {
  row_id: rowId(),
  hole: text('label'),
  site: orNull(text('site')),
  site_name: orNull(text('what people call the site')),
  method: text('how it was made'),
  state: orNull(text('how it stands')),
  end_reason: orNull(text('why it ended')),
  left_in_ground: orNull(text('pipe and gear left in the ground')),
  replaces: orNull(text('hole it replaces')),
  latitude_deg: orNull(number('latitude, WGS 84', 'deg')),
  longitude_deg: orNull(number('longitude, WGS 84', 'deg')),
  section_m: orNull(number('distance along the section line through all holes; 0 at the first', 'm')),
  reference_elevation_m: perhapsEstimate('elevation of the reference on the campaign datum, m'),
  ground_elevation_m: perhapsEstimate('elevation of the ground at the start on the campaign datum, m'),
  joints_in: number('joints in the string at the end', 'joints'),
  collar_to_shoe_m: orNull(number('collar to shoe at the end', 'm')),
  penetration_m: orNull(number('shoe below ground at its deepest', 'm')),
  entered_m: orNull(number('entered length', 'm')),
  recovery: orNull(number('pipe recovery: entered length ÷ penetration', 'ratio')),
  states: list('state after each reading, in their order', holeState),
  drives: list('spells of driving', drive),
  pace_trend: orNull(as('null with fewer than three timed drives', paceTrend)),
  runs: list('runs and pushes', run),
  units: list('described layers, from the top down', unit),
  soundings: list(
    'entered length at penetration as sounded',
    record('one sounding', {
      row_id: rowId(),
      penetration_m: number('penetration', 'm'),
      entered_m: number('entered length', 'm'),
      sigma_m: number('1 sigma of the entered length', 'm'),
    }),
  ),
  depth: orNull(
    record('the depth model for drawing: in-situ depth against entered length; null where there is none', {
      entered_m: numbers('entered length', 'm'),
      median_m: numbers('median in-situ depth', 'm'),
      lower95_m: numbers('lower end of the central 95 % of the in-situ depth', 'm'),
      upper95_m: numbers('upper end of the central 95 % of the in-situ depth', 'm'),
    }),
  ),
  shortening: orNull(
    record('parameters of decaying shortening, posterior; null where there is none', {
      recovery_at_ground: anEstimate('local recovery at the ground surface, ratio'),
      length_m: anEstimate('length over which the loss decays, m'),
    }),
  ),
  not_represented: list(
    'stretches of the ground that did not enter',
    record('one stretch, in-situ depth', {
      top_m: number('top', 'm'),
      bottom_m: number('bottom', 'm'),
    }),
  ),
  rivals: list('simpler corrections; empty where there is no string or no sounding', rival),
  account: list(
    'every item that went in, and what became of it',
    record('one item', {
      item: text('what it is'),
      joint: orNull(text('label painted on it')),
      fate: text('what became of it'),
    }),
  ),
});

const sample = record('a piece taken', {
  row_id: rowId(),
  sample: text('label'),
  hole: orNull(text('hole')),
  site: orNull(text('site')),
  material: orNull(text('what it is made of')),
  dated: yesNo('whether a determination names it'),
  depth_m: perhapsEstimate('in-situ depth of its middle, m'),
  thickness_m: orNull(number('thickness', 'm')),
  elevation_m: perhapsEstimate('elevation of its middle on the campaign datum, m'),
  components: list('parts of the error of its elevation', component),
});

const date = record('a dating result and its calendar age', {
  row_id: rowId(),
  lab_code: text('code given by the laboratory'),
  sample: text('sample'),
  hole: orNull(text('hole')),
  method: text('dating method'),
  value: number('radiocarbon: conventional age, 14C yr BP; otherwise calendar age before 1950 CE', 'yr'),
  error: number('1 sigma of the value', 'yr'),
  f14c: orNull(number('F14C: as reported, or of an age after 1950; null for all else', '')),
  f14c_sigma: orNull(number('1 sigma of F14C', '')),
  material: orNull(text('what was dated')),
  curve: orNull(text('calibration curve; null for calendar ages')),
  reservoir_offset: number('reservoir offset added to the curve', '14C yr'),
  reservoir_sd: number('1 sigma of the reservoir offset', '14C yr'),
  offset_group: orNull(text('determinations that share the error of one reservoir offset')),
  status: word('used or not', ['accepted', 'rejected']),
  reason: orNull(text('why it is rejected')),
  median_cal_bp: number('median', 'cal BP'),
  mean_cal_bp: number('mean', 'cal BP'),
  sd_yr: number('standard deviation', 'yr'),
  sets_68: list('68.3 % highest-density set, older first', ageInterval),
  sets_95: list('95.4 % highest-density set, older first', ageInterval),
  truncated: number('share of the distribution beyond the ends of the curve', '0 to 1'),
  from_cal_bp: number('age of the first entry of the density', 'cal BP'),
  density: numbers('density on a yearly grid: entry i stands at from_cal_bp + i', '1/yr'),
});

const point = record("a sample's claim on the sea", {
  row_id: rowId(),
  point: text('label'),
  sample: text('sample'),
  hole: orNull(text('hole')),
  site: orNull(text('site of its hole, or its own')),
  lab_code: orNull(text('determination its age comes from')),
  kind: word('index: fixes the sea; terrestrial: the sea was below; marine: above', [
    'index',
    'terrestrial',
    'marine',
  ]),
  position: orNull(text('what lies below: basal, base of basal, intercalated')),
  indicator: orNull(text('kind of deposit')),
  status: word('used or not', ['accepted', 'rejected']),
  reason: orNull(text('why it is rejected')),
  elevation_m: number('elevation of the sample on the campaign datum', 'm'),
  reference_water_level_m: number(
    'index: middle of the indicative meaning; limiting: the tide level of the bound',
    'm',
  ),
  indicative_range_m: orNull(number('width of the indicative meaning; null for limiting points', 'm')),
  rsl_m: number('index: relative sea level; terrestrial: the sea was below this; marine: above', 'm'),
  rsl_sigma_m: number('1 sigma of everything together', 'm'),
  components: list('parts of the height error', component),
  age: record('age of the point', {
    median_cal_bp: number('median', 'cal BP'),
    older95_cal_bp: number('older end of the 95 % range', 'cal BP'),
    younger95_cal_bp: number('younger end of the 95 % range', 'cal BP'),
  }),
});

const aRange = (about: string) =>
  record(about, {
    median: number('median', 'unit of the property'),
    lower95: number('lower end of the central 95 %', 'unit of the property'),
    upper95: number('upper end of the central 95 %', 'unit of the property'),
  });
const ageDepthBand = (about: string) =>
  record(about, {
    median: numbers('median', 'unit of the property'),
    lower68: numbers('lower end of the central 68 %', 'unit of the property'),
    upper68: numbers('upper end of the central 68 %', 'unit of the property'),
    lower95: numbers('lower end of the central 95 %', 'unit of the property'),
    upper95: numbers('upper end of the central 95 %', 'unit of the property'),
  });

const ageDepth = record('age against depth in one hole, from all its dates together', {
  hole: text('hole'),
  depth_m: numbers('depths of the bands, below the ground', 'm'),
  age_cal_bp: ageDepthBand('age at each depth, cal BP'),
  accumulation_mm_yr: ageDepthBand('accumulation about each depth, mm/yr'),
  dates: list(
    'each date it was made of',
    record('a date among the others of its hole', {
      lab_code: text('code given by the laboratory'),
      age_cal_bp: aRange('age of its layer given the whole hole, cal BP'),
      age_shift_sd: number('mean of the layer less mean of the date, over the sd of the date', ''),
      out_of_place: number('probability that what was dated is not of the age of its layer', '0 to 1'),
    }),
  ),
  samples: list(
    'samples of the hole, dated or not, from the top down',
    record('a sample’s age from the whole hole', {
      sample: text('sample'),
      age_cal_bp: aRange('age of its layer, cal BP'),
    }),
  ),
  gaps: list(
    'time missing at erosional contacts',
    record('an erosional contact', {
      unit: text('unit above it'),
      gap_yr: aRange('years missing'),
    }),
  ),
  converged: yesNo('whether every number has settled'),
  rhat_max: number('largest rank-normalised R-hat', ''),
  ess_min: number('least effective draws', 'draws'),
  remarks: list('what did not converge', text('remark')),
});

const undated = record('a point whose sample is not dated', {
  row_id: rowId(),
  point: text('label'),
  sample: text('sample'),
  hole: orNull(text('hole')),
  rsl_m: number('relative sea level it would show', 'm'),
  rsl_sigma_m: number('1 sigma of everything together', 'm'),
});

const band = record(
  'a quantity at each age of the curve',
  {
    mean: numbers('mean', 'unit of the property'),
    sd: numbers('standard deviation', 'unit of the property'),
    median: numbers('median', 'unit of the property'),
    lower68: numbers('lower end of the central 68 %', 'unit of the property'),
    upper68: numbers('upper end of the central 68 %', 'unit of the property'),
    lower95: numbers('lower end of the central 95 %', 'unit of the property'),
    upper95: numbers('upper end of the central 95 %', 'unit of the property'),
  },
  'band',
);
const summary = record(
  'posterior summary of one number, with the diagnostics of its draws',
  {
    mean: number('mean', 'unit of the property'),
    sd: number('standard deviation', 'unit of the property'),
    median: number('median', 'unit of the property'),
    lower95: number('lower end of the central 95 %', 'unit of the property'),
    upper95: number('upper end of the central 95 %', 'unit of the property'),
    mcse: number('Monte-Carlo standard error of the mean', 'unit of the property'),
    rhat: number('rank-normalised split R-hat', ''),
    ess_bulk: number('bulk effective sample size', 'draws'),
    ess_tail: number('tail effective sample size', 'draws'),
  },
  'summary',
);
const aSummary = (about: string) => as(about, summary);

const curve = record('relative sea level and its rate through time; null where it could not be computed', {
  model: word('model of the rate', ['smooth']),
  settings: record('what was asked of the model', {
    priors: record('prior distributions', {
      level_sd_m: number('1 sd of the height at 1950 CE where there is no tie', 'm'),
      rate_mean_mm_yr: number('mean of the rate', 'mm/yr'),
      rate_sd_scale_mm_yr: number('scale of the half-normal prior of the sd of the rate', 'mm/yr'),
      length_median_ka: number('median of the lognormal prior of the correlation length', 'ka'),
      length_log_sd: number('log-sd of the same', ''),
    }),
    tie: orNull(
      record('sea level is 0 ± sd at the mid-year of the tidal epoch; null for none', {
        year_ce: number('mid-year of the tidal epoch', 'CE'),
        sd_m: number('1 sd', 'm'),
      }),
    ),
    ages_cal_bp: list('ages asked for', number('an age', 'cal BP')),
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
    draws: number('most kept draws of each chain', 'draws'),
  }),
  ages_cal_bp: numbers('ages at which level and rate are reported', 'cal BP'),
  level_m: as('relative sea level above the campaign datum, m', band),
  rate_mm_yr: as('rate, positive towards a rising sea, mm/yr', band),
  intervals: list(
    'mean rates over intervals',
    record('one interval', {
      older_cal_bp: number('older end', 'cal BP'),
      younger_cal_bp: number('younger end', 'cal BP'),
      rate_mm_yr: aSummary('mean rate over the interval, mm/yr'),
      prior_halved_mm_yr: orNull(
        number('the mean with the rate-sd prior halved; null: not asked for', 'mm/yr'),
      ),
      prior_doubled_mm_yr: orNull(
        number('the mean with the rate-sd prior doubled; null: not asked for', 'mm/yr'),
      ),
      without_intercalated_mm_yr: orNull(
        number('the mean without the intercalated points; null: not asked for', 'mm/yr'),
      ),
    }),
  ),
  points: list(
    'what the curve made of each point',
    record('one point', {
      id: text('label of the point'),
      kind: word('index point or limit', ['index', 'terrestrial', 'marine']),
      own_sigma_m: number('1 sigma of its height, shared errors apart', 'm'),
      age_cal_bp: aSummary('age given curve and neighbours, cal BP'),
      residual_m: number('observed minus modelled height at the latent age, shared errors taken off', 'm'),
      age_shift_sd: number('posterior minus prior mean age, in prior sd; beyond ±1 is flagged', 'prior sd'),
      prior_age_cal_bp: record('age before the curve', {
        mean: number('mean', 'cal BP'),
        sd: number('standard deviation', 'yr'),
      }),
      influence: number('share by which 2σ of the headline rate grows without the point', ''),
      predictive_p: orNull(
        number(
          'as all other points and its own date have it; index: probability of a height as low as that found or lower; limits: that the sea keeps to its side',
          '',
        ),
      ),
      others_level_m: orNull(
        record('relative sea level at the mean of its date as all other points have it', {
          mean: number('mean', 'm'),
          sd: number('standard deviation', 'm'),
        }),
      ),
      others_by: orNull(
        word('whether both are of the draws by weight, or of chains without the point', [
          'weights',
          'chains',
        ]),
      ),
    }),
  ),
  groups: list(
    'errors shared between points',
    record('one group', {
      group: text('name of the group'),
      sigma_m: number('1 sigma before the curve', 'm'),
      shift_m: aSummary('what the curve made of it, m'),
    }),
  ),
  offsets: list(
    'reservoir offsets that ages share',
    record('one group', {
      group: text('name of the group'),
      sigma_yr: number('1 sigma before the curve', '14C yr'),
      shift_yr: aSummary('what the curve made of it, above the offset stated, 14C yr'),
    }),
  ),
  rate_sd_mm_yr: aSummary('standard deviation of the rate process, mm/yr'),
  length_ka: aSummary('correlation length of the rate, ka'),
  diagnostics: record('whether the numbers can be trusted', {
    converged: yesNo('whether every reported number met the rules'),
    rhat_max: number('largest R-hat', ''),
    ess_bulk_min: number('least bulk effective sample size', 'draws'),
    ess_tail_min: number('least tail effective sample size', 'draws'),
    mcse_level_max_m: number('largest Monte-Carlo error of a reported level', 'm'),
    mcse_rate_max_mm_yr: number('largest Monte-Carlo error of a reported rate', 'mm/yr'),
    sweeps: number('sweeps of the longest chain, warm-up included', ''),
    chains: number('chains', ''),
    draws: number('kept draws of each chain', 'draws'),
    remarks: list('what did not converge', text('one remark')),
  }),
  draws: record('kept draws, chain after chain', {
    level_m: numbers('relative sea level', 'm', 'draw×age'),
    rate_mm_yr: numbers('rate', 'mm/yr', 'draw×age'),
    rate_sd_mm_yr: numbers('standard deviation of the rate process', 'mm/yr'),
    length_ka: numbers('correlation length', 'ka'),
    residual_m: numbers(
      'height of each point less level and shared errors at its age, all points of a draw, draw after draw',
      'm',
    ),
  }),
});

export const resultsShape = record('what comes out of a campaign', {
  format: word('what this file is', ['stillstand-results']),
  version: fixed('version of the shape of this file', 2),
  computation: text('version of the computation; changes when a number can change'),
  name: text('name of the campaign'),
  seed: number('seed of the random streams', ''),
  inputs: text('hash of everything the results depend on'),
  datum: record('the zero of elevations and sea levels', {
    label: text('name of the datum'),
    kind: orNull(text('kind of datum as the table datums says; null where there is none')),
    epoch: orNull(text('tidal epoch')),
  }),
  problems: list('problems, in the order they were found', problem),
  holes: list('holes', hole),
  samples: list('samples', sample),
  dates: list('dating results', date),
  age_depth: list('age against depth of each hole with dates enough', ageDepth),
  points: list('index and limiting points', point),
  undated: list('index points as they would be with a date; they wait for one', undated),
  curve_sites: list(
    'sites whose points the curve is of; empty where there is no curve',
    orNull(text('site; null for points without one')),
  ),
  curve: orNull(curve),
  settings: list(
    'settings the computation used',
    record('one setting', {
      name: text('name'),
      value: text('value'),
      assumed: yesNo('whether it is a default'),
    }),
  ),
});

/** Everything readonly, all the way down: what is compared below is the shape, not who may write to it. */
type Frozen<T> = T extends Float64Array
  ? T
  : T extends readonly (infer Item)[]
    ? readonly Frozen<Item>[]
    : T extends object
      ? { readonly [Name in keyof T]: Frozen<T[Name]> }
      : T;

// Held equal by the compiler in both directions: a property of `Results` that is missing here, or one here that
// `Results` does not have, is a type error on these lines.
type Described = ShapeValue<typeof resultsShape>;
const everyPropertyIsDescribed = (results: Frozen<Results>): Described => results;
const everyDescriptionIsAProperty = (described: Described): Frozen<Results> => described;
void [everyPropertyIsDescribed, everyDescriptionIsAProperty];
