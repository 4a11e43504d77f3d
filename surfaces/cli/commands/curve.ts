/** `stillstand curve`: sea level and its rate from a plain table of dated points. */
import { problem } from '@stillstand/campaign/problems';
import { sitesNamed } from '@stillstand/campaign/results';
import { readSites } from '@stillstand/campaign/settings';
import { chooseCurves, countedSites } from '@stillstand/campaign/steps';
import {
  AGAINST_DEPTHS,
  abruptChange,
  changesInWords,
  datesAgainstDepths,
  errorsThatMoved,
  isReached,
  levelOnOnePoint,
  nothingFixes,
  outliersInWords,
  PROBABLY_WRONG,
  pointsThatDisagree,
  rateModelInWords,
  rateName,
  ratesVerdict,
  SHARED_MOVED,
  saidOf,
  shortestSwing,
  UNREACHED,
} from '@stillstand/output/words';
import type { Band } from '@stillstand/science/base';
import type { AgeConstraint } from '@stillstand/science/clocks';
import {
  type CurvePoint,
  type CurveResult,
  type CurveSettings,
  compareRates,
  computeCurve,
  DEFAULT_CURVE_SETTINGS,
  DEFAULT_OUTLIERS,
  disagreeing,
  loneEnds,
  type RateModel,
  type RatesCompared,
  type SampleInHole,
  surelyBelow,
} from '@stillstand/science/curve';
import { AGAINST_OPTIONS, against, readAgainst, sayDifference } from '../against.ts';
import { type Command, type ExitCode, oneTable, type Words, WrongUse } from '../command.ts';
import { GAUGE_OPTIONS, type GaugeOfCurve, readGauge, sayGauge } from '../gauge.ts';
import { intervalsOf, numbersOf } from '../intervals.ts';
import {
  isUndated,
  layerOfRow,
  NEXT_OPTIONS,
  nextAsJson,
  planOf,
  type StatedLayer,
  sayNext,
} from '../next-dates.ts';
import { plainAge } from '../plain-age.ts';
import { type PlainRow, type PlainTable, readPlainTable } from '../plain-table.ts';
import { sayPointsAmongOthers } from '../points-among-others.ts';
import { answersTo, QUESTION_OPTIONS, questionsOf, sayAnswers } from '../questions.ts';
import { print, printError, progress, sayJson, sayProblems, sayTable } from '../say.ts';
import { readTakeOff, sayRemaining, TAKE_OFF_OPTIONS, takeOff } from '../take-off.ts';
import { inTheirTide, readTideRanges, TIDE_RANGE_OPTIONS } from '../tide-ranges.ts';

const KINDS = ['index', 'terrestrial', 'marine'] as const;

const PRIORS = DEFAULT_CURVE_SETTINGS.priors;
const OUTLIERS = DEFAULT_OUTLIERS;

