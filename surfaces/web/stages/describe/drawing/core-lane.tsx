/** The core as it came up: what was recovered and lost, run by run, and what was described in it. */

import type { Core } from '@stillstand/campaign/chain';
import type { RunResult } from '@stillstand/campaign/results';
import {
  Contact,
  LINE,
  recoveredBar,
  SIZE,
  scale,
  Text,
  UprightStaff,
  useInk,
} from '@stillstand/output/drawing';
import type { Description } from '../layers.ts';
import type { Drawn } from './drawn.ts';
import { coreY, type Frame, staffBands } from './lanes.ts';
import { SedimentBox } from './sediment-box.tsx';

export function CoreLane({
  frame,
  runs,
  cores,
  description,
  drawn,
  id,
}: {
  frame: Frame;
  runs: readonly RunResult[];
  cores: readonly Core[];
  description: Description;
  drawn: readonly Drawn[];
  id: string;
}) {
  const ink = useInk();
  const { lanes, one } = frame;
  const [x1, x2] = lanes.core;
  const shown = runs.filter((run) => one === null || run.run === one.run);
  const pieces = drawn.flatMap((layer) => layer.pieces.filter((p) => p.core !== null));
  const hair = { fill: 'none', stroke: ink.ink, strokeWidth: LINE.fine } as const;
  return (
    <g>
      <CoreStaff frame={frame} />
      {shown.map((run) => {
        const top = frame.core(run.entered_top_m);
        const bottom = frame.core(run.entered_bottom_m);
        const bar = recoveredBar(run, lanes.bar[0], lanes.bar[1], top, bottom);
        const ends = `M${lanes.bar[0] - 2} ${top}H${x2}M${lanes.bar[0] - 2} ${bottom}H${x2}`;
        return (
          <g key={run.row_id}>
            <path d={bar.solid} fill={ink.ink} />
            <path d={bar.lost} {...hair} strokeWidth={0.55} />
            <path d={ends} stroke={ink.line} strokeWidth={LINE.hair} />
          </g>
        );
      })}
      {pieces.map((p) => (
        <g key={p.row_id}>
          <SedimentBox
            sediment={p.sediment}
            x1={x1}
            x2={x2}
            y1={p.core!.y1}
            y2={p.core!.y2}
            id={`${id}-core-${p.row_id}`}
            seed={p.seed}
          />
          <path
            d={`M${x1} ${p.core!.y1}V${p.core!.y2}M${x2} ${p.core!.y1}V${p.core!.y2}`}
            {...hair}
            strokeWidth={LINE.edge}
          />
        </g>
      ))}
      {description.gaps
        .filter((gap) => gap.core.entered !== null && (one === null || gap.core === one))
        .map((gap) => {
          const y1 = coreY(frame, gap.core, gap.from_m)!;
          const y2 = coreY(frame, gap.core, gap.to_m)!;
          return (
            <g key={`${gap.core.run} ${gap.from_m}`}>
              <path
                d={`M${x1} ${y1}H${x2}V${y2}H${x1}Z`}
                fill={ink.paper}
                stroke={ink.ink2}
                strokeWidth={LINE.fine}
                strokeLinecap="round"
                strokeDasharray="0.01 1.6"
              />
              {y2 - y1 > 9 ? (
                <Text x={(x1 + x2) / 2} y={(y1 + y2) / 2 + 2} anchor="middle" size={SIZE.small} voice="ink2">
                  {x2 - x1 > 40 ? 'not described' : '?'}
                </Text>
              ) : null}
            </g>
          );
        })}
      {cores
        .filter((core) => core.fall_in_m > 0 && core.entered !== null && core === one)
        .map((core) => {
          const y1 = coreY(frame, core, 0)!;
          const y2 = coreY(frame, core, core.fall_in_m)!;
          return (
            <g key={core.name}>
              <path
                d={`M${x1} ${y1}H${x2}V${y2}H${x1}Z`}
                fill={ink.paper}
                stroke={ink.ink2}
                strokeWidth={LINE.fine}
                strokeDasharray="3 2"
              />
              <Text x={(x1 + x2) / 2} y={(y1 + y2) / 2 + 2} anchor="middle" size={SIZE.small} voice="ink2">
                fallen in
              </Text>
            </g>
          );
        })}
      {description.contacts
        .filter((c) => c.core.entered !== null && (one === null || c.core === one))
        .map((c) => (
          <Contact
            key={c.id}
            kind={c.above!.row.cells['contact_below'] || null}
            x1={x1}
            x2={x2}
            y={coreY(frame, c.core, c.at_m)!}
          />
        ))}
      {one === null ? <RunNames frame={frame} runs={runs} /> : null}
    </g>
  );
}

/** Names of the runs in the middle of each, where there is room between the staff and the bar. */
function RunNames({ frame, runs }: { frame: Frame; runs: readonly RunResult[] }) {
  const { lanes } = frame;
  return (
    <g>
      {runs.map((run) => {
        const y = (frame.core(run.entered_top_m) + frame.core(run.entered_bottom_m)) / 2;
        if ((run.entered_bottom_m - run.entered_top_m) * frame.core.k < 7) return null;
        return (
          <Text key={run.row_id} x={lanes.coreStaff + 1} y={y + 2.2} anchor="end" voice="ink2">
            {run.run}
          </Text>
        );
      })}
    </g>
  );
}

/** Over the whole hole the runs are named instead; one core has its own staff from its own zero. */
function CoreStaff({ frame }: { frame: Frame }) {
  const { lanes, one } = frame;
  if (one === null || one.entered === null) return null;
  const own = scale(0, one.length_m, coreY(frame, one, 0)!, coreY(frame, one, one.length_m)!);
  return (
    <UprightStaff
      x={lanes.coreStaff}
      scale={own}
      low={0}
      high={one.length_m}
      sign={false}
      {...staffBands(own.k)}
    />
  );
}
