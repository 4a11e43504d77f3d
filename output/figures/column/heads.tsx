import { LINE, Text, useInk, vertical } from '@stillstand/output/drawing';
import { type Column, grainWidth, HEAD, LANE } from './lanes.ts';

/** Names of the lanes over their staffs. */
export function Heads({
  column,
  sedimentX,
  hasElevation,
}: {
  column: Column;
  sedimentX: number;
  hasElevation: boolean;
}) {
  const ink = useInk();
  const head = (x: number, first: string, second: string, anchor: 'start' | 'middle' = 'start') => (
    <g key={first}>
      <Text x={x} y={7} weight={600} anchor={anchor}>
        {first}
      </Text>
      {second === '' ? null : (
        <Text x={x} y={15.5} voice="ink2" anchor={anchor}>
          {second}
        </Text>
      )}
    </g>
  );
  const pushed = column.hole.runs.every((run) => run.method === 'push');
  const tick = (grain: number): string => vertical(LANE.column + grainWidth(grain), HEAD - 3, HEAD - 7);
  return (
    <g>
      {hasElevation ? head(0, 'elevation', 'm') : null}
      {column.hole.runs.length > 0
        ? head(42, 'core as it came up', pushed ? 'push, recovery %' : 'run, recovery %')
        : null}
      {head(LANE.depthStaff, 'in-situ depth', 'm below ground')}
      {column.units.some(({ unit }) => unit.structures.length + unit.fossils.length > 0)
        ? head(LANE.seen, 'seen', '', 'middle')
        : null}
      {column.samples.length > 0 ? head(LANE.sample - 3, 'sample', '') : null}
      {head(sedimentX, 'sediment', 'and what it was')}
      <path d={[0, 1, 2, 3, 4, 5].map(tick).join('')} stroke={ink.ink} strokeWidth={LINE.fine} />
      <Text x={LANE.column + grainWidth(0) + 1} y={HEAD - 9} anchor="end">
        clay
      </Text>
      <Text x={LANE.column + grainWidth(2.6)} y={HEAD - 9} anchor="middle">
        sand
      </Text>
      <Text x={LANE.column + grainWidth(5) - 5} y={HEAD - 9}>
        gravel
      </Text>
    </g>
  );
}
