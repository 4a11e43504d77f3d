/** The lane of grain size: a bar as thick as each sample, and areas between samples of one layer. */
import {
  box,
  LINE,
  line,
  move,
  Pattern,
  polygon,
  r2,
  type Scale,
  sedimentOf,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import type { GrainLane, GrainPart } from './grain-lane.ts';

/** Of a bar, points. */
const LEAST_BAR = 3;

/** A stretch of one part down the page: its left and right edge at each depth. */
interface Stretch {
  part: GrainPart;
  key: string;
  edges: { y: number; left: number; right: number }[];
}

export function GrainStack({
  lane,
  at,
  depth,
  id,
}: {
  lane: GrainLane;
  at: Scale;
  depth: Scale;
  id: string;
}) {
  const ink = useInk();
  const stretches = stretchesOf(lane, at, depth);
  return (
    <g>
      {stretches.map(({ part, key, edges }) => {
        const name = `${id}-${key}`;
        const at = {
          x1: Math.min(...edges.map(({ left }) => left)),
          x2: Math.max(...edges.map(({ right }) => right)),
          y1: edges[0]!.y,
          y2: edges.at(-1)!.y,
        };
        return (
          <g key={key}>
            <clipPath id={name}>
              <path d={outline(edges)} />
            </clipPath>
            <g clipPath={`url(#${name})`}>
              <Pattern
                sediment={sedimentOf(part)}
                at={at}
                id={`${name}-pattern`}
                seed={lane.parts.indexOf(part)}
              />
            </g>
          </g>
        );
      })}
      <path
        d={stretches.map(({ edges }) => outline(edges)).join('')}
        stroke={ink.ink}
        strokeWidth={LINE.fine}
        fill="none"
      />
      <path d={levels(lane, at, depth)} stroke={ink.ink} strokeWidth={LINE.hair} fill="none" />
      {labels(stretches).map(({ part, x, y }) => (
        <Text key={part} x={x} y={y} anchor="middle" halo>
          {part}
        </Text>
      ))}
    </g>
  );
}

/** Half a bar, points. */
const half = (thickness_m: number, depth: Scale): number => Math.max(LEAST_BAR, thickness_m * depth.k) / 2;

function stretchesOf({ parts, samples }: GrainLane, at: Scale, depth: Scale): Stretch[] {
  const runs: (typeof samples)[number][][] = [];
  for (const sample of samples) {
    if (sample.isJoined) runs.at(-1)!.push(sample);
    else runs.push([sample]);
  }
  return runs.flatMap((run, r) =>
    parts.flatMap((part, k): Stretch[] => {
      const edges = run.flatMap(({ depth_m, thickness_m, percents }, i) => {
        const before = percents.slice(0, k).reduce((sum, percent) => sum + percent, 0);
        const edge = { left: at(before), right: at(before + percents[k]!) };
        const y = depth(depth_m);
        const reach = half(thickness_m, depth);
        // Bars end a run; within it the areas go on from middle to middle.
        return [
          ...(i === 0 ? [{ y: y - reach, ...edge }] : []),
          { y, ...edge },
          ...(i === run.length - 1 ? [{ y: y + reach, ...edge }] : []),
        ];
      });
      const isEmpty = edges.every(({ left, right }) => right - left < 0.01);
      return isEmpty ? [] : [{ part, key: `${r + 1}-${part}`, edges }];
    }),
  );
}

const outline = (edges: Stretch['edges']): string =>
  polygon([
    ...edges.map(({ left, y }) => [left, y] as const),
    ...edges.toReversed().map(({ right, y }) => [right, y] as const),
  ]);

/** Where samples lie within areas: a mark at the left edge. */
function levels({ samples }: GrainLane, at: Scale, depth: Scale): string {
  return samples
    .map(({ depth_m, thickness_m }) => {
      const y = depth(depth_m);
      const reach = half(thickness_m, depth);
      return `${box(at(0) - 3, y - reach, at(0) - 1.2, y + reach)}${move(at(0) - 1.2, y)}${line(at(0), y)}`;
    })
    .join('');
}

/** One word a part, in its largest stretch, where the word has room. */
function labels(stretches: readonly Stretch[]): { part: GrainPart; x: number; y: number }[] {
  return [...Map.groupBy(stretches, ({ part }) => part)].flatMap(([part, of]) => {
    const places = of
      .flatMap(({ edges }) =>
        edges.slice(1).map((edge, i) => {
          const before = edges[i]!;
          return {
            width: (edge.right - edge.left + before.right - before.left) / 2,
            x: (edge.left + edge.right + before.left + before.right) / 4,
            y: (edge.y + before.y) / 2,
            height: edge.y - before.y,
          };
        }),
      )
      .filter(({ width, height }) => width >= textWidth(part) + 3 && height >= 9);
    const largest = places.reduce<(typeof places)[number] | null>(
      (best, each) => (best === null || each.width * each.height > best.width * best.height ? each : best),
      null,
    );
    return largest === null ? [] : [{ part, x: r2(largest.x), y: r2(largest.y + 2.4) }];
  });
}

export function grainsCaption({ parts }: GrainLane): string {
  return `Grain size: ${parts.join(', ')} from the left, by their limits; areas join samples of one layer, marks at the left edge show where and how thick they were cut.`;
}
