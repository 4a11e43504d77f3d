/** Whether a field day is one that drilling can begin on. */
import { daysBetween } from '@stillstand/campaign/tables';

/**
 * Why nothing that is entered for a day (`2024-03-05`) makes drilling ready today, in a few words; null where it can. Its
 * answers, crew and leave-by are of their own day.
 */
export function voidDay(date: string, today: string): string | null {
  if (date === '') return 'the day has no date';
  if (Number.isNaN(daysBetween(date, date))) return `“${date}” is not a date`;
  return date < today ? `${date} is past` : null;
}
