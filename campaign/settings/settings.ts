/**
 * The settings a computation uses: what the campaign says, else a stated default. Every one of them is listed in the
 * results with whether it was assumed, so that the methods text can say what was actually done.
 */

import { type Problem, problem } from '@stillstand/campaign/problems';
import { listed as listedIn, nearest, type Row, settingName } from '@stillstand/campaign/tables';
import { power } from '@stillstand/science/base';
import { correlationDefaults } from '@stillstand/science/correlate';
import { type CurveSettings, type DatePlan, DEFAULT_OUTLIERS, SMOOTH_RATE } from '@stillstand/science/curve';
import { CRITICAL_GRADIENTS, type PlugKind, type WaterKind } from '@stillstand/science/rig';
import { assumptionFault, GEAR_ASSUMPTIONS, type GearAssumption } from './gear-assumptions.ts';
import { GEAR_NUMBERS, type GearNumber, gearFault, type PullingGear } from './pulling-gear.ts';
import { readSectionAge, SECTION_AGES } from './section-ages.ts';
import { type AskedSites, readSites } from './sites-asked.ts';

interface Setting {
  about: string;
  unit: string;
  initial: string;
}

/** Names, meaning and defaults of all settings a person may write into the table `settings`. */
export const SETTINGS = {
  name: { about: 'name of the campaign', unit: '', initial: '' },
  datum: { about: 'label of the datum all heights are referred to', unit: '', initial: '' },
  length_unit: {
    about: 'unit of lengths typed without one (m, cm, ft); none means they are an error',
    unit: '',
    initial: '',
  },
  position_grid: {
    about:
      'grid in which easting and northing of a position are read: EPSG code of a known one, PROJ string or WKT; empty: positions in degrees and UTM only',
    unit: '',
    initial: '',
  },
  seed: { about: 'seed of the random numbers', unit: '', initial: '1' },
  clearance_margin_m: {
    about: 'least distance of the sampler’s tip from the shoe',
    unit: 'm',
    initial: '0.3',
  },
  dose_factors: {
    about:
      'table of factors for dose rates computed from contents of uranium, thorium and potassium (guerin2011, adamiec1998)',
    unit: '',
    initial: 'guerin2011',
  },
  water_outside: { about: 'water around the string (fresh, sea)', unit: '', initial: 'sea' },
  plug_kind: {
    about: 'sediment in the string above the shoe (sand, loose sand, organic); organic is the worst case',
    unit: '',
    initial: 'organic',
  },
  line_parts: { about: 'parts of line at the block that pulls the string', unit: '', initial: '1' },
  line_sheaves: { about: 'sheaves the line rolls over; empty for as many as parts', unit: '', initial: '' },
  line_bearing: { about: 'bearings of the sheaves (plain, roller)', unit: '', initial: 'plain' },
  hanging_kg: { about: 'drive head, vibrator and block that hang with the string', unit: 'kg', initial: '0' },
  rated_line_kn: {
    about: 'load marked on rope and winch; empty where it was not read',
    unit: 'kN',
    initial: '',
  },
  rated_hook_kn: {
    about: 'load marked on hook and shackle; empty where it was not read',
    unit: 'kN',
    initial: '',
  },
  rated_head_kn: {
    about: 'load marked on tripod or derrick; empty where it was not read',
    unit: 'kN',
    initial: '',
  },
  sounding_sigma_m: { about: '1 sigma of a sounding that states none', unit: 'm', initial: '0.015' },
  cable_mark_sigma_m: {
    about: '1 sigma of a removed length known from cable marks only',
    unit: 'm',
    initial: '0.05',
  },
  inclination_percent: {
    about: 'lean of a hole not measured: 2 sigma, per cent of depth',
    unit: '%',
    initial: '1',
  },
  depth_draws: { about: 'joint draws of each depth model', unit: '', initial: '400' },
  layer_contrast: {
    about:
      'how much layers differ as they enter the pipe: 1 sd of the logit of local recovery; empty to learn it from the soundings',
    unit: '',
    initial: '',
  },
  by_passing: { about: 'ground may be pushed aside by the string (on, off)', unit: '', initial: 'on' },
  plug_friction: {
    about: 'friction of the plug may let in less the longer it is (on, off)',
    unit: '',
    initial: 'on',
  },
  grain_size_scale: {
    about:
      'whose limits part gravel, sand, silt and clay, and give words of grain-size classes (wentworth, iso_14688)',
    unit: '',
    initial: 'wentworth',
  },
  chains: { about: 'chains of the curve', unit: '', initial: '4' },
  draws: { about: 'kept draws of each chain', unit: '', initial: '1000' },
  curve_sites: {
    about:
      'sites whose points share the curve of the report, separated by ;, or all; empty for the site with the most index points',
    unit: '',
    initial: '',
  },
  curve_youngest_cal_bp: { about: 'first age of the reported curve', unit: 'cal BP', initial: '0' },
  curve_oldest_cal_bp: {
    about: 'last age of the reported curve; empty for the oldest point',
    unit: 'cal BP',
    initial: '',
  },
  curve_step_yr: { about: 'step of the reported curve', unit: 'yr', initial: '100' },
  intervals: {
    about: 'intervals whose rates are reported, OLDER-YOUNGER separated by ;',
    unit: 'cal BP',
    initial: '',
  },
  present_constraint: {
    about: 'sea level is 0 at the mid-year of the tidal epoch (on, off)',
    unit: '',
    initial: 'on',
  },
  present_constraint_sd_m: { about: '1 sigma of that constraint', unit: 'm', initial: '0.05' },
  prior_level_sd_m: { about: 'prior 1 sd of the level at 1950', unit: 'm', initial: '5' },
  prior_rate_mean_mm_yr: { about: 'prior mean of the rate', unit: 'mm/yr', initial: '0' },
  prior_rate_sd_mm_yr: {
    about: 'prior scale (half-normal) of the sd of the rate',
    unit: 'mm/yr',
    initial: '5',
  },
  prior_length_ka: {
    about: 'prior median (lognormal) of the rate’s correlation length',
    unit: 'ka',
    initial: '2',
  },
  prior_length_log_sd: { about: 'prior log-sd of that length', unit: '', initial: '0.5' },
  rate_model: {
    about: 'how the rate varies (smooth, stepwise: constant between changes, constant)',
    unit: '',
    initial: 'smooth',
  },
  rate_changes: {
    about:
      'changes of a stepwise rate, 1 to 4; of a smooth one the most breaks, at which it starts afresh, 0 to 4; empty: 1, 0',
    unit: '',
    initial: '',
  },
  rate_jump_m: { about: '1 sd of a jump of the level at each change; 0 for none', unit: 'm', initial: '0' },
  rate_slowing_mm_yr_ka: {
    about:
      'prior: how much larger the mean rate was a thousand years earlier, half-normal scale; 0 for as large',
    unit: 'mm/yr per ka',
    initial: '0',
  },
  compare_rates: {
    about: 'compare models of the rate by their leave-one-out scores (on, off; up to a minute)',
    unit: '',
    initial: 'off',
  },
  extra_scatter_m: {
    about: 'prior: how far index points scatter beyond their errors, half-normal scale of the sd; 0 for not',
    unit: 'm',
    initial: '0',
  },
  outliers: {
    about: 'any date and any height may be wrong by more than its error says (on, off)',
    unit: '',
    initial: 'on',
  },
  date_outlier_percent: { about: 'prior probability that a date is an outlier', unit: '%', initial: '5' },
  height_outlier_percent: { about: 'prior probability that a height is an outlier', unit: '%', initial: '5' },
  burial_percent: {
    about:
      'prior: what compressible sediment stated below a sample may have lost by burial, half-normal scale; 0 for none',
    unit: '%',
    initial: '10',
  },
  depth_order: {
    about: 'ages of a hole are in the order of their depths where these do not overlap (on, off)',
    unit: '',
    initial: 'on',
  },
  correlation_by: {
    about:
      'compared when correlations are proposed, besides sediment, thickness and elevation: ages, or measured properties by name, separated by ;',
    unit: '',
    initial: '',
  },
  correlation_margin: {
    about: 'least margin of a proposed correlation over the next best alignment, natural logarithm',
    unit: '',
    initial: String(correlationDefaults.clear_margin),
  },
  correlation_years_per_m: {
    about:
      'how much younger a contact may be one metre higher in another hole, as at the edge of a rising sea',
    unit: 'yr/m',
    initial: String(correlationDefaults.years_per_m),
  },
  age_depth: {
    about: 'holes whose ages between their dates are modelled, separated by ; (some seconds a hole)',
    unit: '',
    initial: '',
  },
  edge_inside: {
    about:
      'environments on the inner side of the edge whose way is followed along section lines through time, separated by ;',
    unit: '',
    initial: 'land surface; floodplain; river channel; lake; fen; swamp; glacial; made ground',
  },
  section_ages: {
    about:
      'ages at which section lines are drawn as they were, separated by ;, six at most; empty: round ages that two holes reach',
    unit: 'cal BP',
    initial: '',
  },
  date_fails_percent: {
    about: 'what to date next: dates that give no result (too little carbon, lost on the way)',
    unit: '%',
    initial: '5',
  },
  date_price: {
    about: 'what to date next: price of one date, in any unit; 1 to count dates',
    unit: '',
    initial: '1',
  },
  core_price: {
    about: 'what to date next: price of the core a new point is taken from, in the same unit',
    unit: '',
    initial: '0',
  },
  date_budget: {
    about: 'what to date next: what may be spent, in the same unit; empty where that is open',
    unit: '',
    initial: '',
  },
  date_funds: {
    about:
      'what to date next: all that may be spent on dates, from the first on, in the same unit; what is spent and committed is taken off; empty where that is open',
    unit: '',
    initial: '',
  },
  oldest_age_cal_bp: { about: 'latent radiocarbon ages lie below this', unit: 'cal BP', initial: '20000' },
  ...GEAR_ASSUMPTIONS,
} as const satisfies Record<string, Setting>;

