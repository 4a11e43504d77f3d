/** What only a person can say of a table of probability: how it counts years, and what the years it leaves out mean. */
import { writeDecimal } from './decimal.ts';
import { gapsIn } from './density-gaps.ts';
import { ERAS, eraOfHeading, hasYearZero, putAge } from './density-years.ts';
import { draftOf } from './draft.ts';
import type { Given } from './given.ts';
import type { Mapping } from './mapping.ts';
import { wordOf } from './own-cells.ts';
import type { Decision } from './proposal.ts';

const NONE = { heading: null, choices: [], words: [] };

export function densityDecisions(mapping: Mapping, givens: readonly Given[]): Decision[] {
  return [...eras(mapping), ...yearZero(mapping, givens), ...gaps(mapping, givens)];
}

/** A heading that says “age” or “year” and no more. */
function eras({ columns }: Mapping): Decision[] {
  return columns.flatMap(({ column, heading, to }) => {
    if (!to?.startsWith('age_') || eraOfHeading(heading) !== null) return [];
    const question = `How are the years in “${heading}” counted: before 1950 (BP), CE, BCE, or before 2000 (b2k)?`;
    return [{ ...NONE, where: `columns.${column}.to`, heading, question, taken: to, choices: [...ERAS] }];
  });
}

function yearZero(mapping: Mapping, givens: readonly Given[]): Decision[] {
  const isSaid = mapping.fixed['year_zero'] !== undefined;
  if (!isSaid && hasYearZero(givens, mapping) !== null) return [];
  const taken = mapping.fixed['year_zero'] ?? 'no';
  const question = 'Years below 0: is there a year 0, so that −1 is 2 BCE and not 1 BCE?';
  return [{ ...NONE, where: 'fixed.year_zero', question, taken, choices: ['no', 'yes'] }];
}

function gaps(mapping: Mapping, givens: readonly Given[]): Decision[] {
  const hasZero = hasYearZero(givens, mapping) ?? false;
  const found = [...Map.groupBy(givens, (given) => wordOf(given, mapping, 'density')).values()].flatMap(
    (of) => gapsIn(of.flatMap((given) => putAge(draftOf('age_densities', given), mapping, hasZero) ?? [])),
  );
  if (found.length === 0) return [];
  const said = found
    .slice(0, 3)
    .map(({ from, to }) => `${writeDecimal(from)} to ${writeDecimal(to)}`)
    .join(', ');
  const more = found.length > 3 ? ` and ${found.length - 3} more` : '';
  const question = `Years without a row (between ${said}${more} cal BP): is the curve straight there, or 0?`;
  const taken = mapping.fixed['gaps'] ?? 'straight';
  return [{ ...NONE, where: 'fixed.gaps', question, taken, choices: ['straight', 'zero'] }];
}
