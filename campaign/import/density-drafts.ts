/** Ages known as a curve of probability: a row for each year of each curve, with zeros where a table leaves years out. */
import { compare, type Decimal, negated, readDecimal, sum, writeDecimal } from './decimal.ts';
import { type Gap, gapsIn } from './density-gaps.ts';
import { hasYearZero, putAge } from './density-years.ts';
import { type Draft, draftOf, type FromLine } from './draft.ts';
import type { Given, Said } from './given.ts';
import type { Here } from './here.ts';
import type { Mapping } from './mapping.ts';
import { ownCells, putCell, withFixed } from './own-cells.ts';
import { targetsOf } from './targets.ts';

/** A year of a curve as a line says it. */
interface Year {
  draft: Draft;
  bp: Decimal;
}

export function densityDrafts(givens: readonly Given[], mapping: Mapping, here: Here): FromLine[] {
  const hasZero = hasYearZero(givens, mapping) ?? false;
  const lines = givens.map((given) => ({ given, drafts: draftsIn(given, mapping) }));
  const years = lines.flatMap(({ drafts }) =>
    drafts.flatMap((draft): Year[] => {
      const bp = putAge(draft, mapping, hasZero);
      return bp === null ? [] : [{ draft, bp }];
    }),
  );
  /** Drafts that say what an earlier line says, by that line. */
  const again = new Map<Draft, number>();
  for (const [name, of] of Map.groupBy(years, ({ draft }) => nameIn(draft))) {
    yearsTwice(name, of, here, again);
    if (mapping.fixed['gaps'] === 'zero')
      for (const gap of gapsIn(of.map(({ bp }) => bp)))
        zeros(of, gap, lines.find(({ drafts }) => drafts.includes(endOf(of, gap)))!.drafts);
  }
  return lines.map(({ drafts }) => {
    if (drafts.length === 0) return { aside: 'nothing in the columns that are used' };
    const left = drafts.filter((draft) => !again.has(draft));
    if (left.length > 0) return { drafts: left };
    return { aside: `the year of line ${again.get(drafts[0]!)} again, with its weight` };
  });
}

const nameIn = ({ cells }: Draft): string => cells['density'] ?? '';

/** A draft for each curve that the line has a weight for. */
function draftsIn(given: Given, mapping: Mapping): Draft[] {
  const many = given.many.filter(({ column }) => column.to === 'weight of');
  const isSaid = many.length > 0 || given.said.has('weight') || [...given.said.keys()].some(isAge);
  if (!isSaid) return [];
  return (many.length === 0 ? [null] : many).map((said) => {
    const draft = ownCells(given, mapping, 'age_densities');
    // The years of a line are read together, next door.
    delete draft.cells['age_cal_bp'];
    draft.faults = draft.faults.filter(
      ({ column }) => given.said.get('age_cal_bp')?.column.heading !== column,
    );
    if (said !== null) {
      draft.cells['density'] = said.column.property ?? said.column.heading;
      putCell(draft, 'weight', targetsOf('age-densities').get('weight')!.column, said, mapping);
    }
    withFixed(draft, mapping);
    notNegative(draft, said ?? given.said.get('weight') ?? null);
    return draft;
  });
}

const isAge = (to: string): boolean => to.startsWith('age_');

function notNegative(draft: Draft, said: Said | null): void {
  const weight = readDecimal(draft.cells['weight'] ?? '');
  if (said === null || weight === null || weight.digits >= 0n) return;
  delete draft.cells['weight'];
  draft.tried.add('weight');
  draft.faults.push({
    column: said.column.heading,
    fault: {
      code: 'density-below-zero',
      found: said.text,
      expected: 'a probability of 0 or more',
      fix: 'Write 0 where the year is impossible, or correct the cell. Without the line the curve is straight between its neighbours.',
    },
  });
}

/** One weight for each year: the same said twice is said once, another is named. */
function yearsTwice(name: string, years: readonly Year[], here: Here, again: Map<Draft, number>): void {
  const before = new Map<string, { weight: string; line: number | null }>();
  for (const row of here.rows('age_densities'))
    if (row['density']?.trim() === name)
      before.set(keyOf(row['age_cal_bp'] ?? ''), { weight: row['weight'] ?? '', line: null });
  for (const { draft } of years) {
    const weight = draft.cells['weight'];
    if (weight === undefined) continue;
    const age = draft.cells['age_cal_bp']!;
    const other = before.get(keyOf(age));
    if (other === undefined) before.set(keyOf(age), { weight, line: draft.line });
    else if (keyOf(other.weight) !== keyOf(weight))
      draft.faults.push({
        column: 'age_cal_bp',
        fault: {
          code: 'year-twice',
          found: `${age} cal BP with ${weight}`,
          expected: `one row for each year: ${other.line === null ? 'the campaign' : `line ${other.line}`} has it with ${other.weight}`,
          fix:
            other.line === null
              ? 'Give this curve another name, or correct one of the two weights.'
              : 'Leave one of the two lines out, or correct its year.',
        },
      });
    else if (other.line !== null) again.set(draft, other.line);
  }
}

/** The same for 2450 and 2450.0. */
const keyOf = (number: string): string => String(Number(number));

const endOf = (years: readonly Year[], { to }: Gap): Draft =>
  years.find(({ bp }) => compare(bp, to) === 0)!.draft;

/** Weights of 0 one step within either end: nothing between, straight to its rows. */
function zeros(years: readonly Year[], gap: Gap, into: Draft[]): void {
  const end = endOf(years, gap);
  const ages = [sum(gap.from, gap.step), sum(gap.to, negated(gap.step))];
  for (const age of compare(ages[0]!, ages[1]!) === 0 ? [ages[0]!] : ages) {
    const draft = draftOf('age_densities', { ...end.given, rest: [] });
    for (const name of ['density', 'source'] as const)
      if (end.cells[name] !== undefined) draft.cells[name] = end.cells[name];
    draft.cells['age_cal_bp'] = writeDecimal(age);
    draft.cells['weight'] = '0';
    draft.notes.push('not in the table: taken as 0');
    into.push(draft);
  }
}
