/** Sea level through time: the curve, its points, the dates at its foot. */
import type { PointResult } from '@stillstand/campaign/results';
import {
  box,
  DASHED,
  horizontal,
  LINE,
  multiples,
  PointMark,
  Ruling,
  SiteMark,
  staffStep,
  Text,
  UprightStaff,
  useInk,
} from '@stillstand/output/drawing';
import { memo } from 'react';
import { Bands } from './bands.tsx';
import { Dates } from './dates-at-foot.tsx';
import { type CurveLayout, type Shift, ZERO_STYLE } from './layout.ts';
import { arrow } from './legend.tsx';
import { type PanelProps, timeLines } from './panel.tsx';
import { DATES_ROOM } from './panels.ts';
import { PublishedMark } from './published.tsx';
import { markOfSite } from './site-marks.ts';

/** Boxes cover what lies below them, so limits are drawn over them and rejected points under all. */
const layer = (point: PointResult): number =>
  point.status === 'rejected' ? 0 : point.kind === 'index' ? 1 : 2;

/** Drawn again only with another layout: an interval that is moved must not redraw every point. */
export const LevelPanel = memo(function LevelPanel({
  panels: p,
  ages,
  converged,
  shifts,
  step,
  id,
  zero,
  dates,
}: PanelProps & { shifts: readonly Shift[] } & Pick<CurveLayout, 'zero' | 'dates'>) {
  const ink = useInk();
  const frame = p.levelFrame;
  const low = p.level.from - DATES_ROOM / Math.abs(p.level.k);
  const levels = staffStep(p.level.k, 16, 11);
  const isZeroDrawn = p.level.from < 0 && p.level.to > 0;
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
        <Dates at={dates} time={p.time} frame={frame} id={id} />
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
        {isZeroDrawn ? (
          <path
            d={horizontal(frame.x1, frame.x2, p.level(0))}
            stroke={ink.sea}
            strokeWidth={LINE.edge}
            {...DASHED}
            fill="none"
          />
        ) : null}
        {p.published.length === 0 ? null : (
          <g id={`${id}-published`}>
            {p.published.map(({ point, at }) => (
              <PublishedMark key={point.row_id} kind={point.kind} at={at} />
            ))}
          </g>
        )}
        <g id={`${id}-marks`}>
          {[...p.points]
            .sort((a, b) => layer(a.point) - layer(b.point))
            .map(({ point, at }) => (
              <g key={point.row_id}>
                <PointMark point={point} at={at} />
                {p.sites.length === 0 || point.status === 'rejected' ? null : (
                  <SiteMark n={markOfSite(p.sites, point.site)} x={at.x} y={at.y} />
                )}
              </g>
            ))}
        </g>
        {p.gauges.map(({ id: block, at }) => (
          <path key={block} d={box(at.x1, at.y1, at.x2, at.y2)} fill={ink.sea} />
        ))}
        <path
          d={shifts.map((s) => arrow(s.x1, s.x2, s.y)).join('')}
          stroke={ink.ink}
          strokeWidth={0.7}
          fill="none"
        />
      </g>
      {zero.at === null ? null : (
        <Text x={zero.at.x1} y={zero.at.y2 - 1.4} {...ZERO_STYLE} voice="sea" halo>
          {zero.words}
        </Text>
      )}
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
