/** Where samples are planned and not taken yet: broken lozenges at their depth. */
import { plannedSamples } from '@stillstand/campaign/chain';
import { LINE, shortened, Text, useInk } from '@stillstand/output/drawing';
import { useMemo } from 'react';
import { useComputation } from '../../../compute/index.ts';
import type { Frame } from '../drawing/lanes.ts';

const SIZE = 3.4;

export function PlannedLane({ frame, hole }: { frame: Frame; hole: string }) {
  const ink = useInk();
  const { campaign } = useComputation();
  const planned = useMemo(
    () => (campaign === null ? [] : plannedSamples(campaign).filter(({ row }) => row.hole === hole)),
    [campaign, hole],
  );
  const { sample: x, sampleLabel } = frame.lanes;
  return planned.map(({ row, state }) => {
    const ends = [row.top_m, row.bottom_m].filter((m) => m !== null);
    if (state === 'taken' || ends.length === 0) return null;
    const y = frame.depth(ends.reduce((sum, m) => sum + m, 0) / ends.length);
    if (y > frame.bottom || y < frame.depth(frame.one?.depth.top_m ?? 0)) return null;
    return (
      <g key={row.row_id} className="planned-mark">
        <title>{`Planned: ${row.sample}, ${ends[0]!.toFixed(2)} m`}</title>
        <path
          d={`M${x} ${y - SIZE}l${SIZE} ${SIZE}l${-SIZE} ${SIZE}l${-SIZE} ${-SIZE}z`}
          fill="none"
          stroke={ink.ink}
          strokeWidth={LINE.edge}
          strokeDasharray="1.6 1.2"
        />
        {sampleLabel === 0 ? null : (
          <Text x={x + 8} y={y + 2.4} voice="ink3">
            {shortened(row.sample, sampleLabel - 2)}
          </Text>
        )}
      </g>
    );
  });
}
