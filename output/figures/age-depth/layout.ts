/** Where everything of age against depth in one hole is drawn, in points: found once, drawn as often as it is shown. */
import type { DateResult, HoleHistory, HoleResult, Results } from '@stillstand/campaign/results';
import { placeAlong, type Scale, scale, staffStep } from '@stillstand/output/drawing';
import { oldestDrawn, timeAxis, youngestDrawn } from '../chronology.ts';
import { AGE_SCALE, type AGE_SCALES } from '../curve/axes.ts';
import { depthScale, FIRST_LANE } from '../drilling/track.tsx';
import { type PlacedDate, type PlacedHiatus, placedDates, placedHiatuses } from './placed.ts';

export type AgeScaleName = (typeof AGE_SCALES)[number];

export interface AgeDepthSize {
  width: number;
  /** Least and most of the depth drawn; more where the dates need it for their codes. */
  least?: number;
  most?: number;
}

export interface AgeDepthOptions {
  ages?: AgeScaleName;
  /** The history is of the dates before the last change: drawn light. */
  isFormer?: boolean;
  /** An earlier history, drawn as a light line behind the one of today. */
  before?: HoleHistory | null;
}

export interface AgeDepthLayout {
  hole: HoleResult;
  history: HoleHistory | null;
  isFormer: boolean;
  before: HoleHistory | null;
  dates: readonly PlacedDate[];
  /** Dates that lie beyond the ends of the axis. */
  far: ReadonlySet<DateResult>;
  hiatuses: readonly PlacedHiatus[];
  depth: Scale;
  /** Ages in cal BP across, and the same lane as it is written. */
  time: Scale;
  written: Scale;
  ages: AgeScaleName;
  /** Of the staff of ages, as written. */
  step: { step: number; every: number };
  unitsX: number;
  /** Of laboratory codes; null where they have no room. */
  codesX: number | null;
  /** Of the accumulation rate, its ends across; null where there is none, or no room. */
  rateLane: readonly [number, number] | null;
  /** Beside the ages, from the top down. */
  labels: readonly Label[];
  width: number;
  /** Foot of the drawing without its legend. */
  height: number;
  /** From how many points nothing is left out. */
  whole: number;
}

/** What has its name beside the ages. */
export type Label = { y: number; at: number } & (
  | { kind: 'ground' }
  | { kind: 'date'; placed: PlacedDate }
  | { kind: 'hiatus'; hiatus: PlacedHiatus }
);

export const UNITS = 26;
/** Of the accumulation rate, on a wide page and on a narrower one. */
const RATE = { wide: 84, narrow: 60 } as const;
const WIDE = 440;
const GAP = 16;
/** Room for the codes of the dates, right of the ages. */
const CODES = 66;
const LEAST_AGES = 100;
/** Between labels of the staff in cal BP. */
const BP_ROOM = 28;
/** Between two codes. */
const CODE_ROW = 8.2;
/** A hole of more dates than this height can name has them pressed together. */
const MOST_CODES = 560;
/** A rejected date farther outside than this share of the other ages is an arrow at the edge. */
const REJECTED_BEYOND = 0.4;

