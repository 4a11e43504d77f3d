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
import { type PointPlace, type Rect, type Scale, scale } from '@stillstand/output/drawing';
import type { Band } from '@stillstand/science/base';
import type { CurveResult } from '@stillstand/science/curve';
import { farOff } from '../far.ts';
import { publishedBeside } from './published.tsx';

export const LEFT = 32;
const LEVEL_TOP = 14;
/** Room for the dates' densities at the foot of the upper panel. */
export const DATES_ROOM = 26;

/** Of a drawing, points. */
export interface CurveSize {
  width: number;
  level_height: number;
  rate_height: number;
}

export interface Panels {
  curve: CurveResult | null;
  /** Places in `ages_cal_bp`, youngest first, inside the drawn time. */
  order: number[];
  time: Scale;
  level: Scale;
  rate: Scale | null;
  levelFrame: Rect;
  rateFrame: Rect | null;
  points: { point: PointResult; at: PointPlace }[];
  /** Points of the curve's sites that lie outside the drawn ages or levels. */
  outside: PointResult[];
  /** Accepted points of other sites, which are not in this curve. */
  elsewhere: PointResult[];
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

export function panels(results: Results, size: CurveSize): Panels {
  const curve = curveOf(results);
  const own = results.points.filter((point) => ofTheCurve(results, point));
  const inner = size.width;
  const ages = agesDrawn(results, own);
  const youngest = curve === null ? Math.min(0, ages.low) : ages.low;
  const margin = (ages.high - youngest) * 0.015;
  const time = scale(ages.high + margin, youngest, LEFT, inner);
  const inTime = own.filter((p) => p.age.older95_cal_bp >= time.to && p.age.younger95_cal_bp <= time.from);
  const order =
    curve === null
      ? []
      : [...curve.ages_cal_bp.keys()]
          .filter((i) => curve.ages_cal_bp[i]! <= time.from)
          .sort((a, b) => curve.ages_cal_bp[a]! - curve.ages_cal_bp[b]!);

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
  const levelFrame = { x1: LEFT, y1: LEVEL_TOP, x2: inner, y2: LEVEL_TOP + size.level_height };
  const level = scale(levels.low, levels.high, levelFrame.y2 - DATES_ROOM, levelFrame.y1);
  const isInFrame = (p: Placeable): boolean =>
    p.age.older95_cal_bp >= time.to &&
    p.age.younger95_cal_bp <= time.from &&
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
      x1: time(point.age.older95_cal_bp),
      x2: time(point.age.younger95_cal_bp),
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
    order,
    time,
    level,
    rate,
    levelFrame,
    rateFrame,
    points: points.map(placed),
    published: publishedHere.map(placed),
    published_outside: published.length - publishedHere.length,
    outside,
    elsewhere,
    dates,
    gauges: gaugesOf(results).flatMap((gauge) => gaugeRects(gauge, time, level)),
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
      at: { x1: time(1950 - from_year_ce), x2: time(1950 - to_year_ce), y1: y - half, y2: y + half },
    };
  });
}

/** Whether any of an interval is drawn. */
export const isDrawn = (
  { older_cal_bp, younger_cal_bp }: { older_cal_bp: number; younger_cal_bp: number },
  time: Scale,
): boolean => older_cal_bp > time.to && younger_cal_bp < time.from;

/** Rates: the 95 % band without its flaring ends, the intervals, and zero. */
function rateRange(curve: CurveResult, order: readonly number[], time: Scale): Range {
  const cut = Math.floor(order.length * 0.06);
  const middle = order.length > 20 ? order.slice(cut, order.length - cut) : order;
  const band = bandExtent(curve.rate_mm_yr, middle);
  const drawn = curve.intervals.filter((interval) => isDrawn(interval, time));
  const bars = drawn.flatMap((i) => [i.rate_mm_yr.lower95, i.rate_mm_yr.upper95]);
  return widened(extent([band.low, band.high, 0, ...bars]), 0.08);
}
