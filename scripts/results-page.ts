// Writes docs/results.md from the description of the results:  node --import tsx scripts/results-page.ts
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { resultsShape } from '@stillstand/campaign/results';
import type { RecordShape, Shape, ShapeFields } from '@stillstand/science/shape';

const PAGE = join(import.meta.dirname, '..', 'docs', 'results.md');

const INTRODUCTION = `# The results, property by property

Made from the description of the results by \`scripts/results-page.ts\`; do not edit. How the two files are laid out is in [methods/results.md](methods/results.md).

\`[]\` marks a list, \`?\` a value that is null where it is not known or does not apply. \`sigma\` is always 1 sigma; \`lower95\` and \`upper95\` bound the central 95 %. An array is a run of numbers in \`results.npz\` under its place in the file, e.g. \`curves/0/curve/draws/level_m\`.

\`\`\`python
import json, numpy
results = json.load(open("results.json"))
arrays = numpy.load("results.npz")
level = arrays[results["curves"][0]["curve"]["draws"]["level_m"]["array"]]  # one row a draw, one column an age
\`\`\`
`;

/** Records that are used in several places have a section of their own. */
const named = new Map<string, RecordShape<ShapeFields, boolean>>();

/** The page as it should be. */
export function resultsPage(): string {
  named.clear();
  const top = Object.entries(resultsShape.fields);
  const plain = top.filter(([, shape]) => isPlain(shape));
  const sections = top
    .filter(([, shape]) => !isPlain(shape))
    .map(([name, shape]) => section(shape.kind === 'list' ? `${name}[]` : name, shape));
  const first = ['## The file', '', ...table(Object.fromEntries(plain))].join('\n');
  const shared = [...named].map(([name, shape]) => section(name, shape));
  return `${[INTRODUCTION, `${first}\n`, ...sections, ...shared].join('\n')}`;
}

const isPlain = (shape: Shape): boolean => shape.kind !== 'list' && shape.kind !== 'record';

function section(name: string, shape: Shape): string {
  const record = shape.kind === 'list' ? shape.of : shape;
  if (record.kind !== 'record') throw new RangeError(`${name} is no record`);
  // "holes: a hole" says nothing twice.
  const isOne = /^an? /.test(record.about);
  const about = shape.kind === 'list' ? `${shape.about}${isOne ? '' : `: ${record.about}`}` : record.about;
  return [
    `## ${name}`,
    '',
    `${about[0]!.toUpperCase()}${about.slice(1)}.`,
    '',
    ...table(record.fields),
    '',
  ].join('\n');
}

const table = (fields: ShapeFields): string[] => [
  '| property | kind | what |',
  '|---|---|---|',
  ...rows('', fields),
];

/** A record in a record is part of the table, its properties after a dot. */
function rows(before: string, fields: ShapeFields): string[] {
  return Object.entries(fields).flatMap(([name, shape]): string[] => {
    const list = shape.kind === 'list';
    const of = list ? shape.of : shape;
    const isNull = 'nullable' in shape && shape.nullable;
    const at = `${before}${name}${list ? '[]' : ''}`;
    const row = `| \`${at}\`${isNull ? ' ?' : ''} | ${kind(of)} | ${shape.about} |`;
    if (of.kind !== 'record') return [row];
    if (of.name === null) return [row, ...rows(`${at}.`, of.fields)];
    named.set(of.name, of);
    return [row];
  });
}

function kind(shape: Shape): string {
  switch (shape.kind) {
    case 'text':
      return shape.choices === null ? 'text' : shape.choices.map((choice) => `\`${choice}\``).join(', ');
    case 'number':
      return shape.unit === '' ? 'number' : `number, ${shape.unit}`;
    case 'fixed':
      return `\`${shape.value}\``;
    case 'boolean':
      return 'true or false';
    case 'numbers': {
      const columns = shape.columns === null ? '' : `, a column for each of \`${shape.columns}\``;
      return `array, ${shape.unit}${columns}`;
    }
    case 'list':
      return 'list';
    case 'record':
      return shape.name === null ? 'record' : `[${shape.name}](#${shape.name})`;
  }
}

if (process.argv[1] === import.meta.filename) writeFileSync(PAGE, resultsPage());

/** The page as it is. */
export const writtenResultsPage = (): string => readFileSync(PAGE, 'utf8');
