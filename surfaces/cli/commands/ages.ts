/** `stillstand ages`: ages at depths of one hole, from its dates together. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { twoHistories } from '@stillstand/output/figures';
import { counted, printed, signed, years } from '@stillstand/output/words';
import { quantiles, randomStream } from '@stillstand/science/base';
import { sharingOf } from '@stillstand/science/clocks';
import {
  type AgeDepth,
  type AgeDepthInput,
  type AgeDepthSettings,
  ageDepth,
  ageDepthDefaults,
  ageDepthTogether,
  groupOfDoses,
  isProbableOutlier,
  sharedGroups,
} from '@stillstand/science/dating';
import { type Command, type ExitCode, oneTable, type Words, WrongUse } from '../command.ts';
import { type DatedDepth, datedDepths, inStates } from '../dated-depths.ts';
import { numbersOf, stretchesOf } from '../intervals.ts';
import { readPlainTable } from '../plain-table.ts';
import { print, progress, sayJson, sayProblems, sayTable } from '../say.ts';

const SEED = 1;
/** Fewer never reach the 400 effective draws that a chain is asked for. */
const LEAST_DRAWS = 200;
/** Of a hole, m. */
const DEEPEST = 200;

export const ages: Command = {
  name: 'ages',
  summary: 'Gives ages at depths of one hole, from all its dates together.',
  usage: [
    'ages TABLE.csv [--at 1.5,3,4.25] [--bottom 12.4] [--surface-year 2024] [--hiatus 3.1] [--bed 1.2-1.4] [--json]',
  ],
  options: {
    at: {
      type: 'string',
      value: 'DEPTHS',
      about: 'depths asked, m; twenty from the ground down if not given',
    },
    bottom: {
      type: 'string',
      value: 'M',
      about: 'depth of the hole, m; that of the deepest date if not given',
    },
    'surface-year': {
      type: 'string',
      value: 'YEAR',
      about: 'year CE in which the ground was last built up; if not given the top may be missing',
    },
    'surface-sd': { type: 'string', value: 'YEARS', about: '1 sigma of that year; 1 if not given' },
    hiatus: {
      type: 'string',
      value: 'DEPTHS',
      about: 'depths of erosional contacts, m: time may be missing there',
    },
    bed: {
      type: 'string',
      value: 'DEPTHS',
      about: 'beds laid down at once, as by a storm, top and base, m: they take no time',
    },
    seed: { type: 'string', value: 'NUMBER', about: `seed of the random numbers; ${SEED} if not given` },
    draws: {
      type: 'string',
      value: 'NUMBER',
      about: `kept draws of each of ${ageDepthDefaults.chains} chains; ${ageDepthDefaults.draws} if not given`,
    },
  },
  more: [
    'TABLE.csv has the columns lab_code, depth_m (below the ground) and either c14_age, c14_error, curve and, if wanted,',
    'offset, offset_sd; or age_cal_bp, age_sigma_yr. If wanted depth_sigma_m; status (rejected rows are not used);',
    'delta_r_group (dates that share the error of one offset), age_systematic_group and age_systematic_yr (ages measured',
    'together, and the part of their error they share): such an error is one. All others, and those of depths, are taken as',
    'independent between the dates. Errors are 1 sigma, ages cal BP (years before 1950 CE). Any date may be an outlier.',
    'Below the last date the ages are mostly what is believed beforehand.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const path = oneTable(words, 'dated depths');
  const asked = depthsOf(words, 'at');
  const hiatuses = depthsOf(words, 'hiatus');
  const bedsAsked = words.text('bed');
  const beds = bedsAsked === undefined ? [] : stretchesOf('bed', bedsAsked, DEEPEST);
  const surface = groundOf(words);
  const least = words.number('bottom', { above: 0, max: DEEPEST }) ?? 0;
  const settings = settingsOf(words);
  const seed = words.number('seed', { integer: true }) ?? SEED;
  const table = await readPlainTable(path, ['id', 'depth_m'], { id: 'lab_code' });
  const dated = await datedDepths(table);
  if (dated.length === 0) return sayProblems(table.problems);
  const made = computed(
    dated,
    { ...inStates(dated, hiatuses, beds, seed), surface, bottom_m: Math.max(least, deepestOf(dated)) },
    settings,
    seed,
  );
  if (made.kind === 'not_enough') return sayProblems([...table.problems, tooFew(table.name, made.reason)]);
  const foot = made.depth_m.at(-1)!;
  const at = (asked.length > 0 ? asked : evenly(foot)).map((depth_m) => ageAt(made, depth_m));
  const beyond = at.filter(({ median }) => !Number.isFinite(median)).map(({ depth_m }) => depth_m);
  const within = at.filter(({ median }) => Number.isFinite(median));
  const problems = [
    ...table.problems,
    ...(beyond.length === 0 ? [] : [outside(beyond, foot)]),
    ...(made.diagnostics.converged ? [] : [unsettled(table.name, made)]),
  ];
  if (words.flag('json')) sayJson(asJson(made, within));
  else sayAges(made, within, dated);
  return sayProblems(problems);
}

/** Errors that dates share are one where more than one date has them. */
function computed(
  dated: readonly DatedDepth[],
  input: AgeDepthInput,
  settings: AgeDepthSettings,
  seed: number,
): ReturnType<typeof ageDepth> {
  const stream = randomStream(seed);
  const onProgress = progress('ages against depth');
  const shared = sharingOf({ shared: dated.map(({ id, stated }) => ({ id, age: stated })), settings });
  if (sharedGroups([{ shared }]).length === 0) return ageDepth(input, settings, stream, onProgress);
  return ageDepthTogether([{ hole: 'hole', input, settings, shared }], stream, onProgress)[0]!;
}

/** Null: the top may be missing. */
function groundOf(words: Words): AgeDepthInput['surface'] {
  const year = words.number('surface-year', { min: -50_000, max: 2100 });
  const sd_yr = words.number('surface-sd', { min: 0, max: 10_000 }) ?? 1;
  return year === undefined ? null : { age_cal_bp: 1950 - year, sd_yr };
}

/** Depths in an option, none where it is not given. */
function depthsOf(words: Words, option: string): number[] {
  const list = words.text(option);
  const depths = list === undefined ? [] : numbersOf(option, list);
  const wrong = depths.find((depth_m) => depth_m < 0 || depth_m > DEEPEST);
  if (wrong !== undefined)
    throw new WrongUse(
      `--${option}: found ${wrong}, expected depths from 0 to ${DEEPEST} m below the ground`,
    );
  return depths;
}

function settingsOf(words: Words): AgeDepthSettings {
  return {
    ...ageDepthDefaults,
    draws: words.number('draws', { min: LEAST_DRAWS, max: 100_000, integer: true }) ?? ageDepthDefaults.draws,
  };
}

interface AgeAt {
  depth_m: number;
  median: number;
  lower68: number;
  upper68: number;
  lower95: number;
  upper95: number;
}

/** A date at the ground alone leaves no hole to be modelled: a centimetre of it. */
const deepestOf = (dated: readonly DatedDepth[]): number =>
  Math.max(0.01, ...dated.map(({ depth_m }) => depth_m));

const ASKED = 20;
const evenly = (foot: number): number[] =>
  Array.from({ length: ASKED + 1 }, (_, i) => Number(((foot * i) / ASKED).toFixed(3)));

/** Not numbers below the bottom. */
function ageAt({ agesAt, depth_m: depths }: AgeDepth, depth_m: number): AgeAt {
  const none = Number.NaN;
  if (depth_m > depths.at(-1)! + 1e-9)
    return { depth_m, median: none, lower68: none, upper68: none, lower95: none, upper95: none };
  const draws = agesAt(Math.min(depth_m, depths.at(-1)!));
  const [lower95, lower68, median, upper68, upper95] = quantiles(draws, [0.025, 0.16, 0.5, 0.84, 0.975]) as [
    number,
    number,
    number,
    number,
    number,
  ];
  return { depth_m, median, lower68, upper68, lower95, upper95 };
}

function asJson(
  { law, diagnostics, clocks, hiatuses, beds, shared, modes, depth_m }: AgeDepth,
  at: readonly AgeAt[],
): object {
  return {
    converged: diagnostics.converged,
    ages_cal_bp: at,
    dates: clocks.map(({ kind: _, ...clock }) => clock),
    hiatuses,
    beds,
    shared: shared.map(({ holes: _, ...error }) => error),
    // Histories apart from each other that remain possible, at depths of their own; none where it is one.
    modes: modes.map(({ probability, age_cal_bp, clocks: dates }) => ({
      probability,
      ages_cal_bp: Array.from(depth_m, (depth, i) => ({
        depth_m: depth,
        median: age_cal_bp.median[i]!,
        lower95: age_cal_bp.lower95[i]!,
        upper95: age_cal_bp.upper95[i]!,
      })),
      dates,
    })),
    law,
    diagnostics,
  };
}

function sayAges(made: AgeDepth, at: readonly AgeAt[], dated: readonly DatedDepth[]): void {
  const { converged } = made.diagnostics;
  const end = converged ? [] : ['NOT CONVERGED'];
  const between = (older: number, younger: number): string => `${years(older)} to ${years(younger)}`;
  print('Ages at depths, cal BP:');
  sayTable([
    ['depth, m', 'median', '68 %', '95 %', ...end.map(() => '')],
    ...at.map((each) => [
      printed(each.depth_m, 2),
      years(each.median),
      between(each.upper68, each.lower68),
      between(each.upper95, each.lower95),
      ...end,
    ]),
  ]);
  print('', 'Dates among each other:');
  const depths = new Map(dated.map(({ id, depth_m }) => [id, depth_m]));
  sayTable([
    ['', 'depth, m', 'alone, cal BP', 'its layer', '95 %', 'moved, sd', 'outlier, p', ...end.map(() => '')],
    ...made.clocks.map((clock) => [
      clock.id,
      printed(depths.get(clock.id)!, 2),
      `${years(clock.alone_cal_bp.mean)} ± ${years(clock.alone_cal_bp.sd)}`,
      years(clock.age_cal_bp.median),
      between(clock.age_cal_bp.upper95, clock.age_cal_bp.lower95),
      signed(clock.age_shift_sd, 1),
      `${printed(clock.outlier_probability, 2)}${isProbableOutlier(clock) ? ' likely' : ''}`,
      ...end,
    ]),
  ]);
  for (const { id, length_yr } of made.hiatuses)
    print(
      `Hiatus at ${id}: ${years(length_yr.median)} yr (95 % ${years(length_yr.lower95)} to ${years(length_yr.upper95)})`,
    );
  for (const { id, age_cal_bp } of made.beds)
    print(
      `Bed at ${id}, laid down at once: ${years(age_cal_bp.median)} cal BP (95 % ${between(age_cal_bp.upper95, age_cal_bp.lower95)})`,
    );
  for (const { group, sigma_yr, shift_yr, dates: sharers } of made.shared) {
    const doses = groupOfDoses(group);
    const unit = doses === null ? '14C yr' : 'yr';
    print(
      `${doses === null ? 'Reservoir offset' : 'Systematic error'} ${doses ?? group}, one for ${counted(sharers.length, 'date')}: ${signed(shift_yr.mean, 0)} ± ${printed(shift_yr.sd, 0)} ${unit} (1 sd; stated ±${printed(sigma_yr, 0)})`,
    );
  }
  if (made.modes.length > 1)
    print(`${twoHistories(made)}. The ages above are of both together; each by itself is in --json.`);
  print('Errors of single dates are ±1 sd. Ages are of the layers, from all dates together.');
}

const tooFew = (table: string, reason: string): Problem => {
  const isOfBeds = reason.startsWith('beds');
  return problem({
    severity: 'error',
    code: 'ages-too-few',
    table,
    found: reason.split(';')[0] ?? reason,
    expected: isOfBeds ? 'sediment that took time' : 'two dates at least, or one and the year of the ground',
    fix: isOfBeds ? 'Correct --bed.' : 'Date more depths, or give --surface-year.',
  });
};

const outside = (depths: readonly number[], foot: number): Problem =>
  problem({
    severity: 'error',
    code: 'depth-outside-hole',
    table: 'the command line',
    column: '--at',
    found: `${depths.map((m) => printed(m, 2)).join(', ')} m`,
    expected: `depths from 0 to ${printed(foot, 2)} m`,
    fix: 'Ask within the hole, or give its depth with --bottom. The other depths are answered.',
  });

const unsettled = (table: string, { diagnostics }: AgeDepth): Problem =>
  problem({
    severity: 'warning',
    code: 'ages-not-converged',
    table,
    found: diagnostics.remarks.slice(0, 3).join('; '),
    expected: 'chains that agree on every age',
    fix: 'Do not use the ages. Look for dates that contradict each other, or ask for more draws with --draws.',
  });
