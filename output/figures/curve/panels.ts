/** The two panels of the curve figure and what they share: time, left to right, and a range for each height. */
import {
  curveOf,
  type DateResult,
  type GaugeResult,
  gaugesOf,
  type PointResult,
  type PublishedPointResult,
  type Results,
  sitesOfCurve,
} from '@stillstand/campaign/results';
import {
  type PointPlace,
  type Rect,
  type Scale,
  scale,
  shortened,
  textWidth,
} from '@stillstand/output/drawing';
import type { Band } from '@stillstand/science/base';
import type { CurveResult } from '@stillstand/science/curve';
import { epochInWords } from '../chronology.ts';
import { farOff } from '../far.ts';
import { AGE_SCALE, type CurveAxes, checkedAxes, RATE_UNIT } from './axes.ts';
import { publishedBeside } from './published.tsx';

export const LEFT = 32;
const LEVEL_TOP = 14;
export const LEVEL_NAME = 'Relative sea level, m';
/** From line to line over the upper panel, points. */
const LEADING = 9;
/** Room for the dates' densities at the foot of the upper panel. */
export const DATES_ROOM = 26;

/** Of a drawing, points. */
export interface CurveSize {
  width: number;
  level_height: number;
  rate_height: number;
}

/** What is written along a panel: a scale of its own values, and their name. */
interface Axis {
  scale: Scale;
  name: string;
  unit: string;
  /** An age in cal BP, as it is written beside a mark. */
  written: (cal_bp: number) => string;
  label: (value: number, step: number) => string;
  /** Room for a label, points. */
  room: number;
}

export interface Panels {
  curve: CurveResult | null;
  /** The datum, next to the name of the levels or, where it has no room there, below it. */
  heading: { datum: string; y: number };
  /** Places in `ages_cal_bp`, youngest first, inside the drawn time. */
  order: number[];
  time: Scale;
  level: Scale;
  rate: Scale | null;
  /** As time and rate are written. */
  timeAxis: Axis;
  rateAxis: { scale: Scale; name: string; per_mm_yr: number } | null;
  levelFrame: Rect;
  rateFrame: Rect | null;
  points: { point: PointResult; at: PointPlace }[];
  /** Points of the curve's sites that lie outside the drawn ages or levels. */
  outside: PointResult[];
  /** Accepted points of other sites, which are not in this curve. */
  elsewhere: PointResult[];
  /** Sites of the curve in the order of their marks; empty where it is of one alone. */
  sites: readonly (string | null)[];
  /** Points of the literature within the frame; they stretch no axis. */
  published: { point: PublishedPointResult; at: PointPlace }[];
  /** How many of them lie outside it. */
  published_outside: number;
  dates: DateResult[];
  /** Means of gauges on the datum, as wide as their years and as high as 2 sigma. */
  gauges: { id: string; at: Rect }[];
}

/** What a point needs to stand in the upper panel. */
type Placeable = Pick<PointResult, 'age' | 'rsl_m' | 'rsl_sigma_m'>;

interface Range {
  low: number;
  high: number;
}

const widened = (range: Range, share: number): Range => {
  const span = Math.max(range.high - range.low, 0.1);
  return { low: range.low - share * span, high: range.high + share * span };
};

function extent(values: Iterable<number>): Range {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const v of values) {
    if (!Number.isFinite(v)) continue;
    low = Math.min(low, v);
    high = Math.max(high, v);
  }
  return low <= high ? { low, high } : { low: 0, high: 1 };
}

/** The band's extent over part of the ages. */
function bandExtent(band: Band, order: readonly number[]): Range {
  return extent(order.flatMap((i) => [band.lower95[i]!, band.upper95[i]!]));
}

/** Points of the curve's own sites; all of them where there is no curve. */
const ofTheCurve = (results: Results, point: PointResult): boolean =>
  curveOf(results) === null || sitesOfCurve(results).includes(point.site);

/**
 * The ages drawn. With a curve those it is reported at, and the accepted points beyond an end that nobody asked for; so
 * neither a rejected point nor one older than asked stretches the axis. One far off all others does not either: with it at an
 * end, the axis reaches to the others.
 */