export const curve: Command = {
  name: 'curve',
  summary: 'Computes relative sea level and its rate from a table of dated points.',
  usage: ['curve POINTS.csv [options] [--json]'],
  options: {
    sites: {
      type: 'string',
      value: 'LIST|all',
      about: 'sites that share a curve, separated by ;, where POINTS.csv has a column site; see below',
    },
    ages: { type: 'string', value: 'LIST', about: 'ages to report, cal BP, separated by commas' },
    youngest: { type: 'string', value: 'YEARS', about: 'first age of an even grid, cal BP; 0 if not given' },
    oldest: { type: 'string', value: 'YEARS', about: 'last age of that grid; the oldest point if not given' },
    step: { type: 'string', value: 'YEARS', about: 'its step; 100 if not given' },
    intervals: {
      type: 'string',
      value: 'LIST',
      about: 'rates over these: OLDER-YOUNGER, cal BP, separated by commas',
    },
    tie: {
      type: 'string',
      value: 'on|off',
      about: 'sea level is 0 at the mid-year of the tidal epoch; needs --tie-year; off if not given',
    },
    'tie-year': { type: 'string', value: 'CE', about: 'mid-year of the tidal epoch' },
    'tie-sd': { type: 'string', value: 'M', about: '1 sigma of the tie; 0.05 if not given' },
    rate: {
      type: 'string',
      value: 'smooth|stepwise|constant',
      about: 'how the rate varies; stepwise: constant between changes; smooth if not given',
    },
    changes: {
      type: 'string',
      value: 'NUMBER',
      about:
        'changes of a stepwise rate, 1 to 4; 1 if not given. Of a smooth one the most breaks, 0 to 4; 0 if not given',
    },
    jump: {
      type: 'string',
      value: 'M',
      about: 'the level may jump at each change: 1 sd; 0, none, if not given',
    },
    slowing: {
      type: 'string',
      value: 'MM_YR_KA',
      about:
        'prior: how much larger the mean rate was a thousand years earlier, half-normal scale; 0, not, if not given',
    },
    compare: {
      type: 'boolean',
      about: 'compare models of the rate by their leave-one-out scores; up to a minute',
    },
    scatter: {
      type: 'string',
      value: 'M',
      about:
        'prior: how far index points scatter beyond their errors, half-normal scale; 0, not, if not given',
    },
    outliers: {
      type: 'string',
      value: 'on|off',
      about: 'any date and height may be wrong by more than its error says; on if not given',
    },
    'date-outliers': {
      type: 'string',
      value: 'PERCENT',
      about: `prior: dates that are outliers; ${100 * OUTLIERS.age_probability} if not given`,
    },
    'height-outliers': {
      type: 'string',
      value: 'PERCENT',
      about: `prior: heights that are outliers; ${100 * OUTLIERS.height_probability} if not given`,
    },
    order: {
      type: 'string',
      value: 'on|off',
      about: 'ages of a hole are in the order of their depths, where POINTS.csv has them; on if not given',
    },
    burial: {
      type: 'string',
      value: 'PERCENT',
      about: `prior: what compressible sediment below a sample lost, half-normal scale; ${DEFAULT_CURVE_SETTINGS.burial_percent} if not given, 0 for none`,
    },
    'level-sd': {
      type: 'string',
      value: 'M',
      about: `prior: 1 sd of the level at 1950; ${PRIORS.level_sd_m} if not given`,
    },
    'rate-mean': {
      type: 'string',
      value: 'MM_YR',
      about: `prior: mean of the rate; ${PRIORS.rate_mean_mm_yr} if not given`,
    },
    'rate-sd': {
      type: 'string',
      value: 'MM_YR',
      about: `prior: scale (half-normal) of the sd of the rate; ${PRIORS.rate_sd_scale_mm_yr} if not given`,
    },
    length: {
      type: 'string',
      value: 'KA',
      about: `prior: median (lognormal) of the correlation length; ${PRIORS.length_median_ka} if not given`,
    },
    'length-log-sd': {
      type: 'string',
      value: 'NUMBER',
      about: `prior: its log-sd; ${PRIORS.length_log_sd} if not given`,
    },
    'oldest-age': {
      type: 'string',
      value: 'YEARS',
      about: `no point is older than this, cal BP; ${DEFAULT_CURVE_SETTINGS.age_range_cal_bp.oldest} if not given`,
    },
    seed: {
      type: 'string',
      value: 'NUMBER',
      about: `seed of the random numbers; ${DEFAULT_CURVE_SETTINGS.seed} if not given`,
    },
    chains: {
      type: 'string',
      value: 'NUMBER',
      about: `chains; ${DEFAULT_CURVE_SETTINGS.chains} if not given`,
    },
    draws: {
      type: 'string',
      value: 'NUMBER',
      about: `kept draws of each chain; ${DEFAULT_CURVE_SETTINGS.draws} if not given`,
    },
    ...QUESTION_OPTIONS,
    ...NEXT_OPTIONS,
    ...AGAINST_OPTIONS,
    ...TAKE_OFF_OPTIONS,
    ...TIDE_RANGE_OPTIONS,
    ...GAUGE_OPTIONS,
  },
  more: [
    'POINTS.csv has the columns id, kind (index, terrestrial, marine), rsl_m, rsl_sigma_m (1 sigma) and either',
    'age_cal_bp, age_sigma_yr or c14_age, c14_error, curve and, if wanted, offset, offset_sd; and, if wanted, group',
    'and group_sigma_m: a height error that all points of the group share. Rates are mm/yr, positive rising.',
    'Further columns, each optional: half_range_m and lowering_m of an index point (half the indicative range; scale of a',
    'lowering by compaction), compressible_m (sediment below the sample that its load may have shortened, one share a',
    'hole), delta_r_group (dates that share the error of one offset), age_systematic_group and age_systematic_yr (ages measured',
    'together, and the part of age_sigma_yr that they share), and hole, depth_m, thickness_m: in a hole the lower',
    'of two samples that do not overlap is the older.',
    'With --tide-ranges each point needs tide_level_above_mean_m: height of the tide level in its reference water level',
    'above mean sea level today. rsl_m and half_range_m are those by today’s tide.',
    'A column site keeps coasts apart: the curve is of the site with the most index points, the first of those with as',
    'many, unless --sites names others. Points without a site count as one site.',
    'With --next an index point without an age is a layer that waits for a date; a column price gives the price of its own.',
    'Each question is answered from the draws of the curve, with the probability that it happened at all where it may',
    'not have. The older half of what is asked comes first; rates below a value are the rate itself, not a mean.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const path = oneTable(words, 'points');
  const table = await readPlainTable(path, ['id', 'kind', 'rsl_m', 'rsl_sigma_m']);
  const ranges = await readTideRanges(words, table);
  const read: { point: CurvePoint; site: string | null }[] = [];
  const inHoles: SampleInHole[] = [];
  const stated: StatedLayer[] = [];
  const isNext = words.flag('next');
  const ids = new Set<string>();
  /** Sigma of each group, metres, as first stated. */
  const groups = new Map<string, number>();
  for (const row of table.rows) {
    const id = row.text('id');
    if (ids.has(id))
      row.problem('id', id, 'a label of its own', 'Rename one of the two; the row is left out.');
    else {
      ids.add(id);
      const before = table.problems.length;
      if (isNext && isUndated(row)) {
        const layer = layerOfRow(row);
        if (layer !== null && table.problems.length === before) stated.push(layer);
        continue;
      }
      const inHole = inHoleOf(row);
      const point = await pointOf(row, table, groups);
      const scaled = point === null ? null : inTheirTide(point, row, ranges);
      if (scaled === null || table.problems.length > before) continue;
      read.push({ point: scaled, site: row.text('site') || null });
      if (inHole !== null) inHoles.push(inHole);
    }
  }
  const below = surelyBelow(inHoles);
  const ordered = read.map(({ point, site }) => ({
    point: { ...point, older_below: below.get(point.id) ?? [] },
    site,
  }));
  const { gauge, problems: gaugeProblems } = await readGauge(words);
  const { sites, points: samples } = ofTheSites(words, ordered, table);
  const points = [...samples, ...(gauge?.points ?? [])];
  if (points.length === 0) {
    const code = sayProblems([...table.problems, ...ranges.problems(), ...gaugeProblems]);
    printError(`error: ${table.name}: no usable point; a curve needs at least one.`);
    return code === 0 ? 1 : code;
  }
  const settings = settingsOf(words, points);
  const asked = questionsOf(words, settings.intervals);
  const plan = planOf(words, settings.intervals.length > 0);
  const layers = layersOfSites(stated, sites, table);
  const other = await readAgainst(words);
  const prediction = await readTakeOff(words);
  const result = computeCurve(points, settings, progress('sea level'));
  const { asked: of, problems: predictionProblems } = takeOff(result, prediction);
  const { answers, problems } = of === null ? NOTHING : answersTo(of, asked);
  const { difference, problems: othersProblems } = of === null ? NOTHING : against(words, of, other);
  const compared = words.flag('compare')
    ? compareRates(points, settings, progress('models of the rate'))
    : null;
  const { converged } = result.diagnostics;
  const remains = of === null || of === result ? null : of;
  if (words.flag('json'))
    sayJson({
      ...asJson(result, sites, gauge),
      remaining: remains === null ? null : remainingAsJson(remains),
      answers,
      difference,
      ...(compared === null ? {} : { rates_compared: compared }),
      ...(plan === null ? {} : { next: nextAsJson(result, layers, plan, compared ?? []) }),
    });
  else {
    if (gauge !== null) sayGauge(gauge);
    sayCurve(result, new Map(points.map((point) => [point.id, point.height_m])));
    if (remains !== null) sayRemaining(remains, prediction.name!);
    sayAnswers(answers, converged);
    if (difference !== null) sayDifference(difference, converged);
    if (compared !== null) sayCompared(compared);
    if (plan !== null) sayNext(result, layers, plan, compared ?? []);
  }
  return sayProblems([
    ...table.problems,
    ...ranges.problems(),
    ...gaugeProblems,
    ...predictionProblems,
    ...problems,
    ...othersProblems,
  ]);
}

/** Layers of other sites show another sea: named, and not ranked. */
function layersOfSites(
  stated: readonly StatedLayer[],
  sites: readonly (string | null)[],
  table: PlainTable,
): StatedLayer[] {
  const others = stated.filter(({ site }) => !sites.includes(site));
  if (others.length > 0)
    table.problems.push(
      problem({
        severity: 'warning',
        code: 'layers-of-other-sites',
        table: table.name,
        column: 'site',
        found: others.map(({ name }) => name).join('; '),
        expected: `layers of ${sitesNamed(sites)}`,
        fix: 'Write --sites with their site, or --sites all; these layers are not ranked.',
      }),
    );
  return stated.filter(({ site }) => sites.includes(site));
}

/** Where nothing can be asked. */
const NOTHING = { answers: [], difference: null, problems: [] };

/** The points of the sites that share the curve; a problem names the others. */
function ofTheSites(
  words: Words,
  read: readonly { point: CurvePoint; site: string | null }[],
  table: PlainTable,
): { sites: readonly (string | null)[]; points: CurvePoint[] } {
  const asked = readSites(words.text('sites') ?? '');
  const { curves, found, unknown } = chooseCurves(
    read.map(({ point: { kind }, site }) => ({ kind, site })),
    asked,
    read.flatMap(({ site }) => (site === null ? [] : [{ site, curve: null }])),
  );
  const sites = curves[0]?.sites ?? [];
  if (unknown.length > 0) {
    const known = sitesNamed(found.map(({ site }) => site));
    throw new WrongUse(
      `--sites: no usable point has the site ${unknown.join(', ')}; expected ${known} or all`,
    );
  }
  const points = read.filter(({ site }) => sites.includes(site)).map(({ point }) => point);
  const others = found.filter(({ site }) => !sites.includes(site));
  if (others.length > 0 && asked === null) {
    table.problems.push(
      problem({
        severity: 'warning',
        code: 'points-of-other-sites',
        table: table.name,
        column: 'site',
        found: countedSites(found),
        expected: 'points of one site, or --sites',
        fix: `Write --sites with the sites that share a curve, or --sites all. The curve is of ${sitesNamed(sites)} alone; ${read.length - points.length} points of ${sitesNamed(others.map(({ site }) => site))} are left out.`,
      }),
    );
  }
  return { sites, points };
}

async function pointOf(
  row: PlainRow,
  table: PlainTable,
  groups: Map<string, number>,
): Promise<CurvePoint | null> {
  const before = table.problems.length;
  const kind = KINDS.find((k) => k === row.text('kind'));
  if (kind === undefined) {
    row.problem('kind', row.text('kind'), KINDS.join(', '), 'Say what the point is; the row is left out.');
  }
  const height_m = row.needed('rsl_m');
  const sigma_m = row.needed('rsl_sigma_m', { above: 0 });
  const group = row.text('group');
  const groupSigma = group === '' ? 0 : (row.needed('group_sigma_m', { min: 0 }) ?? 0);
  const first = groups.get(group);
  if (first !== undefined && first !== groupSigma) {
    const typed = row.text('group_sigma_m');
    const fix = 'One error that is shared has one size; the row is left out.';
    row.problem('group_sigma_m', typed, `${first}, as above in group ${group}`, fix);
  }
  if (group !== '') groups.set(group, first ?? groupSigma);
  const deltaGroup = row.text('delta_r_group');
  if (deltaGroup !== '') {
    // One offset has one error; kept beside the height groups under a name that no height group has.
    const key = `delta_r_group ${deltaGroup}`;
    const sd = row.needed('offset_sd', { above: 0 }) ?? 0;
    const firstSd = groups.get(key) ?? sd;
    groups.set(key, firstSd);
    if (sd !== firstSd)
      row.problem(
        'offset_sd',
        row.text('offset_sd'),
        `${firstSd}, as above in ${key}`,
        'One error that is shared has one size; the row is left out.',
      );
  }
  const age = await plainAge(row);
  const half_range_m = row.number('half_range_m', { min: 0 }) ?? 0;
  const lowering_m = row.number('lowering_m', { min: 0 }) ?? 0;
  const compressible_m = row.number('compressible_m', { min: 0 }) ?? 0;
  if (compressible_m > 0 && row.text('hole') === '')
    row.problem(
      'hole',
      '',
      'the hole it is in',
      'What burial took is learnt hole by hole; the row is left out.',
    );
  const burial = compressible_m > 0 ? { hole: row.text('hole'), compressible_m } : null;
  if (kind !== undefined && kind !== 'index')
    for (const [column, value] of [
      ['half_range_m', half_range_m],
      ['lowering_m', lowering_m],
    ] as const)
      if (value > 0)
        row.problem(column, row.text(column), 'nothing, or 0', 'A limit has neither; the row is left out.');
  if (table.problems.length > before) return null;
  if (kind === undefined || height_m === null || sigma_m === null || age === null) return null;
  const shared = group === '' ? [] : [{ group, sigma_m: groupSigma }];
  return { id: row.text('id'), kind, height_m, sigma_m, half_range_m, lowering_m, shared, age, burial };
}

/** Where a sample lay in its hole; null where the row says nothing of it. Depths are taken as they are written. */
function inHoleOf(row: PlainRow): SampleInHole | null {
  const hole = row.text('hole');
  const depth_m = row.number('depth_m');
  const half = (row.number('thickness_m', { min: 0 }) ?? 0) / 2;
  if (hole === '' || depth_m === null) return null;
  const at = (depth: number): Float64Array => Float64Array.of(depth);
  return { id: row.text('id'), hole, top_m: at(depth_m - half), base_m: at(depth_m + half) };
}

function settingsOf(words: Words, points: readonly CurvePoint[]): CurveSettings {
  const base = DEFAULT_CURVE_SETTINGS;
  const above0 = { above: 0 };
  const youngest = words.number('youngest') ?? 0;
  const oldest = words.number('oldest') ?? Math.max(youngest + 100, oldestAge(points));
  const step = words.number('step', above0) ?? 100;
  if (oldest <= youngest) throw new WrongUse(`--oldest ${oldest} must be above --youngest ${youngest}`);
  if ((oldest - youngest) / step > 5000)
    throw new WrongUse('--step: more than 5000 ages; take a longer step');
  const even = Array.from(
    { length: Math.floor((oldest - youngest) / step + 1e-9) + 1 },
    (_, i) => youngest + i * step,
  );
  const priors = base.priors;
  const ages_cal_bp = words.text('ages') === undefined ? even : numbersOf('ages', words.text('ages')!);
  return {
    ...base,
    priors: {
      level_sd_m: words.number('level-sd', above0) ?? priors.level_sd_m,
      rate_mean_mm_yr: words.number('rate-mean') ?? priors.rate_mean_mm_yr,
      rate_sd_scale_mm_yr: words.number('rate-sd', above0) ?? priors.rate_sd_scale_mm_yr,
      length_median_ka: words.number('length', above0) ?? priors.length_median_ka,
      length_log_sd: words.number('length-log-sd', above0) ?? priors.length_log_sd,
    },
    rate_model: rateModelOf(words, ages_cal_bp),
    extra_scatter_m: words.number('scatter', { min: 0, max: 100 }) ?? 0,
    outliers: outliersOf(words),
    depth_order: onOrOff(words, 'order', 'on'),
    burial_percent: (words.number('burial', { min: 0, max: 100 }) ?? base.burial_percent) || null,
    tie: tieOf(words),
    ages_cal_bp,
    intervals: intervalsOf('intervals', words.text('intervals') ?? ''),
    age_range_cal_bp: {
      ...base.age_range_cal_bp,
      oldest: words.number('oldest-age', above0) ?? base.age_range_cal_bp.oldest,
    },
    seed: words.number('seed', { integer: true }) ?? base.seed,
    chains: words.number('chains', { min: 1, max: 64, integer: true }) ?? base.chains,
    draws: words.number('draws', { min: 100, max: 1e6, integer: true }) ?? base.draws,
  };
}

const RATES = ['smooth', 'stepwise', 'constant'] as const;

/** Changes may lie anywhere among the reported ages. */
function rateModelOf(words: Words, ages_cal_bp: readonly number[]): RateModel {
  const word = words.text('rate') ?? 'smooth';
  const kind = RATES.find((each) => each === word);
  if (kind === undefined) throw new WrongUse(`--rate: found “${word}”, expected ${RATES.join(', ')}`);
  const range = { min: kind === 'stepwise' ? 1 : 0, max: kind === 'constant' ? 0 : 4, integer: true };
  const changes = words.number('changes', range) ?? range.min;
  const jump_sd_m = words.number('jump', { min: 0, max: 100 }) ?? 0;
  if (jump_sd_m > 0 && changes === 0)
    throw new WrongUse(`--jump: a ${kind} rate without changes has none; expected --changes too`);
  const from = Math.max(...ages_cal_bp);
  const to = Math.min(...ages_cal_bp);
  if (changes > 0 && from === to)
    throw new WrongUse('--changes: one reported age leaves no time for a change; expected two ages or more');
  return {
    kind,
    changes,
    changes_from_cal_bp: from,
    changes_to_cal_bp: to,
    jump_sd_m,
    slowing_mm_yr_ka: words.number('slowing', { min: 0, max: 100 }) ?? 0,
  };
}

function onOrOff(words: Words, option: string, usual: 'on' | 'off'): boolean {
  const word = words.text(option) ?? usual;
  if (word !== 'on' && word !== 'off') throw new WrongUse(`--${option}: found “${word}”, expected on or off`);
  return word === 'on';
}

function outliersOf(words: Words): CurveSettings['outliers'] {
  const isOn = onOrOff(words, 'outliers', 'on');
  const share = (option: string, usual: number): number =>
    (words.number(option, { min: 0, max: 50 }) ?? 100 * usual) / 100;
  const age_probability = share('date-outliers', OUTLIERS.age_probability);
  const height_probability = share('height-outliers', OUTLIERS.height_probability);
  return !isOn ? null : { ...OUTLIERS, age_probability, height_probability };
}

/** A table of points states no tidal epoch, so the tie is off unless its year is given. */
function tieOf(words: Words): CurveSettings['tie'] {
  if (!onOrOff(words, 'tie', 'off')) return null;
  const year_ce = words.number('tie-year', { min: 1700, max: 2100 });
  if (year_ce === undefined)
    throw new WrongUse('--tie on: expected --tie-year too, the mid-year of the tidal epoch');
  return { year_ce, sd_m: words.number('tie-sd', { above: 0 }) ?? 0.05 };
}

function oldestAge(points: readonly CurvePoint[]): number {
  const ages = points.map(({ age }) => {
    if (age.kind === 'normal') return age.mean_cal_bp + 2 * age.sd_yr;
    return age.kind === 'radiocarbon' ? calendarGuess(age) : 0;
  });
  return Math.ceil(Math.max(...ages) / 100) * 100;
}

/** Oldest year at which the curve still runs below the age and twice its error. */
function calendarGuess(age: AgeConstraint & { kind: 'radiocarbon' }): number {
  const limit = age.c14_age - age.offset_yr + 2 * (age.error_yr + age.offset_sd_yr);
  let i = age.curve.c14_age.length - 1;
  while (i > 0 && age.curve.c14_age[i]! > limit) i -= 1;
  return age.curve.from_cal_bp + i;
}

const band = (b: Band): object =>
  Object.fromEntries(Object.entries(b).map(([name, values]) => [name, Array.from(values as Float64Array)]));

const remainingAsJson = ({ ages_cal_bp, level_m, rate_mm_yr, intervals }: CurveResult): object => ({
  ages_cal_bp: Array.from(ages_cal_bp),
  rsl_m: band(level_m),
  rate_mm_yr: band(rate_mm_yr),
  intervals: intervals.map(({ older_cal_bp, younger_cal_bp, rate_mm_yr: rate }) => ({
    older_cal_bp,
    younger_cal_bp,
    rate_mm_yr: rate,
  })),
});

function asJson(result: CurveResult, sites: readonly (string | null)[], gauge: GaugeOfCurve | null): object {
  const { converged } = result.diagnostics;
  return {
    sites,
    converged,
    disagreeing: disagreeing(result),
    ends_on_one_point: loneEnds(result),
    ages_cal_bp: Array.from(result.ages_cal_bp),
    rsl_m: band(result.level_m),
    rate_mm_yr: band(result.rate_mm_yr),
    intervals: result.intervals.map(({ older_cal_bp, younger_cal_bp, rate_mm_yr }) => ({
      older_cal_bp,
      younger_cal_bp,
      rate_mm_yr,
      converged,
      index_point_within: isReached(result, { older_cal_bp, younger_cal_bp }),
    })),
    points: result.points,
    depth_order: result.depth_order,
    groups: result.groups,
    offsets: result.offsets,
    burials: result.burials,
    gauge: gauge?.means ?? null,
    rate_sd_mm_yr: result.rate_sd_mm_yr,
    length_ka: result.length_ka,
    slowing_mm_yr_ka: result.slowing_mm_yr_ka,
    scatter_m: result.scatter_m,
    changes: result.changes,
    breaks_p: result.breaks_p,
    one_break: result.one_break,
    settings: result.settings,
    diagnostics: result.diagnostics,
  };
}

function sayCompared(compared: RatesCompared): void {
  print('Models of the rate by leave-one-out score, the best first; none is chosen.');
  sayTable([
    ['model', 'score', 'behind', '2 se', ''],
    ...compared.map((each) => [
      rateName(each.rate_model),
      each.score.toFixed(1),
      each.behind?.toFixed(1) ?? '',
      each.behind_se === null ? '' : (2 * each.behind_se).toFixed(1),
      saidOf(each),
    ]),
  ]);
  print(ratesVerdict(compared));
}

function sayCurve(result: CurveResult, rsl_m: ReadonlyMap<string, number>): void {
  const signed = (value: number, decimals: number): string => {
    const digits = Math.abs(value).toFixed(decimals);
    return Number(digits) === 0 ? digits : `${value < 0 ? '−' : '+'}${digits}`;
  };
  const { ages_cal_bp, level_m, rate_mm_yr, diagnostics } = result;
  // A line is what is quoted: each says so by itself.
  const unsettled = diagnostics.converged ? [] : ['NOT CONVERGED'];
  sayTable([
    ['cal BP', 'RSL, m', '95 %', 'rate, mm/yr', '95 %', ...unsettled.map(() => '')],
    ...Array.from(ages_cal_bp, (age, i) => [
      age.toFixed(0),
      signed(level_m.median[i]!, 2),
      `${signed(level_m.lower95[i]!, 2)} to ${signed(level_m.upper95[i]!, 2)}`,
      signed(rate_mm_yr.median[i]!, 2),
      `${signed(rate_mm_yr.lower95[i]!, 2)} to ${signed(rate_mm_yr.upper95[i]!, 2)}`,
      ...unsettled,
    ]),
  ]);
  for (const interval of result.intervals) {
    const rate = interval.rate_mm_yr;
    print(
      `${interval.older_cal_bp} to ${interval.younger_cal_bp} cal BP: ${signed(rate.median, 2)} mm/yr ` +
        `(95 % ${signed(rate.lower95, 2)} to ${signed(rate.upper95, 2)})` +
        `${unsettled.map((word) => ` (${word})`).join('')}${isReached(result, interval) ? '' : `. ${UNREACHED}`}`,
    );
  }
  print(
    diagnostics.converged
      ? `Converged: R-hat at most ${diagnostics.rhat_max.toFixed(3)}, at least ${diagnostics.ess_bulk_min.toFixed(0)} effective draws.`
      : `NOT CONVERGED: ${diagnostics.remarks.join(' ')}`,
  );
  const { kind, changes, slowing_mm_yr_ka } = result.settings.rate_model;
  if (kind !== 'smooth' || changes > 0 || slowing_mm_yr_ka > 0)
    print(`Model: ${rateModelInWords(result.settings.rate_model)}.`);
  for (const line of changesInWords(result))
    print(`${line}${unsettled.map((word) => ` (${word})`).join('')}.`);
  const abrupt = abruptChange(result);
  if (abrupt !== null) print(`${abrupt}.`);
  const swing = shortestSwing(result);
  if (swing !== null) print(`${swing}.`);
  const free = nothingFixes(result);
  if (free !== null) print(free);
  for (const { hole, thickest_m, lowering_m } of result.burials)
    print(
      `Hole ${hole}: a sample above ${thickest_m.toFixed(1)} m of compressible sediment lies lower by ${lowering_m.median.toFixed(2)} m, 95 % ${lowering_m.lower95.toFixed(2)} to ${lowering_m.upper95.toFixed(2)}${unsettled.map((word) => ` (${word})`).join('')}.`,
    );
  const against = datesAgainstDepths(result);
  if (against !== null) print(`${AGAINST_DEPTHS}: ${against}.`);
  const moved = errorsThatMoved(result);
  if (moved !== null) print(`${SHARED_MOVED}: ${moved}.`);
  const outliers = outliersInWords(result);
  if (outliers !== null) print(`${PROBABLY_WRONG}: ${outliers}.`);
  const disagree = pointsThatDisagree(result);
  print(
    disagree === null
      ? 'No point disagrees with the others.'
      : `Points disagree with the others: ${disagree}.`,
  );
  for (const end of loneEnds(result)) print(levelOnOnePoint(end));
  sayPointsAmongOthers(result, rsl_m);
}