/** Tables of factors for dose rates; who computes hands in those of `@stillstand/published/dose-factors`. */
export const DOSE_FACTOR_LABELS = ['guerin2011', 'adamiec1998'] as const;
export type DoseFactorLabel = (typeof DOSE_FACTOR_LABELS)[number];

/** Used where results are looked at (`datePlanOf`): no number of the curve depends on them. */
const DATE_PLAN = {
  date_fails_percent: { min: 0, max: 95 },
  date_price: { min: 0.01, max: 1e9 },
  core_price: { min: 0, max: 1e9 },
  date_budget: { min: 0.01, max: 1e12 },
  date_funds: { min: 0, max: 1e12 },
} as const satisfies Partial<Record<SettingName, { min: number; max: number }>>;

/** What dates cost and how they go, from the settings that results list, and whether nobody said how many fail. */
export function datePlanOf(listed: readonly { name: string; value: string }[]): {
  plan: DatePlan;
  isAssumed: boolean;
} {
  const given = new Map(listed.map(({ name, value }) => [name, Number(value)]));
  const of = (name: keyof typeof DATE_PLAN): number | undefined => given.get(name);
  const fails = of('date_fails_percent');
  return {
    plan: {
      fails: (fails ?? Number(SETTINGS.date_fails_percent.initial)) / 100,
      date_price: of('date_price') ?? Number(SETTINGS.date_price.initial),
      core_price: of('core_price') ?? Number(SETTINGS.core_price.initial),
      budget: of('date_budget') ?? null,
    },
    isAssumed: fails === undefined,
  };
}