function agesDrawn(results: Results, points: readonly PointResult[]): Range {
  const curve = curveOf(results);
  const { settings } = results;
  const lastYears = gaugesOf(results).map(({ blocks }) => 1950 - blocks.at(-1)!.to_year_ce);
  const standing = points.filter((p) => curve === null || p.status === 'accepted').map(({ age }) => age);
  const far = farOff(
    standing.map((age) => ({ older_cal_bp: age.older95_cal_bp, younger_cal_bp: age.younger95_cal_bp })),
  );
  const near = standing.filter((_, i) => !far[i]);
  if (curve === null) {
    return extent([...near.flatMap((age) => [age.older95_cal_bp, age.younger95_cal_bp]), ...lastYears]);
  }
  const isAsked = (name: string): boolean => settings.some((s) => s.name === name && !s.assumed);
  const reported = extent(curve.ages_cal_bp);
  const middle = extent(near.map((age) => age.median_cal_bp)).high;
  const isFarOlder = standing.some((age, i) => far[i] === true && age.median_cal_bp > middle);
  const [asksOldest, asksYoungest] = [isAsked('curve_oldest_cal_bp'), isAsked('curve_youngest_cal_bp')];
  return extent([
    reported.low,
    ...(isFarOlder && !asksOldest ? [] : [reported.high]),
    ...(asksOldest ? [] : near.map((age) => age.older95_cal_bp)),
    ...(asksYoungest ? [] : [...near.map((age) => age.younger95_cal_bp), ...lastYears]),
  ]);
}

/** RangeError for limits that leave nothing between them. */
export function panels(results: Results, size: CurveSize, asked: CurveAxes = {}): Panels {
  const axes = checkedAxes(asked);
  const curve = curveOf(results);
  const own = results.points.filter((point) => ofTheCurve(results, point));
  const inner = size.width;
  const ages = agesDrawn(results, own);
  const least = curve === null ? Math.min(0, ages.low) : ages.low;
  const youngest = axes.youngest_cal_bp ?? Math.min(least, (axes.oldest_cal_bp ?? ages.high) - 1);
  const oldest = axes.oldest_cal_bp ?? Math.max(ages.high, youngest + 1) + (ages.high - least) * 0.015;
  const ends = axes.older === 'right' ? ([youngest, oldest] as const) : ([oldest, youngest] as const);
  const time = scale(...ends, LEFT, inner);
  const inTime = own.filter((p) => p.age.older95_cal_bp >= youngest && p.age.younger95_cal_bp <= oldest);
  const order = curve === null ? [] : drawnAges(curve.ages_cal_bp, youngest, oldest);

  // Where no point is accepted, those there are.
  const accepted = inTime.filter((p) => p.status === 'accepted');
  const framing = accepted.length > 0 ? accepted : inTime;
  const pointRange = extent(
    framing.length === 0
      ? [0]
      : framing.flatMap((p) => [p.rsl_m - 2 * p.rsl_sigma_m, p.rsl_m + 2 * p.rsl_sigma_m]),
  );
  let levels = pointRange;
  if (curve !== null) {
    // A band flaring where there are no points must not press the points flat.
    const band = bandExtent(curve.level_m, order);
    const most = framing.length === 0 ? band : widened(pointRange, 0.2);
    levels = extent([
      pointRange.low,
      pointRange.high,
      Math.max(most.low, band.low),
      Math.min(most.high, band.high),
    ]);
  }
  levels = widened(
    extent([levels.low, levels.high, ...(levels.low > 3 || levels.high < -3 ? [] : [0])]),
    0.05,
  );
  levels = { low: axes.lowest_m ?? levels.low, high: axes.highest_m ?? levels.high };
  // One limit beyond the other end of what there is.
  if (levels.high <= levels.low)
    levels =
      axes.lowest_m === undefined
        ? { low: levels.high - 1, high: levels.high }
        : { low: levels.low, high: levels.low + 1 };
  const heading = headingOf(results, inner);
  const top = heading.y + LEVEL_TOP - 7;
  const levelFrame = { x1: LEFT, y1: top, x2: inner, y2: top + size.level_height };
  const level = scale(levels.low, levels.high, levelFrame.y2 - DATES_ROOM, levelFrame.y1);
  const isInFrame = (p: Placeable): boolean =>
    p.age.older95_cal_bp >= youngest &&
    p.age.younger95_cal_bp <= oldest &&
    p.rsl_m - 2 * p.rsl_sigma_m <= level.to &&
    p.rsl_m + 2 * p.rsl_sigma_m >= level.from;
  const points = own.filter(isInFrame);
  const published = publishedBeside(results);
  const publishedHere = published.filter(isInFrame);

  let rate: Scale | null = null;
  let rateFrame: Rect | null = null;
  if (curve !== null) {
    const y1 = levelFrame.y2 + 34;
    rateFrame = { x1: LEFT, y1, x2: inner, y2: y1 + size.rate_height };
    rate = ((range) => scale(range.low, range.high, y1 + size.rate_height, y1))(
      rateRange(curve, order, time),
    );
  }
  const placed = <P extends Placeable>(point: P) => ({
    point,
    at: {
      ...across(time, point.age.older95_cal_bp, point.age.younger95_cal_bp),
      x: time(point.age.median_cal_bp),
      y: level(point.rsl_m),
      spread: 2 * point.rsl_sigma_m * Math.abs(level.k),
    },
  });
  const used = new Set(points.filter((p) => p.status === 'accepted').map((p) => p.lab_code));
  const dates = results.dates.filter((d) => used.has(d.lab_code));
  const outside = own.filter((p) => !points.includes(p));
  const elsewhere = results.points.filter((p) => p.status === 'accepted' && !ofTheCurve(results, p));
  return {
    curve,
    heading,
    order,
    time,
    level,
    rate,
    timeAxis: timeAxis(time, axes),
    rateAxis: rate === null ? null : rateAxis(rate, axes, rateFrame!),
    levelFrame,
    rateFrame,
    points: points.map(placed),
    sites: sitesOfCurve(results).length > 1 ? sitesOfCurve(results) : [],
    published: publishedHere.map(placed),
    published_outside: published.length - publishedHere.length,
    outside,
    elsewhere,
    dates,
    gauges: gaugesOf(results).flatMap((gauge) => gaugeRects(gauge, time, level)),
  };
}

