/** What only a person can say of a table, asked once for a column and not for each row. */
import { type Column, columnName } from '@stillstand/campaign/tables';
import { activityDecisions, hasSupported } from './activity-decisions.ts';
import { placeOf } from './columns.ts';
import { densityDecisions } from './density-decisions.ts';
import type { Given } from './given.ts';
import { type Mapping, wordFor } from './mapping.ts';
import type { Decision } from './proposal.ts';
import type { TheirSheet } from './sheet.ts';
import { needsUnit, TABLE_OF, type Target, targetsOf } from './targets.ts';
import { decimalMarkOf } from './their-number.ts';

/** `lacking`: columns of ours that no line says anything for. */
export function decisionsFor(
  sheet: TheirSheet,
  mapping: Mapping,
  givens: readonly Given[],
  lacking: ReadonlySet<string>,
): Decision[] {
  return [
    ...decimalMark(sheet, mapping),
    ...columnsFor(mapping, lacking),
    ...units(mapping),
    ...sigmas(mapping),
    ...(mapping.as === 'lead-profiles' ? activityDecisions(mapping, givens) : []),
    ...(mapping.as === 'age-densities' ? densityDecisions(mapping, givens) : []),
    ...words(mapping, givens),
    ...ownWords(mapping),
    ...wholeTable(mapping, givens),
  ];
}

const ask = (parts: Omit<Decision, 'heading' | 'choices' | 'words'> & Partial<Decision>): Decision => ({
  heading: null,
  choices: [],
  words: [],
  ...parts,
});

function decimalMark(sheet: TheirSheet, { decimal_comma, begin_below }: Mapping): Decision[] {
  const cells = sheet.lines.filter(({ line }) => line > begin_below).flatMap((line) => line.cells);
  if (!decimalMarkOf(cells).asked) return [];
  const question =
    'Is the comma a decimal mark, so that 1,234 is 1.234 and not one thousand two hundred and thirty-four?';
  return [
    ask({ where: 'decimal_comma', question, taken: String(decimal_comma), choices: ['false', 'true'] }),
  ];
}

/** A number that every row needs and no column is known to have; where it lies is said in several ways, and not asked. */
function columnsFor(mapping: Mapping, lacking: ReadonlySet<string>): Decision[] {
  const choices = mapping.columns.flatMap(({ to, heading }) =>
    to === null && heading !== '' ? [heading] : [],
  );
  return [...lacking].flatMap((to) => {
    if (targetOf(mapping, to)?.column.kind !== 'number' || choices.length === 0) return [];
    if (mapping.columns.some((column) => column.to === to)) return [];
    const question = `Which column has “${columnName(TABLE_OF[mapping.as], to)}”?`;
    return [ask({ where: `column.${to}`, question, taken: null, choices: [...new Set(choices)] })];
  });
}

const targetOf = (mapping: Mapping, to: string | null): Target | undefined =>
  to === null ? undefined : targetsOf(mapping.as).get(to);

/** A length without a unit is not guessed. */
function units(mapping: Mapping): Decision[] {
  return mapping.columns.flatMap(({ column, heading, to, unit }) => {
    const target = targetOf(mapping, to);
    if (target === undefined || unit !== null || !needsUnit(target)) return [];
    return [
      ask({
        where: `columns.${column}.unit`,
        heading,
        question: `In what unit is “${heading}”?`,
        taken: null,
        choices: ['m', 'cm', 'mm', 'ft', 'in'],
      }),
    ];
  });
}

/** An error that does not say its sigma is read as 1 sigma: where ours wants 2 that is the wider. */
function sigmas(mapping: Mapping): Decision[] {
  return mapping.columns.flatMap(({ column, heading, to, sigma }) => {
    if (to === null || sigma !== undefined || !/2sigma|^rsl error|^age error|sigma_m$/.test(to)) return [];
    const question = `Is “${heading}” 1 sigma or 2?`;
    return [ask({ where: `columns.${column}.sigma`, heading, question, taken: '1', choices: ['1', '2'] })];
  });
}

/** Words that are none of ours in a column of few. */
function words(mapping: Mapping, givens: readonly Given[]): Decision[] {
  return mapping.columns.flatMap(({ column, heading, to }) => {
    const target = targetOf(mapping, to);
    if (target === undefined || target.column.kind !== 'choice') return [];
    const mayBeName = target.column.names !== undefined;
    const choices = target.column.choices;
    const strange = new Set<string>();
    for (const { said } of givens) {
      const cell = said.get(to!);
      if (cell === undefined || placeOf(cell.column.column) !== placeOf(column)) continue;
      const ours = wordFor(mapping, to!, cell.text);
      if (!choices.some((choice) => plain(choice) === plain(ours))) strange.add(cell.text);
    }
    if (strange.size === 0) return [];
    const said = [...strange]
      .slice(0, 12)
      .map((word) => `“${word}”`)
      .join(', ');
    return [
      ask({
        where: `words.${to}`,
        heading,
        question: `What do ${said} mean in “${heading}”?`,
        taken: mayBeName ? 'as they are' : null,
        choices,
        words: [...strange],
      }),
    ];
  });
}
/** Words that are kept as theirs, where ours has a vocabulary. */
function ownWords({ words }: Mapping): Decision[] {
  return Object.entries(words).flatMap(([to, of]) => {
    const kept = Object.entries(of).flatMap(([theirs, ours]) => (theirs === ours ? [theirs] : []));
    if (kept.length === 0) return [];
    const named = kept.slice(0, 12).map((word) => `“${word}”`);
    const question = `Which of our words for ${named.join(', ')}?`;
    return [ask({ where: `words.${to}`, question, taken: 'as they are', words: kept })];
  });
}

