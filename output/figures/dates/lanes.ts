/** The dates of a campaign by hole, and the columns of words that stand at both sides of the time they are drawn in. */
import type { DateResult, HoleResult, Results } from '@stillstand/campaign/results';
import { textWidth } from '@stillstand/output/drawing';
import { isLimit, printed, yearRange, years } from '@stillstand/output/words';
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

/** What was measured and its error of 1 sd: F14C where there is one. */
export function measuredOf(date: DateResult): [string, string] {
  const { value, error, f14c, f14c_sigma } = date;
  if (f14c !== null) return [`F14C ${printed(f14c, 4)}`, `± ${printed(f14c_sigma, 4)}`];
  return [years(value), isLimit(date) ? 'limit' : `± ${years(error)}`];
}

/** " 1963 CE" of a year after 1950. */
const commonEra = (cal_bp: number): string => (cal_bp < 0 ? ` ${1950 - Math.round(cal_bp)} CE` : '');

/** The 95 % range and, of a date after 1950, the calendar year of its median. */
export const calendarOf = (date: DateResult): string =>
  `(${yearRange(oldestOf(date), youngestOf(date))})${commonEra(date.median_cal_bp)}`;

/** Room for the head of the depths, points. */
const DEPTH = 30;

export interface Lanes {
  /** Left edge of the holes' names; null where each hole has a line of its own. */
  hole: number | null;
  holeWidth: number;
  /** Right edges of depths and measured ages, left edges of the rest. */
  depth: number;
  sample: number;
  sampleWidth: number;
  lab: number;
  labWidth: number;
  measured: number;
  /** Where time begins and ends. */
  plot: number;
  right: number;
  /** Right edge of the medians, left edge of the ranges. */
  median: number;
  range: number;
}

/** Columns of words, from both sides; the rest is time. */
export function lanesOf(groups: readonly Group[], inner: number, isDense: boolean): Lanes {
  const rows = groups.flatMap((g) => g.rows);
  const widest = (of: (row: Row) => string, least: number, most: number, weight: 400 | 600 = 400): number =>
    Math.min(most, Math.max(least, ...rows.map((row) => textWidth(of(row), { weight }))));
  const holeWidth = isDense ? widest((r) => r.hole, 16, 60, 600) : 0;
  const depth = isDense ? holeWidth + 6 : 0;
  const sample = depth + DEPTH + 6;
  const lab = sample + widest((r) => r.date.sample, 24, 60) + 8;
  const measured = lab + widest((r) => r.date.lab_code, 36, 66) + 6;
  const measuredWidth = widest(({ date }) => measuredOf(date).join(' '), 38, 84);
  const plot = measured + measuredWidth + 12;
  const range = inner - widest(({ date }) => calendarOf(date), 50, 100);
  const median = range - 2.5;
  const head = textWidth('median (95 %), cal BP');
  const right = Math.min(median - widest((r) => years(r.date.median_cal_bp), 20, 40, 600), inner - head) - 10;
  return {
    hole: isDense ? 0 : null,
    holeWidth,
    depth: depth + DEPTH,
    sample,
    sampleWidth: lab - sample - 8,
    lab,
    labWidth: measured - lab - 6,
    measured: measured + measuredWidth,
    plot,
    right,
    median,
    range,
  };
}
