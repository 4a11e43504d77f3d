/** Mean rates written at their bars: on one line, on two where that is too wide, left out where there is no room at all. */
import { overlaps, placeBeside, type Rect, textWidth } from '@stillstand/output/drawing';
import { decimalsDrawn, printed, signed } from '@stillstand/output/words';
import { type Interval, MARK_ROOM } from './panel.tsx';
import { across, isDrawn, type Panels } from './panels.ts';

/** A mean rate over an interval, as its bar shows it. */
export interface RateBar extends Interval {
  rate_mm_yr: { mean: number; sd: number; lower95: number; upper95: number };
}

export interface LabelledBar {
  bar: RateBar;
  /** The bar and its whisker. */
  mark: Rect;
  value: string;
  error: string;
  /** Where it is written; null where there is no room. */
  place: Rect | null;
  lines: 1 | 2;
}

const LINE_HEIGHT = 8;
const BOLD = { weight: 600 } as const;
const LIGHT = { weight: 300 } as const;

/** None over another, a bar or the frame; all on as many lines, whichever writes more of them, one line sooner. */
export function rateLabels(p: Panels, bars: readonly RateBar[], converged: boolean): LabelledBar[] {
  const one = labelled(p, bars, converged, 1);
  if (one.every(({ place }) => place !== null)) return one;
  const two = labelled(p, bars, converged, 2);
  const written = (all: readonly LabelledBar[]): number => all.filter(({ place }) => place !== null).length;
  return written(two) > written(one) ? two : one;
}

function labelled(p: Panels, all: readonly RateBar[], converged: boolean, lines: 1 | 2): LabelledBar[] {
  const { rate, rateAxis, rateFrame: frame, time } = p;
  if (rate === null || rateAxis === null || frame === null) return [];
  const bars = all
    .filter((interval) => isDrawn(interval, time))
    .map((bar) => {
      const { mean, sd, upper95, lower95 } = bar.rate_mm_yr;
      const spread = 2 * sd * rateAxis.per_mm_yr;
      const decimals = decimalsDrawn(spread);
      return {
        bar,
        value: signed(mean * rateAxis.per_mm_yr, decimals),
        error: `±${printed(spread, decimals)}`,
        mark: {
          ...across(time, bar.older_cal_bp, bar.younger_cal_bp),
          y1: rate(upper95),
          y2: rate(lower95),
        },
      };
    });
  const marks = bars.map(({ mark }) => mark);
  const used: Rect[] = [];
  const height = lines * LINE_HEIGHT;
  return bars.map(({ bar, value, error, mark }) => {
    const words =
      lines === 1
        ? textWidth(`${value} `, BOLD) + textWidth(error, LIGHT)
        : Math.max(textWidth(value, BOLD), textWidth(error, LIGHT));
    const width = words + 1 + (converged ? 0 : MARK_ROOM);
    const middle = (mark.x1 + mark.x2) / 2;
    // Above or below its own whisker first, then next to it.
    const centred = [mark.y1 - height - 1.4, mark.y2 + 1.4].map((y) => ({
      x1: middle - width / 2,
      x2: middle + width / 2,
      y1: y,
      y2: y + height,
    }));
    const others = [...used, ...marks.filter((m) => m !== mark)];
    const next = placeBeside({ ...mark, x1: middle - 1, x2: middle + 1 }, { width, height }, frame, [
      ...used,
      ...marks,
    ]);
    const place =
      centred.find((r) => isInside(r, frame) && !others.some((o) => overlaps(r, o))) ??
      (next === null || next.far ? null : next);
    if (place !== null) used.push(place);
    return { bar, value, error, mark, place, lines };
  });
}

const isInside = (r: Rect, frame: Rect): boolean =>
  r.x1 > frame.x1 + 1 && r.x2 < frame.x2 - 1 && r.y1 > frame.y1 + 1 && r.y2 < frame.y2 - 1;
