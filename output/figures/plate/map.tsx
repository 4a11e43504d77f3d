/** The map of the plate: holes with their names, the line of the section, degrees, a scale bar and north. */
import { isGivenUp } from '@stillstand/campaign/holes';
import {
  box,
  DASHED,
  dot,
  LINE,
  LyingStaff,
  line,
  move,
  polygon,
  polyline,
  scale,
  Text,
  useInk,
} from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import { barY, type MapLayout, RING } from './map-layout.ts';

/** A ring about a dot; of a hole that was given up struck. */
export function HoleMark({ x, y, isStruck }: { x: number; y: number; isStruck: boolean }) {
  const ink = useInk();
  return (
    <g fill="none" stroke={ink.ink}>
      <circle
        cx={Math.round(x * 100) / 100}
        cy={Math.round(y * 100) / 100}
        r={RING}
        fill={ink.paper}
        strokeWidth={LINE.edge}
      />
      <path d={dot(x, y)} strokeWidth={1.6} strokeLinecap="round" />
      {isStruck ? <path d={move(x - 3.4, y + 3.4) + line(x + 3.4, y - 3.4)} strokeWidth={LINE.edge} /> : null}
    </g>
  );
}

export function SectionLine({ points }: { points: readonly (readonly [number, number])[] }) {
  const ink = useInk();
  return <path d={polyline(points)} stroke={ink.ink2} strokeWidth={LINE.edge} fill="none" {...DASHED} />;
}

/** A lost hole and the one that replaces it may be a metre apart: what is struck must be seen. */
const struckLast = (holes: MapLayout['holes']): MapLayout['holes'] =>
  [...holes].sort((a, b) => Number(isGivenUp(a.hole.state)) - Number(isGivenUp(b.hole.state)));

export function PlateMap({ map }: { map: MapLayout }) {
  const ink = useInk();
  const { frame, holes } = map;
  const outline = box(frame.x1, frame.y1, frame.x2, frame.y2);
  return (
    <g id="plate-map">
      <clipPath id="plate-map-frame">
        <path d={outline} />
      </clipPath>
      <g clipPath="url(#plate-map-frame)">
        <path
          d={[...map.meridians, ...map.parallels].map(polyline).join('')}
          stroke={ink.rule}
          strokeWidth={LINE.hair}
          fill="none"
        />
        {map.line === null ? null : <SectionLine points={map.line} />}
      </g>
      <path d={outline} stroke={ink.ink} strokeWidth={LINE.fine} fill="none" />
      {map.degrees.map(({ words, x1, y2 }) => (
        <Text key={`${words} ${x1}`} x={x1} y={y2 - 1.4} voice="ink3">
          {words}
        </Text>
      ))}
      <g id="plate-holes">
        <path
          d={holes.map(({ name }) => (name?.lead == null ? '' : polyline(name.lead))).join('')}
          stroke={ink.line}
          strokeWidth={LINE.hair}
          fill="none"
        />
        {struckLast(holes).map(({ hole, x, y }) => (
          <HoleMark key={hole.row_id} x={x} y={y} isStruck={isGivenUp(hole.state)} />
        ))}
        {map.ends.map(({ letter, x1, x2, y2 }) => (
          <Text key={letter} x={(x1 + x2) / 2} y={y2 - 1.2} anchor="middle" weight={600} halo>
            {letter}
          </Text>
        ))}
        {holes.map(({ hole, name }) =>
          name === null ? null : (
            <Text key={hole.row_id} x={name.x1 + 1} y={name.y2 - 1.4} halo>
              {hole.hole}
            </Text>
          ),
        )}
      </g>
      <ScaleBar map={map} />
      <North x={frame.x2 - 4} y={barY(map)} />
    </g>
  );
}

function ScaleBar({ map }: { map: MapLayout }) {
  const { length_m, end } = map.bar;
  const at = scale(0, length_m, 0, end);
  // Five blocks, or four where the length begins with 2, so that each is a round length.
  const blocks = printed(length_m, 6)
    .replace(/[^1-9]/g, '')
    .startsWith('2')
    ? 4
    : 5;
  const words = (m: number): string =>
    m === 0 ? '0' : length_m < 2000 ? `${printed(length_m)} m` : `${printed(length_m / 1000)} km`;
  return (
    <LyingStaff
      y={barY(map)}
      scale={at}
      low={0}
      high={length_m}
      step={length_m / blocks}
      every={blocks}
      labels="below"
      label={words}
      bounds={[0, map.frame.x2]}
    />
  );
}

function North({ x, y }: { x: number; y: number }) {
  const ink = useInk();
  const arrow = [
    [x, y - 2],
    [x + 3.4, y + 9],
    [x, y + 6.6],
    [x - 3.4, y + 9],
  ] as const;
  return (
    <g>
      <path d={polygon(arrow)} fill={ink.ink} />
      <Text x={x - 6} y={y + 8.6} anchor="end">
        N
      </Text>
    </g>
  );
}
