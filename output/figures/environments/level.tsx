/** Relative sea level against age: the curve of the report on the time axis of the holes. */
import {
  box,
  horizontal,
  LINE,
  multiples,
  Ruling,
  staffStep,
  UprightStaff,
  useInk,
} from '@stillstand/output/drawing';
import { Bands } from '../curve/bands.tsx';
import type { EnvironmentsLayout } from './layout.ts';

const NO_DRAWS = new Float64Array();

export function Level({ layout, id }: { layout: EnvironmentsLayout; id: string }) {
  const ink = useInk();
  const { level, curve, time, left, right } = layout;
  if (level === null || curve === null) return null;
  const frame = { x1: left, x2: right, y1: level.y1, y2: level.y2 };
  const step = staffStep(level.scale.k, 7, 11);
  const order = [...curve.ages_cal_bp.keys()].sort((a, b) => curve.ages_cal_bp[b]! - curve.ages_cal_bp[a]!);
  const [low, high] = [level.scale.to, level.scale.from];
  return (
    <g id={`${id}-level`}>
      <Ruling
        at={multiples(low, high, step.step * step.every)}
        d={(m) => horizontal(left, right, level.scale(m))}
      />
      <clipPath id={`${id}-level-frame`}>
        <path d={box(frame.x1, frame.y1, frame.x2, frame.y2)} />
      </clipPath>
      <g clipPath={`url(#${id}-level-frame)`}>
        <Bands
          band={curve.level_m}
          ages={{ ages_cal_bp: curve.ages_cal_bp, order, time }}
          y={level.scale}
          frame={frame}
          draws={NO_DRAWS}
          converged={curve.diagnostics.converged}
          id={`${id}-level-hatching`}
        />
      </g>
      <path
        d={box(frame.x1, frame.y1, frame.x2, frame.y2)}
        fill="none"
        stroke={ink.ink}
        strokeWidth={LINE.fine}
      />
      <UprightStaff x={left - 4} scale={level.scale} low={low} high={high} sign {...step} />
    </g>
  );
}
