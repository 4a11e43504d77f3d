/** The drawing of a line through time, of the figure and on the screen: all panels on one time axis, sections below. */
import { LINE, LyingStaff, multiples, Ruling, Text, useInk, vertical } from '@stillstand/output/drawing';
import { memo } from 'react';
import { SedimentKey } from '../section/sediment-key.tsx';
import { Edge } from './edge.tsx';
import { HoleNames, HoleRows } from './holes.tsx';
import type { EnvironmentsLayout, Panel } from './layout.ts';
import { Level } from './level.tsx';
import { Past } from './past.tsx';

/** Drawn again only with another layout: an age that is moved along must not redraw every pattern. */
export const EnvironmentsDrawing = memo(function EnvironmentsDrawing({
  layout,
  id,
}: {
  layout: EnvironmentsLayout;
  /** Unique in the drawing. */
  id: string;
}) {
  const ink = useInk();
  const { time, width, step, staff_y, level, holes, edge, past, key, line } = layout;
  const rule = (age: number): string => vertical(time(age), staff_y.upper, staff_y.lower);
  const within = line.past_sections
    .map(({ age_cal_bp }) => age_cal_bp)
    .filter((age) => age < time.from && age > time.to);
  return (
    <g id={id}>
      <Ruling at={multiples(time.to, time.from, step.step * step.every)} d={rule} />
      <Title of={level ?? holes} />
      <Text x={width} y={(level ?? holes).title_y} anchor="end" voice="ink2">
        {width < 300 ? 'cal BP' : 'age, cal BP'}
      </Text>
      <LyingStaff
        y={staff_y.upper}
        scale={time}
        low={time.to}
        high={time.from}
        labels="above"
        bounds={[0, width]}
        {...step}
      />
      <Level layout={layout} id={id} />
      <HoleRows layout={layout} id={id} />
      <path
        d={within.map((age) => vertical(time(age), staff_y.upper + 3.4, staff_y.lower)).join('')}
        stroke={ink.ink}
        strokeWidth={LINE.fine}
        strokeDasharray="3 2.2"
        fill="none"
      />
      <Edge layout={layout} id={id} />
      {level === null ? null : <Title of={holes} />}
      {edge === null ? null : <Title of={edge} />}
      <HoleNames layout={layout} id={id} />
      <LyingStaff
        y={staff_y.lower}
        scale={time}
        low={time.to}
        high={time.from}
        labels="below"
        bounds={[0, width]}
        {...step}
      />
      {past === null ? null : <Title of={past} />}
      <Past layout={layout} id={id} />
      <SedimentKey items={key.entries} y={key.y} width={width} id={`${id}-key`} />
    </g>
  );
});

/** The letter bold, as its panel is called in a text. */
function Title({ of: { title, title_y } }: { of: Pick<Panel, 'title' | 'title_y'> }) {
  return (
    <Text x={0} y={title_y} weight={600} halo>
      {title}
    </Text>
  );
}
