/** High and low waters as people copy them from an official table: a line each, date, time and height. */
import { FOOT_M } from '@stillstand/science/base';
import { t } from '../language/index.ts';
import { dateAt, dayBounds } from './day-tide.ts';
import {
  inOrder,
  TABLE_ENTRIES,
  type TableCells,
  type TableEntry,
  type TableSays,
  type TableWater,
} from './table-water.ts';
import { doubts } from './tide-doubts.ts';

export interface TableRead {
  waters: TableWater[];
  says: TableSays[];
}

const TIME = /^(\d{1,2})(?:[:.h ]?(\d\d))\s*(am|pm)?$/i;
const KIND = /(?:high|low|hw|lw|[hl])/i;
const HEIGHT = new RegExp(
  `^(?:(${KIND.source})\\b\\s*)?([+\\-−]?\\d+(?:[.,]\\d+)?)\\s*(m|ft|feet|foot)?\\s*(${KIND.source})?$`,
  'i',
);
const DATE = /^\d{4}-\d\d-\d\d$/;
const LINE = new RegExp(
  `^(?:(\\d{4}-\\d\\d-\\d\\d)[T\\s,;]+)?(\\d{1,2}[:.h]?\\d\\d(?:\\s*[ap]m)?)\\b[\\s,;]*(?:(${KIND.source})\\b)?[\\s,;]*([+\\-−]?\\d+(?:[.,]\\d+)?\\s*(?:m|ft|feet|foot)?\\s*(?:${KIND.source})?)$`,
  'i',
);

/** Lines of a list or rows of a spreadsheet as cells; what has none of their forms is kept whole in its time. */
export function tableCellsIn(text: string): TableCells[] {
  return text.split(/\r\n|\r|\n/).flatMap((line): TableCells[] => {
    const typed = line.trim();
    // A heading has no number in it.
    if (typed === '' || !/\d/.test(typed)) return [];
    const [, date = '', time, kind = '', height] = LINE.exec(typed.replace(/\t+/g, ' ')) ?? [];
    if (time !== undefined) return [{ date, time, height: `${height} ${kind}`.trim() }];
    const cells = line.split('\t').map((cell) => cell.trim());
    if (cells.length < 2) return [{ date: '', time: typed, height: '' }];
    return cells.length === 2
      ? [{ date: '', time: cells[0]!, height: cells[1]! }]
      : [{ date: cells[0]!, time: cells[1]!, height: cells.slice(2).join(' ').trim() }];
  });
}

/**
 * `date`: of the first lines without one; `offset_min`: of the clock of the table, minutes ahead of UTC; `unit`: of heights
 * that state none; `isDiurnal`: one high water a day is usual. Blank lines are passed over.
 */
export function readTableLines(
  lines: readonly TableCells[],
  of: { date: string; offset_min: number; unit: 'm' | 'ft'; isDiurnal?: boolean },
): TableRead {
  const says: TableSays[] = [];
  const waters: TableWater[] = [];
  /** Null after a date that cannot be read: of what day the lines under it are is not known. */
  let day: string | null = of.date;
  lines.forEach((cells, line) => {
    const [date, time, height] = TABLE_ENTRIES.map((entry) => cells[entry].trim()) as [
      string,
      string,
      string,
    ];
    if (date === '' && time === '' && height === '') return;
    const wrong = (entry: TableEntry, words: string): void => {
      says.push({ line, entry, severity: 'error', words });
    };
    const before = waters.at(-1);
    const isDated = date !== '';
    if (isDated) day = DATE.test(date) && dayBounds(date, 0) !== null ? date : null;
    const example = of.date || '2023-02-09';
    if (day === null)
      wrong(
        'date',
        isDated
          ? t`found “${date}”; expected a date such as ${example}.`
          : t`found no date here and above one that cannot be read; expected a date such as ${example} in one of them.`,
      );
    const minute = minutesOf(time);
    if (minute === null) wrong('time', t`found “${time}”; expected a time such as 05:12.`);
    const read = heightOf(height, of.unit);
    if (read === null)
      wrong('height', t`found “${height}”; expected a height such as 0.4, 1.3 ft or 2.6 HW.`);
    const bounds = day === null ? null : dayBounds(day, of.offset_min);
    if (minute === null || read === null || bounds === null || says.some((each) => each.line === line))
      return;
    let time_ms = bounds.from_ms + minute * 60_000;
    if (!isDated && before !== undefined) {
      while (time_ms <= before.time_ms) {
        time_ms += 86_400_000;
        day = dateAt(time_ms, of.offset_min);
      }
    }
    if (isDated && before !== undefined && time_ms <= before.time_ms)
      says.push({
        line,
        entry: 'time',
        severity: 'question',
        words: t`no later than the line above. Check date and time; waters are put in order of time when recorded.`,
      });
    waters.push({ line, time_ms, ...read });
  });
  return {
    waters: withKinds(waters),
    says: [...says, ...doubts(waters, of)].sort((a, b) => a.line - b.line),
  };
}

/** Minutes after midnight; null for what is no time. */
function minutesOf(text: string): number | null {
  const [, hours, minutes, half] = TIME.exec(text) ?? [];
  if (hours === undefined) return null;
  const hour = half === undefined ? Number(hours) : (Number(hours) % 12) + (/p/i.test(half) ? 12 : 0);
  return hour > 23 || Number(minutes) > 59 ? null : hour * 60 + Number(minutes);
}

function heightOf(text: string, unit: 'm' | 'ft'): Pick<TableWater, 'height_m' | 'kind'> | null {
  const [, first, number, own, last] = HEIGHT.exec(text) ?? [];
  if (number === undefined) return null;
  const isFeet = own === undefined ? unit === 'ft' : /^f/i.test(own);
  const word = first ?? last;
  return {
    height_m: Number(number.replace('−', '-').replace(',', '.')) * (isFeet ? FOOT_M : 1),
    kind: word === undefined ? null : /^h/i.test(word) ? 'high' : 'low',
  };
}

/** Of a water that does not say it: higher than its neighbour is a high one. */
function withKinds(waters: readonly TableWater[]): TableWater[] {
  const order = inOrder(waters);
  return waters.map((water) => {
    const at = order.indexOf(water);
    const next = order[at + 1] ?? order[at - 1];
    if (water.kind !== null || next === undefined) return water;
    return { ...water, kind: water.height_m > next.height_m ? 'high' : 'low' };
  });
}
