/** The interval taken in hand on the drawing: drawn with a finger, or moved by its two grips from the keyboard. */
import type { CurveLayout } from '@stillstand/output/figures';
import type { CurveResult } from '@stillstand/science/curve';
import { useRef, useState } from 'react';
import { printed } from '../../parts/index.ts';
import { between, type Interval, stepped } from './interval.ts';
import './handles.css';

/** Nearer to an end than so many pixels, the finger takes that end. */
const GRASP = 14;
/** A finger that moved less has pressed, not drawn. */
const PRESS = 5;

export function Handles({
  layout,
  curve,
  chosen,
  onMove,
  onChoose,
  onPoint,
  zoom,
}: {
  layout: CurveLayout;
  curve: CurveResult;
  chosen: Interval | null;
  onMove: (interval: Interval) => void;
  onChoose: (interval: Interval) => void;
  onPoint: (label: string | null) => void;
  /** Pixels to a unit of the drawing. */
  zoom: number;
}) {
  const { time, levelFrame, rateFrame, points } = layout.panels;
  const surface = useRef<SVGRectElement>(null);
  const [hold, setHold] = useState<{ fixed: number; x: number; last: Interval | null } | null>(null);
  const foot = (rateFrame ?? levelFrame).y2;
  const position = (event: React.PointerEvent): { x: number; y: number } => {
    const rect = surface.current!.ownerSVGElement!.getBoundingClientRect();
    return { x: (event.clientX - rect.left) / zoom, y: (event.clientY - rect.top) / zoom };
  };
  const ageAt = (x: number): number => time.from + (x - time(time.from)) / time.k;
  const begin = (event: React.PointerEvent): void => {
    if (event.button !== 0) return;
    const { x } = position(event);
    event.currentTarget.setPointerCapture(event.pointerId);
    const near = (age: number): boolean => Math.abs(time(age) - x) * zoom < GRASP;
    const fixed =
      chosen !== null && near(chosen.older_cal_bp)
        ? chosen.younger_cal_bp
        : chosen !== null && near(chosen.younger_cal_bp)
          ? chosen.older_cal_bp
          : ageAt(x);
    setHold({ fixed, x, last: null });
  };
  const move = (event: React.PointerEvent): void => {
    if (hold === null) return;
    const { x } = position(event);
    if (hold.last === null && Math.abs(x - hold.x) * zoom < PRESS) return;
    const interval = between(curve, hold.fixed, ageAt(x));
    if (interval === null) return;
    setHold({ ...hold, last: interval });
    onMove(interval);
  };
  const end = (event: React.PointerEvent): void => {
    if (hold === null) return;
    setHold(null);
    if (hold.last !== null) onChoose(hold.last);
    else onPoint(pointAt(points, position(event), zoom));
  };
  return (
    <g>
      <rect
        ref={surface}
        className="surface"
        x={levelFrame.x1}
        y={levelFrame.y1}
        width={levelFrame.x2 - levelFrame.x1}
        height={foot - levelFrame.y1}
        fill="transparent"
        onPointerDown={begin}
        onPointerMove={move}
        onPointerUp={end}
        onPointerCancel={() => setHold(null)}
      />
      {chosen === null
        ? null
        : (['older', 'younger'] as const).map((which) => (
            <Grip
              key={which}
              which={which}
              x={time(chosen[`${which}_cal_bp`])}
              y={levelFrame.y2}
              curve={curve}
              chosen={chosen}
              onChoose={onChoose}
            />
          ))}
    </g>
  );
}

/** The label of the point under the finger, the nearest of several; null where there is none. */
function pointAt(
  points: CurveLayout['panels']['points'],
  { x, y }: { x: number; y: number },
  zoom: number,
): string | null {
  const reach = 9 / zoom;
  let best: { label: string; far: number } | null = null;
  for (const { point, at } of points) {
    const up = point.kind === 'terrestrial' ? 0 : at.spread;
    const down = point.kind === 'marine' ? 0 : at.spread;
    const isIn =
      x > Math.min(at.x1, at.x2) - reach &&
      x < Math.max(at.x1, at.x2) + reach &&
      y > at.y - up - reach &&
      y < at.y + down + reach;
    const far = Math.hypot(x - at.x, y - at.y);
    if (isIn && (best === null || far < best.far)) best = { label: point.point, far };
  }
  return best?.label ?? null;
}

/** Steps of one key: arrows one reported age, pages ten, to the ends of the curve. */
const KEYS: Readonly<Record<string, number>> = {
  ArrowLeft: 1,
  ArrowUp: 1,
  ArrowRight: -1,
  ArrowDown: -1,
  PageUp: 10,
  PageDown: -10,
  Home: Number.POSITIVE_INFINITY,
  End: Number.NEGATIVE_INFINITY,
};

function Grip({
  which,
  x,
  y,
  curve,
  chosen,
  onChoose,
}: {
  which: 'older' | 'younger';
  x: number;
  y: number;
  curve: CurveResult;
  chosen: Interval;
  onChoose: (interval: Interval) => void;
}) {
  const age = chosen[`${which}_cal_bp`];
  const other = which === 'older' ? chosen.younger_cal_bp : chosen.older_cal_bp;
  const ages = [...curve.ages_cal_bp];
  return (
    <g
      className="grip"
      role="slider"
      tabIndex={0}
      aria-label={`${which === 'older' ? 'Older' : 'Younger'} end of the interval`}
      aria-valuemin={which === 'older' ? other : Math.min(...ages)}
      aria-valuemax={which === 'older' ? Math.max(...ages) : other}
      aria-valuenow={age}
      aria-valuetext={`${printed(age, 0)} cal BP`}
      onKeyDown={(event) => {
        const steps = KEYS[event.key];
        if (steps === undefined) return;
        event.preventDefault();
        const to = stepped(curve, age, steps);
        const keepsOrder = which === 'older' ? to > other : to < other;
        if (keepsOrder && to !== age) onChoose({ ...chosen, [`${which}_cal_bp`]: to });
      }}
    >
      <rect className="ring" x={x - 5} y={y - 4.5} width={10} height={12} />
      <path d={`M${x} ${y - 3}l3.4 3.4v6.4h-6.8v-6.4z`} />
    </g>
  );
}