function headingOf({ datum: of }: Results, width: number): Panels['heading'] {
  const epoch = epochInWords(of);
  const once = '; ± is 2 sd';
  const label = epoch === null ? of.label : `${of.label}, ${epoch}`;
  const datum = `${shortened(label, width - textWidth(once))}${once}`;
  const isBeside = textWidth(LEVEL_NAME, { weight: 600 }) + 6 + textWidth(datum) < width;
  return { datum, y: isBeside ? 7 : 7 + LEADING };
}

/** From left to right, whichever way time runs. */
export function across(time: Scale, older: number, younger: number): { x1: number; x2: number } {
  const ends = [time(older), time(younger)];
  return { x1: Math.min(...ends), x2: Math.max(...ends) };
}

/** Places of the ages drawn, youngest first, and one beyond each end, so that the lines reach the frame. */
function drawnAges(ages: Float64Array, youngest: number, oldest: number): number[] {
  const order = [...ages.keys()].sort((a, b) => ages[a]! - ages[b]!);
  const first = order.findIndex((i) => ages[i]! >= youngest);
  const last = order.findLastIndex((i) => ages[i]! <= oldest);
  return first === -1 ? [] : order.slice(Math.max(0, first - 1), last + 2);
}

function timeAxis(time: Scale, { ages = 'bp' }: CurveAxes): Axis {
  const { of, from: ageOf, ...axis } = AGE_SCALE[ages];
  const [from, to] = [of(time.from), of(time.to)];
  const { k } = scale(from, to, time(time.from), time(time.to));
  return {
    ...axis,
    // By way of the age: years of the era skip one at their beginning.
    scale: Object.assign((value: number) => time(ageOf(value)), { from, to, k }),
    written: (cal_bp) => axis.label(of(cal_bp), 0.01),
  };
}

function rateAxis(rate: Scale, { rates = 'mm/yr' }: CurveAxes, frame: Rect): Panels['rateAxis'] {
  const { per_mm_yr, written } = RATE_UNIT[rates];
  return {
    scale: scale(rate.from * per_mm_yr, rate.to * per_mm_yr, frame.y2, frame.y1),
    name: `Rate, ${written}`,
    per_mm_yr,
  };
}

/** A gauge whose zero nothing relates to the datum has no level to draw. */
function gaugeRects({ zero_elevation_m, blocks }: GaugeResult, time: Scale, level: Scale): Panels['gauges'] {
  if (zero_elevation_m === null) return [];
  return blocks.map(({ point, from_year_ce, to_year_ce, level_m, sigma_m }) => {
    const y = level(zero_elevation_m + level_m);
    const half = Math.max(0.6, 2 * sigma_m * Math.abs(level.k));
    return {
      id: point,
      at: { ...across(time, 1950 - from_year_ce, 1950 - to_year_ce), y1: y - half, y2: y + half },
    };
  });
}

/** Whether any of an interval is drawn. */
export const isDrawn = (
  { older_cal_bp, younger_cal_bp }: { older_cal_bp: number; younger_cal_bp: number },
  time: Scale,
): boolean => older_cal_bp > Math.min(time.from, time.to) && younger_cal_bp < Math.max(time.from, time.to);

/** Rates: the 95 % band without its flaring ends, the intervals, and zero. */
function rateRange(curve: CurveResult, order: readonly number[], time: Scale): Range {
  const cut = Math.floor(order.length * 0.06);
  const middle = order.length > 20 ? order.slice(cut, order.length - cut) : order;
  const band = bandExtent(curve.rate_mm_yr, middle);
  const drawn = curve.intervals.filter((interval) => isDrawn(interval, time));
  const bars = drawn.flatMap((i) => [i.rate_mm_yr.lower95, i.rate_mm_yr.upper95]);
  return widened(extent([band.low, band.high, 0, ...bars]), 0.08);
}
