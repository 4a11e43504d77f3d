/** A day of the calendar counted from another, as dates are written, ISO 8601: no clock and no zone. */
import { momentOf } from '@stillstand/campaign/tables';

/** Part of a day is a whole one: nothing is overdue before its time. The date must be a day that exists. */
export const weeksAfter = (date: string, weeks: number): string =>
  // biome-ignore lint/plugin: a day counted from another, said in UTC as it was read
  new Date(momentOf(`${date}T00:00:00Z`)! + Math.ceil(7 * weeks) * 86_400_000).toISOString().slice(0, 10);
