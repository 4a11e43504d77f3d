/** Proposed correlations in the section: faint and dashed, each with its margin in the middle, where it is chosen. */
import { LINE, polyline, type Rect, type Scale, SIZE, Text, useInk } from '@stillstand/output/drawing';
import { type Stand, tieLine } from '@stillstand/output/figures';
import { printed } from '../../parts/index.ts';
import { Pad } from './drawing/pad.tsx';
import type { Proposed } from './proposed.ts';

/** Shorter than this a line has no room for its margin, points. */
const ROOM = 16;

export function ProposedLines({
  proposed,
  stands,
  y,
  written,
  chosen,
  touch,
  onChoose,
}: {
  proposed: readonly Proposed[];
  stands: readonly Stand[];
  y: Scale;
  written: readonly Rect[];
  chosen: string | null;
  /** The least target, points. */
  touch: number;
  onChoose: (id: string) => void;
}) {
  const ink = useInk();
  const lines = proposed.flatMap((each) => {
    const { a, b, result } = each;
    const parts = tieLine(result, stands, y, written);
    if (parts === null || parts.length === 0) return [];
    const longest = parts.reduce((one, other) => (long(other) > long(one) ? other : one));
    const [[x1, y1], [x2, y2]] = longest;
    const at = { x: (x1 + x2) / 2, y: (y1 + y2) / 2 };
    return [{ each, a, b, parts, at, hasRoom: long(longest) >= ROOM }];
  });
  return (
    <g>
      {lines.map(({ each, a, b, parts, at, hasRoom }) => {
        const isChosen = each.id === chosen;
        // A finger must find it: where others are nearer, the line is chosen by pointer and in the table.
        const isApart = lines.every(
          (other) =>
            other.each === each ||
            Math.abs(other.at.x - at.x) >= touch ||
            Math.abs(other.at.y - at.y) >= touch,
        );
        return (
          // biome-ignore lint/a11y/noStaticElementInteractions: the table below does the same by keyboard
          <g key={each.id} className="choosable" onClick={() => onChoose(each.id)}>
            <path
              d={parts.map(polyline).join('')}
              stroke={ink.paper}
              strokeOpacity={0}
              strokeWidth={8}
              fill="none"
            />
            <path
              d={parts.map(polyline).join('')}
              fill="none"
              stroke={isChosen ? ink.ink : ink.line}
              strokeWidth={isChosen ? LINE.bold : LINE.edge}
              strokeDasharray="2 2.6"
            />
            {hasRoom ? (
              <Text
                x={at.x}
                y={at.y + 2.2}
                anchor="middle"
                size={SIZE.small}
                voice={isChosen ? 'ink' : 'ink2'}
                weight={isChosen ? 600 : 400}
                halo
              >
                {printed(each.result.margin, 1)}
              </Text>
            ) : null}
            {isApart ? (
              <Pad
                name={`Proposal ${a.hole} ${a.label} to ${b.hole} ${b.label}, margin ${printed(each.result.margin, 1)}`}
                isPressed={isChosen}
                x={at.x - touch / 2}
                y={at.y - touch / 2}
                width={touch}
                height={touch}
                onPress={() => onChoose(each.id)}
              />
            ) : null}
          </g>
        );
      })}
    </g>
  );
}

const long = ([[x1], [x2]]: readonly [readonly [number, number], readonly [number, number]]): number =>
  Math.abs(x2 - x1);
