/** Samples as lozenges where they lie, filled when dated; each can be taken hold of and moved. */
import { LINE, Lozenge, placeAlong, shortened, Text, useInk } from '@stillstand/output/drawing';
import type { PlacedSample } from '../samples.ts';
import { type Frame, HEAD } from './lanes.ts';

export const sampleId = (row_id: string): string => `sample-${row_id}`;

export function SampleLane({
  frame,
  samples,
  chosen,
  onChoose,
  onKey,
}: {
  frame: Frame;
  samples: readonly PlacedSample[];
  chosen: string | null;
  onChoose: (row_id: string) => void;
  onKey: (event: React.KeyboardEvent, sample: PlacedSample) => void;
}) {
  const ink = useInk();
  const { lanes } = frame;
  const x = lanes.sample;
  const at = samples.map((sample) => frame.depth(sample.core.depthAt((sample.top_m + sample.bottom_m) / 2)));
  const labels = placeAlong(
    at.map((y) => ({ at: y, size: 8 })),
    HEAD - 4,
    frame.bottom + 4,
  );
  return (
    <g>
      {samples.map((sample, i) => {
        const { row_id } = sample.row;
        const y = at[i]!;
        const isChosen = row_id === chosen;
        const y1 = frame.depth(sample.core.depthAt(sample.top_m));
        const y2 = frame.depth(sample.core.depthAt(sample.bottom_m));
        return (
          // biome-ignore lint/a11y/useSemanticElements: a button inside a drawing
          <g
            key={row_id}
            id={sampleId(row_id)}
            role="button"
            tabIndex={0}
            aria-pressed={isChosen}
            aria-label={`Sample ${sample.label}, ${sample.core.name}, ${sample.where}${sample.dated ? ', dated' : ''}`}
            className="choosable sample"
            data-sample={row_id}
            onFocus={() => onChoose(row_id)}
            onClick={() => onChoose(row_id)}
            onKeyDown={(event) => onKey(event, sample)}
          >
            {y2 - y1 > 4 ? <path d={`M${x} ${y1}V${y2}`} stroke={ink.ink} strokeWidth={LINE.edge} /> : null}
            <rect
              className="focus-box"
              x={x - 5.5}
              y={y - 5}
              width={11}
              height={10}
              fill={ink.paper}
              fillOpacity={0}
            />
            <Lozenge x={x} y={y} filled={sample.dated} size={isChosen ? 4 : 2.8} />
            {lanes.sampleLabel === 0 ? null : (
              <>
                {Math.abs(labels[i]! - y) > 1.5 ? (
                  <path
                    d={`M${x + 3.6} ${y}L${x + 7.4} ${labels[i]!}`}
                    stroke={ink.line}
                    strokeWidth={LINE.hair}
                  />
                ) : null}
                <Text x={x + 8} y={labels[i]! + 2.4} weight={isChosen ? 600 : 400}>
                  {shortened(sample.label, lanes.sampleLabel - 2)}
                </Text>
              </>
            )}
          </g>
        );
      })}
    </g>
  );
}