/** RangeError for no width at all. */
export function ageDepthLayout(
  results: Results,
  hole: HoleResult,
  { width, least = 200, most = 400 }: AgeDepthSize,
  { ages = 'bp', isFormer = false, before = null }: AgeDepthOptions = {},
): AgeDepthLayout {
  if (!(width > 0)) throw new RangeError(`ageDepthLayout: expected a width above 0, found ${width}`);
  const history = results.histories.find((each) => each.hole === hole.hole) ?? null;
  const dates = placedDates(results, hole.hole, history, isFormer);
  const hiatuses = placedHiatuses(results, history);
  const bottom = Math.max(0.1, hole.penetration_m ?? 0, ...dates.map((d) => d.high_m));
  const unitsX = FIRST_LANE;
  const agesX = unitsX + (hole.units.length > 0 ? UNITS + 8 : 0);
  // The lane of the accumulation rate gives way first, then the codes.
  const rate = width < WIDE ? RATE.narrow : RATE.wide;
  const whole = agesX + LEAST_AGES + CODES + (history === null ? 0 : GAP + rate);
  const hasRate = history !== null && width >= whole;
  const hasCodes = width >= agesX + LEAST_AGES + CODES;
  const agesEnd = (hasRate ? width - rate - GAP : width) - (hasCodes ? CODES : 8);
  const named = hasCodes ? (dates.length + hiatuses.length + 1) * CODE_ROW : 0;
  const tall = Math.max(least, Math.min(MOST_CODES, named));
  const depth = depthScale(bottom, tall, Math.max(most, tall));
  const axis = axisOf(history, dates);
  const time = scale(axis.oldest, axis.youngest, agesX, agesEnd);
  const { of, room } = AGE_SCALE[ages];
  const written = scale(of(axis.oldest), of(axis.youngest), agesX, agesEnd);
  return {
    hole,
    history,
    isFormer,
    before,
    dates,
    far: axis.far,
    hiatuses,
    depth,
    time,
    written,
    ages,
    step: staffStep(written.k, 12, ages === 'bp' ? BP_ROOM : room),
    unitsX,
    codesX: hasCodes ? agesEnd + 6 : null,
    rateLane: hasRate ? [width - rate, width] : null,
    labels: hasCodes ? labelled(dates, hiatuses, depth) : [],
    width,
    height: depth(bottom) + 6,
    whole,
  };
}

/** The ages drawn: of the dates in use, of the history between them, and of rejected dates not far outside. */
function axisOf(
  history: HoleHistory | null,
  dates: readonly PlacedDate[],
): { oldest: number; youngest: number; far: ReadonlySet<DateResult> } {
  const all = dates.map(({ date }) => date);
  const used = all.filter(({ status }) => status === 'accepted');
  const axis = timeAxis(used.length > 0 ? used : all);
  const room = REJECTED_BEYOND * (axis.from - axis.to);
  const isBeyond = (date: DateResult): boolean =>
    oldestDrawn(date) > axis.from + room || youngestDrawn(date) < axis.to - room;
  const rejected = all.filter(({ status }) => status === 'rejected');
  const far = new Set([...axis.far, ...(used.length > 0 ? rejected.filter(isBeyond) : [])]);
  const near = all.filter((date) => !far.has(date));
  const band = history === null ? [] : [...dated(history, dates), ...mediansOf(history)];
  return {
    oldest: Math.max(axis.from, ...near.map(oldestDrawn), ...band),
    youngest: Math.min(axis.to, ...near.map(youngestDrawn), ...band),
    far,
  };
}

/** Of each history that remains possible. */
const mediansOf = ({ age_cal_bp, modes }: HoleHistory): number[] =>
  [age_cal_bp, ...modes.map((mode) => mode.age_cal_bp)].flatMap(({ median }) => Array.from(median));

/** Ends of the band between the first and the last date: beyond, where it opens as far as it likes, the median alone counts. */
function dated(history: HoleHistory, dates: readonly PlacedDate[]): number[] {
  const used = dates.filter(({ state }) => state !== 'rejected').map(({ depth_m }) => depth_m);
  const [top, bottom] = [Math.min(...used), Math.max(...used)];
  const { lower95, upper95 } = history.age_cal_bp;
  return Array.from(history.depth_m).flatMap((at, i) =>
    at >= top && at <= bottom ? [lower95[i]!, upper95[i]!] : [],
  );
}

function labelled(dates: readonly PlacedDate[], hiatuses: readonly PlacedHiatus[], depth: Scale): Label[] {
  const unplaced: Label[] = [
    { kind: 'ground' as const, at: depth(0), y: 0 },
    ...dates.map((placed) => ({ kind: 'date' as const, placed, at: depth(placed.depth_m), y: 0 })),
    ...hiatuses.map((hiatus) => ({ kind: 'hiatus' as const, hiatus, at: depth(hiatus.depth_m), y: 0 })),
  ];
  const wanted = unplaced.sort((a, b) => a.at - b.at);
  const places = placeAlong(
    wanted.map(({ at }) => ({ at, size: CODE_ROW })),
    depth(0) - 4,
    depth(depth.to) + 5,
  );
  return wanted.map((label, i) => ({ ...label, y: places[i]! }));
}
