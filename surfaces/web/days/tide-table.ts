/** High and low waters as people copy them from an official table: one a line, time and height. */

import { FOOT_M } from '@stillstand/science/base';
import { t } from '../language/index.ts';
import { dayBounds } from './day-tide.ts';

interface TableLine {
  time_ms: number;
  /** Above the zero of the table. */
  height_m: number;
}

export interface ReadTable {
  waters: TableLine[];
  /** What is wrong, line by line, with what was expected. */
  faults: string[];
}

const LINE =
  /^(?:(\d{4}-\d\d-\d\d)[T\s,;]+)?(\d{1,2})[:.h]?(\d\d)\b[\s,;\t]*(?:high|low|hw|lw|h|l)?[\s,;\t]*([+\-−]?\d+(?:[.,]\d+)?)\s*(m|ft|feet|foot)?\s*(?:high|low|hw|lw|h|l)?$/i;

/**
 * Lines such as `05:12 0.4`, `0512 0.4 m`, `2024-03-05 05:12 1.3 ft`, with or without the words high and low. `date` is
 * the day of lines without one; a clock that runs back is the next day. `offset_min`: of the table's clock.
 */
export function readTideTable(text: string, date: string, offset_min: number): ReadTable {
  const waters: TableLine[] = [];
  const faults: string[] = [];
  let day = date;
  let isDated = false;
  text.split(/\r?\n/).forEach((line, i) => {
    const typed = line.trim();
    if (typed === '') return;
    const [, stated, hours, minutes, height, unit] = LINE.exec(typed) ?? [];
    if (stated !== undefined) {
      day = stated;
      isDated = true;
    }
    const bounds = dayBounds(day, offset_min);
    const minute = Number(hours) * 60 + Number(minutes);
    if (height === undefined || Number(hours) > 23 || Number(minutes) > 59 || bounds === null) {
      faults.push(t`Line ${i + 1}: found “${typed}”; expected a time and a height, such as 05:12 0.4.`);
      return;
    }
    const metres = Number(height.replace('−', '-').replace(',', '.')) * (/^f/i.test(unit ?? '') ? FOOT_M : 1);
    const before = waters.at(-1);
    let time_ms = bounds.from_ms + minute * 60_000;
    if (!isDated && before !== undefined) while (time_ms <= before.time_ms) time_ms += 86_400_000;
    waters.push({ time_ms, height_m: metres });
  });
  for (let i = 1; i < waters.length; i++) {
    const hours = (waters[i]!.time_ms - waters[i - 1]!.time_ms) / 3_600_000;
    if (hours <= 0) faults.push(t`The times run back: write the waters in their order.`);
    const before = waters[i - 2]?.height_m;
    const isTurn =
      before === undefined ||
      (waters[i - 1]!.height_m - before) * (waters[i]!.height_m - waters[i - 1]!.height_m) < 0;
    if (!isTurn) faults.push(t`High and low waters take turns: one is missing, or a height is wrong.`);
    if (hours > 16) faults.push(t`More than 16 hours between two waters: one is missing.`);
  }
  if (faults.length === 0 && waters.length === 1)
    faults.push(t`At least two high or low waters; better four, and one from the day before or after.`);
  return { waters, faults: [...new Set(faults)] };
}
