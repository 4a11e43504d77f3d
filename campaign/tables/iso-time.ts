/** ISO 8601 dates and times as we ask for them: days that exist, times with an offset. */

const DATE = /^(\d{4})-(\d{2})-(\d{2})$/;
const TIME =
  /^(\d{4}-\d{2}-\d{2})[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d+))?)?(Z|[-+−]\d{2}(?::?\d{2})?)?$/u;

const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** True for YYYY-MM-DD of a day that exists in the Gregorian calendar. */
export function isIsoDate(text: string): boolean {
  const form = DATE.exec(text);
  if (!form) return false;
  const [year, month, day] = [Number(form[1]), Number(form[2]), Number(form[3])];
  if (month < 1 || month > 12) return false;
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return day >= 1 && day <= (month === 2 && isLeap ? 29 : MONTH_DAYS[month - 1]!);
}

/** `offset` for a time with its offset, `local` for one without, null for anything else. A second of 60 is allowed. */
export function isoTime(text: string): 'offset' | 'local' | null {
  const form = TIME.exec(text);
  if (!form || !isIsoDate(form[1]!)) return null;
  if (Number(form[2]) > 23 || Number(form[3]) > 59 || Number(form[4] ?? 0) > 60) return null;
  const offset = form[6];
  if (offset === undefined) return 'local';
  if (offset === 'Z') return 'offset';
  const digits = offset.slice(1).replace(':', '');
  return Number(digits.slice(0, 2)) <= 23 && Number(digits.slice(2) || 0) <= 59 ? 'offset' : null;
}

/** Milliseconds since 1970, UTC, of a time with its offset; null for one without, and for what is no time. */
export function momentOf(text: string): number | null {
  if (isoTime(text) !== 'offset') return null;
  const [, date, hour, minute, second = '0', fraction = '0', offset] = TIME.exec(text)!;
  const [year, month, day] = date!.split('-').map(Number);
  const there = Date.UTC(year!, month! - 1, day, Number(hour), Number(minute), Number(second));
  const thousandths = Math.round(1000 * Number(`0.${fraction}`));
  if (offset === 'Z') return there + thousandths;
  const digits = offset!.slice(1).replace(':', '');
  const ahead = 60 * Number(digits.slice(0, 2)) + Number(digits.slice(2) || 0);
  return there + thousandths - (offset!.startsWith('+') ? 60_000 : -60_000) * ahead;
}

/** "2024-03-05": the date of a time as it was written, by the clock of the place; null where there is none. */
export const dateOf = (time: string | null | undefined): string | null =>
  /^\d{4}-\d{2}-\d{2}/.exec(time ?? '')?.[0] ?? null;

/** "14:32": its clock as written with its offset, never moved to another zone; empty where there is none. */
export const clockOf = (time: string | null | undefined): string =>
  /^\d{4}-\d{2}-\d{2}[T ](\d{2}:\d{2})/.exec(time ?? '')?.[1] ?? '';

/** Days of the calendar from one ISO date to another, negative where the second is the earlier; NaN for what is no date. */
export function daysBetween(from: string, to: string): number {
  const noon = (date: string): number => momentOf(`${date}T12:00:00Z`) ?? Number.NaN;
  return (noon(to) - noon(from)) / 86_400_000;
}
