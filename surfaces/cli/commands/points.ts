/** `stillstand points`: index and limiting points from a plain table. */
import { type PlainPoint, plainPoint } from '@stillstand/science/points';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
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
  const [path, ...others] = words.positionals;
  if (path === undefined || others.length > 0) throw new WrongUse('Expected one table');
  const sigma = words.number('sigma') ?? 2;
  if (sigma !== 1 && sigma !== 2) throw new WrongUse(`--sigma: found ${sigma}, expected 1 or 2`);
  const table = await readPlainTable(path, ['id', 'kind', 'elevation_m', 'reference_water_level_m']);
  const answers: Omit<PlainPoint, 'ok' | 'remarks'>[] = [];
  for (const row of table.rows) {
    const made = plainPoint(row.cells(), sigma);
    if (made.ok) {
      const { id, kind, rsl_m, error_m, components } = made;
      answers.push({ id, kind, rsl_m, error_m, components });
    } else row.problem(made.column, made.found, made.expected, `${made.mend} The row is left out.`);
  }
  if (words.flag('json')) sayJson(answers);
  else {
    sayTable([
      ['', 'kind', 'RSL, m', `± (${sigma} sigma), m`],
      ...answers.map((a) => [a.id, a.kind, a.rsl_m.toFixed(2), a.error_m.toFixed(2)]),
    ]);
  }
  return sayProblems(table.problems);
}
