/** `stillstand correlate`: units of neighbouring holes put side by side, from plain tables or in a campaign. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { ProposalResult } from '@stillstand/campaign/results';
import { correlate as correlated, correlationDefaults } from '@stillstand/science/correlate';
import { openAndCompute } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';
import { areTables, type DescribedHole, readUnits } from '../units-table.ts';

export const correlate: Command = {
  name: 'correlate',
  summary: 'Proposes which units of neighbouring holes are one layer.',
  usage: ['correlate UNITS.csv [MORE.csv …] [--margin M] [--json]', 'correlate FOLDER [--json]'],
  options: {
    margin: {
      type: 'string',
      value: 'M',
      about: `least margin of a clear proposal, natural logarithm; ${correlationDefaults.clear_margin} if not given`,
    },
  },
  more: [
    'UNITS.csv has the columns hole, top_m, bottom_m (m below ground) and sediment; if wanted unit (a label), secondary_sediment,',
    'ground_m (elevation) with ground_sigma_m, depth_sigma_m (0.03 if not given), at_m (place along the section), base_seen (yes, no;',
    'no for the lowest unit if not given), base_youngest_cal_bp and base_oldest_cal_bp (bounds on the age of the base), and any measured',
    'property that has a second column NAME_sigma. A table without the column hole is one hole, named by its file. Each hole is',
    'compared with the next along the section, or in the order of the tables where at_m is missing.',
    'The margin says how much better the best alignment is than the best one without the correlation. In a campaign what people have',
    'accepted stays and what they have refused is left out; nothing is written. Methods: docs/methods/correlation.md.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const paths = words.positionals;
  if (paths.length === 0) throw new WrongUse('Expected tables of units, or a campaign; found none');
  if (!areTables(paths)) {
    const [folder, ...others] = paths;
    if (others.length > 0)
      throw new WrongUse(`Expected one campaign, or tables alone; found ${paths.join(' ')}`);
    if (words.text('margin') !== undefined)
      throw new WrongUse('The margin of a campaign is its setting correlation_margin');
    const { results } = await openAndCompute(folder!, { withCurve: false });
    const about = results.problems.filter(({ table }) => table === 'correlations');
    return said(words, results.correlation_proposals, about, results.horizons);
  }
  const margin = words.number('margin', { min: 0, max: 100 }) ?? correlationDefaults.clear_margin;
  const { holes, problems } = await readUnits(paths);
  if (holes.length < 2) {
    problems.push(
      problem({
        severity: 'error',
        code: 'one-hole',
        table: 'units',
        found: `${holes.length} holes with units`,
        expected: 'two or more',
        fix: 'Name the hole of each unit in the column hole, or give a table for each hole.',
      }),
    );
    return sayProblems(problems);
  }
  const isPlaced = holes.every(({ at_m }) => at_m !== null);
  const along = isPlaced ? holes.toSorted((a, b) => a.at_m! - b.at_m!) : holes;
  const proposed = along.slice(1).flatMap((hole, i) => between(along[i]!, hole, margin));
  return said(words, proposed, problems);
}

function between(a: DescribedHole, b: DescribedHole, margin: number): Proposal[] {
  const distance_m = a.at_m === null || b.at_m === null ? null : b.at_m - a.at_m;
  const { ties } = correlated(
    { a: a.column, b: b.column, distance_m },
    { ...correlationDefaults, clear_margin: margin },
  );
  return ties
    .filter(({ areBasesSeen }) => areBasesSeen)
    .map((tie) => ({
      hole_a: a.hole,
      unit_a: a.labels[tie.a]!,
      hole_b: b.hole,
      unit_b: b.labels[tie.b]!,
      margin: tie.margin,
      is_clear: tie.isClear,
      next_of_a: tie.otherwise.of_a === null ? null : b.labels[tie.otherwise.of_a]!,
      next_of_b: tie.otherwise.of_b === null ? null : a.labels[tie.otherwise.of_b]!,
      sediment: tie.parts.sediment,
      thickness: tie.parts.thickness,
      elevation: tie.parts.elevation,
      measured: tie.parts.properties,
    }));
}

/** Of a plain table units have no identity but their label. */
type Proposal = Omit<ProposalResult, 'unit_a_row_id' | 'unit_b_row_id'>;

function said(
  words: Words,
  proposals: readonly Proposal[],
  problems: readonly Problem[],
  horizons?: readonly { horizon: string; contacts: readonly { hole: string; unit: string }[] }[],
): ExitCode {
  if (words.flag('json')) {
    sayJson({ proposals, ...(horizons === undefined ? {} : { horizons }) });
    return sayProblems(problems);
  }
  const score = (value: number): string => value.toFixed(1).replace('-', '−');
  if (proposals.length === 0) print('No correlation is proposed.');
  else
    sayTable([
      ['base of', 'and of', 'margin', '', 'sediment', 'thickness', 'elevation', 'measured', 'next best'],
      ...proposals.map((each) => [
        `${each.hole_a} ${each.unit_a}`,
        `${each.hole_b} ${each.unit_b}`,
        each.margin.toFixed(1),
        each.is_clear ? '' : 'doubtful',
        score(each.sediment),
        score(each.thickness),
        score(each.elevation),
        score(each.measured),
        `${each.next_of_a ?? 'none'}, ${each.next_of_b ?? 'none'}`,
      ]),
    ]);
  for (const { horizon, contacts } of horizons ?? [])
    print(`${horizon}: ${contacts.map(({ hole, unit }) => `${hole} ${unit}`).join(', ')}`);
  return sayProblems(problems);
}
