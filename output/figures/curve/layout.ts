/** Where everything of the curve's drawing stands, in points: found once, drawn as often as it is shown. */
import type { Results } from '@stillstand/campaign/results';
import { type Rect, staffStep } from '@stillstand/output/drawing';
import type { CurveAxes } from './axes.ts';
import { type Ages, bandRects } from './bands.tsx';
import { type LegendEntry, legendItems, legendPlace, legendRows } from './legend.tsx';
import { type CurveSize, DATES_ROOM, LEFT, type Panels, panels } from './panels.ts';

/** Where everything of one drawing stands, points. */
export interface CurveLayout {
  panels: Panels;
  /** Of the whole drawing. */
  width: number;
  height: number;
  datum: string;
  /** What the line at 0 is: the datum's own label, whatever its kind. */
  zero: string;
  /** Of the time staff. */
  step: { step: number; every: number };
  /** How the ages of the curve lie; null without one. */
  ages: Ages | null;
  shifts: readonly Shift[];
  /** Where names of points must not stand. */
  taken: readonly Rect[];
  legend: {
    items: readonly LegendEntry[];
    corner: Rect | null;
    rows: readonly (readonly LegendEntry[])[];
    x: number;
    y: number;
  };
}

/** Below this blocks of the staff are shorter and the legend begins at the margin, points. */
const NARROW = 210;

export function curveLayout(results: Results, size: CurveSize, axes?: CurveAxes): CurveLayout {
  const p = panels(results, size, axes);
  const shifts = shifted(p);
  const items = legendItems(p, shifts.length > 0);
  const ages = p.curve === null ? null : { ages_cal_bp: p.curve.ages_cal_bp, order: p.order, time: p.time };
  const curve = p.curve === null || ages === null ? [] : bandRects(p.curve.level_m, ages, p.level);
  const marks = [...p.points.map(markRect), ...curve];
  const corner = legendPlace(items, p.levelFrame, DATES_ROOM, marks);
  const legendX = size.width < NARROW ? 0 : LEFT;
  const rows = corner === null ? legendRows(items, size.width - legendX) : [];
  const foot = (p.rateFrame ?? p.levelFrame).y2;
  const { label, epoch } = results.datum;
  return {
    panels: p,
    width: size.width,
    height: foot + (p.rateFrame === null ? 30 : 4) + (rows.length > 0 ? rows.length * 12.5 + 8 : 0),
    datum: epoch === null ? label : `${label}, ${epoch}`,
    zero: `0 = ${label}${epoch === null ? '' : ` (${epoch.replace('-', '–')})`}`,
    step: staffStep(p.timeAxis.scale.k, size.width < NARROW ? 9 : 14, p.timeAxis.room),
    ages,
    shifts,
    taken: [...marks, ...shifts.map(shiftRect), ...(corner === null ? [] : [corner])],
    legend: { items, corner, rows, x: legendX, y: foot + 16 },
  };
}

/** The room a mark takes: limits reach to one side only. */
export function markRect({ point, at }: Panels['points'][number]): Rect {
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
