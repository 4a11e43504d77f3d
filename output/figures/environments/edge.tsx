/** The way of the edge along the line against age, and when it passed each hole. */
import {
  box,
  DOTTED,
  horizontal,
  LINE,
  placeAlong,
  polygon,
  polyline,
  shortened,
  staffStep,
  Text,
  UprightStaff,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { betweenAges } from '@stillstand/output/words';
import type { EnvironmentsLayout } from './layout.ts';

type Point = readonly [x: number, y: number];
const FINENESS = 1.2;
/** Rows of labels, points. */
const ROW = 7.6;

/** Stretches of the way where it is more likely known than not. */
interface Way {
  median: Point[];
  lower: Point[];
  upper: Point[];
  /** More likely beyond the outermost hole than between two. */
  isBeyond: boolean;
}

function waysOf({ line, time, edge }: EnvironmentsLayout): Way[] {
  if (line.edge === null || edge === null) return [];
  const { ages_cal_bp: ages, between, inside_of_all, outside_of_all, median, lower95, upper95 } = line.edge;
  const [x1, x2] = [time(time.from), time(time.to)];
  const count = Math.max(2, Math.ceil((x2 - x1) / FINENESS) + 1);
  const out: Way[] = [];
  let last: boolean | null = null;
  for (let i = 0; i < count; i++) {
    const x = x1 + (i / (count - 1)) * (x2 - x1);
    const age = time.from + (x - x1) / time.k;
    const at = (values: ArrayLike<number>): number => betweenAges(ages, values, age);
    const known = at(between) + at(inside_of_all) + at(outside_of_all);
    const [m, l, u] = [at(median), at(lower95), at(upper95)];
    if (known < 0.5 || !Number.isFinite(m + l + u)) {
      last = null;
      continue;
    }
    const isBeyond = at(between) < known / 2;
    const points = [m, l, u].map((along): Point => [x, edge.scale(along)]) as [Point, Point, Point];
    if (isBeyond !== last) {
      const before = last === null ? undefined : out.at(-1);
      out.push({
        isBeyond,
        // The stretches meet.
        median: before === undefined ? [] : [before.median.at(-1)!],
        lower: before === undefined ? [] : [before.lower.at(-1)!],
        upper: before === undefined ? [] : [before.upper.at(-1)!],
      });
      last = isBeyond;
    }
    const way = out.at(-1)!;
    way.median.push(points[0]);
    way.lower.push(points[1]);
    way.upper.push(points[2]);
  }
  return out;
}

export function Edge({ layout, id }: { layout: EnvironmentsLayout; id: string }) {
  const ink = useInk();
  const { edge, line, left, right, width, section } = layout;
  if (edge === null || line.edge === null) return null;
  const [low, high] = [Math.min(edge.scale.from, edge.scale.to), Math.max(edge.scale.from, edge.scale.to)];
  const places = section?.holes ?? [];
  const wanted = places
    .map(({ hole, along_m }) => ({ hole, at: edge.scale(along_m) }))
    .sort((a, b) => a.at - b.at);
  const labels = placeAlong(
    wanted.map(({ at }) => ({ at, size: ROW })),
    edge.y1 - 3,
    edge.y2 + 3,
  );
  const ways = waysOf(layout);
  return (
    <g id={`${id}-edge`}>
      <path
        d={wanted.map(({ at }) => horizontal(left, right, at)).join('')}
        stroke={ink.line}
        strokeWidth={LINE.hair}
        fill="none"
      />
      {ways.map(({ lower, upper }, i) => (
        <path
          // biome-ignore lint/suspicious/noArrayIndexKey: stretches have no other name
          key={i}
          d={polygon([...upper, ...[...lower].reverse()])}
          fill={ink.rule}
          fillOpacity={0.75}
        />
      ))}
      <path
        d={ways.flatMap(({ lower, upper }) => [polyline(lower), polyline(upper)]).join('')}
        stroke={ink.ink}
        strokeWidth={LINE.edge}
        {...DOTTED}
        fill="none"
      />
      {ways.map(({ median, isBeyond }, i) => (
        <path
          // biome-ignore lint/suspicious/noArrayIndexKey: stretches have no other name
          key={i}
          d={polyline(median)}
          stroke={ink.ink}
          strokeWidth={isBeyond ? LINE.bold : 1.2}
          strokeLinejoin="round"
          strokeDasharray={isBeyond ? '0.01 3' : undefined}
          strokeLinecap="round"
          fill="none"
        />
      ))}
      <Passages layout={layout} />
      <path d={box(left, edge.y1, right, edge.y2)} fill="none" stroke={ink.ink} strokeWidth={LINE.fine} />
      {edge.to_scale ? (
        <UprightStaff
          x={left - 4}
          scale={edge.scale}
          low={low}
          high={high}
          sign={false}
          {...staffStep(edge.scale.k, 6, 12)}
        />
      ) : null}
      {wanted.map(({ hole, at }, i) => (
        <g key={hole}>
          <path
            d={polyline([
              [right, at],
              [right + 3, labels[i]!],
            ])}
            stroke={ink.line}
            strokeWidth={LINE.hair}
            fill="none"
          />
          <Text x={right + 4} y={labels[i]! + 2.5}>
            {shortened(hole, width - right - 4)}
          </Text>
        </g>
      ))}
    </g>
  );
}

/** A triangle shows the way the edge went; the bar is the 95 % of its age. */
function Passages({ layout: { line, edge, time } }: { layout: EnvironmentsLayout }) {
  const ink = useInk();
  if (edge === null || line.edge === null) return null;
  const { passages } = line.edge;
  const clamp = (age: number): number => time(Math.max(time.to, Math.min(time.from, age)));
  return passages.map(({ hole, along_m, came, age_cal_bp }) => {
    if (age_cal_bp.median > time.from || age_cal_bp.median < time.to) return null;
    const y = edge.scale(along_m);
    const x = clamp(age_cal_bp.median);
    // The inner end is on top: where a hole comes to lie outside, the edge goes up past it.
    const up = came === 'outside' ? -1 : 1;
    return (
      <g key={`${hole} ${came} ${age_cal_bp.median}`}>
        <path
          d={
            horizontal(clamp(age_cal_bp.upper95), clamp(age_cal_bp.lower95), y) +
            vertical(clamp(age_cal_bp.upper95), y - 1.6, y + 1.6) +
            vertical(clamp(age_cal_bp.lower95), y - 1.6, y + 1.6)
          }
          stroke={ink.ink}
          strokeWidth={LINE.edge}
          fill="none"
        />
        <path
          d={polygon([
            [x - 2.7, y - up * 2],
            [x + 2.7, y - up * 2],
            [x, y + up * 2.9],
          ])}
          fill={ink.ink}
          stroke={ink.paper}
          strokeWidth={LINE.edge}
        />
      </g>
    );
  });
}
