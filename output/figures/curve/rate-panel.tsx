/** The rate through time, and its means over intervals as bars. */
import {
  box,
  DASHED,
  horizontal,
  LINE,
  multiples,
  NotConvergedMark,
  placeBeside,
  type Rect,
  Ruling,
  Span,
  staffStep,
  Text,
  textWidth,
  UprightStaff,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { decimalsDrawn, printed, signed } from '@stillstand/output/words';
import type { CurveResult } from '@stillstand/science/curve';
import { Bands } from './bands.tsx';
import { Chosen, type Interval, MARK_ROOM, type PanelProps, timeLines } from './panel.tsx';
import { across, isDrawn } from './panels.ts';

/** A mean rate over an interval, as its bar shows it. */
export interface RateBar {
  older_cal_bp: number;
  younger_cal_bp: number;
  rate_mm_yr: { mean: number; sd: number; lower95: number; upper95: number };
}

export function RatePanel({
  panels: p,
  ages,
  curve,
  converged,
  step,
  id,
  chosen,
  bars: wanted,
  isLettered,
}: PanelProps & {
  curve: CurveResult;
  chosen: Interval | null;
  bars: readonly RateBar[];
  isLettered: boolean;
}) {
  const ink = useInk();
  const { rate, rateFrame: frame } = p;
  if (rate === null || frame === null || p.rateAxis === null) return null;
  const { scale: inUnit, name, per_mm_yr } = p.rateAxis;
  const rates = staffStep(inUnit.k, 9, 11);
  const used: Rect[] = [];
  const drawn = wanted.filter((interval) => isDrawn(interval, p.time));
  const bars = drawn.map((interval) => {
    const r = interval.rate_mm_yr;
    const spread = 2 * r.sd * per_mm_yr;
    const decimals = decimalsDrawn(spread);
    const value = signed(r.mean * per_mm_yr, decimals);
    const error = ` ±${printed(spread, decimals)}`;
    const mark = {
      ...across(p.time, interval.older_cal_bp, interval.younger_cal_bp),
      y1: rate(r.upper95),
      y2: rate(r.lower95),
    };
    const width =
      textWidth(value, { weight: 600 }) + textWidth(error, { weight: 300 }) + (converged ? 0 : MARK_ROOM);
    return { interval, r, value, error, mark, width };
  });
  const marks = bars.map(({ mark }) => mark);
  const placed = bars.map((bar) => {
    const middle = (bar.mark.x1 + bar.mark.x2) / 2;
    const narrow = { ...bar.mark, x1: middle - 1, x2: middle + 1 };
    // Above or below its own whisker first, then wherever there is room.
    const centred = [bar.mark.y1 - 9.4, bar.mark.y2 + 1.4].map((y) => ({
      x1: middle - bar.width / 2,
      y1: y,
      x2: middle + bar.width / 2,
      y2: y + 8,
      far: false,
    }));
    const inside = (r: Rect): boolean =>
      r.x1 > frame.x1 + 1 && r.x2 < frame.x2 - 1 && r.y1 > frame.y1 + 1 && r.y2 < frame.y2 - 1;
    const free = (r: Rect): boolean =>
      inside(r) &&
      ![...used, ...marks.filter((m) => m !== bar.mark)].some(
        (o) => r.x1 < o.x2 && o.x1 < r.x2 && r.y1 < o.y2 && o.y1 < r.y2,
      );
    const place =
      centred.find(free) ?? placeBeside(narrow, { width: bar.width, height: 8 }, frame, [...used, ...marks]);
    if (place !== null) used.push(place);
    return { ...bar, place };
  });
  return (
    <g>
      <Text x={0} y={frame.y1 - 7} weight={600}>
        {isLettered ? '(b) ' : ''}
        {name}
      </Text>
      <Chosen panels={p} frame={frame} chosen={chosen} />
      <Ruling {...timeLines(p, step, frame)} />
      <Ruling
        at={multiples(inUnit.from, inUnit.to, rates.step * rates.every)}
        d={(value) => horizontal(frame.x1, frame.x2, inUnit(value))}
      />
      <clipPath id={`${id}-rate`}>
        <path d={box(frame.x1, frame.y1, frame.x2, frame.y2)} />
      </clipPath>
      <g clipPath={`url(#${id}-rate)`}>
        {ages === null ? null : (
          <Bands
            band={curve.rate_mm_yr}
            ages={ages}
            y={rate}
            frame={frame}
            draws={curve.draws.rate_mm_yr}
            converged={converged}
            id={`${id}-rate-hatching`}
          />
        )}
        <path
          d={horizontal(frame.x1, frame.x2, rate(0))}
          stroke={ink.ink}
          strokeWidth={LINE.edge}
          {...DASHED}
          fill="none"
        />
        {bars.map(({ interval, r, mark }) => (
          <g key={`${interval.older_cal_bp}-${interval.younger_cal_bp}`} stroke={ink.ink} fill="none">
            <path d={horizontal(mark.x1, mark.x2, rate(r.mean))} strokeWidth={1.5} />
            <path
              d={`${vertical((mark.x1 + mark.x2) / 2, mark.y1, mark.y2)}${horizontal((mark.x1 + mark.x2) / 2 - 2, (mark.x1 + mark.x2) / 2 + 2, mark.y1)}${horizontal((mark.x1 + mark.x2) / 2 - 2, (mark.x1 + mark.x2) / 2 + 2, mark.y2)}`}
              strokeWidth={LINE.edge}
            />
          </g>
        ))}
      </g>
      {placed.map(({ interval, value, error, place }) =>
        place === null ? null : (
          <g key={`${interval.older_cal_bp}-${interval.younger_cal_bp}`}>
            {converged ? null : <NotConvergedMark x={place.x1 + 4} y={place.y1 + 5} />}
            <Text x={place.x1 + (converged ? 0 : MARK_ROOM)} y={place.y2 - 1.8} halo>
              <Span weight={600}>{value}</Span>
              <Span weight={300} voice="ink2">
                {error}
              </Span>
            </Text>
          </g>
        ),
      )}
      <path
        d={box(frame.x1, frame.y1, frame.x2, frame.y2)}
        fill="none"
        stroke={ink.ink}
        strokeWidth={LINE.fine}
      />
      <UprightStaff x={frame.x1 - 4} scale={inUnit} low={inUnit.from} high={inUnit.to} sign {...rates} />
    </g>
  );
}
