/** `stillstand points`: index and limiting points from a plain table. */
import { problem } from '@stillstand/campaign/problems';
import { type PlainPoint, plainPoint } from '@stillstand/science/points';
import { type Command, type ExitCode, oneTable, type Words, WrongUse } from '../command.ts';
import { readPlainTable } from '../plain-table.ts';
import { sayJson, sayProblems, sayTable } from '../say.ts';

export const points: Command = {
  name: 'points',
  summary: 'Makes index and limiting points with their error budgets from a table.',
  usage: ['points TABLE.csv [--sigma 2] [--json]'],
  options: {
    sigma: {
      type: 'string',
      value: '1|2',
      about: 'how many sigma the errors in the table are; 2 if not given',
    },
  },
  more: [
    'TABLE.csv has the columns id, kind (index, terrestrial, marine), elevation_m, reference_water_level_m,',
    'indicative_range_m and any number of columns error_NAME_m, all of the stated sigma; error_m comes out at the',
    'same sigma, and half the indicative range is one of its components. For limiting points the reference water',
    'level is the tide level of the bound: terrestrial, the sea was below rsl_m; marine, above it.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const path = oneTable(words, 'points');
  const sigma = words.number('sigma') ?? 2;
  if (sigma !== 1 && sigma !== 2) throw new WrongUse(`--sigma: found ${sigma}, expected 1 or 2`);
  const table = await readPlainTable(path, ['id', 'kind', 'elevation_m', 'reference_water_level_m']);
  const counted = table.columns.filter((column) => /^error_.+_m$/.test(column));
  const unknown = table.columns.filter((column) => /^error/i.test(column) && !counted.includes(column));
  if (table.rows.length > 0 && (unknown.length > 0 || counted.length === 0)) {
    table.problems.push(
      problem({
        severity: 'warning',
        code: 'error-column-not-counted',
        table: table.name,
        found: unknown.length > 0 ? unknown.join(', ') : 'no column error_NAME_m',
        expected: 'errors in metres, in columns named error_NAME_m',
        fix: 'Name the columns so, in metres; until then these errors are not in ±.',
      }),
    );
  }
  const answers: Omit<PlainPoint, 'ok' | 'remarks'>[] = [];
  const ids = new Set<string>();
  for (const row of table.rows) {
    const label = row.text('id');
    if (ids.has(label)) {
      row.problem('id', label, 'a label of its own', 'Rename one of the two; the row is left out.');
      continue;
    }
    ids.add(label);
    const made = plainPoint(row.cells(), sigma);
    if (made.ok) {
      const { id, kind, rsl_m, error_m, components } = made;
      answers.push({ id, kind, rsl_m, error_m, components });
    } else row.problem(made.column, made.found, made.expected, `${made.fix} The row is left out.`);
  }
  if (words.flag('json')) sayJson(answers);
  else if (answers.length > 0) {
    sayTable([
      ['', 'kind', 'RSL, m', `± (${sigma} sigma), m`],
      ...answers.map((a) => [a.id, a.kind, `${BOUND[a.kind]}${signed(a.rsl_m)}`, a.error_m.toFixed(2)]),
    ]);
  }
  return sayProblems(table.problems);
}

/** Where the sea stood, seen from the number. */
const BOUND = { index: '', terrestrial: 'below ', marine: 'above ' } as const;

function signed(m: number): string {
  const digits = Math.abs(m).toFixed(2);
  return Number(digits) === 0 ? digits : `${m < 0 ? '−' : '+'}${digits}`;
}
