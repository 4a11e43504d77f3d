/** `stillstand section`: units filled in between the holes of a line, from plain tables or in a campaign. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import {
  type ContactLine,
  type FilledSection,
  fillUnits,
  type Point,
  type SectionColumn,
} from '@stillstand/science/correlate';
import { openAndCompute } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';
import { findingProblem } from '../section-findings.ts';
import { readEnds, readGround, readTies, unitId } from '../section-tables.ts';
import { areTables, type DescribedHole, readUnits } from '../units-table.ts';

export const section: Command = {
  name: 'section',
  summary: 'Fills units in between the holes of a line, along correlated contacts.',
  usage: [
    'section UNITS.csv [MORE.csv …] [--ties TIES.csv] [--ground GROUND.csv] [--ends ENDS.csv] [--json]',
    'section FOLDER [--line A] [--json]',
  ],
  options: {
    ties: { type: 'string', value: 'TIES.csv', about: 'correlated contacts' },
    ground: { type: 'string', value: 'GROUND.csv', about: 'ground along the line' },
    ends: { type: 'string', value: 'ENDS.csv', about: 'how contacts run between holes' },
    line: { type: 'string', value: 'A', about: 'one section line of a campaign; all if not given' },
  },
  more: [
    'UNITS.csv has the columns hole, top_m, bottom_m (m below ground), sediment, ground_m (elevation); if wanted at_m (place along the',
    'line; 100 m apart if not given), unit (a label; numbered from the top down if not given), contact_below and base_seen (yes, no).',
    'TIES.csv has hole_a, unit_a, hole_b, unit_b: the base of one unit is that of the other; if wanted confidence and horizon.',
    'GROUND.csv has distance_m (as at_m) and elevation_m. ENDS.csv has horizon (its name, or the unit of hole_a whose base it is),',
    'hole_a, and if wanted hole_b, ending (continuous, pinch_out, truncated, interfingered, unknown), at_fraction (0 at hole_a, 1 at',
    'hole_b) and lift_m (middle above the line drawn without it). Lines and outlines are in the JSON: m along the line, elevation.',
    'In a campaign nothing is written; its drawing is one of the figures of compute. Methods: docs/methods/section.md.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const paths = words.positionals;
  if (paths.length === 0) throw new WrongUse('Expected tables of units, or a campaign; found none');
  if (!areTables(paths)) return await ofCampaign(words, paths);
  if (words.text('line') !== undefined)
    throw new WrongUse('Tables have no section lines; --line is for a campaign');
  const { holes, problems } = await readUnits(paths);
  const tables: Problem[][] = [problems];
  const named = (option: string): string => words.text(option)?.split(/[\\/]/).pop() ?? '';
  const ties = words.text('ties') === undefined ? null : await readTies(words.text('ties')!);
  const ground = words.text('ground') === undefined ? null : await readGround(words.text('ground')!);
  const ends =
    words.text('ends') === undefined ? null : await readEnds(words.text('ends')!, ties?.ties ?? []);
  for (const read of [ties, ground, ends]) if (read !== null) tables.push(read.table.problems);
  const columns = drawnColumns(holes, problems);
  const known = new Set(columns.flatMap(({ units }) => units.map(({ id }) => id)));
  const found = (ties?.ties ?? []).filter((tie) => {
    const lost = [tie.unit_a, tie.unit_b].find((id) => !known.has(id));
    if (lost !== undefined) problems.push(lostTie(named('ties'), tie.row_id, lost));
    return lost === undefined;
  });
  const filled = fillUnits(columns, found, ends?.boundaries ?? [], ground?.profile ?? []);
  const names = { units: named('units') || 'units', ties: named('ties'), ends: named('ends') };
  const about = [...tables.flat(), ...filled.problems.map((each) => findingProblem(each, names))];
  if (words.flag('json')) {
    const places = columns.map(({ hole, along_m }) => ({ hole, along_m }));
    sayJson({ holes: places, ...asJson(filled) });
  } else sayContacts(filled.contacts);
  return sayProblems(about);
}

async function ofCampaign(words: Words, [folder, ...others]: readonly string[]): Promise<ExitCode> {
  if (others.length > 0) throw new WrongUse('Expected one campaign, or tables alone');
  for (const option of ['ties', 'ground', 'ends'])
    if (words.text(option) !== undefined)
      throw new WrongUse(`A campaign has its own tables; --${option} is for tables of units`);
  const { results } = await openAndCompute(folder!, { withCurve: false });
  const line = words.text('line');
  const sections = results.sections.filter((each) => line === undefined || each.line === line);
  if (line !== undefined && sections.length === 0)
    throw new WrongUse(
      `No section line ${line}; there are: ${results.sections.map((each) => each.line ?? 'none').join(', ')}`,
    );
  const about = results.problems.filter(({ table }) => /^(section_|correlations$)/.test(table));
  if (words.flag('json')) {
    sayJson({ sections });
    return sayProblems(about);
  }
  for (const each of sections) {
    const along = each.holes.map(({ hole, along_m }) => `${hole} ${along_m.toFixed(1)}`).join(', ');
    const places = each.distances === 'measured' ? `m along it: ${along}` : `distances not known: ${along}`;
    print(`${each.line === null ? 'Line through all holes' : `Line ${each.line}`}, ${places}`);
    sayContacts(
      each.contacts.map((contact) => ({
        ...contact,
        isLateral: contact.is_lateral,
        line: contact.line.map(({ along_m, elevation_m }): Point => [along_m, elevation_m]),
      })),
    );
  }
  return sayProblems(about);
}

/** Holes whose ground has an elevation; without a place of every one 100 m apart in their order. */
function drawnColumns(holes: readonly DescribedHole[], problems: Problem[]): SectionColumn[] {
  const levelled = holes.filter(({ hole, column }) => {
    if (!column.hasElevations)
      problems.push(
        problem({
          severity: 'error',
          code: 'no-ground',
          table: 'units',
          label: hole,
          column: 'ground_m',
          found: '',
          expected: 'the elevation of the ground in every row of the hole',
          fix: 'Fill it in; until then the hole is not on the section.',
        }),
      );
    return column.hasElevations;
  });
  const isPlaced = levelled.every(({ at_m }) => at_m !== null);
  return levelled.map(({ hole, at_m, labels, bases, ground_m, column }, i) => ({
    hole,
    along_m: isPlaced ? at_m! : i * 100,
    ground_m: ground_m ?? 0,
    units: column.units.map(({ top_m, base_m, sediment, isBaseSeen }, k) => ({
      id: unitId(hole, labels[k]!),
      top_m: top_m.value,
      bottom_m: base_m.value,
      sediment: sediment ?? '',
      base: bases[k] ?? null,
      isBaseSeen,
    })),
  }));
}

