/** Which columns the table of dates has room for, and how wide its lane is: names whole, and nothing beyond its edge. */
import { SIZE, textWidth } from '@stillstand/output/drawing';
import { years } from '@stillstand/output/words';
import { isReportedAsF14C } from './age.ts';
import { measuredWords, wholeSet } from './date-row.tsx';
import type { Determination } from './rows.ts';

/** A density can be told from a line, pixels; ages are better seen in a lane of more than a code is worth. */
const LEAST_LANE = 86;
const GOOD_LANE = 140;
/** Room between columns, pixels, and of the mark at a chosen row. */
const GAP = 8;
const CHOSEN = 10;
const DEPTH = 66;
/** A word over the column, as wide as it is written there. */
const HEADS = { measured: 84, age: 150 };

export interface Columns {
  /** Depth and age have columns. */
  isWide: boolean;
  /** The code of the laboratory has one; else it stands under the sample. */
  hasLab: boolean;
  lane: number;
  /** Of the columns, pixels, so that they are the same for some of the rows as for all. */
  widths: { sample: number; lab: number; measured: number; age: number };
}

/** For a table of `width` pixels. */
export function columnsOf(rows: readonly Determination[], width: number): Columns {
  const widest = (words: readonly string[], px: number, weight: 400 | 600 = 400): number =>
    GAP + Math.ceil((Math.max(0, ...words.map((each) => textWidth(each, { weight }))) * px) / SIZE.text);
  const cell = (column: string): string[] => rows.map(({ row }) => row.cells[column]?.trim() ?? '');
  const sample = CHOSEN + widest(cell('sample'), 17, 600);
  const lab = widest(cell('lab_code'), 15);
  const f14c = rows.some(({ row }) => isReportedAsF14C(row.cells)) ? 36 : 0;
  const measured = Math.max(
    HEADS.measured,
    f14c +
      widest(
        rows.map(({ row, date }) => measuredWords(row.cells, date)),
        17,
      ),
  );
  const dates = rows.flatMap(({ date }) => (date === null ? [] : [date]));
  const age = Math.max(
    HEADS.age,
    GAP +
      widest(
        dates.map((date) => `${years(date.median_cal_bp)} `),
        17,
        600,
      ) +
      widest(
        dates.map((date) => `(${wholeSet(date)})`),
        15,
      ),
  );
  const lane = (others: number): number => Math.floor(width - GAP - others);
  const widths = { sample, lab, measured, age };
  const whole = lane(sample + lab + DEPTH + measured + age);
  if (whole >= GOOD_LANE) return { isWide: true, hasLab: true, lane: whole, widths };
  const under = lane(Math.max(sample, lab) + DEPTH + measured + age);
  if (under >= LEAST_LANE)
    return { isWide: true, hasLab: false, lane: under, widths: { ...widths, sample: Math.max(sample, lab) } };
  // A name that is longer than what is left is broken into lines.
  return {
    isWide: false,
    hasLab: false,
    lane: Math.max(LEAST_LANE, lane(Math.max(sample, lab) + measured)),
    widths,
  };
}
