/** Dated holes side by side: one panel to a hole, in rows, all on one scale of elevation and one of time. */
import type { DateResult, Estimate, Results } from '@stillstand/campaign/results';
import { type Scale, scale } from '@stillstand/output/drawing';
import { timeAxis } from '../chronology.ts';
import { type Hung, hung } from '../section/layout.ts';

export interface AgeAcross {
  date: DateResult;
  elevation_m: Estimate;
  /** Off the end of the axis: an arrow. */
  isFar: boolean;
}

export interface AgePanel {
  hung: Hung;
  dates: AgeAcross[];
  /** Left and right edges, points. */
  x1: number;
  x2: number;
  row: number;
  time: Scale;
}

export interface AcrossLayout {
  panels: AgePanel[];
  rows: number;
  /** Of the elevations in a row, points. */
  height: number;
  top_m: number;
  bottom_m: number;
  from: number;
  to: number;
  /** Between margins: what all panels in few enough rows need, points. */
  least: number;
}

/** Left of the first panel, for the staff of elevation and its labels, points. */
export const LEFT = 40;
/** Over a row: name of the hole, labels and staff of time, room for a density on the highest ground, points. */
export const HEAD = 42;
/** From the top of the elevations up to the labels of the staff of time, points. */
export const TIME_LABELS = 20.6;
/** Between rows, points. */
export const BETWEEN = 12;
const GAP = 14;
/** Widths of a panel, from the most that helps to the least that is read, points. */
const WIDTH = { most: 150, wide: 74, narrow: 46 } as const;
/** More rows than this leave a page. */
const MOST_ROWS = 3;
/** Of a page's figure, all rows together, points. */
const PAGE = 600;
const POINTS_PER_M = 18;
const HEIGHT = { least: 110, most: 300 } as const;

/** Holes along the section that have an age in use at a known elevation. Fewer than two have no neighbour to compare with. */
export function datedHoles(results: Results): { hung: Hung; dates: Omit<AgeAcross, 'isFar'>[] }[] {
  const elevations = new Map(results.samples.map((s) => [s.sample, s.elevation_m]));
  return hung(results)
    .hung.filter(({ dates }) => dates.some(({ date }) => date.status === 'accepted'))
    .map((stand) => ({
      hung: stand,
      dates: stand.dates.map(({ date }) => ({ date, elevation_m: elevations.get(date.sample)! })),
    }));
}

export function acrossLayout(results: Results, inner: number): AcrossLayout {
  const holes = datedHoles(results);
  const { from, to, far } = timeAxis(holes.flatMap(({ dates }) => dates.map(({ date }) => date)));
  const room = inner - LEFT;
  const inRow = (width: number): number => Math.max(1, Math.floor((room + GAP) / (width + GAP)));
  const rowsOf = (width: number): number => Math.max(1, Math.ceil(holes.length / inRow(width)));
  const rows = rowsOf(WIDTH.wide) <= MOST_ROWS ? rowsOf(WIDTH.wide) : rowsOf(WIDTH.narrow);
  const count = Math.max(1, Math.ceil(holes.length / rows));
  const width = Math.min(WIDTH.most, (room - GAP * (count - 1)) / count);
  const elevations = holes.flatMap(({ hung: { ground_m, bottom_m }, dates }) => [
    ground_m,
    bottom_m,
    ...dates.flatMap(({ elevation_m: e }) => [e.lower95, e.upper95]),
  ]);
  const [top_m, bottom_m] = holes.length === 0 ? [1, 0] : [Math.max(...elevations), Math.min(...elevations)];
  const most = Math.min(HEIGHT.most, PAGE / rows - HEAD - BETWEEN);
  const fewest = Math.ceil(holes.length / MOST_ROWS);
  return {
    panels: holes.map(({ hung: stand, dates }, i) => {
      const x1 = LEFT + (i % count) * (width + GAP);
      return {
        hung: stand,
        dates: dates.map((each) => ({ ...each, isFar: far.has(each.date) })),
        x1,
        x2: x1 + width,
        row: Math.floor(i / count),
        time: scale(from, to, x1, x1 + width),
      };
    }),
    rows,
    height: Math.max(HEIGHT.least, Math.min(most, (top_m - bottom_m) * POINTS_PER_M)),
    top_m,
    bottom_m,
    from,
    to,
    least: LEFT + fewest * (WIDTH.narrow + GAP) - GAP,
  };
}
