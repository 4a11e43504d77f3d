/** The bands of each hole against age, with beds laid down at once over them and dated samples at their foot. */
import {
  box,
  horizontal,
  LINE,
  Lozenge,
  overlaps,
  PatternWithin,
  polyline,
  type Rect,
  r2,
  roomWithin,
  scale,
  shortened,
  Text,
  textWidth,
  UprightStaff,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { type EnvironmentsLayout, type HoleRow, LANE } from './layout.ts';

const NAME = { weight: 600 } as const;
const BLANK = { weight: 400 } as const;
const HEIGHT = 9;

interface PlacedName {
  key: string;
  words: string;
  x: number;
  y: number;
  isBlank: boolean;
}

/** Square points; outlines run forth below and back above, at the same places across. */
const areaOf = (outline: readonly (readonly [number, number])[]): number =>
  Math.abs(
    outline.reduce((sum, [x, y], i) => {
      const [u, v] = outline[(i + 1) % outline.length]!;
      return sum + x * v - u * y;
    }, 0) / 2,
  );

/** The largest bands first; a name without room is left to the key. */
function namesOf({ bands: { bands }, y1 }: HoleRow): PlacedName[] {
  const taken: Rect[] = [];
  return bands
    .map((band, i) => ({ band, i, area: areaOf(band.outline) }))
    .sort((a, b) => b.area - a.area)
    .flatMap(({ band: { name, sediment, outline }, i }): PlacedName[] => {
      const isBlank = sediment === null;
      const size = { width: textWidth(name, isBlank ? BLANK : NAME) + 3, height: HEIGHT };
      const at = roomWithin(outline, size, (own) => !taken.some((other) => overlaps(own, other)), 1);
      if (at === null) return [];
      taken.push({ x1: at.x, x2: at.x + size.width, y1: at.y, y2: at.y + size.height });
      return [{ key: `${i}`, words: name, x: at.x + 1.5, y: y1 + at.y + 6.9, isBlank }];
    });
}

export function HoleRows({ layout, id }: { layout: EnvironmentsLayout; id: string }) {
  return (
    <g id={`${id}-holes`}>
      {layout.rows.map((row, i) => (
        <Row key={row.bands.hole} row={row} layout={layout} id={`${id}-hole-${i + 1}`} />
      ))}
    </g>
  );
}

function Row({ row, layout: { left, right }, id }: { row: HoleRow; layout: EnvironmentsLayout; id: string }) {
  const ink = useInk();
  const { bands, boundaries, hole, beds, dates } = row.bands;
  const { y1, y2 } = row;
  const middle = (y1 + y2) / 2;
  return (
    <g id={id}>
      <Text x={left - 10} y={middle + 2.5} anchor="end" weight={600}>
        {shortened(hole, left - 10, NAME)}
      </Text>
      <UprightStaff
        x={left - 6}
        scale={scale(1, 0, y1, y2)}
        low={0}
        high={1}
        step={0.5}
        every={2}
        sign={false}
        side="unlabelled"
      />
      <path d={box(left, y1, right, y2)} fill={ink.paper} />
      <g transform={`translate(0 ${r2(y1)})`}>
        {bands.map(({ sediment, outline }, i) =>
          sediment === null ? null : (
            <PatternWithin
              // biome-ignore lint/suspicious/noArrayIndexKey: bands have no other name
              key={i}
              sediment={sediment}
              outline={outline}
              id={`${id}-band-${i + 1}`}
              seed={300 + i}
            />
          ),
        )}
        <path
          d={boundaries.map(polyline).join('')}
          stroke={ink.ink}
          strokeWidth={LINE.fine}
          strokeLinejoin="round"
          fill="none"
        />
      </g>
      <path d={box(left, y1, right, y2)} fill="none" stroke={ink.ink} strokeWidth={LINE.edge} />
      {beds.map(({ row_id, at, x1, x2, lane }) => {
        const y = row.lanes_y + lane * LANE + LANE / 2;
        return (
          <g key={row_id} stroke={ink.ink} fill="none">
            <path d={horizontal(x1, x2, y)} strokeWidth={LINE.fine} />
            <path d={vertical(at, y - 1.9, y + 1.9)} strokeWidth={1.4} />
          </g>
        );
      })}
      {dates.map(({ row_id, x }) => (
        <Lozenge key={row_id} x={x} y={y2} filled size={1.9} />
      ))}
    </g>
  );
}

/** Over what marks the ages of the sections. */
export function HoleNames({ layout, id }: { layout: EnvironmentsLayout; id: string }) {
  return (
    <g id={`${id}-names`}>
      {layout.rows.flatMap((row) =>
        namesOf(row).map(({ key, words, x, y, isBlank }) => (
          <Text
            key={`${row.bands.hole} ${key}`}
            x={x}
            y={y}
            halo
            weight={isBlank ? 400 : 600}
            voice={isBlank ? 'ink2' : 'ink'}
          >
            {words}
          </Text>
        )),
      )}
    </g>
  );
}
