/** Sand, silt and clay of each analysis in a triangle, with the fields of Folk 1954. */
import {
  LINE,
  line,
  move,
  overlaps,
  polygon,
  type Rect,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import type { NumberedGrains } from './key.ts';

/** A place by its parts: sand, silt and clay of what is not gravel, adding to 1. */
export interface Mixture {
  sand: number;
  silt: number;
  clay: number;
}

/** Null where silt and clay were not parted, or all is gravel. */
export function mixtureOf({
  size: { sand_percent, silt_percent, clay_percent },
}: Pick<NumberedGrains, 'size'>): Mixture | null {
  if (sand_percent === null || silt_percent === null || clay_percent === null) return null;
  const sum = sand_percent + silt_percent + clay_percent;
  return sum > 0 ? { sand: sand_percent / sum, silt: silt_percent / sum, clay: clay_percent / sum } : null;
}

/** Sand at the top, clay at the left, silt at the right. */
const placeIn =
  ({ x1, x2, y1, y2 }: Rect) =>
  ({ sand, silt, clay }: Mixture): readonly [number, number] => [
    (sand * (x1 + x2)) / 2 + clay * x1 + silt * x2,
    sand * y1 + (1 - sand) * y2,
  ];

/** So much of sand, the rest parted by `silt`. */
const at = (sand: number, silt: number): Mixture => ({
  sand,
  silt: (1 - sand) * silt,
  clay: (1 - sand) * (1 - silt),
});

/** Letters of the fields: S sand, Z silt, M mud, C clay; small ones for sandy, silty, muddy and clayey. */
const FIELDS: readonly (readonly [string, number, number])[] = [
  ['S', 0.935, 0.5],
  ['cS', 0.66, 0.17],
  ['mS', 0.66, 0.5],
  ['zS', 0.66, 0.83],
  ['sC', 0.28, 0.17],
  ['sM', 0.28, 0.5],
  ['sZ', 0.28, 0.83],
  ['C', 0.045, 0.17],
  ['M', 0.045, 0.5],
  ['Z', 0.045, 0.83],
];

export function GrainTriangle({ of, at: rect }: { of: readonly NumberedGrains[]; at: Rect }) {
  const ink = useInk();
  const place = placeIn(rect);
  const lineOf = (from: Mixture, to: Mixture): string => `${move(...place(from))}${line(...place(to))}`;
  const fields = [
    ...[0.9, 0.5, 0.1].map((sand) => lineOf(at(sand, 0), at(sand, 1))),
    // A third and two thirds of silt, as far as sand has no name of its own.
    ...[1 / 3, 2 / 3].map((silt) => lineOf(at(0, silt), at(0.9, silt))),
  ].join('');
  const points = of.flatMap((each) => {
    const mixture = mixtureOf(each);
    return mixture === null ? [] : [{ number: each.number, at: place(mixture) }];
  });
  const { x1, x2, y1, y2 } = rect;
  return (
    <g>
      <path d={fields} stroke={ink.line} strokeWidth={LINE.hair} fill="none" />
      {FIELDS.map(([name, sand, silt]) => {
        const [x, y] = place(at(sand, silt));
        return (
          <Text key={name} x={x} y={y + 2.5} anchor="middle" voice="ink3">
            {name}
          </Text>
        );
      })}
      <path
        d={polygon([
          [(x1 + x2) / 2, y1],
          [x2, y2],
          [x1, y2],
        ])}
        stroke={ink.ink}
        strokeWidth={LINE.edge}
        strokeLinejoin="round"
        fill="none"
      />
      {[90, 50, 10].map((percent) => {
        const [x, y] = place(at(percent / 100, 0));
        return (
          <Text key={percent} x={x - 3} y={y + 2.4} anchor="end" voice="ink2">
            {percent}
          </Text>
        );
      })}
      <Text x={(x1 + x2) / 2 - 9} y={y1 + 3} anchor="end" weight={600}>
        sand, %
      </Text>
      <Text x={x1 - 4} y={y2 + 10} weight={600}>
        clay
      </Text>
      <Text x={x2 + 4} y={y2 + 10} anchor="end" weight={600}>
        silt
      </Text>
      {[1 / 3, 2 / 3].map((silt) => (
        <Text key={silt} x={place(at(0, silt))[0]} y={y2 + 10} anchor="middle" voice="ink2">
          {silt < 0.5 ? '1 : 2' : '2 : 1'}
        </Text>
      ))}
      <path
        d={points.map(({ at: [x, y] }) => diamond(x, y)).join('')}
        stroke={ink.paper}
        strokeWidth={LINE.hair}
        fill={ink.ink}
      />
      {numbers(points, rect).map(({ number, x, y, anchor }) => (
        <Text key={number} x={x} y={y} anchor={anchor} weight={600} halo>
          {number}
        </Text>
      ))}
    </g>
  );
}

const HALF = 2.3;
const diamond = (x: number, y: number): string =>
  polygon([
    [x, y - HALF],
    [x + HALF, y],
    [x, y + HALF],
    [x - HALF, y],
  ]);

/** Right of its point, or left, above or below it; left out where each of these is taken. */
function numbers(
  points: readonly { number: number; at: readonly [number, number] }[],
  { x1, x2, y1, y2 }: Rect,
) {
  const apex = (x1 + x2) / 2;
  const taken: Rect[] = [
    { x1: apex - 40, x2: apex - 6, y1: y1 - 4, y2: y1 + 5 },
    ...points.map(({ at: [x, y] }) => ({ x1: x - HALF, x2: x + HALF, y1: y - HALF, y2: y + HALF })),
  ];
  return points.flatMap(({ number, at: [x, y] }) => {
    const width = textWidth(String(number), { weight: 600 });
    const places = [
      { x: x + 4, y: y + 2.5, anchor: 'start' as const, left: x + 4 },
      { x: x - 4, y: y + 2.5, anchor: 'end' as const, left: x - 4 - width },
      { x, y: y - 4, anchor: 'middle' as const, left: x - width / 2 },
      { x, y: y + 9.5, anchor: 'middle' as const, left: x - width / 2 },
    ];
    const free = places.find(({ left, y: base }) => {
      const rect = { x1: left - 0.5, x2: left + width + 0.5, y1: base - 5.6, y2: base + 0.6 };
      const isInside = rect.x1 > x1 - 14 && rect.x2 < x2 + 14 && rect.y2 < y2 + 2;
      const isFree = isInside && !taken.some((other) => overlaps(rect, other));
      if (isFree) taken.push(rect);
      return isFree;
    });
    return free === undefined ? [] : [{ number, ...free }];
  });
}
