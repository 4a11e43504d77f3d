/** `stillstand points`: index and limiting points from a plain table. */
import { type PlainPoint, plainPoint } from '@stillstand/science/points';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { readPlainTable } from '../plain-table.ts';
import { sayJson, sayProblems, sayTable } from '../say.ts';

const KINDS = ['index', 'terrestrial', 'marine'] as const;

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
  const errorColumns = table.columns.filter((column) => /^error_.+_m$/.test(column));
  const answers: ReturnType<typeof plainPoint>[] = [];
  for (const row of table.rows) {
    const before = table.problems.length;
    const kind = KINDS.find((k) => k === row.text('kind'));
    if (kind === undefined) {
      row.problem('kind', row.text('kind'), KINDS.join(', '), 'Say what the point is; the row is left out.');
    }
    const elevation_m = row.needed('elevation_m');
    const reference_water_level_m = row.needed('reference_water_level_m');
    const indicative_range_m =
      kind === 'index'
        ? row.needed('indicative_range_m', { min: 0 })
        : row.number('indicative_range_m', { min: 0 });
    const errors: PlainPoint['errors'] = [];
    for (const column of errorColumns) {
      const value_m = row.number(column, { min: 0 });
      if (value_m !== null) errors.push({ name: column.slice('error_'.length, -'_m'.length), value_m });
    }
    if (table.problems.length > before || kind === undefined) continue;
    if (elevation_m === null || reference_water_level_m === null) continue;
    const id = row.text('id');
    answers.push(
      plainPoint({ id, kind, elevation_m, reference_water_level_m, indicative_range_m, errors, sigma }),
    );
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
