/** Days of the calendar between dates as they are written, ISO 8601: no clock and no zone. */
import { momentOf } from '@stillstand/campaign/tables';

const DAY_MS = 86_400_000;
/** Campaign dates are days that exist. */
const at = (date: string): number => momentOf(`${date}T00:00:00Z`)!;

/** Negative where `to` is the earlier. */
export const daysBetween = (from: string, to: string): number => (at(to) - at(from)) / DAY_MS;

/** Part of a day is a whole one: nothing is overdue before its time. */
export const weeksAfter = (date: string, weeks: number): string =>
  // biome-ignore lint/plugin: a day counted from another, said in UTC as it was read
  new Date(at(date) + Math.ceil(7 * weeks) * DAY_MS).toISOString().slice(0, 10);