function lostTie(table: string, line: string, id: string): Problem {
  const [hole, label] = JSON.parse(id) as [string, string];
  return problem({
    severity: 'error',
    code: 'tie-to-nowhere',
    table,
    line: Number(line),
    column: 'unit_a',
    found: `${hole} ${label}, no unit on the section`,
    expected: 'the label of a unit of the hole, or its number from the top down',
    fix: 'Correct the row; it is left out.',
  });
}

const labelOf = (id: string): string => (id.startsWith('[') ? (JSON.parse(id) as [string, string])[1] : id);

function asJson({ bodies, contacts, ground, queries }: FilledSection) {
  return {
    ground,
    bodies: bodies.map((body) => ({
      sediment: body.sediment,
      units: body.units.map(({ hole, unit }) => ({ hole, unit: labelOf(unit) })),
      outline: body.outline,
    })),
    contacts: contacts.map((contact) => ({
      hole_a: contact.hole_a,
      unit_a: labelOf(contact.unit_a),
      hole_b: contact.hole_b,
      unit_b: contact.unit_b === null ? null : labelOf(contact.unit_b),
      horizon: contact.horizon,
      confidence: contact.confidence,
      ending: contact.ending,
      is_erosional: contact.isErosional,
      is_lateral: contact.isLateral,
      line: contact.line,
    })),
    queries,
  };
}

type Said = Pick<
  ContactLine,
  'hole_a' | 'unit_a' | 'hole_b' | 'unit_b' | 'horizon' | 'confidence' | 'ending' | 'isLateral' | 'line'
>;

function sayContacts(contacts: readonly Said[]): void {
  if (contacts.length === 0) {
    print('No contact is drawn.');
    return;
  }
  sayTable([
    ['contact of', 'with', 'runs', 'confidence', 'from m', 'to m', 'horizon'],
    ...contacts.map((each) => {
      const along = each.line.map(([x]) => x);
      const place = (m: number): string => m.toFixed(1).replace('-', '−');
      return [
        `${each.isLateral ? 'side of' : 'base of'} ${each.hole_a} ${labelOf(each.unit_a)}`,
        each.hole_b === null ? '' : `${each.hole_b} ${labelOf(each.unit_b ?? '')}`,
        each.ending.replaceAll('_', ' '),
        each.confidence ?? '',
        place(Math.min(...along)),
        place(Math.max(...along)),
        each.horizon ?? '',
      ];
    }),
  ]);
}
