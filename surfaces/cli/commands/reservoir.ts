/** `stillstand reservoir`: ΔR of shells of known age and of pairs, each and several of one water together. */
import { problem } from '@stillstand/campaign/problems';
import { reservoirDoubts } from '@stillstand/campaign/steps';
import { isCurveName, loadCurve } from '@stillstand/published/curves';
import {
  type NotCalibrated,
  offsetOfKnownAge,
  offsetOfPair,
  type PooledOffset,
  pooledOffset,
  type ReservoirOffset,
  type YearlyCurve,
} from '@stillstand/science/dating';
import { type Command, type ExitCode, oneTable, type Words } from '../command.ts';
import { type PlainRow, type PlainTable, readPlainTable } from '../plain-table.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';

export const reservoir: Command = {
  name: 'reservoir',
  summary: 'Computes reservoir offsets ΔR from shells of known age and from pairs.',
  usage: ['reservoir SHELLS.csv [--json]'],
  options: {},
  more: [
    'SHELLS.csv has the columns id, age, error (14C yr BP, 1 sigma) and known_ce, the year of collection; or, for a pair,',
    'terrestrial_age, terrestrial_error and terrestrial_curve (intcal20 or shcal20). group names the water; rows without one are one group.',
    'ΔR is against Marine20, which is not for polar seas; years after 1950 are refused. The marine curve’s own error is not in ΔR.',
    'The error for a new sample is that of one more shell: the error of the mean and the spread of the shells together.',
  ].join('\n'),
  run,
};

interface Shell {
  id: string;
  group: string;
  delta_r: number;
  delta_r_error: number;
  cal_bp: number;
}

interface Pool extends Omit<PooledOffset, 'mean_yr' | 'new_sample_error_yr'> {
  group: string;
  delta_r: number;
  delta_r_error: number;
}

async function run(words: Words): Promise<ExitCode> {
  const path = oneTable(words, 'shells');
  const table = await readPlainTable(path, ['id', 'age', 'error']);
  const marine = await loadCurve('marine20');
  const shells: Shell[] = [];
  for (const row of table.rows) {
    const answer = await offsetOf(row, table, marine);
    if (answer === null) continue;
    if (answer.kind !== 'offset') {
      row.problem(
        row.text('known_ce') === '' ? 'terrestrial_age' : 'known_ce',
        row.text('known_ce') || row.text('terrestrial_age'),
        'a shell from before 1950, on the curves',
        `It has no ΔR: ${answer.reason}.`,
      );
      continue;
    }
    const { offset_yr: delta_r, error_yr: delta_r_error, cal_bp } = answer;
    shells.push({ id: row.text('id'), group: row.text('group'), delta_r, delta_r_error, cal_bp });
  }
  const groups = [...new Set(table.rows.map((row) => row.text('group')))];
  const pools = groups.flatMap((group) => poolOf(group, shells, table));
  if (words.flag('json')) sayJson({ shells, pools });
  else sayOffsets(shells, pools);
  return sayProblems(table.problems);
}

async function offsetOf(
  row: PlainRow,
  { problems }: PlainTable,
  marine: YearlyCurve,
): Promise<ReservoirOffset | NotCalibrated | null> {
  const before = problems.length;
  const c14_age = row.needed('age');
  const error_yr = row.needed('error', { above: 0 });
  const known = row.number('known_ce');
  if (known !== null || row.text('terrestrial_age') === '') {
    const year = known ?? row.needed('known_ce');
    if (year === null || c14_age === null || error_yr === null || problems.length > before) return null;
    return offsetOfKnownAge({ c14_age, error_yr }, 1950 - year, marine);
  }
  const age = row.needed('terrestrial_age');
  const error = row.needed('terrestrial_error', { above: 0 });
  const curve = row.text('terrestrial_curve').toLowerCase();
  if (!isCurveName(curve) || curve === 'marine20') {
    row.problem(
      'terrestrial_curve',
      row.text('terrestrial_curve'),
      'intcal20 or shcal20',
      'Name the atmosphere of the terrestrial sample; the row is left out.',
    );
    return null;
  }
  if (c14_age === null || error_yr === null || age === null || error === null) return null;
  if (problems.length > before) return null;
  return offsetOfPair(
    { c14_age, error_yr },
    { c14_age: age, error_yr: error },
    marine,
    await loadCurve(curve),
  );
}

/** One or none; what is doubtful of it goes to the problems. */
function poolOf(group: string, shells: readonly Shell[], { problems, name }: PlainTable): Pool[] {
  const of = shells.filter((shell) => shell.group === group);
  const say = (code: string, found: string, expected: string, fix: string): void => {
    const severity = code === 'reservoir-empty' ? 'error' : 'warning';
    problems.push(
      problem({ severity, code, table: name, label: group || null, column: 'group', found, expected, fix }),
    );
  };
  if (of.length === 0) {
    say('reservoir-empty', 'no shell that can be used', 'at least one', 'Correct its rows; it has no ΔR.');
    return [];
  }
  const pooled = pooledOffset(
    of.map(({ delta_r, delta_r_error }) => ({ offset_yr: delta_r, error_yr: delta_r_error })),
  );
  for (const { code, found, expected, fix } of reservoirDoubts(pooled)) say(code, found, expected, fix);
  const { mean_yr, new_sample_error_yr, ...pool } = pooled;
  return [{ group, ...pool, delta_r: mean_yr, delta_r_error: new_sample_error_yr }];
}

function sayOffsets(shells: readonly Shell[], pools: readonly Pool[]): void {
  if (shells.length === 0) return;
  const whole = (x: number): string => x.toFixed(0).replace('-', '−');
  sayTable([
    ['', 'group', 'age, cal BP', 'ΔR, 14C yr', '1 sigma'],
    ...shells.map((s) => [s.id, s.group, whole(s.cal_bp), whole(s.delta_r), whole(s.delta_r_error)]),
  ]);
  print('');
  sayTable([
    [
      'group',
      'shells',
      'mean ΔR',
      'error of the mean',
      'spread',
      'chi-square',
      'p',
      'error for a new sample',
    ],
    ...pools.map((pool) => [
      pool.group || 'all',
      String(pool.n),
      whole(pool.delta_r),
      whole(pool.error_of_mean_yr),
      whole(pool.spread_yr),
      pool.chi_square.toFixed(1),
      pool.p.toFixed(3),
      whole(pool.delta_r_error),
    ]),
  ]);
}
