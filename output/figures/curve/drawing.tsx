/**
 * Sea level over its rate, on paper and on screen one drawing, in points: the time staff between serves both panels. On
 * screen it stands at another size, shows a chosen interval and answers to its scales.
 */
import type { PointResult, Results } from '@stillstand/campaign/results';
import {
  box,
  CautionMark,
  horizontal,
  LINE,
  LyingStaff,
  multiples,
  NotConvergedMark,
  outline,
  PointMark,
  placeBeside,
  polyline,
  type Rect,
  Ruling,
  SIZE,
  Span,
  staffStep,
  Text,
  textWidth,
  UprightStaff,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { decimalsDrawn, printed, signed, years } from '@stillstand/output/words';
import { square } from '@stillstand/science/base';
import { type CurveResult, disagreeing } from '@stillstand/science/curve';
import { memo } from 'react';
import { type Ages, Bands, bandRects } from './bands.tsx';
import {
  arrow,
  CornerLegend,
  FootLegend,
  type LegendEntry,
  legendItems,
  legendPlace,
  legendRows,
} from './legend.tsx';
import { type CurveSize, DATES_ROOM, isDrawn, LEFT, type Panels, panels } from './panels.ts';

/** A mean rate over an interval, as its bar shows it. */
export interface RateBar {
  older_cal_bp: number;
  younger_cal_bp: number;
  rate_mm_yr: { mean: number; sd: number; lower95: number; upper95: number };
}

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
    y: number;
  };
}

export function curveLayout(results: Results, size: CurveSize): CurveLayout {
  const p = panels(results, size);
  const shifts = shifted(p);
  const items = legendItems(p, shifts.length > 0);
  const ages = p.curve === null ? null : { ages_cal_bp: p.curve.ages_cal_bp, order: p.order, time: p.time };
  const curve = p.curve === null || ages === null ? [] : bandRects(p.curve.level_m, ages, p.level);
  const marks = [...p.points.map(markRect), ...curve];
  const corner = legendPlace(items, p.levelFrame, DATES_ROOM, marks);
  const rows = corner === null ? legendRows(items, size.width - LEFT) : [];
  const foot = (p.rateFrame ?? p.levelFrame).y2;
  const { label, epoch } = results.datum;
  return {
    panels: p,
    width: size.width,
    height: foot + (p.rateFrame === null ? 30 : 4) + (rows.length > 0 ? rows.length * 12.5 + 8 : 0),
    datum: epoch === null ? label : `${label}, ${epoch}`,
    zero: `0 = ${label}${epoch === null ? '' : ` (${epoch.replace('-', '–')})`}`,
    step: staffStep(p.time.k, 14, 34),
    ages,
    shifts,
    taken: [...marks, ...shifts.map(shiftRect), ...(corner === null ? [] : [corner])],
    legend: { items, corner, rows, y: foot + 16 },
  };
}

/** Inside an SVG of the layout's width and height. `id` must be unique in the page. */
export function CurveDrawing({
  layout,
  id,
  bars = layout.panels.curve?.intervals ?? [],
  chosen = null,
  telling = null,
  named = null,
}: {
  layout: CurveLayout;
  id: string;
  /** Mean rates drawn over their intervals. */
  bars?: readonly RateBar[];
  /** An interval set off in both panels. */
  chosen?: { older_cal_bp: number; younger_cal_bp: number } | null;
  /** Label of a point that is set off, its height beside it. */
  telling?: string | null;
  /** Only these points are named, and the one set off; null: all for which there is room. */
  named?: ReadonlySet<string> | null;
}) {
  const { panels: p, width, datum, step, ages, shifts, taken, legend } = layout;
  const converged = p.curve?.diagnostics.converged ?? true;
  return (
    <g>
      <Text x={0} y={7} weight={600}>
        Relative sea level, m
      </Text>
      <Text x={width} y={7} anchor="end" voice="ink2">
        {datum}; ± is 2 sd
      </Text>
      <Chosen panels={p} frame={p.levelFrame} chosen={chosen} />
      <LevelPanel
        panels={p}
        zeroIs={layout.zero}
        ages={ages}
        converged={converged}
        shifts={shifts}
        step={step}
        id={id}
      />
      <PointLabels panels={p} taken={taken} telling={telling} named={named} />
      {legend.corner === null ? null : <CornerLegend items={legend.items} at={legend.corner} id={id} />}
      <LyingStaff
        y={p.levelFrame.y2}
        scale={p.time}
        low={Math.min(p.time.from, p.time.to)}
        high={Math.max(p.time.from, p.time.to)}
        labels="below"
        label={years}
        {...step}
      />
      <Text x={width} y={p.levelFrame.y2 + 25} anchor="end" voice="ink2">
        age, cal BP
      </Text>
      {p.curve === null ? null : (
        <RatePanel
          panels={p}
          ages={ages}
          curve={p.curve}
          converged={converged}
          step={step}
          id={id}
          chosen={chosen}
          bars={bars}
        />
      )}
      {legend.rows.length > 0 ? <FootLegend rows={legend.rows} x={LEFT} y={legend.y} id={id} /> : null}
    </g>
  );
}

