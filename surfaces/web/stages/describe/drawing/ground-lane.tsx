/** The column in the ground, as wide as its grain, with what was seen in it. */

import type { HoleResult } from '@stillstand/campaign/results';
import {
  Contact,
  CoreSymbol,
  coreSymbols,
  LINE,
  placeAlong,
  UprightStaff,
  useInk,
} from '@stillstand/output/drawing';
import type { Drawn } from './drawn.ts';
import { type Frame, grainWidth, HEAD, staffBands } from './lanes.ts';
import { SedimentBox } from './sediment-box.tsx';

export function GroundLane({
  frame,
  hole,
  drawn,
  id,
}: {
  frame: Frame;
  hole: HoleResult;
  drawn: readonly Drawn[];
  id: string;
}) {
  const ink = useInk();
  const { lanes, depth, one } = frame;
  const x = lanes.column;
  const low = depth.from;
  const high = one === null ? depth.to : one.depth.bottom_m;
  const clip = (y: number): number => Math.max(HEAD, Math.min(frame.bottom, y));
  return (
    <g>
      <UprightStaff
        x={lanes.depthStaff}
        scale={depth}
        low={low}
        high={high}
        sign={false}
        {...staffBands(depth.k)}
      />
      {drawn.map((d) => (
        <g key={d.layer.id}>
          <SedimentBox
            sediment={d.sediment}
            x1={x}
            x2={x + grainWidth(lanes, d.sediment.grain)}
            y1={clip(d.y1)}
            y2={clip(d.y2)}
            id={`${id}-ground-${d.layer.id}`}
            seed={d.pieces[0]!.seed}
          />
          <path
            d={`M${x} ${clip(d.y1)}V${clip(d.y2)}M${x + grainWidth(lanes, d.sediment.grain)} ${clip(d.y1)}V${clip(d.y2)}`}
            stroke={ink.ink}
            strokeWidth={LINE.edge}
            fill="none"
          />
        </g>
      ))}
      {hole.not_represented
        .filter((gap) => gap.bottom_m > low && gap.top_m < high)
        .map((gap) => {
          const [y1, y2, x2] = [clip(depth(gap.top_m)), clip(depth(gap.bottom_m)), x + lanes.clay];
          return (
            <path
              key={gap.top_m}
              d={`M${x} ${y1}H${x2}V${y2}H${x}ZM${x} ${y1}L${x2} ${y2}M${x} ${y2}L${x2} ${y1}`}
              fill={ink.paper}
              stroke={ink.ink}
              strokeWidth={0.55}
            />
          );
        })}
      {drawn.map((d, i) => {
        const below = drawn[i + 1];
        const width = Math.max(
          grainWidth(lanes, d.sediment.grain),
          below !== undefined && below.y1 - d.y2 < 1 ? grainWidth(lanes, below.sediment.grain) : 0,
        );
        const isBase = one === null || d.layer.pieces.at(-1)!.core === one;
        return isBase ? (
          <Contact key={d.layer.id} kind={d.contact} x1={x} x2={x + width} y={clip(d.y2)} />
        ) : null;
      })}
      {one === null || one.depth.top_m === 0 ? (
        <path
          d={`M${lanes.depthStaff - 1} ${depth(0)}H${x + lanes.gravel + 3}`}
          stroke={ink.ink}
          strokeWidth={1.7}
        />
      ) : null}
      {lanes.seen === null ? null : <CoreSymbols frame={frame} drawn={drawn} x={lanes.seen} />}
    </g>
  );
}

/** Signs beside their units, two abreast where a unit is thin. */
function CoreSymbols({ frame, drawn, x }: { frame: Frame; drawn: readonly Drawn[]; x: number }) {
  const rows = drawn.flatMap((d) => {
    const names = coreSymbols(d.seen);
    const abreast = (d.y2 - d.y1) / 9 < names.length ? 2 : 1;
    const lines = Math.ceil(names.length / abreast);
    return Array.from({ length: lines }, (_, i) => ({
      names: names.slice(i * abreast, (i + 1) * abreast),
      at: d.y1 + ((d.y2 - d.y1) * (i + 0.5)) / lines,
    }));
  });
  const places = placeAlong(
    rows.map((row) => ({ at: row.at, size: 9 })),
    HEAD,
    frame.bottom,
  );
  return (
    <g>
      {rows.map((row, i) =>
        row.names.map((name, j) => (
          <CoreSymbol
            key={`${name} ${row.at}`}
            name={name}
            x={x + (j - (row.names.length - 1) / 2) * 9}
            y={places[i]!}
          />
        )),
      )}
    </g>
  );
}
