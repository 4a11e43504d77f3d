/** The dates of a campaign by hole, and the columns of words that stand at both sides of the time they are drawn in. */
import type { DateResult, HoleResult, Results } from '@stillstand/campaign/results';
import { textWidth } from '@stillstand/output/drawing';
import { statedAge, yearRange, years } from '@stillstand/output/words';
import { oldestOf, youngestOf } from '../chronology.ts';

export interface Row {
  date: DateResult;
  depth_m: number | null;
  /** Its hole, written in its row where holes have no line of their own and it is the first of one. */
  hole: string;
}

export interface Group {
  name: string;
  rows: Row[];
}

/** Dates by hole, holes along the section, each from the top down; those without a hole last. */
export function grouped(results: Results): Group[] {
  const along = (hole: HoleResult): number => hole.section_m ?? Number.POSITIVE_INFINITY;
  const holes = [...results.holes].sort((a, b) => along(a) - along(b)).map((h) => h.hole);
  const depths = new Map(results.samples.map((s) => [s.sample, s.depth_m?.value ?? null]));
  const rows = results.dates.map((date) => ({ date, depth_m: depths.get(date.sample) ?? null, hole: '' }));
  const names = [
    ...holes,
    ...rows.map(({ date }) => date.hole).filter((h) => h !== null && !holes.includes(h)),
  ];
  const groups: Group[] = [...new Set(names)].map((name) => ({
    name: `Hole ${name}`,
    rows: rows.filter(({ date }) => date.hole === name),
  }));
  groups.push({ name: 'From the surface', rows: rows.filter(({ date }) => date.hole === null) });
  for (const group of groups) {
    group.rows.sort(
      (a, b) =>
        (a.depth_m ?? Number.POSITIVE_INFINITY) - (b.depth_m ?? Number.POSITIVE_INFINITY) ||
        a.date.median_cal_bp - b.date.median_cal_bp,
    );
    const first = group.rows[0];
    if (first !== undefined) first.hole = first.date.hole ?? 'surface';
  }
  return groups.filter((group) => group.rows.length > 0);
}

/** " 1963 CE" of a year after 1950. */
const commonEra = (cal_bp: number): string => (cal_bp < 0 ? ` ${1950 - Math.round(cal_bp)} CE` : '');

/** The 95 % range and, of a date after 1950, the calendar year of its median. */
export const calendarOf = (date: DateResult): string =>
  `(${yearRange(oldestOf(date), youngestOf(date))})${commonEra(date.median_cal_bp)}`;

/** Columns of words that give way to time on a narrow paper, in this order. */
const GIVES_WAY = ['lab', 'measured', 'depth', 'range'] as const;
export type Column = (typeof GIVES_WAY)[number];

/** Room for the head of the depths, points. */
const DEPTH = 30;
/** Least room for time, points. */
const TIME = 60;

/** Of a column that is left out there is no edge. */
export interface Lanes {
  /** Left edge of the holes' names; null where each hole has a line of its own. */
  hole: number | null;
  holeWidth: number;
  /** Right edges of depths and measured ages, left edges of the rest. */
  depth: number | null;
  sample: number;
  sampleWidth: number;
  lab: number | null;
  labWidth: number;
  measured: number | null;
  /** Where time begins and ends. */
  plot: number;
  right: number;
  /** Right edge of the medians, left edge of the ranges. */
  median: number;
  range: number | null;
  leftOut: ReadonlySet<Column>;
  /** What all columns need, from margin to margin. */
  least: number;
}

/** Over medians and, where they are written, ranges. */
export const medianHead = (leftOut: ReadonlySet<Column>): string =>
  leftOut.has('range') ? 'cal BP' : 'median (95 %), cal BP';

/** Columns of words, from both sides, as many as leave time its room. */
export function lanesOf(groups: readonly Group[], inner: number, isDense: boolean): Lanes {
  const tries = [...GIVES_WAY.keys(), GIVES_WAY.length].map((n) =>
    lanesWithout(groups, inner, isDense, new Set(GIVES_WAY.slice(0, n))),
  );
  const [whole] = tries;
  const fit = tries.find(({ plot, right }) => right - plot >= TIME) ?? tries.at(-1)!;
  return { ...fit, least: whole!.plot + TIME + inner - whole!.right };
}

function lanesWithout(
  groups: readonly Group[],
  inner: number,
  isDense: boolean,
  leftOut: ReadonlySet<Column>,
): Omit<Lanes, 'least'> {
  const rows = groups.flatMap((g) => g.rows);
  const widest = (of: (row: Row) => string, least: number, most: number, weight: 400 | 600 = 400): number =>
    Math.min(most, Math.max(least, ...rows.map((row) => textWidth(of(row), { weight }))));
  /** Where the next column begins, as far as this one takes room. */
  const after = (x: number, column: Column, room: () => number): number =>
    leftOut.has(column) ? x : x + room();
  const holeWidth = isDense ? widest((r) => r.hole, 16, 60, 600) : 0;
  const depth = isDense ? holeWidth + 6 : 0;
  const sample = after(depth, 'depth', () => DEPTH + 6);
  const sampleWidth = widest((r) => r.date.sample, 24, 60);
  const lab = sample + sampleWidth + 8;
  const labWidth = widest((r) => r.date.lab_code, 36, 66);
  const measured = after(lab, 'lab', () => labWidth + 6);
  const measuredEnd = after(measured, 'measured', () =>
    widest(({ date }) => statedAge(date).join(' '), 38, 84),
  );
  const hasRange = !leftOut.has('range');
  const range = inner - widest(({ date }) => calendarOf(date), 50, 100);
  const median = hasRange ? range - 2.5 : inner;
  const head = textWidth(medianHead(leftOut));
  const right = Math.min(median - widest((r) => years(r.date.median_cal_bp), 20, 40, 600), inner - head) - 10;
  return {
    hole: isDense ? 0 : null,
    holeWidth,
    depth: leftOut.has('depth') ? null : depth + DEPTH,
    sample,
    sampleWidth,
    lab: leftOut.has('lab') ? null : lab,
    labWidth,
    measured: leftOut.has('measured') ? null : measuredEnd,
    plot: measuredEnd + 12,
    right,
    median,
    range: hasRange ? range : null,
    leftOut,
  };
}
