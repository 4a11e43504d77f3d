/** The two panels of the curve figure and what they share: time, left to right, and a range for each height. */
import type { DateResult, PointResult, Results } from '@stillstand/campaign/results';
import type { Band, CurveResult } from '@stillstand/science/curve';
import type { PointPlace } from '../parts/marks.tsx';
import type { Rect } from '../parts/place.ts';
import { type Scale, scale } from '../parts/scale.ts';

export const LEFT = 32;
const LEVEL_TOP = 14;
/** Room for the date silhouettes at the foot of the upper panel. */
export const DATES_ROOM = 22;

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
  dates: DateResult[];
}

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

export function panels(results: Results, size: CurveSize): Panels {
  const { curve, points } = results;
  const inner = size.width;
  const ages = extent([
    ...points.flatMap((p) => [p.age.older95_cal_bp, p.age.younger95_cal_bp]),
    ...(curve === null ? [] : curve.ages_cal_bp),
  ]);
  const youngest = curve === null ? Math.min(0, ages.low) : ages.low;
  const margin = (ages.high - youngest) * 0.015;
  const time = scale(ages.high + margin, youngest, LEFT, inner);
  const order =
    curve === null
      ? []
      : [...curve.ages_cal_bp.keys()].sort((a, b) => curve.ages_cal_bp[a]! - curve.ages_cal_bp[b]!);

  const pointRange = extent(
    points.length === 0
      ? [0]
      : points.flatMap((p) => [p.rsl_m - 2 * p.rsl_sigma_m, p.rsl_m + 2 * p.rsl_sigma_m]),
  );
  let levels = pointRange;
  if (curve !== null) {
    // A band flaring where there are no points must not press the points flat.
    const band = bandExtent(curve.level_m, order);
    const most = points.length === 0 ? band : widened(pointRange, 0.2);
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

  let rate: Scale | null = null;
  let rateFrame: Rect | null = null;
  if (curve !== null) {
    const y1 = levelFrame.y2 + 34;
    rateFrame = { x1: LEFT, y1, x2: inner, y2: y1 + size.rate_height };
    rate = ((range) => scale(range.low, range.high, y1 + size.rate_height, y1))(rateRange(curve, order));
  }
  const placed = points.map((point) => ({
    point,
    at: {
      x1: time(point.age.older95_cal_bp),
      x2: time(point.age.younger95_cal_bp),
      x: time(point.age.median_cal_bp),
      y: level(point.rsl_m),
      spread: 2 * point.rsl_sigma_m * Math.abs(level.k),
    },
  }));
  const used = new Set(points.filter((p) => p.status === 'accepted').map((p) => p.lab_code));
  const dates = results.dates.filter((d) => used.has(d.lab_code));
  return { curve, order, time, level, rate, levelFrame, rateFrame, points: placed, dates };
}

/** Rates: the 95 % band without its flaring ends, the intervals, and zero. */
function rateRange(curve: CurveResult, order: readonly number[]): Range {
  const cut = Math.floor(order.length * 0.06);
  const middle = order.length > 20 ? order.slice(cut, order.length - cut) : order;
  const band = bandExtent(curve.rate_mm_yr, middle);
  const bars = curve.intervals.flatMap((i) => [i.rate_mm_yr.lower95, i.rate_mm_yr.upper95]);
  return widened(extent([band.low, band.high, 0, ...bars]), 0.08);
}
