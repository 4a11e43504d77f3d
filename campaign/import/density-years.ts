/** Calendar years of a table of probability, however its columns or cells count them: BP, CE, BCE, b2k. */
import type { Fault } from '@stillstand/campaign/tables';
import { compare, type Decimal, negated, readDecimal, sum, writeDecimal } from './decimal.ts';
import type { Draft } from './draft.ts';
import type { Given, Said } from './given.ts';
import type { Mapping } from './mapping.ts';
import { ourCell } from './read-cell.ts';
import { targetsOf } from './targets.ts';

/** Columns of ours, and ways of saying the same, by how they count years. */
export const ERAS = ['age_cal_bp', 'age_ce', 'age_bce', 'age_b2k'] as const;
export type Era = (typeof ERAS)[number];

/** An era at either end of a cell: “120 BCE”, “AD 450”, “2450 cal BP”. */
const IN_CELL = /^(?:(a\.?d\.?|ce)\s*)?(.*?)\s*(b\.?c\.?(?:e\.?)?|a\.?d\.?|c\.?e\.?|cal\.?\s*bp|bp|b2k)?$/iu;

/** How a heading counts years; null where it does not say. */
export function eraOfHeading(text: string): Era | null {
  const words = text.toLowerCase().replace(/[._]+/g, ' ').replaceAll('b c', 'bc').replaceAll('a d', 'ad');
  if (/\bb2k\b/.test(words)) return 'age_b2k';
  if (/\bbp\b|before 1950|\bka\b|\bkyr\b/.test(words)) return 'age_cal_bp';
  if (/\b(?:ce|ad)\b/.test(words)) return 'age_ce';
  return /\bbce?\b/.test(words) ? 'age_bce' : null;
}

function eraOfCell(text: string): { era: Era; number: string } | null {
  const [, before, number = '', behind] = IN_CELL.exec(text.trim()) ?? [];
  const word = (behind ?? before ?? '').toLowerCase().replace(/[\s.]/g, '');
  if (word === '') return null;
  if (word === 'b2k') return { era: 'age_b2k', number };
  if (word.endsWith('bp')) return { era: 'age_cal_bp', number };
  return { era: word.startsWith('b') ? 'age_bce' : 'age_ce', number };
}

const whole = (n: number): Decimal => ({ digits: BigInt(n), scale: 0 });
const isBelow = (year: Decimal, least: number): boolean => compare(year, whole(least)) < 0;

/**
 * Years before 1950, exactly. There is no year 0: 1 BCE is 1950 cal BP. Where years below 0 are counted with one
 * (`hasZero`), 0 is 1 BCE.
 */
function beforePresent(year: Decimal, era: Era, hasZero: boolean): Decimal {
  if (era === 'age_cal_bp') return year;
  if (era === 'age_b2k') return sum(year, whole(-50));
  if (era === 'age_bce') return sum(whole(1949), year);
  return sum(whole(isBelow(year, 1) && !hasZero ? 1949 : 1950), negated(year));
}

/** Whether years below 0 are counted with a year 0: said, or seen, as a year 0 is among them. */
export function hasYearZero(givens: readonly Given[], mapping: Mapping): boolean | null {
  const said = mapping.fixed['year_zero'];
  if (said === 'yes' || said === 'no') return said === 'yes';
  const years = givens.flatMap(({ said: cells }) => {
    const cell = cells.get('age_ce');
    const read = cell === undefined || eraOfCell(cell.text) !== null ? null : yearIn(cell, 'age_ce', mapping);
    return read !== null && 'year' in read ? [read.year] : [];
  });
  if (!years.some((year) => isBelow(year, 0))) return false;
  return years.some((year) => !isBelow(year, 0) && isBelow(year, 1)) ? true : null;
}

type ReadYear = { year: Decimal; notes: string[] } | { fault: Fault } | null;

function yearIn(said: Said, era: Era, mapping: Mapping): ReadYear {
  const read = ourCell(era, targetsOf('age-densities').get(era)!.column, said, mapping);
  if (read.fault !== null) return { fault: read.fault };
  const year = readDecimal(read.cell ?? '');
  return year === null ? null : { year, notes: read.notes };
}

/** More than this between two statements of one year is no rounding, yr. */
const SAME_YEAR = 1;

/** Writes the age of a line, years before 1950; two statements of it must agree. Null: none is said, or it cannot be read. */
export function putAge(draft: Draft, mapping: Mapping, hasZero: boolean): Decimal | null {
  let first: { bp: Decimal; said: Said } | null = null;
  for (const column of ERAS) {
    const said = draft.given.said.get(column);
    if (said === undefined) continue;
    draft.tried.add('age_cal_bp');
    const own = eraOfCell(said.text);
    const era = own?.era ?? column;
    const read = yearIn(own === null ? said : { ...said, text: own.number }, era, mapping);
    if (read === null) {
      if (first === null && ERAS.every((each) => each === column || !draft.given.said.has(each)))
        draft.tried.delete('age_cal_bp');
      continue;
    }
    if ('fault' in read) {
      draft.faults.push({ column: said.column.heading, fault: read.fault });
      continue;
    }
    if (era === 'age_bce' && isBelow(read.year, 1)) {
      draft.faults.push({ column: said.column.heading, fault: belowBce(said.text) });
      continue;
    }
    const bp = beforePresent(read.year, era, hasZero);
    if (first === null) {
      first = { bp, said };
      draft.cells['age_cal_bp'] = writeDecimal(bp);
      draft.notes.push(...read.notes);
    } else if (Math.abs(Number(writeDecimal(sum(bp, negated(first.bp))))) > SAME_YEAR) {
      draft.faults.push({ column: said.column.heading, fault: differing(first.said, said, bp) });
    }
  }
  return first?.bp ?? null;
}

const belowBce = (found: string): Fault => ({
  code: 'year-bce-below-one',
  found,
  expected: 'a year BCE of 1 or more, without a sign',
  fix: 'Correct the year, or say that the column has years CE, negative before the era.',
});

const differing = (one: Said, other: Said, bp: Decimal): Fault => ({
  code: 'years-differ',
  found: `${other.text}, which is ${writeDecimal(bp)} cal BP`,
  expected: `the same year as “${one.column.heading}” of the line: ${one.text}`,
  fix: 'Correct one of the two, or use one of the two columns alone.',
});
