/** What a new field day takes over from the day before, and what the new day cannot rely on. */
import type { TypedRow } from '@stillstand/campaign/document';

/**
 * People, permits and places are most often those of the day before. Leave-by and weather are of their own day. Access is
 * shown as assumed until it is confirmed for the day, and is written then.
 */
const CARRIED = ['crew', 'permits', 'contacts', 'emergency_contact', 'emergency_position'] as const;

type Day = Pick<TypedRow, 'cells'>;
const typed = ({ cells }: Day, column: string): string => cells[column]?.trim() ?? '';

/** The last day before this date, `2024-03-05`; null where there is none. */
const dayBefore = <D extends Day>(days: readonly D[], date: string): D | null =>
  days
    .filter((day) => typed(day, 'date') !== '' && typed(day, 'date') < date)
    .reduce<D | null>(
      (last, day) => (last === null || typed(day, 'date') >= typed(last, 'date') ? day : last),
      null,
    );

/** Cells a new day of this date begins with. */
export function carriedOver(days: readonly Day[], date: string): Record<string, string> {
  const before = dayBefore(days, date);
  if (before === null) return {};
  return Object.fromEntries(
    CARRIED.map((column) => [column, typed(before, column)]).filter(([, words]) => words !== ''),
  );
}

/** The columns of a day that still read as on the day before: to be looked at again. */
export function sameAsBefore(days: readonly Day[], day: Day): { date: string; columns: string[] } | null {
  const before = dayBefore(days, typed(day, 'date'));
  if (before === null) return null;
  const columns = CARRIED.filter(
    (column) => typed(day, column) !== '' && typed(day, column) === typed(before, column),
  );
  return columns.length === 0 ? null : { date: typed(before, 'date'), columns };
}
