import {
  horizontal,
  LINE,
  placeAlong,
  polygon,
  polyline,
  recoveredBar,
  type Scale,
  Span,
  Text,
  useInk,
} from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import type { Column } from './lanes.ts';

/** Runs at their entered length, black recovered and crossed where it was lost, and ties to the in-situ contacts. */
export function CoreAsItCameUp({ column, depth }: { column: Column; depth: Scale }) {
  const ink = useInk();
  const { runs } = column.hole;
  if (!column.lane.hasCore) return null;
  const [left, right] = column.lane.ties;
  const x1 = column.lane.core;
  const x2 = x1 + column.lane.coreWidth;
  const runAt = runs.map((run) => ({
    top: depth(run.entered_top_m),
    bottom: depth(run.entered_bottom_m),
    run,
  }));
  const tied = column.units.filter((u) => u.unit.core_top_m !== null && u.unit.core_bottom_m !== null);
  // Two lines a run where they fit, else one.
  const spread = runAt.every(({ top, bottom }) => bottom - top >= 16);
  const labelY = placeAlong(
    runAt.map(({ top, bottom }) => ({ at: (top + bottom) / 2, size: spread ? 16 : 7.4 })),
    depth(0),
    depth(column.bottom_m),
  );
  let solid = '';
  let lost = '';
  let ends = horizontal(x1 - 3, x2 + 2, runAt[0]!.top);
  for (const { top, bottom, run } of runAt) {
    const bar = recoveredBar(run, x1, x2, top, bottom);
    solid += bar.solid;
    lost += bar.lost;
    ends += horizontal(x1 - 3, x2 + 2, bottom);
  }
  return (
    <g>
      {tied.map(({ unit, sediment }) => (
        <path
          key={unit.row_id}
          d={polygon([
            [left, depth(unit.core_top_m!)],
            [right, depth(unit.depth_top_m.value)],
            [right, depth(unit.depth_bottom_m.value)],
            [left, depth(unit.core_bottom_m!)],
          ])}
          fill={ink.tints[sediment.tint]}
          fillOpacity={0.75}
        />
      ))}
      <path
        d={tied
          .flatMap(({ unit }) => [
            polyline([
              [left, depth(unit.core_top_m!)],
              [right, depth(unit.depth_top_m.value)],
            ]),
            polyline([
              [left, depth(unit.core_bottom_m!)],
              [right, depth(unit.depth_bottom_m.value)],
            ]),
          ])
          .filter((d, i, all) => all.indexOf(d) === i)
          .join('')}
        fill="none"
        stroke={ink.ink}
        strokeWidth={0.4}
      />
      <path d={solid} fill={ink.ink} />
      <path d={lost} fill="none" stroke={ink.ink} strokeWidth={0.55} />
      <path d={ends} fill="none" stroke={ink.ink} strokeWidth={0.55} />
      {runAt.map(({ top, bottom, run }, i) => {
        const y = labelY[i]!;
        const recovery = run.sampler_recovery === null ? '' : printed(run.sampler_recovery * 100);
        const away = y < top || y > bottom;
        return (
          <g key={run.row_id}>
            {spread ? (
              <>
                <Text x={column.lane.runLabel - 1} y={y - 0.6} anchor="end">
                  {run.run}
                </Text>
                <Text x={column.lane.runLabel - 1} y={y + 7.8} anchor="end" voice="ink2">
                  {recovery}
                </Text>
              </>
            ) : (
              <Text x={column.lane.runLabel - 1} y={y + 2.3} anchor="end">
                {run.run} <Span voice="ink2">{recovery}</Span>
              </Text>
            )}
            {away ? (
              <path
                d={polyline([
                  [column.lane.runLabel, y],
                  [x1 - 1, (top + bottom) / 2],
                ])}
                stroke={ink.line}
                strokeWidth={LINE.hair}
                fill="none"
              />
            ) : null}
          </g>
        );
      })}
    </g>
  );
}
