/** Where everything of the curve's drawing stands, in points: found once, drawn as often as it is shown. */
import type { PointResult, Results } from '@stillstand/campaign/results';
import { overlaps, type PointPlace, type Rect, staffStep, textWidth } from '@stillstand/output/drawing';
import { epochInWords } from '../chronology.ts';
import type { CurveAxes } from './axes.ts';
import { type Ages, bandRects } from './bands.tsx';
import { type DatesAtFoot, datesAtFoot } from './dates-at-foot.tsx';
import { type FarPoint, farPoints } from './far-points.tsx';
import { type LegendEntry, legendItems, legendPlace, legendRows } from './legend.tsx';
import { type CurveSize, DATES_ROOM, LEFT, type Panels, panels } from './panels.ts';
import { publishedRects } from './published.tsx';

/** Where everything of one drawing stands, points. */
export interface CurveLayout {
  panels: Panels;
  /** Of the whole drawing. */
  width: number;
  height: number;
  /** What the line at 0 is: the datum's own label, whatever its kind; no place where the line is not drawn or has no room. */
  zero: { words: string; at: Rect | null };
  dates: DatesAtFoot;
  far: readonly FarPoint[];
  /** Of the time staff. */
  step: { step: number; every: number };
  /** How the ages of the curve lie; null without one. */
  ages: Ages | null;
  shifts: readonly Shift[];
  /** Where names of points must not stand. */
  taken: readonly Rect[];
  /** Of that, what is words. */
  written: readonly Rect[];
  legend: {
    items: readonly LegendEntry[];
    corner: Rect | null;
    rows: readonly (readonly LegendEntry[])[];
    x: number;
    y: number;
  };
}

/** Farther than this from the median, points of paper, a name may stand on the band. */
const KEEP_CLEAR = 7;
/** Below this blocks of the staff are shorter and the legend begins at the margin, points. */
const NARROW = 210;

/** `legend` apart: whoever places the drawing shows what the legend holds. */
export function curveLayout(
  results: Results,
  size: CurveSize,
  axes?: CurveAxes,
  { legend = 'own' }: { legend?: 'own' | 'apart' } = {},
): CurveLayout {
  const p = panels(results, size, axes);
  const shifts = shifted(p);
  const dates = datesAtFoot(p.dates, p.time, p.levelFrame);
  const items = legendItems(p, dates, shifts.length > 0);
  const ages = p.curve === null ? null : { ages_cal_bp: p.curve.ages_cal_bp, order: p.order, time: p.time };
  const band = p.curve?.level_m ?? null;
  const gauges = p.gauges.map(({ at }) => at);
  const marks = [...p.points.map(markRect), ...gauges, ...shifts.map(shiftRect)];
  const wholeBand = band === null || ages === null ? [] : bandRects(band, ages, p.level);
  const crosses = p.published.flatMap(({ point, at }) => publishedRects(point.kind, at));
  const seen = [...marks, ...wholeBand, ...p.published.map(markRect)];
  const zero = zeroOf(results.datum, p, seen);
  const words = zero.at === null ? [] : [zero.at];
  const far = farPoints(p, [...seen, ...words]);
  const written = [...words, ...far.map(({ at }) => at)];
  // The legend hides nothing, of the band neither; names may stand on the band away from the curve.
  const corner =
    legend === 'apart' ? null : legendPlace(items, p.levelFrame, DATES_ROOM, [...seen, ...written]);
  const allWritten = [...written, ...(corner === null ? [] : [corner])];
  const curve = band === null || ages === null ? [] : bandRects(band, ages, p.level, KEEP_CLEAR);
  const legendX = size.width < NARROW ? 0 : LEFT;
  const rows = corner === null && legend === 'own' ? legendRows(items, size.width - legendX) : [];
  const foot = (p.rateFrame ?? p.levelFrame).y2;
  return {
    panels: p,
    width: size.width,
    height: foot + (p.rateFrame === null ? 30 : 4) + (rows.length > 0 ? rows.length * 12.5 + 8 : 0),
    zero,
    dates,
    far,
    step: staffStep(p.timeAxis.scale.k, size.width < NARROW ? 9 : 14, p.timeAxis.room),
    ages,
    shifts,
    taken: [...marks, ...crosses, ...curve, ...allWritten],
    written: allWritten,
    legend: { items, corner, rows, x: legendX, y: foot + 16 },
  };
}

export const ZERO_STYLE = { face: 'water', size: 7.5 } as const;

/** Under the zero or over it, where nothing is hidden: from the left, then from the right, then between. */
function zeroOf(datum: Results['datum'], p: Panels, taken: readonly Rect[]): CurveLayout['zero'] {
  const epoch = epochInWords(datum);
  const words = `0 = ${datum.label}${epoch === null ? '' : ` (${epoch})`}`;
  if (!(p.level.from < 0 && p.level.to > 0)) return { words, at: null };
  const { x1, x2, y1, y2 } = p.levelFrame;
  const width = textWidth(words, ZERO_STYLE);
  const room = x2 - x1 - width - 10;
  const at = [0, 1, 0.25, 0.5, 0.75]
    .flatMap((share) => [1, -8.5].map((down) => ({ left: x1 + 5 + share * room, top: p.level(0) + down })))
    .map(({ left, top }): Rect => ({ x1: left, x2: left + width, y1: top, y2: top + 8 }))
    .find((r) => r.y1 > y1 && r.y2 < y2 - DATES_ROOM && !taken.some((other) => overlaps(r, other)));
  return { words, at: at ?? null };
}

/** The room a mark takes: limits reach to one side only. */
export function markRect({ point, at }: { point: Pick<PointResult, 'kind'>; at: PointPlace }): Rect {
  const spread = Math.max(at.spread, 2);
  return {
    x1: Math.min(at.x1, at.x - 1.5) - 1,
    x2: Math.max(at.x2, at.x + 1.5) + 1,
    y1: at.y - (point.kind === 'terrestrial' ? 1 : spread) - 1,
    y2: at.y + (point.kind === 'marine' ? 1 : spread) + 1,
  };
}

export interface Shift {
  id: string;
  x1: number;
  x2: number;
  y: number;
}

const shiftRect = (s: Shift): Rect => ({
  x1: Math.min(s.x1, s.x2),
  y1: s.y - 2,
  x2: Math.max(s.x1, s.x2),
  y2: s.y + 2,
});

/** Points whose age the curve moved by more than one of its sd. */
function shifted(p: Panels): Shift[] {
  if (p.curve === null) return [];
  const byId = new Map(
    p.points.flatMap((each) => [[each.point.point, each] as const, [each.point.row_id, each] as const]),
  );
  return p.curve.points.flatMap(({ id, age_shift_sd, age_cal_bp, prior_age_cal_bp }) => {
    const each = byId.get(id);
    if (each === undefined || Math.abs(age_shift_sd) <= 1) return [];
    return [{ id, x1: p.time(prior_age_cal_bp.mean), x2: p.time(age_cal_bp.mean), y: each.at.y }];
  });
}
