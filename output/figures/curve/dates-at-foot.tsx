/**
 * The dates of the curve's points at its foot: each density on a line of its own where a few lines hold them all, else one
 * dot to a date at its median, stacked, so that many never become a solid mass.
 */
import type { DateResult } from '@stillstand/campaign/results';
import { AgeDensity, dot, isMarine, type Rect, type Scale, useInk } from '@stillstand/output/drawing';
import { oldestDrawn, youngestDrawn } from '../chronology.ts';
import { across, DATES_ROOM } from './panels.ts';

/** More lines than this would be too low to read. */
const MOST_ROWS = 4;
/** Under the lowest line and over the highest, points. */
const FOOT = 2;
const HEAD = 2;
/** A single line is not drawn higher, points. */
const MOST_HEIGHT = 14;
/** A base reaches past its density, points. */
const BASE = 2.5;
/** Across a dot and between dots, points. */
const DOT = 1.7;
const PITCH = 2.1;

export type DatesAtFoot =
  | { kind: 'densities'; rows: { date: DateResult; row: number }[]; height: number; pitch: number }
  | { kind: 'medians'; dots: { date: DateResult; x: number; up: number }[] };

/** The lowest line free from `from` on; each line is known by where its last mark ends. */
function lowestFree(ends: number[], from: number, to: number): number {
  const free = ends.findIndex((end) => end <= from);
  const row = free < 0 ? ends.length : free;
  ends[row] = to;
  return row;
}

/** Of dates inside the drawn time. */
export function datesAtFoot(dates: readonly DateResult[], time: Scale, frame: Rect): DatesAtFoot {
  const inside = dates
    .filter((d) => time(d.median_cal_bp) > frame.x1 && time(d.median_cal_bp) < frame.x2)
    .map((date) => ({ date, at: across(time, oldestDrawn(date), youngestDrawn(date)) }))
    .sort((a, b) => a.at.x1 - b.at.x1);
  const ends: number[] = [];
  const rows = inside.map(({ date, at }) => ({ date, row: lowestFree(ends, at.x1 - BASE, at.x2 + BASE) }));
  const room = DATES_ROOM - FOOT - HEAD;
  if (ends.length <= MOST_ROWS) {
    const pitch = room / Math.max(1, ends.length);
    return { kind: 'densities', rows, height: Math.min(MOST_HEIGHT, pitch - 1), pitch };
  }
  const stacks: number[] = [];
  const placed = inside
    .map(({ date }) => ({ date, x: time(date.median_cal_bp) }))
    .sort((a, b) => a.x - b.x)
    .map((each) => ({ ...each, row: lowestFree(stacks, each.x, each.x + PITCH) }));
  const pitch = Math.min(PITCH, room / stacks.length);
  return { kind: 'medians', dots: placed.map(({ date, x, row }) => ({ date, x, up: (row + 0.5) * pitch })) };
}

export function Dates({ at, time, frame, id }: { at: DatesAtFoot; time: Scale; frame: Rect; id: string }) {
  const ink = useInk();
  const foot = frame.y2 - FOOT;
  if (at.kind === 'densities') {
    return (
      <g id={`${id}-dates`}>
        {at.rows.map(({ date, row }) => (
          <AgeDensity key={date.row_id} date={date} x={time} y={foot - row * at.pitch} height={at.height} />
        ))}
      </g>
    );
  }
  const dots = (marine: boolean): string =>
    at.dots
      .filter(({ date }) => isMarine(date) === marine)
      .map(({ x, up }) => dot(x, foot - up))
      .join('');
  return (
    <g id={`${id}-dates`} fill="none" strokeLinecap="round">
      <path d={dots(false)} stroke={ink.ink} strokeWidth={DOT} />
      <path d={dots(true)} stroke={ink.sea} strokeWidth={DOT} />
      <path d={dots(true)} stroke={ink.paper} strokeWidth={DOT / 2} />
    </g>
  );
}

/** Two dots of the land and one of the sea, for the legend. */
export function MedianSwatch({ x, y }: { x: number; y: number }) {
  const ink = useInk();
  return (
    <g fill="none" strokeLinecap="round">
      <path d={dot(x - 4, y + 1) + dot(x, y + 1) + dot(x, y - 0.9)} stroke={ink.ink} strokeWidth={DOT} />
      <path d={dot(x + 4, y + 1)} stroke={ink.sea} strokeWidth={DOT} />
      <path d={dot(x + 4, y + 1)} stroke={ink.paper} strokeWidth={DOT / 2} />
    </g>
  );
}