/** All that may be spent on dates; null where it is not stated. */
export function dateFundsOf(listed: readonly { name: string; value: string }[]): number | null {
  const typed = listed.find(({ name }) => name === 'date_funds');
  return typed === undefined ? null : Number(typed.value);
}

export type SettingName = keyof typeof SETTINGS;

export interface ComputationSettings {
  /** Labels of holes whose ages are modelled between their dates. */
  age_depth: readonly string[];
  /** Environments on the inner side of the edge that is followed along section lines. */
  edge_inside: readonly string[];
  /** Ages at which section lines are drawn as they were, cal BP; none: they are chosen. */
  section_ages: readonly number[];
  /** What correlations are proposed by, lower case, with sediment, thickness and elevation. */
  correlation_by: readonly string[];
  correlation_margin: number;
  correlation_years_per_m: number;
  seed: number;
  name: string;
  datum: string;
  /** Null where nobody said. */
  curve_sites: AskedSites | null;
  clearance_margin_m: number;
  sounding_sigma_m: number;
  cable_mark_sigma_m: number;
  inclination_percent: number;
  depth_draws: number;
  grain_size_scale: 'wentworth' | 'iso_14688';
  /** Null: learned. */
  layer_contrast: number | null;
  by_passing: boolean;
  plug_friction: boolean;
  oldest_cal_bp: number | null;
  step_yr: number;
  youngest_cal_bp: number;
  present_constraint_sd_m: number | null;
  compare_rates: boolean;
  curve: Omit<CurveSettings, 'tie' | 'ages_cal_bp'>;
  dose_factors: DoseFactorLabel;
  water_outside: WaterKind;
  plug_kind: PlugKind;
  pulling: PullingGear;
  listed: { name: string; value: string; assumed: boolean }[];
}