const plain = (word: string): string =>
  word
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/** What no column says. */
function wholeTable(mapping: Mapping, givens: readonly Given[]): Decision[] {
  const { as, fixed } = mapping;
  const targets = targetsOf(as);
  const isSaid = (to: string): boolean =>
    mapping.columns.some((column) => column.to === to) || (fixed[to] ?? '') !== '';
  const asked: Decision[] = [];
  const need = (to: string, question: string, taken: string | null = null): void => {
    if (isSaid(to)) return;
    const column: Column | undefined = targets.get(to)?.column;
    asked.push(
      ask({
        where: `fixed.${to}`,
        question,
        taken,
        choices: column?.kind === 'choice' ? column.choices : [],
      }),
    );
  };
  const lies = ['layers', 'samples', 'dates', 'measurements', 'lead-profiles', 'points'].includes(as);
  if (lies && givens.some(({ said, many }) => said.has('top') || said.has('depth') || many.length > 0)) {
    asked.push(
      ask({
        where: 'fixed.depth_basis',
        question: 'Are depths in the ground, along all that entered the string, or in one push or run?',
        taken: fixed['depth_basis'] ?? null,
        choices: ['in_situ', 'entered', 'push', 'run'],
      }),
    );
  }
  if (as === 'cores') {
    need('method', 'How were these cores taken?');
    if (isSaid('easting') && !isSaid('latitude_deg')) {
      need('utm_zone', 'Which UTM zone are the coordinates in, such as 17N?', 'none: they stay in the note');
    }
    if (isSaid('reference_elevation_m'))
      need('reference_datum', 'On which zero are the elevations?', 'that of the campaign');
  }
  if (as === 'layers') need('hole', 'Which core are these layers of?');
  if (as === 'lead-profiles') {
    need('hole', 'Which core are these slices of?');
    need(
      'collected',
      'When was the core taken (2014-07-01)?',
      'not stated: its ages have no place in the calendar',
    );
    if (!hasSupported(mapping)) {
      need(
        'supported_bq_kg',
        'No column has radium-226: what is the supported lead-210, in Bq/kg?',
        'that of the deepest slices',
      );
      if (isSaid('supported_bq_kg'))
        need(
          'supported_sigma_bq_kg',
          'What is 1 sigma of the supported lead-210, in Bq/kg?',
          'none: it is taken as exact',
        );
    }
  }
  if (as === 'calibration-curves') {
    need('curve', 'What is this curve called, so that dates can name it?');
    need('reservoir', 'Is it a curve of the atmosphere or of the sea?', 'atmosphere');
  }
  if (as === 'age-densities' && !isSaid('weight of'))
    need('density', 'What is this age called, so that dates can name it?');
  if (as === 'dates') {
    need(
      'lab_code',
      'No column has codes of the laboratory: is there one?',
      'dates are called after their samples',
    );
    need('method', 'How were these samples dated?');
    if (fixed['method'] === 'radiocarbon' || isSaid('method')) {
      need('calibration_curve', 'On which curve are they calibrated?', 'none, until it is named');
    }
  }
  if (as === 'tide-levels' && !isSaid('site')) need('site', 'Which site are these levels for?');
  if (as === 'levelling') need('loop', 'Which loop is this?');
  if (as === 'pushes') need('push', 'What are these pushes called?');
  if (as === 'points' || as === 'published-points')
    need('kind', 'Are these index points or limiting points?');
  if (as === 'published-points') need('source', 'Which publication are these points from?');
  const isLong = isSaid('property') || isSaid('value');
  if (as === 'measurements' && isLong) need('property', 'What was measured?');
  if (filledDown(mapping, givens)) {
    asked.push(
      ask({
        where: 'fill_down',
        question: 'A core is named once and left blank below: is it meant in the lines below too?',
        taken: String(mapping.fill_down),
        choices: ['true', 'false'],
      }),
    );
  }
  return asked;
}

/** True where a line took the core of one above it. */
const filledDown = ({ fill_down, as }: Mapping, givens: readonly Given[]): boolean =>
  fill_down &&
  as !== 'cores' &&
  givens.some(
    ({ said }, i) => i > 0 && said.has('hole') && said.get('hole') === givens[i - 1]!.said.get('hole'),
  );
