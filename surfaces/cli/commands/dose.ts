/** `stillstand dose`: doses and dose rates to luminescence ages. */

import { DOSE_FACTOR_SETS, DOSE_FACTORS, isDoseFactorSet } from '@stillstand/published/dose-factors';
import { before1950 } from '@stillstand/science/dating';
import {
  type DoseFactors,
  type DoseRate,
  isFinding,
  type LuminescenceAge,
  luminescenceAge,
  type Measured,
  measured,
} from '@stillstand/science/luminescence';
import { type Command, type ExitCode, oneTable, type Words, WrongUse } from '../command.ts';
import {
  countedFrom,
  foundIn,
  MEASURED_OPTIONS,
  measuredIn,
  sigmasOf,
  withError,
  years,
} from '../measured-row.ts';
import { type PlainRow, type PlainTable, readPlainTable } from '../plain-table.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';
import { rateOfContents } from '../sediment-row.ts';

type Answer = Omit<LuminescenceAge, 'kind'> & {
  id: string;
  /** Gy/ka. */
  rate: Measured;
  /** Null for a rate that was stated. */
  from_contents: Omit<DoseRate, 'kind' | 'rate' | 'doubts'> | null;
  /** Years before 1950 CE; null where the year of the measurement is not known. */
  before_1950_yr: number | null;
};

const SETS = DOSE_FACTOR_SETS.join(', ');

export const dose: Command = {
  name: 'dose',
  summary: 'Computes luminescence ages from doses and dose rates.',
  usage: ['dose TABLE.csv [--factors guerin2011] [--sigma 2] [--measured 2024] [--json]'],
  options: {
    factors: { type: 'string', value: 'NAME', about: `dose factors: ${SETS}; the first if not given` },
    ...MEASURED_OPTIONS,
  },
  more: [
    'TABLE.csv has the columns id, dose_gy, dose_gy_sd and either rate_gy_ka, rate_gy_ka_sd or what a rate is computed from:',
    'uranium_ppm, thorium_ppm, potassium_percent (or uranium_bq_kg, thorium_bq_kg, potassium_bq_kg), water_percent (of dry mass, since',
    'burial), cosmic_gy_ka, each with its _sd; grain_from_um, grain_to_um, etched (yes, no); and, if wanted, internal_gy_ka,',
    'alpha_efficiency, beta_attenuation, each with its _sd, and depth_m. A stated rate comes in place of contents.',
    'dose_systematic_percent, rate_systematic_percent: how much of the error samples measured together share, in percent of the value.',
    'measured_year: year CE. The cosmic dose rate is an input: its factors for latitude and height are in no table here.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const path = oneTable(words, 'doses');
  const set = words.text('factors') ?? 'guerin2011';
  if (!isDoseFactorSet(set)) throw new WrongUse(`--factors: found “${set}”, expected ${SETS}`);
  const sigmas = sigmasOf(words);
  const table = await readPlainTable(path, ['id', 'dose_gy', 'dose_gy_sd']);
  const answers: Answer[] = [];
  for (const row of table.rows) {
    const before = table.problems.length;
    const given = parted(table, row, 'dose', 'dose_gy', sigmas);
    const counted_from = measuredIn(row, words);
    const rate = rateOf(table, row, sigmas, DOSE_FACTORS[set]);
    const isFaulty = table.problems.slice(before).some(({ severity }) => severity === 'error');
    if (given === null || rate === null || isFaulty) continue;
    const made = luminescenceAge(given, rate.rate);
    if (made.kind === 'not_dated') {
      table.problems.push(
        ...made.findings.map((f) => foundIn(table.name, row, { ...f, of: COLUMN_OF[f.of] ?? f.of }, 'error')),
      );
      continue;
    }
    const { kind: _, ...age } = made;
    const before_1950_yr = counted_from === null ? null : before1950(age.age_yr, counted_from);
    answers.push({ id: row.text('id'), ...age, ...rate, before_1950_yr });
  }
  if (words.flag('json')) sayJson(answers);
  else sayAges(answers);
  return sayProblems(table.problems);
}

const COLUMN_OF: Readonly<Record<string, string>> = { dose: 'dose_gy', rate: 'rate_gy_ka' };

/** A number with its error parted by the percent that is shared; null with a problem. */
function parted(
  table: PlainTable,
  row: PlainRow,
  of: 'dose' | 'rate',
  column: string,
  sigmas: number,
): Measured | null {
  const given = withError(row, column, {}, sigmas);
  const percent = row.number(`${of}_systematic_percent`, { min: 0, max: 100 }) ?? 0;
  if (given === null) return null;
  const made = measured(column, given.value, given.sd, (percent / 100) * Math.abs(given.value));
  if (!isFinding(made)) return made;
  table.problems.push(foundIn(table.name, row, made, 'error'));
  return null;
}

/** The rate that is stated, or the one of the contents; null with a problem. */
function rateOf(
  table: PlainTable,
  row: PlainRow,
  sigmas: number,
  factors: DoseFactors,
): Pick<Answer, 'rate' | 'from_contents'> | null {
  if (row.text('rate_gy_ka') !== '' || row.text('rate_gy_ka_sd') !== '') {
    const rate = parted(table, row, 'rate', 'rate_gy_ka', sigmas);
    return rate === null ? null : { rate, from_contents: null };
  }
  const made = rateOfContents(table, row, sigmas, factors);
  if (made === null) return null;
  const { kind: _, rate, doubts: __, ...from_contents } = made;
  return { rate, from_contents };
}

function sayAges(answers: readonly Answer[]): void {
  if (answers.length === 0) return;
  sayTable([
    [
      '',
      'age, yr',
      '± 1σ',
      'random',
      'shared',
      '95 %, yr',
      'before 1950, yr',
      'rate, Gy/ka',
      'random',
      'shared',
    ],
    ...answers.map((a) => [
      a.id,
      years(a.age_yr),
      years(a.error_yr),
      years(a.random_yr),
      years(a.systematic_yr),
      `${years(a.older95_yr)}–${years(a.younger95_yr)}`,
      a.before_1950_yr === null ? '' : years(a.before_1950_yr),
      a.rate.value.toFixed(3),
      a.rate.random.toFixed(3),
      a.rate.systematic.toFixed(3),
    ]),
  ]);
  sayRates(answers);
  print('', ...countedFrom(answers), 'Random: of the sample alone. Shared: by samples measured together.');
}

/** What the rates of contents are made of, and which figures are from memory. */
function sayRates(answers: readonly Answer[]): void {
  const rates = answers.filter((a) => a.from_contents !== null);
  if (rates.length === 0) return;
  print('');
  sayTable([
    ['Gy/ka', 'alpha', 'beta', 'gamma', 'cosmic', 'internal', 'largest error'],
    ...rates.map(({ id, from_contents }) => {
      const { parts_gy_ka: p, errors } = from_contents!;
      const parts = [p.alpha, p.beta, p.gamma, p.cosmic, p.internal].map((part) => part.toFixed(3));
      return [id, ...parts, errors[0]?.of ?? 'none'];
    }),
  ]);
  const figures = new Map(rates.flatMap((r) => r.from_contents!.used.map((u) => [u.name, u] as const)));
  print('');
  for (const { name, source, from_memory } of figures.values())
    print(
      `${name[0]!.toUpperCase()}${name.slice(1)}: ${source}.${from_memory ? ' From memory: compare it with the print before you use the number.' : ''}`,
    );
}