export function readSettings(rows: readonly Row<'settings'>[]): {
  settings: ComputationSettings;
  problems: Problem[];
} {
  const problems: Problem[] = [];
  const listed: ComputationSettings['listed'] = [];
  const given = new Map(rows.map((row) => [row.name, row]));

  const complain = (
    row: Row<'settings'>,
    expected: string,
    initial: string,
    until = `${initial === '' ? 'none' : initial} is used`,
  ): void => {
    problems.push(
      problem({
        severity: 'error',
        code: 'unusable-setting',
        table: 'settings',
        row_id: row.row_id,
        label: row.name,
        column: 'value',
        found: row.value,
        expected,
        fix: `Correct the value; until then ${until}.`,
      }),
    );
  };
  for (const row of rows) {
    if (Object.hasOwn(SETTINGS, row.name)) continue;
    // A misspelt setting would silently be the default instead: that wants more than a note.
    const meant = nearest(row.name, Object.keys(SETTINGS));
    problems.push(
      problem({
        severity: meant === null ? 'note' : 'warning',
        code: 'unknown-setting',
        table: 'settings',
        row_id: row.row_id,
        label: row.name,
        column: 'name',
        found: row.name,
        expected: 'a setting that is known',
        fix: `${meant === null ? '' : `Perhaps “${settingName(meant)}” is meant. `}It is kept, and nothing is computed from it.`,
      }),
    );
  }
  const note = (name: SettingName, value: string, assumed: boolean): void => {
    if (value !== '') listed.push({ name, value, assumed });
  };
  const text = (name: SettingName): string => {
    const row = given.get(name);
    const value = row?.value.trim() ?? SETTINGS[name].initial;
    note(name, value, row === undefined);
    return value;
  };
  const number = (name: SettingName, range: { min: number; max: number; whole?: boolean }): number => {
    const { initial } = SETTINGS[name];
    const row = given.get(name);
    if (row !== undefined) {
      const value = Number(row.value);
      const whole = range.whole !== true || Number.isInteger(value);
      if (row.value.trim() !== '' && whole && value >= range.min && value <= range.max) {
        note(name, row.value.trim(), false);
        return value;
      }
      complain(
        row,
        `${range.whole ? 'a whole number' : 'a number'} from ${range.min} to ${range.max}`,
        initial,
      );
    }
    note(name, initial, true);
    return Number(initial);
  };
  /** Choices of the rig: listed only where the crew made them, for they change advice and no depth. */
  const chosen = <const Choice extends string>(name: SettingName, of: readonly Choice[]): Choice => {
    const row = given.get(name);
    const value = row?.value.trim() ?? '';
    const found = of.find((c) => c === value);
    if (row !== undefined && found === undefined) complain(row, of.join(', '), SETTINGS[name].initial);
    if (found !== undefined) note(name, found, false);
    return found ?? (SETTINGS[name].initial as Choice);
  };
  const said = (
    name: SettingName,
    { min, max }: { min: number; max: number },
    whole = false,
  ): number | null => {
    const row = given.get(name);
    if (row === undefined || row.value.trim() === '') return null;
    const value = Number(row.value);
    if (value >= min && value <= max && (!whole || Number.isInteger(value))) {
      note(name, row.value.trim(), false);
      return value;
    }
    complain(row, `a ${whole ? 'whole ' : ''}number from ${min} to ${max}`, SETTINGS[name].initial);
    return null;
  };
  const unusable: { name: GearNumber; words: string }[] = [];
  /** A number of the gear; nothing takes the place of one that cannot be used. */
  const ofGear = (name: GearNumber): number | null => {
    const row = given.get(name);
    const value = row?.value.trim() ?? '';
    if (row === undefined || value === '') return null;
    const fault = gearFault(name, value);
    if (fault === null) {
      note(name, value, false);
      return Number(value);
    }
    const { min, max, whole } = GEAR_NUMBERS[name];
    complain(row, `a ${whole ? 'whole ' : ''}number from ${min} to ${max}`, '', 'no load is computed');
    unusable.push({ name, words: fault });
    return null;
  };
  const oldest = given.get('curve_oldest_cal_bp')?.value.trim() ?? '';
  const isOn = (name: 'present_constraint' | 'outliers' | 'depth_order'): boolean => {
    const value = text(name);
    if (value !== 'on' && value !== 'off') complain(given.get(name)!, 'on or off', 'on');
    return value !== 'off';
  };
  /** Names separated by ;. */
  const named = (name: SettingName): string[] => listedIn(text(name));
  /** Ages separated by ;, each once; what is none is left out, and so are those that are too many. */
  const sectionAges = (): number[] => {
    const { youngest, oldest, most } = SECTION_AGES;
    const read = named('section_ages').map(readSectionAge);
    const usable = [...new Set(read.filter((age) => age !== null))];
    const row = given.get('section_ages');
    if (row !== undefined && (read.includes(null) || usable.length > most))
      complain(
        row,
        `up to ${most} ages from ${youngest.toString().replace('-', '−')} to ${oldest} cal BP, separated by ;`,
        '',
        usable.length === 0 ? 'they are chosen' : 'only the others are used',
      );
    return usable.slice(0, most);
  };
  const oneOf = <const Choice extends string>(name: SettingName, of: readonly Choice[]): Choice => {
    const value = text(name);
    const found = of.find((c) => c === value);
    if (found === undefined) complain(given.get(name)!, of.join(', '), SETTINGS[name].initial);
    return found ?? (SETTINGS[name].initial as Choice);
  };
  const hasTie = isOn('present_constraint');
  const hasOutliers = isOn('outliers');
  const depth_order = isOn('depth_order');
  const positive = { min: 1e-6, max: 1e6 };
  const kind = oneOf('rate_model', ['smooth', 'stepwise', 'constant']);
  const asked = said(
    'rate_changes',
    { min: kind === 'stepwise' ? 1 : 0, max: kind === 'constant' ? 0 : 4 },
    true,
  );
  const changes = asked ?? (kind === 'stepwise' ? 1 : 0);
  const jump_sd_m = number('rate_jump_m', { min: 0, max: 100 });
  if (jump_sd_m > 0 && changes === 0)
    complain(
      given.get('rate_jump_m')!,
      '0, or a rate with 1 change or more: without changes nothing jumps',
      '0',
    );
  const rate_model = {
    ...SMOOTH_RATE,
    kind,
    changes,
    jump_sd_m: changes === 0 ? 0 : jump_sd_m,
    slowing_mm_yr_ka: number('rate_slowing_mm_yr_ka', { min: 0, max: 100 }),
  };

  // No number of the results depends on what the gear list assumes: only what cannot be used is said.
  for (const name of Object.keys(GEAR_ASSUMPTIONS) as GearAssumption[]) {
    const row = given.get(name);
    if (row === undefined || assumptionFault(name, row.value) === null) continue;
    const { min, max, initial } = GEAR_ASSUMPTIONS[name];
    complain(row, `a number from ${min} to ${max}`, initial);
  }

  // read where lengths and positions are; listed here, so that whoever types the next one knows it
  text('length_unit');
  text('position_grid');
  const settings: ComputationSettings = {
    name: text('name'),
    age_depth: named('age_depth'),
    edge_inside: named('edge_inside'),
    section_ages: sectionAges(),
    correlation_by: named('correlation_by').map((name) => name.toLowerCase()),
    correlation_margin: said('correlation_margin', { min: 0, max: 100 }) ?? correlationDefaults.clear_margin,
    correlation_years_per_m:
      said('correlation_years_per_m', { min: 0, max: 1e5 }) ?? correlationDefaults.years_per_m,
    datum: text('datum'),
    curve_sites: readSites(text('curve_sites')),
    seed: number('seed', { min: 0, max: power(2, 32), whole: true }),
    clearance_margin_m: number('clearance_margin_m', { min: 0.05, max: 5 }),
    sounding_sigma_m: number('sounding_sigma_m', { min: 0.001, max: 1 }),
    cable_mark_sigma_m: number('cable_mark_sigma_m', { min: 0.001, max: 1 }),
    inclination_percent: number('inclination_percent', { min: 0, max: 20 }),
    depth_draws: number('depth_draws', { min: 100, max: 10000, whole: true }),
    layer_contrast: said('layer_contrast', { min: 0.05, max: 5 }),
    grain_size_scale: chosen('grain_size_scale', ['wentworth', 'iso_14688']),
    by_passing: chosen('by_passing', ['on', 'off']) === 'on',
    plug_friction: chosen('plug_friction', ['on', 'off']) === 'on',
    youngest_cal_bp: number('curve_youngest_cal_bp', { min: -100, max: 50000 }),
    oldest_cal_bp: oldest === '' ? null : number('curve_oldest_cal_bp', { min: 0, max: 50000 }),
    step_yr: number('curve_step_yr', { min: 1, max: 5000 }),
    present_constraint_sd_m: hasTie ? number('present_constraint_sd_m', { min: 0.001, max: 10 }) : null,
    compare_rates: chosen('compare_rates', ['on', 'off']) === 'on',
    curve: {
      priors: {
        level_sd_m: number('prior_level_sd_m', positive),
        rate_mean_mm_yr: number('prior_rate_mean_mm_yr', { min: -1000, max: 1000 }),
        rate_sd_scale_mm_yr: number('prior_rate_sd_mm_yr', positive),
        length_median_ka: number('prior_length_ka', positive),
        length_log_sd: number('prior_length_log_sd', positive),
      },
      rate_model,
      extra_scatter_m: number('extra_scatter_m', { min: 0, max: 100 }),
      outliers: hasOutliers
        ? {
            ...DEFAULT_OUTLIERS,
            age_probability: number('date_outlier_percent', { min: 0, max: 50 }) / 100,
            height_probability: number('height_outlier_percent', { min: 0, max: 50 }) / 100,
          }
        : null,
      depth_order,
      burial_percent: number('burial_percent', { min: 0, max: 100 }) || null,
      intervals: intervals(given.get('intervals'), complain),
      age_range_cal_bp: { youngest: -80, oldest: number('oldest_age_cal_bp', { min: 100, max: 55000 }) },
      seed: 0,
      chains: number('chains', { min: 1, max: 64, whole: true }),
      draws: number('draws', { min: 100, max: 100000, whole: true }),
    },
    dose_factors: chosen('dose_factors', DOSE_FACTOR_LABELS),
    water_outside: chosen('water_outside', ['fresh', 'sea']),
    plug_kind: chosen('plug_kind', Object.keys(CRITICAL_GRADIENTS) as PlugKind[]),
    pulling: {
      parts: ofGear('line_parts') ?? 1,
      sheaves: ofGear('line_sheaves'),
      bearing: chosen('line_bearing', ['plain', 'roller']),
      hanging_kg: ofGear('hanging_kg') ?? 0,
      rated_line_kn: ofGear('rated_line_kn'),
      rated_hook_kn: ofGear('rated_hook_kn'),
      rated_head_kn: ofGear('rated_head_kn'),
      unusable,
    },
    listed,
  };
  settings.curve = { ...settings.curve, seed: settings.seed };
  for (const name of Object.keys(DATE_PLAN) as (keyof typeof DATE_PLAN)[]) said(name, DATE_PLAN[name]);
  if (given.has('intervals')) note('intervals', given.get('intervals')!.value, false);
  return { settings, problems };
}

function intervals(
  row: Row<'settings'> | undefined,
  complain: (row: Row<'settings'>, expected: string, initial: string) => void,
): CurveSettings['intervals'] {
  if (row === undefined || row.value.trim() === '') return [];
  const found: { older_cal_bp: number; younger_cal_bp: number }[] = [];
  for (const word of row.value.split(';')) {
    const ends = /^\s*(-?[\d.]+)\s*[-–]\s*(-?[\d.]+)\s*$/.exec(word);
    const older_cal_bp = Number(ends?.[1]);
    const younger_cal_bp = Number(ends?.[2]);
    if (older_cal_bp > younger_cal_bp) found.push({ older_cal_bp, younger_cal_bp });
    else complain(row, 'OLDER-YOUNGER in cal BP, separated by ;, e.g. 8000-7000; 7000-6000', '');
  }
  return found;
}
