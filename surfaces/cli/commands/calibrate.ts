/** `stillstand calibrate`: radiocarbon ages to calendar ages. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { CURVE_NAMES, type CurveName, isCurveName, loadCurve } from '@stillstand/published/curves';
import { calibrate, calibrationSets } from '@stillstand/science/dating';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { readPlainTable } from '../plain-table.ts';
import { sayJson, sayProblems, sayTable } from '../say.ts';

interface Calibrated {
  id?: string;
  median_cal_bp: number;
  mean_cal_bp: number;
  sd_yr: number;
  /** Share of the distribution that lies beyond the ends of the curve and is missing. */
  truncated: number;
  sets: Record<'68.3' | '95.4', { older_cal_bp: number; younger_cal_bp: number; probability: number }[]>;
}

export const calibrateDates: Command = {
  name: 'calibrate',
  summary: 'Calibrates radiocarbon ages, as full distributions.',
  usage: [
    'calibrate --age 4520 --error 30 --curve shcal20 [--offset -120 --offset-sd 45] [--json]',
    'calibrate DATES.csv [--json]',
  ],
  options: {
    age: { type: 'string', value: 'YEARS', about: 'conventional radiocarbon age, 14C yr BP' },
    error: { type: 'string', value: 'YEARS', about: 'its laboratory error, 1 sigma' },
    curve: { type: 'string', value: 'NAME', about: CURVE_NAMES.join(', ') },
    offset: {
      type: 'string',
      value: 'YEARS',
      about: 'reservoir offset ΔR, 14C yr, added to the curve; 0 if not given',
    },
    'offset-sd': { type: 'string', value: 'YEARS', about: '1 sigma of the reservoir offset; 0 if not given' },
  },
  more: [
    'DATES.csv has the columns id, age, error, curve and, if wanted, offset, offset_sd.',
    'Ages are cal BP (years before 1950 CE) on a yearly grid; sets are of highest density (68.3 and 95.4 %, the first',
    'with --json only). bomb21 curves are for results of after 1950 too: negative ages, dated in F14C. Marine20 is for the open sea, not for polar seas; an offset must have been worked out for it.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [path, ...others] = words.positionals;
  if (others.length > 0) throw new WrongUse(`One file at a time; found also ${others.join(' ')}`);
  return path === undefined ? await one(words) : await many(path, words);
}

async function one(words: Words): Promise<ExitCode> {
  const age = words.number('age');
  const error = words.number('error', { above: 0 });
  const curve = words.text('curve')?.toLowerCase();
  if (age === undefined || error === undefined || curve === undefined) {
    throw new WrongUse('Expected --age, --error and --curve, or a file of dates');
  }
  if (!isCurveName(curve))
    throw new WrongUse(`--curve: found “${words.text('curve')}”, expected ${CURVE_NAMES.join(', ')}`);
  const offset = words.number('offset') ?? 0;
  const offsetSd = words.number('offset-sd', { min: 0 }) ?? 0;
  const answer = await calibrated(age, error, curve, offset, offsetSd);
  if ('problem' in answer) return sayProblems([{ ...answer.problem, table: 'the command line' }]);
  if (words.flag('json')) sayJson(withoutShare(answer));
  else sayCalibrated([{ id: `${age} ± ${error} BP, ${curve}`, ...answer }]);
  return sayProblems(atTheEnd('the command line', null, null, answer));
}

async function many(path: string, words: Words): Promise<ExitCode> {
  const table = await readPlainTable(path, ['id', 'age', 'error', 'curve']);
  const answers: (Calibrated & { id: string })[] = [];
  for (const row of table.rows) {
    const id = row.text('id');
    const age = row.needed('age');
    const error = row.needed('error', { above: 0 });
    const curve = row.text('curve').toLowerCase();
    const offset = row.number('offset') ?? 0;
    const offsetSd = row.number('offset_sd', { min: 0 }) ?? 0;
    const before = table.problems.length;
    if (!isCurveName(curve)) {
      const expected = CURVE_NAMES.join(', ');
      row.problem('curve', row.text('curve'), expected, 'Name a published curve; the row is left out.');
    }
    if (age === null || error === null || !isCurveName(curve) || table.problems.length > before) continue;
    const answer = await calibrated(age, error, curve, offset, offsetSd);
    if ('problem' in answer) {
      table.problems.push({ ...answer.problem, table: table.name, line: row.line, label: id });
    } else {
      answers.push({ id, ...answer });
      table.problems.push(...atTheEnd(table.name, row.line, id, answer));
    }
  }
  if (words.flag('json')) sayJson(answers.map(withoutShare));
  else sayCalibrated(answers);
  return sayProblems(table.problems);
}

async function calibrated(
  c14_age: number,
  error_yr: number,
  curve: CurveName,
  offset_yr: number,
  offset_sd_yr: number,
): Promise<Calibrated | { problem: Problem }> {
  const answer = calibrate({ c14_age, error_yr, offset_yr, offset_sd_yr }, await loadCurve(curve));
  if (answer.kind !== 'calibrated') {
    return {
      problem: problem({
        severity: 'error',
        code: answer.kind === 'beyond_curve' ? 'age-beyond-curve' : 'age-unusable',
        table: '',
        column: 'age',
        found: `${c14_age} ± ${error_yr}`,
        expected: 'an age on the curve',
        fix: `Check age, error, curve and offset: ${answer.reason}.`,
      }),
    };
  }
  const sets = (mass: number): Calibrated['sets']['95.4'] => calibrationSets(answer, mass);
  return {
    median_cal_bp: answer.median_cal_bp,
    mean_cal_bp: answer.mean_cal_bp,
    sd_yr: answer.sd_yr,
    truncated: answer.truncated,
    sets: { '68.3': sets(0.683), '95.4': sets(0.954) },
  };
}

/** The share that is missing is a warning, not a result. */
function withoutShare({ truncated: _, ...said }: Calibrated): Omit<Calibrated, 'truncated'> {
  return said;
}

/** A distribution cut off by the end of its curve is used, and said to be cut. */
function atTheEnd(table: string, line: number | null, label: string | null, of: Calibrated): Problem[] {
  if (of.truncated < 0.005) return [];
  return [
    problem({
      severity: 'warning',
      code: 'age-truncated',
      table,
      line,
      label,
      column: 'age',
      found: `about ${(100 * of.truncated).toFixed(0)} % of the distribution beyond the end of the curve`,
      expected: 'all of it on the curve',
      fix: 'Take the result as a limit, not as a date.',
    }),
  ];
}

function sayCalibrated(answers: readonly (Calibrated & { id: string })[]): void {
  if (answers.length === 0) return;
  sayTable([
    ['', 'median, cal BP', 'mean, cal BP', 'sd, yr', '95.4 % set, cal BP (probability)'],
    ...answers.map((answer) => [
      answer.id,
      answer.median_cal_bp.toFixed(0),
      answer.mean_cal_bp.toFixed(0),
      answer.sd_yr.toFixed(0),
      answer.sets['95.4']
        .map(
          (s) => `${s.older_cal_bp.toFixed(0)}–${s.younger_cal_bp.toFixed(0)} (${s.probability.toFixed(3)})`,
        )
        .join(', '),
    ]),
  ]);
}
