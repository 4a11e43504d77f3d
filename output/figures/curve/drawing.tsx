/**
 * Sea level over its rate, on paper and on screen one drawing, in points: the time staff between serves both panels. On
 * screen it stands at another size, shows a chosen interval and answers to its scales.
 */
import { LyingStaff, Text } from '@stillstand/output/drawing';
import { FarPoints } from './far-points.tsx';
import type { CurveLayout } from './layout.ts';
import { CornerLegend, FootLegend } from './legend.tsx';
import { LevelPanel } from './level-panel.tsx';
import { Chosen } from './panel.tsx';
import { LEVEL_NAME } from './panels.ts';
import { PointLabels } from './point-labels.tsx';
import type { RateBar } from './rate-labels.ts';
import { RatePanel } from './rate-panel.tsx';

/** Letters of the two panels. */
export interface Letters {
  level: string;
  rate: string;
}

/** Inside an SVG of the layout's width and height. `id` must be unique in the page. */
export function CurveDrawing({
  layout,
  id,
  bars = layout.panels.curve?.intervals ?? [],
  chosen = null,
  telling = null,
  named = null,
  letters = null,
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
  /** Before the heads of the level and of the rate, as a caption names them. */
  letters?: Letters | null;
}) {
  const { panels: p, width, step, ages, shifts, taken, legend } = layout;
  const axis = p.timeAxis;
  const converged = p.curve?.diagnostics.converged ?? true;
  return (
    <g>
      <Text x={0} y={7} weight={600}>
        {letters === null ? '' : `(${letters.level}) `}
        {LEVEL_NAME}
      </Text>
      <Text x={width} y={p.heading.y} anchor="end" voice="ink2">
        {p.heading.datum}
      </Text>
      <Chosen panels={p} frame={p.levelFrame} chosen={chosen} />
      <LevelPanel
        panels={p}
        zero={layout.zero}
        dates={layout.dates}
        ages={ages}
        converged={converged}
        shifts={shifts}
        step={step}
        id={id}
      />
      <FarPoints points={layout.far} />
      <PointLabels panels={p} taken={taken} written={layout.written} telling={telling} named={named} />
      {legend.corner === null ? null : <CornerLegend items={legend.items} at={legend.corner} id={id} />}
      <LyingStaff
        y={p.levelFrame.y2}
        scale={axis.scale}
        low={Math.min(axis.scale.from, axis.scale.to)}
        high={Math.max(axis.scale.from, axis.scale.to)}
        labels="below"
        bounds={[0, width + 5]}
        label={(value) => axis.label(value, step.step * step.every)}
        {...step}
      />
      <Text x={width} y={p.levelFrame.y2 + 25} anchor="end" voice="ink2">
        {axis.name}
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
          letter={letters?.rate ?? null}
        />
      )}
      {legend.rows.length > 0 ? <FootLegend rows={legend.rows} x={legend.x} y={legend.y} id={id} /> : null}
    </g>
  );
}
