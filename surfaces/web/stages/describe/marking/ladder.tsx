/** Decimetres along the line through the marks, as the scale has them: on a tape in the picture they fall on its own. */
import type { Strip, StripPlace } from '@stillstand/output/photographs';
import { onScreen, type Spot, type View } from './view.ts';

/** Screen pixels between two ticks, and between two with a number. */
const LEAST_TICK = 7;
const LEAST_NUMBER = 46;
/** Clear of the tape's own numbers. */
const NUMBER_OFF = 32;
const STEPS_M = [0.1, 0.2, 0.5, 1, 2, 5, 10] as const;

export function Ladder({ view, place, strip }: { view: View; place: StripPlace; strip: Strip }) {
  const px_per_m = place.px_per_m * view.k;
  const stepOf = (least: number): number => STEPS_M.find((step) => step * px_per_m >= least) ?? 10;
  const step = stepOf(LEAST_TICK);
  const number = stepOf(LEAST_NUMBER);
  const depths = [strip.top_m, strip.bottom_m, strip.mark_1.at_m, strip.mark_2.at_m];
  const first = Math.ceil(Math.min(...depths) / step - 1e-9);
  const last = Math.floor(Math.max(...depths) / step + 1e-9);
  const ticks = Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step).map(
    (along_m) => ({ along_m, ...onScreen(view, place.toPicture({ along_m, across_m: 0 })) }),
  );
  const { x, y } = place.right;
  const d = ticks.map((t) => `M${t.x - 5 * x} ${t.y - 5 * y}L${t.x + 5 * x} ${t.y + 5 * y}`).join('');
  // On the side of the line where the core is not.
  const off = strip.offset_m > 0 ? -NUMBER_OFF : NUMBER_OFF;
  const marks = [strip.mark_1, strip.mark_2].map((mark) => onScreen(view, mark));
  const isNumbered = (tick: Spot & { along_m: number }): boolean =>
    Math.abs(tick.along_m / number - Math.round(tick.along_m / number)) < 1e-6 &&
    // Its own words say where a mark is.
    marks.every((mark) => Math.abs(mark.x - tick.x) > 130 || Math.abs(mark.y - tick.y) > 40);
  return (
    <g>
      <path className="lining" d={d} />
      <path className="line" d={d} />
      {ticks.filter(isNumbered).map((t) => (
        <text
          key={t.along_m}
          className="words small"
          x={t.x + off * x}
          y={t.y + off * y + 4}
          textAnchor={Math.abs(x) < 0.5 ? 'middle' : x * off > 0 ? 'start' : 'end'}
        >
          {t.along_m.toFixed(1)}
        </text>
      ))}
    </g>
  );
}
