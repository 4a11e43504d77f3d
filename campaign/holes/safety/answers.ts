/** The safety questions of a campaign as it is typed, how an answer is given, and who gave it in words. */
import { daysBetween, type TableName } from '@stillstand/campaign/tables';
import { partReader } from '../part-reader.ts';
import type { RowSource } from '../row-source.ts';
import { type GivenAnswer, type SafetyAnswer, type SafetyCheck, safetyChecks } from './safety.ts';

const read = partReader(['field_days', 'checks']);

/** Every question of this hole (of the day alone, without one) on this day, `2024-03-05`. */
export const checksOf = (source: RowSource, day: string, hole: string | null): SafetyCheck[] =>
  safetyChecks(read(source), day, hole);

export const dangersOf = (checks: readonly SafetyCheck[]): SafetyCheck[] =>
  checks.filter((c) => c.state === 'danger');

interface AnswerStore {
  addReading(table: TableName, cells: Readonly<Record<string, string>>): string;
  withdraw(table: TableName, row_id: string): string | null;
}

/**
 * Gives an answer: a reading of its own, with its own person and time, whatever stands already. The same answer again
 * withdraws it; a no again changes nothing, for a no stands until another answer.
 */
export function giveAnswer(
  store: AnswerStore,
  check: SafetyCheck,
  answer: SafetyAnswer,
  day: string,
  hole: string | null,
): void {
  const { given } = check;
  if (given?.answer === answer && given.day === day) {
    if (answer !== 'no' && given.row_id !== null) store.withdraw('checks', given.row_id);
    return;
  }
  if (given?.answer === 'no' && answer === 'no') return;
  store.addReading('checks', {
    ...(check.of === 'hole' && hole !== null ? { hole } : {}),
    date: day,
    question: check.question,
    ...(check.check.startsWith('own: ') ? {} : { check: check.check }),
    answer,
  });
}

export const ANSWER_WORDS: Record<SafetyAnswer, string> = { yes: 'yes', no: 'no', not_needed: 'not needed' };

/** "DK 08:12"; of another day with its date; a name nobody gave is said to be missing. */
export function byWords(given: GivenAnswer, day: string): string {
  const clock = /(?:^|T)(\d\d:\d\d)/.exec(given.time ?? '')?.[1] ?? '';
  const on = given.day === day ? '' : (given.day ?? 'day not known');
  return [given.by ?? 'name not given,', on, clock].filter(Boolean).join(' ').replace(/,$/, '');
}

/** "1 day ago", "3 days ago"; nothing where the day of the answer is not known. */
export function ageWords(given: GivenAnswer, day: string): string {
  const days = daysBetween(given.day ?? '', day);
  if (Number.isNaN(days)) return 'day not known';
  return `${days} ${days === 1 ? 'day' : 'days'} ago`;
}

/** "Nobody works alone; Permits seen and carried": what is still to be answered, by name. Null where nothing is. */
export function openWords(checks: readonly SafetyCheck[]): string | null {
  const open = checks.filter((c) => c.state === 'open');
  return open.length === 0 ? null : open.map((c) => c.question).join('; ');
}

/** "Site check: 8 questions not answered"; null where none is open. */
export function unansweredWords(checks: readonly SafetyCheck[], name = 'Site check'): string | null {
  const open = checks.filter((c) => c.state === 'open').length;
  return open === 0 ? null : `${name}: ${open} ${open === 1 ? 'question' : 'questions'} not answered`;
}