/** The room a mark takes: limits reach to one side only. */
function markRect({ point, at }: Panels['points'][number]): Rect {
  const spread = Math.max(at.spread, 2);
  return {
    x1: Math.min(at.x1, at.x - 1.5) - 1,
    x2: Math.max(at.x2, at.x + 1.5) + 1,
    y1: at.y - (point.kind === 'terrestrial' ? 1 : spread) - 1,
    y2: at.y + (point.kind === 'marine' ? 1 : spread) + 1,
  };
}

/** Boxes cover what lies below them, so limits are drawn over them and rejected points under all. */
const layer = (point: PointResult): number =>
  point.status === 'rejected' ? 0 : point.kind === 'index' ? 1 : 2;

interface Shift {
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

/** Of a mark before a rate or a name, points. */
const MARK_ROOM = 10;

interface PanelProps {
  panels: Panels;
  converged: boolean;
  step: { step: number; every: number };
  ages: Ages | null;
  id: string;
}

type Interval = { older_cal_bp: number; younger_cal_bp: number };

/** The chosen interval, laid under a panel. */
function Chosen({ panels: p, frame, chosen }: { panels: Panels; frame: Rect; chosen: Interval | null }) {
  const ink = useInk();
  if (chosen === null) return null;
  const { older_cal_bp, younger_cal_bp } = chosen;
  return <path d={box(p.time(older_cal_bp), frame.y1, p.time(younger_cal_bp), frame.y2)} fill={ink.leaf} />;
}

function timeLines(
  p: Panels,
  step: PanelProps['step'],
  frame: Rect,
): { at: number[]; d: (age: number) => string } {
  const at = multiples(p.time.to, p.time.from, step.step * step.every);
  return { at, d: (age) => vertical(p.time(age), frame.y1, frame.y2) };
}

/** Drawn again only with another layout: an interval that is moved must not redraw every point. */
const LevelPanel = memo(function LevelPanel({
  panels: p,
  ages,
  converged,
  shifts,
  step,
  id,
  zeroIs,
}: PanelProps & { shifts: readonly Shift[]; zeroIs: string }) {
  const ink = useInk();
  const frame = p.levelFrame;
  const low = p.level.from - DATES_ROOM / Math.abs(p.level.k);
  const levels = staffStep(p.level.k, 16, 11);
  const zero = p.level.from < 0 && p.level.to > 0;
  const silhouettes = p.dates
    .map((date) => outline(date, p.time, frame.y2, DATES_ROOM - 6))
    .filter((points) => points.length > 0)
    .map((points) => `${polyline(points)}Z`);
  return (
    <g>
      <Ruling {...timeLines(p, step, frame)} />
      <Ruling
        at={multiples(p.level.from, p.level.to, levels.step * levels.every)}
        d={(m) => horizontal(frame.x1, frame.x2, p.level(m))}
      />
      <clipPath id={`${id}-level`}>
        <path d={box(frame.x1, frame.y1, frame.x2, frame.y2)} />
      </clipPath>
      <g clipPath={`url(#${id}-level)`}>
        {silhouettes.map((d) => (
          <path key={d} d={d} fill={ink.ink3} fillOpacity={0.3} stroke={ink.ink3} strokeWidth={LINE.hair} />
        ))}
        {p.curve === null || ages === null ? null : (
          <Bands
            band={p.curve.level_m}
            ages={ages}
            y={p.level}
            frame={frame}
            draws={p.curve.draws.level_m}
            converged={converged}
            id={`${id}-level-hatching`}
          />
        )}
        {zero ? (
          <path
            d={horizontal(frame.x1, frame.x2, p.level(0))}
            stroke={ink.sea}
            strokeWidth={LINE.edge}
            strokeDasharray="3.5 2"
            fill="none"
          />
        ) : null}
        {[...p.points]
          .sort((a, b) => layer(a.point) - layer(b.point))
          .map(({ point, at }) => (
            <PointMark key={point.row_id} point={point} at={at} />
          ))}
        <path
          d={shifts.map((s) => arrow(s.x1, s.x2, s.y)).join('')}
          stroke={ink.ink}
          strokeWidth={0.7}
          fill="none"
        />
      </g>
      {zero ? (
        <Text x={frame.x1 + 5} y={p.level(0) + 7.6} face="water" size={7.5} voice="sea" halo>
          {zeroIs}
        </Text>
      ) : null}
      <path
        d={box(frame.x1, frame.y1, frame.x2, frame.y2)}
        fill="none"
        stroke={ink.ink}
        strokeWidth={LINE.fine}
      />
      <UprightStaff x={frame.x1 - 4} scale={p.level} low={low} high={p.level.to} sign {...levels} />
    </g>
  );
});

/** From the nearest edge of a label to the nearest edge of its mark. */
function leader(label: Rect, mark: Rect): [[number, number], [number, number]] {
  const near = (low: number, high: number, otherLow: number, otherHigh: number): [number, number] =>
    low > otherHigh
      ? [low, otherHigh]
      : high < otherLow
        ? [high, otherLow]
        : [(Math.max(low, otherLow) + Math.min(high, otherHigh)) / 2, (otherLow + otherHigh) / 2];
  const [x1, x2] = near(label.x1, label.x2, mark.x1 + 1, mark.x2 - 1);
  const [y1, y2] = near(label.y1, label.y2, mark.y1 + 1, mark.y2 - 1);
  return [
    [x1, y1],
    [x2, y2],
  ];
}

const sameRect = (a: Rect, b: Rect): boolean =>
  a.x1 === b.x1 && a.x2 === b.x2 && a.y1 === b.y1 && a.y2 === b.y2;

function runsOver([[x1, y1], [x2, y2]]: ReturnType<typeof leader>, rect: Rect): boolean {
  // Every half point along it.
  const steps = Math.ceil(Math.sqrt(square(x2 - x1) + square(y2 - y1)) * 2);
  return Array.from({ length: steps }, (_, i) => i / steps).some((t) => {
    const x = x1 + t * (x2 - x1);
    const y = y1 + t * (y2 - y1);
    return x > rect.x1 && x < rect.x2 && y > rect.y1 && y < rect.y2;
  });
}

/** What is written at a point: its name; its height too where it is set off. */
function labelOf(point: PointResult, telling: string | null): { name: string; height: string } {
  if (point.point !== telling) return { name: point.point, height: '' };
  const decimals = decimalsDrawn(2 * point.rsl_sigma_m);
  return {
    name: point.point,
    height: ` ${signed(point.rsl_m, decimals)} ±${printed(2 * point.rsl_sigma_m, decimals)} m`,
  };
}

/** Names of points where there is room: the one set off first, then those that disagree, marked, then by influence. */
const PointLabels = memo(function PointLabels({
  panels: p,
  taken,
  telling,
  named,
}: {
  panels: Panels;
  taken: readonly Rect[];
  telling: string | null;
  named: ReadonlySet<string> | null;
}) {
  const ink = useInk();
  const influence = new Map(p.curve?.points.map((point) => [point.id, point.influence]) ?? []);
  const odd = new Set(p.curve === null ? [] : disagreeing(p.curve).map(({ id }) => id));
  const rank = (point: PointResult): number => {
    if (point.point === telling) return Infinity;
    return odd.has(point.point) ? Number.MAX_VALUE : (influence.get(point.point) ?? 0);
  };
  const frame = p.levelFrame;
  const bounds = { x1: frame.x1 + 2, y1: frame.y1 + 2, x2: frame.x2 - 2, y2: frame.y2 - DATES_ROOM + 4 };
  const used: Rect[] = [...taken];
  const labels = p.points
    .filter(
      ({ point }) =>
        named === null || named.has(point.point) || odd.has(point.point) || point.point === telling,
    )
    .sort((a, b) => rank(b.point) - rank(a.point) || b.point.rsl_m - a.point.rsl_m)
    .flatMap((each) => {
      const { point } = each;
      const isTold = point.point === telling;
      const isOdd = odd.has(point.point);
      const { name, height } = labelOf(point, telling);
      const style = { size: SIZE.text, weight: isTold || isOdd ? 600 : 400 } as const;
      const size = { width: textWidth(name + height, style) + 1 + (isOdd ? MARK_ROOM : 0), height: 7.4 };
      const mark = markRect(each);
      // The one set off stands over others sooner than nowhere.
      const place =
        placeBeside(mark, size, bounds, used) ??
        (isTold || isOdd ? placeBeside(mark, size, bounds, [mark]) : null);
      if (place === null) return [];
      const lead = place.far ? leader(place, mark) : null;
      // No name rather than one whose leader runs over another mark, a name or the curve.
      if (
        !isTold &&
        !isOdd &&
        lead !== null &&
        used.some((rect) => !sameRect(rect, mark) && runsOver(lead, rect))
      )
        return [];
      used.push(place);
      return [{ point, place, lead, name, height, isTold, isOdd, style }];
    });
  return (
    <g>
      {labels.map(({ point, place, lead, name, height, isTold, isOdd, style }) => (
        <g key={point.row_id}>
          {lead === null ? null : (
            <path d={polyline(lead)} stroke={ink.ink2} strokeWidth={LINE.fine} fill="none" />
          )}
          {isOdd ? <CautionMark x={place.x1 + 4} y={place.y2 - 1.2} /> : null}
          <Text
            x={place.x1 + 0.5 + (isOdd ? MARK_ROOM : 0)}
            y={place.y2 - 1.4}
            {...style}
            halo
            struck={point.status === 'rejected' && !isTold}
            voice={isOdd ? 'caution' : isTold ? 'ink' : 'ink2'}
          >
            {name}
            {height}
          </Text>
        </g>
      ))}
    </g>
  );
});

function RatePanel({
  panels: p,
  ages,
  curve,
  converged,
  step,
  id,
  chosen,
  bars: wanted,
}: PanelProps & { curve: CurveResult; chosen: Interval | null; bars: readonly RateBar[] }) {
  const ink = useInk();
  const { rate, rateFrame: frame } = p;
  if (rate === null || frame === null) return null;
  const rates = staffStep(rate.k, 9, 11);
  const used: Rect[] = [];
  const drawn = wanted.filter((interval) => isDrawn(interval, p.time));
  const bars = drawn.map((interval) => {
    const r = interval.rate_mm_yr;
    const spread = 2 * r.sd;
    const decimals = decimalsDrawn(spread);
    const value = signed(r.mean, decimals);
    const error = ` ±${printed(spread, decimals)}`;
    const mark = {
      x1: p.time(interval.older_cal_bp),
      x2: p.time(interval.younger_cal_bp),
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
        Rate, mm/yr
      </Text>
      <Chosen panels={p} frame={frame} chosen={chosen} />
      <Ruling {...timeLines(p, step, frame)} />
      <Ruling
        at={multiples(rate.from, rate.to, rates.step * rates.every)}
        d={(m) => horizontal(frame.x1, frame.x2, rate(m))}
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
          strokeDasharray="3.5 2"
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
      <UprightStaff x={frame.x1 - 4} scale={rate} low={rate.from} high={rate.to} sign {...rates} />
    </g>
  );
}
