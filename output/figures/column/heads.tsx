import { LINE, Text, useInk, vertical } from '@stillstand/output/drawing';
import { type Column, grainWidth, HEAD } from './lanes.ts';

/** Names of the lanes over their staffs. */
export function Heads({ column, hasElevation }: { column: Column; hasElevation: boolean }) {
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
  const { ages, clayWidth, gravelWidth } = column.lane;
  const isNarrow = ages !== 'densities';
  const tick = (grain: number): string =>
    vertical(column.lane.column + grainWidth(column.lane, grain), HEAD - 3, HEAD - 7);
  return (
    <g>
      {hasElevation ? head(0, 'elevation', 'm') : null}
      {column.lane.hasCore
        ? head(42, 'core as it came up', pushed ? 'push, recovery %' : 'run, recovery %')
        : null}
      {isNarrow
        ? head(column.lane.depthStaff - 10, 'depth', 'm')
        : head(column.lane.depthStaff, 'in-situ depth', 'm below ground')}
      {column.lane.hasSeen &&
      column.units.some(({ unit }) => unit.structures.length + unit.fossils.length > 0)
        ? head(column.lane.seen, 'seen', '', 'middle')
        : null}
      {column.samples.length > 0 && column.lane.nameWidth > 0
        ? head(column.lane.sample - 3, 'sample', '')
        : null}
      {column.lane.words === null ? null : head(column.lane.words, 'sediment', 'and what it was')}
      <path d={[0, 1, 2, 3, 4, 5].map(tick).join('')} stroke={ink.ink} strokeWidth={LINE.fine} />
      <Text x={column.lane.column + grainWidth(column.lane, 0) + 1} y={HEAD - 9} anchor="end">
        clay
      </Text>
      {gravelWidth - clayWidth < 28 ? null : (
        <Text x={column.lane.column + grainWidth(column.lane, 2.6)} y={HEAD - 9} anchor="middle">
          sand
        </Text>
      )}
      <Text x={column.lane.column + grainWidth(column.lane, 5) - 5} y={HEAD - 9}>
        gravel
      </Text>
    </g>
  );
}
