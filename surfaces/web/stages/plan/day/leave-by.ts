/** The hour to leave by as it is typed and as it is shown: a time of day on the field day, by the campaign's clock. */

import { dateOf, daysBetween, readCell, schemas } from '@stillstand/campaign/tables';
import { clockAt, type DayTide, dateAt, dayBounds, isoAt, offsetIn } from '../../../days/index.ts';

/** 18:30, 18.30, 1830, 6:30, 930; before it the date where it is another day's. */
const CLOCK = /^(?:(\d{4}-\d\d-\d\d)[ T])?(\d{1,2})(?:[:.h]|(?=\d\d$))(\d\d)$/;

/**
 * ISO 8601 with offset of what was typed: a time of day on `date` (or on the date written before it) at `offset_min`
 * minutes ahead of UTC; a full time with its offset is kept as typed. Null where it cannot be read.
 */
export function leaveByTime(typed: string, date: string, offset_min: number): string | null {
  const text = typed.trim();
  const [, on = date, hours, minutes] = CLOCK.exec(text) ?? [];
  if (hours !== undefined) {
    const day = dayBounds(on, offset_min);
    const [h, min] = [Number(hours), Number(minutes)];
    return day === null || h > 23 || min > 59
      ? null
      : isoAt(day.from_ms + (h * 60 + min) * 60_000, offset_min);
  }
  return offsetIn(text) !== null &&
    readCell('leave_by', schemas.field_days.columns.leave_by, text, {}).fault === undefined
    ? text
    : null;
}

/** "18:30" on the day itself, "2024-03-06 00:15" on another; what is no time is shown as typed. */
export function leaveByWords(leave_by: string, date: string): string {
  const offset_min = offsetIn(leave_by);
  const time_ms = Date.parse(leave_by);
  if (offset_min === null || !Number.isFinite(time_ms)) return leave_by;
  const on = dateAt(time_ms, offset_min);
  const clock = clockAt(time_ms, offset_min);
  return on === date ? clock : `${on} ${clock}`;
}

/** Whether a leave-by time is of this day or of the night after it; true where it is no time. */
export function isOfDay(leave_by: string, date: string): boolean {
  const on = dateOf(leave_by);
  const later = on === null ? Number.NaN : daysBetween(date, on);
  return Number.isNaN(later) || later === 0 || later === 1;
}

/** Whether the route is closed at a moment, ms, or the crew could not be clear of it; false where nothing says. */
export const isCutOff = (tide: DayTide | null, moment: number): boolean =>
  tide !== null &&
  tide.limit_m !== null &&
  moment >= tide.from_ms &&
  moment < tide.to_ms &&
  !tide.spans.some(
    ({ from_ms, to_ms, leave_by_ms }) =>
      (from_ms ?? -Infinity) <= moment && moment <= (leave_by_ms ?? to_ms ?? Infinity),
  );
