/** `stillstand sequence`: radiocarbon ages with known distances in years, dated together. */
import { problem } from '@stillstand/campaign/problems';
import { CURVE_NAMES, isCurveName, loadCurve } from '@stillstand/published/curves';
import { calibrationSets, DISAGREES, matchSequence, type SequenceMember } from '@stillstand/science/dating';
import { type Command, type ExitCode, oneTable, type Words } from '../command.ts';
import { type PlainRow, type PlainTable, readPlainTable } from '../plain-table.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';

export const sequence: Command = {
  name: 'sequence',
  summary: 'Dates rings or varves with known gaps together.',
  usage: ['sequence RINGS.csv [--json]'],
  options: {},
  more: [
    'RINGS.csv has the columns id, age, error (14C yr BP, 1 sigma), curve and after_first: years from the middle of the first member',
    'to the middle of this one, younger positive; if wanted, after_first_error (1 sigma, its own), block (rings in the sample), offset and',
    'offset_sd (ΔR; one with an error is shared by the members that have the same).',
    'Each member gets its age by all of them (cal BP), the age the others let expect, and the probability of one as far off as measured.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const path = oneTable(words, 'rings');
  const table = await readPlainTable(path, ['id', 'age', 'error', 'curve', 'after_first']);
  const members: SequenceMember[] = [];
  for (const row of table.rows) members.push(...(await memberOf(row, table)));
  const say = (
    code: string,
    severity: 'error' | 'warning',
    found: string,
    expected: string,
    fix: string,
  ): void => {
    table.problems.push(problem({ severity, code, table: table.name, found, expected, fix }));
  };
  const offsets = new Set(members.map((m) => m.offset_group).filter((group) => group !== null));
  if (members.length < 2 || offsets.size > 1) {
    const [found, expected] =
      members.length < 2
        ? [`${members.length} of ${table.rows.length} members usable`, 'at least two']
        : [`ΔR ${[...offsets].join(', ')}`, 'one ΔR with an error'];
    say('sequence-unusable', 'error', found, expected, 'Correct the rows; nothing is dated.');
    return sayProblems(table.problems);
  }
  const answer = matchSequence(members);
  if (answer.kind !== 'matched') {
    say(
      'sequence-not-matched',
      'error',
      answer.reason,
      'ages and gaps that one year can meet',
      'Correct them.',
    );
    return sayProblems(table.problems);
  }
  const { chi_square, degrees, p } = answer;
  const dated = answer.members.map(({ age, ...of }) => ({
    ...of,
    median_cal_bp: age.median_cal_bp,
    mean_cal_bp: age.mean_cal_bp,
    sd_yr: age.sd_yr,
    sets: { '68.3': calibrationSets(age, 0.683), '95.4': calibrationSets(age, 0.954) },
  }));
  for (const [i, { id, expected_c14_age, agreement }] of dated.entries())
    if (agreement < DISAGREES / dated.length)
      say(
        'sequence-member-disagrees',
        'warning',
        `${id}: ${members[i]!.c14_age} ± ${members[i]!.error_yr}; by the others ${expected_c14_age.toFixed(0)}`,
        `an age the others allow (here with probability ${agreement.toPrecision(1)})`,
        'Check its place in the count and its code. It is used.',
      );
  if (p < 0.05)
    say(
      'sequence-disagrees',
      'warning',
      `chi-square ${chi_square.toFixed(1)} with ${degrees} degrees of freedom, p ${p.toFixed(3)}`,
      'members that agree with one year (p of at least 0.05)',
      'Check the counts, the blocks and the curve.',
    );
  if (words.flag('json')) sayJson({ members: dated, chi_square, degrees, p });
  else {
    sayTable([
      [
        '',
        'median, cal BP',
        'sd, yr',
        'by the others, 14C yr',
        'probability',
        '95.4 % set, cal BP (probability)',
      ],
      ...dated.map((m) => [
        m.id,
        m.median_cal_bp.toFixed(0),
        m.sd_yr.toFixed(0),
        m.expected_c14_age.toFixed(0),
        m.agreement.toFixed(3),
        m.sets['95.4']
          .map((s) => `${s.older_cal_bp}–${s.younger_cal_bp} (${s.probability.toFixed(3)})`)
          .join(', '),
      ]),
    ]);
    print('', `chi-square ${chi_square.toFixed(1)} with ${degrees} degrees of freedom, p ${p.toFixed(3)}`);
  }
  return sayProblems(table.problems);
}

/** One or none; what is wrong with its row is among the problems of the table. */
async function memberOf(row: PlainRow, { problems }: PlainTable): Promise<SequenceMember[]> {
  const before = problems.length;
  const c14_age = row.needed('age');
  const error_yr = row.needed('error', { above: 0 });
  const after_first_yr = row.needed('after_first');
  const after_first_sd_yr = row.number('after_first_error', { min: 0 }) ?? 0;
  const block_yr = row.number('block', { min: 1 }) ?? 1;
  const offset_yr = row.number('offset') ?? 0;
  const offset_sd_yr = row.number('offset_sd', { min: 0 }) ?? 0;
  const curve = row.text('curve').toLowerCase();
  if (!isCurveName(curve) || curve.startsWith('bomb')) {
    const expected = CURVE_NAMES.filter((name) => !name.startsWith('bomb')).join(', ');
    row.problem(
      'curve',
      row.text('curve'),
      expected,
      'Name a curve of before the bomb years; the row is left out.',
    );
    return [];
  }
  if (!Number.isInteger(block_yr))
    row.problem('block', String(block_yr), 'whole rings or varves', 'Count them; the row is left out.');
  const isWhole = c14_age !== null && error_yr !== null && after_first_yr !== null;
  if (!isWhole || problems.length > before) return [];
  return [
    {
      id: row.text('id'),
      c14_age,
      error_yr,
      offset_yr,
      offset_sd_yr,
      offset_group: offset_sd_yr > 0 ? `${offset_yr} ± ${offset_sd_yr}` : null,
      after_first_yr,
      after_first_sd_yr,
      block_yr,
      curve: await loadCurve(curve),
    },
  ];
}
