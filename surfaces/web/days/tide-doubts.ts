/** What is odd about the waters of a tide table: each held against those before and after it, none refused. */
import { t } from '../language/index.ts';
import { clockAt } from './day-tide.ts';
import { inOrder, type TableEntry, type TableSays, type TableWater } from './table-water.ts';

/** Hours between two waters: usual of semidiurnal tides, mixed ones included (common practice, no source). */
const LEAST_H = 4;
const MOST_H = 9;
/** Of a tide with one high water a day. */
const MOST_DIURNAL_H = 16;

/** Questions, by their lines; `isDiurnal`: one high water a day is usual. */
export function doubts(
  waters: readonly TableWater[],
  of: { offset_min: number; isDiurnal?: boolean },
): TableSays[] {
  const says: TableSays[] = [];
  const ask = (water: TableWater, entry: TableEntry, words: string): void => {
    says.push({ line: water.line, entry, severity: 'question', words });
  };
  const order = inOrder(waters);
  for (const [i, water] of order.entries()) {
    const before = order[i - 1];
    const after = order[i + 1];
    const at = (other: TableWater): string => clockAt(other.time_ms, of.offset_min);
    if (before === undefined) continue;
    const hours = (water.time_ms - before.time_ms) / 3_600_000;
    if (hours > 0 && hours < LEAST_H)
      ask(
        water,
        'time',
        t`${hours.toFixed(1)} h after ${at(before)}, usually 4 h or more. Check both times.`,
      );
    const most = of.isDiurnal === true ? MOST_DIURNAL_H : MOST_H;
    if (hours > most)
      ask(
        water,
        'time',
        t`${hours.toFixed(1)} h after ${at(before)}, usually ${most} h or less. Check both times, and whether a water is missing between them; with one high water a day it may be right.`,
      );
    if (before.kind !== null && before.kind === water.kind) {
      const [two, one] = water.kind === 'high' ? [t`high`, t`low`] : [t`low`, t`high`];
      ask(
        water,
        'height',
        t`two ${two} waters in a row. Add the ${one} water between them, or correct the word.`,
      );
    } else if (water.kind !== null && water.height_m > before.height_m !== (water.kind === 'high')) {
      const [is, than] =
        water.kind === 'high' ? [t`a high water`, t`no higher`] : [t`a low water`, t`no lower`];
      ask(water, 'height', t`said to be ${is}, ${than} than ${at(before)}. Check both heights.`);
    } else if (
      after !== undefined &&
      water.kind === null &&
      (water.height_m - before.height_m) * (after.height_m - water.height_m) >= 0
    )
      ask(
        water,
        'height',
        t`neither higher nor lower than both ${at(before)} and ${at(after)}. A water is missing, or a height is wrong: compare with the table.`,
      );
  }
  return says;
}
