/** `stillstand uranium`: activity ratios to 230Th/U ages. */
import { before1950 } from '@stillstand/science/dating';
import {
  type ActivityRatios,
  DECAY_CONSTANTS,
  type InitialThorium,
  isDecayConstantSet,
  openSystem,
  type UraniumAge,
  uraniumAge,
} from '@stillstand/science/uranium';
import { type Command, type ExitCode, oneTable, type Words, WrongUse } from '../command.ts';
import {
  countedFrom,
  foundIn,
  MEASURED_OPTIONS,
  measuredIn,
  sigmasOf,
  withError,
  withErrorOrNone,
  years,
} from '../measured-row.ts';
import { type PlainRow, readPlainTable } from '../plain-table.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';

type Answer = Omit<UraniumAge, 'kind' | 'doubts'> & {
  id: string;
  constants: string;
  /** Years before 1950 CE; null where the year of the measurement is not known. */
  before_1950_yr: number | null;
};

const SETS = Object.keys(DECAY_CONSTANTS).join(', ');

export const uranium: Command = {
  name: 'uranium',
  summary: 'Computes uranium-series ages from activity ratios.',
  usage: ['uranium TABLE.csv [--constants cheng2013] [--sigma 2] [--measured 2024] [--json]'],
  options: {
    constants: { type: 'string', value: 'NAME', about: `decay constants: ${SETS}; the first if not given` },
    ...MEASURED_OPTIONS,
  },
  more: [
    'TABLE.csv has the columns id, th230_u238, th230_u238_sd, u234_u238, u234_u238_sd (activity ratios as measured) and, if wanted,',
    'correlation (of the two errors), th230_th232 (activity), initial_thorium_ppm, initial_thorium_ppm_sd (atomic 230Th/232Th of the',
    'detritus in millionths, for a correction), material, measured_year. 4.4 ± 2.2 ppm is the usual initial value of bulk crust (from',
    'memory); none is taken unless it is stated. Rows of material coral have their initial δ234U compared with that of the sea.',
    'The age is that of a system that stayed closed; errors leave those of the decay constants out.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const path = oneTable(words, 'ratios');
  const constants = words.text('constants') ?? 'cheng2013';
  if (!isDecayConstantSet(constants))
    throw new WrongUse(`--constants: found “${constants}”, expected ${SETS}`);
  const sigmas = sigmasOf(words);
  const table = await readPlainTable(path, [
    'id',
    'th230_u238',
    'th230_u238_sd',
    'u234_u238',
    'u234_u238_sd',
  ]);
  const answers: Answer[] = [];
  for (const row of table.rows) {
    const before = table.problems.length;
    const ratios = ratiosOf(row, sigmas);
    const initial = initialOf(row, sigmas);
    const counted_from = measuredIn(row, words);
    if (ratios === null || table.problems.length > before) continue;
    const made = uraniumAge(ratios, DECAY_CONSTANTS[constants], initial);
    if (made.kind === 'not_dated') {
      table.problems.push(...made.findings.map((f) => foundIn(table.name, row, f, 'error')));
      continue;
    }
    const { kind: _, doubts, ...age } = made;
    const open = row.text('material').toLowerCase().includes('coral') ? openSystem(made) : null;
    for (const doubt of open === null ? doubts : [...doubts, open])
      table.problems.push(foundIn(table.name, row, doubt, 'warning'));
    const before_1950_yr = counted_from === null ? null : before1950(made.age_yr, counted_from);
    answers.push({ id: row.text('id'), constants, ...age, before_1950_yr });
  }
  if (words.flag('json')) sayJson(answers);
  else sayAges(answers, DECAY_CONSTANTS[constants].source);
  return sayProblems(table.problems);
}

function ratiosOf(row: PlainRow, sigmas: number): ActivityRatios | null {
  const th230_u238 = withError(row, 'th230_u238', {}, sigmas);
  const u234_u238 = withError(row, 'u234_u238', {}, sigmas);
  const correlation = row.number('correlation') ?? 0;
  const th230_th232 = row.number('th230_th232');
  return th230_u238 === null || u234_u238 === null
    ? null
    : { th230_u238, u234_u238, correlation, th230_th232 };
}

function initialOf(row: PlainRow, sigmas: number): InitialThorium | null {
  const initial = withErrorOrNone(row, 'initial_thorium_ppm', {}, sigmas);
  return initial === null ? null : { atomic_ppm: initial.value, sd_ppm: initial.sd };
}

function sayAges(answers: readonly Answer[], constants: string): void {
  if (answers.length === 0) return;
  sayTable([
    ['', 'age, yr', '± 1σ', 'by thorium', '95 %, yr', 'before 1950, yr', 'initial δ234U, ‰', '± 1σ'],
    ...answers.map((a) => [
      a.id,
      years(a.age_yr),
      years(a.error_yr),
      years(a.initial_thorium_yr),
      `${years(a.older95_yr)}–${years(a.younger95_yr)}`,
      a.before_1950_yr === null ? '' : years(a.before_1950_yr),
      a.initial_delta234u_permil.toFixed(1),
      a.initial_delta234u_sd_permil.toFixed(1),
    ]),
  ]);
  print(
    '',
    ...countedFrom(answers),
    'By thorium: the part of the error that is from the initial thorium, shared by samples of one place.',
    `Decay constants: ${constants}.`,
  );
}
