/** What stands on either side of the ages: the layers, and how fast the ground accumulated. */
import type { HoleHistory, HoleResult } from '@stillstand/campaign/results';
import {
  box,
  LINE,
  Pattern,
  polyline,
  type Scale,
  scale,
  sedimentOfUnit,
  useInk,
} from '@stillstand/output/drawing';
import { Head, Track } from '../drilling/track.tsx';
import { Edges } from './band.tsx';
import { UNITS } from './layout.ts';

export function UnitsLane({ hole, x, depth, id }: { hole: HoleResult; x: number; depth: Scale; id: string }) {
  const ink = useInk();
  if (hole.units.length === 0) return null;
  return (
    <g>
      <Head x={x} first="layers" second="" />
      {hole.units.map((unit) => {
        const y1 = depth(unit.depth_top_m.value);
        const y2 = depth(Math.min(depth.to, unit.depth_bottom_m.value));
        return y2 - y1 < 0.2 ? null : (
          <Pattern
            key={unit.row_id}
            sediment={sedimentOfUnit(unit)}
            at={{ x1: x, y1, x2: x + UNITS, y2 }}
            id={`${id}-${unit.row_id}`}
            seed={1}
          />
        );
      })}
      <path
        d={hole.units
          .map((unit) =>
            box(
              x,
              depth(unit.depth_top_m.value),
              x + UNITS,
              depth(Math.min(depth.to, unit.depth_bottom_m.value)),
            ),
          )
          .join('')}
        fill="none"
        stroke={ink.ink}
        strokeWidth={LINE.fine}
      />
    </g>
  );
}

/** `isFormer`: of the dates before the last change, light. */
export function Accumulation({
  history,
  isFormer,
  lane,
  depth,
}: {
  history: HoleHistory;
  isFormer: boolean;
  lane: readonly [number, number];
  depth: Scale;
}) {
  const ink = useInk();
  const { lower95, upper95, median } = history.accumulation_mm_yr;
  // The band may reach far where nothing was dated; the scale follows the medians.
  const most = 2.2 * Math.max(0.01, ...median);
  const rate = scale(0, most, ...lane);
  const clipped = (values: Float64Array): [number, number][] =>
    Array.from(history.depth_m, (d, i) => [rate(Math.min(most, Math.max(0, values[i]!))), depth(d)]);
  return (
    <Track across={rate} depth={depth} first="accumulation" second="mm/yr" least={9} room={22}>
      {isFormer ? (
        <path d={polyline(clipped(median))} stroke={ink.line} strokeWidth={LINE.edge} fill="none" />
      ) : (
        <>
          <path d={`${polyline([...clipped(lower95), ...clipped(upper95).reverse()])}Z`} fill={ink.leaf} />
          <Edges d={polyline(clipped(lower95)) + polyline(clipped(upper95))} fill="none" />
          <path d={polyline(clipped(median))} stroke={ink.ink} strokeWidth={LINE.bold} fill="none" />
        </>
      )}
    </Track>
  );
}
