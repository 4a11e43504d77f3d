/** The map of a campaign: holes with their names, coasts, grounds, the line of the section, degrees, scale bar and north. */
import {
  box,
  DASHED,
  DOTTED,
  dot,
  LINE,
  LyingStaff,
  line,
  move,
  polygon,
  polyline,
  r2,
  scale,
  Text,
  useInk,
} from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import { type Inset, RADIUS } from './inset.ts';
import { barY, type MapLayout } from './layout.ts';
import type { Mapped } from './mapped.ts';
import { type NamedHole, RING } from './names.ts';

/** A ring about a dot; of a hole that was given up struck, of a planned one broken and empty; of a site a cross. */
export function HoleMark({ x, y, kind }: { x: number; y: number; kind: Mapped['kind'] }) {
  const ink = useInk();
  if (kind === 'site')
    return (
      <path
        d={move(x - 4, y) + line(x + 4, y) + move(x, y - 4) + line(x, y + 4)}
        stroke={ink.ink}
        strokeWidth={LINE.edge}
      />
    );
  return (
    <g fill="none" stroke={ink.ink}>
      <circle
        cx={r2(x)}
        cy={r2(y)}
        r={RING}
        fill={ink.paper}
        strokeWidth={LINE.edge}
        {...(kind === 'planned' ? { strokeDasharray: BROKEN } : {})}
      />
      {kind === 'planned' ? null : <path d={dot(x, y)} strokeWidth={1.6} strokeLinecap="round" />}
      {kind === 'given_up' ? (
        <path d={move(x - 3.4, y + 3.4) + line(x + 3.4, y - 3.4)} strokeWidth={LINE.edge} />
      ) : null}
    </g>
  );
}

/** Five strokes round a ring. */
const ROUND = (2 * Math.PI * RING) / 5;
const BROKEN = `${r2(0.62 * ROUND)} ${r2(0.38 * ROUND)}`;

export function SectionLine({ points }: { points: readonly (readonly [number, number])[] }) {
  const ink = useInk();
  return <path d={polyline(points)} stroke={ink.ink2} strokeWidth={LINE.edge} fill="none" {...DASHED} />;
}

/** A lost hole and the one that replaces it may be a metre apart: what is struck must be seen. */
const struckLast = (holes: readonly NamedHole[]): NamedHole[] =>
  [...holes].sort((a, b) => Number(a.hole.kind === 'given_up') - Number(b.hole.kind === 'given_up'));

/** `id` begins those of its parts: two maps may be on one page. */
export function CampaignMap({ map, id }: { map: MapLayout; id: string }) {
  const ink = useInk();
  const { frame, holes } = map;
  const outline = box(frame.x1, frame.y1, frame.x2, frame.y2);
  return (
    <g id={`${id}-map`}>
      <clipPath id={`${id}-map-frame`}>
        <path d={outline} />
      </clipPath>
      <g clipPath={`url(#${id}-map-frame)`}>
        <path
          d={[...map.meridians, ...map.parallels].map(polyline).join('')}
          stroke={ink.rule}
          strokeWidth={LINE.hair}
          fill="none"
        />
        {map.grounds.length === 0 ? null : (
          <path
            d={map.grounds.flatMap(({ rings }) => rings.map(polyline)).join('')}
            stroke={ink.line}
            strokeWidth={LINE.hair}
            fill="none"
            {...DOTTED}
          />
        )}
        {map.coasts.length === 0 ? null : (
          <>
            <path
              d={map.hachures.map(polyline).join('')}
              stroke={ink.sea}
              strokeWidth={LINE.hair}
              fill="none"
            />
            <path
              d={map.coasts.map(polyline).join('')}
              stroke={ink.sea}
              strokeWidth={LINE.edge}
              strokeLinejoin="round"
              fill="none"
            />
          </>
        )}
        {map.line === null ? null : <SectionLine points={map.line} />}
      </g>
      <path d={outline} stroke={ink.ink} strokeWidth={LINE.fine} fill="none" />
      {map.inset === null ? null : <InsetMap inset={map.inset} id={id} />}
      {map.grounds.map(({ name }) =>
        name === null ? null : (
          <Text key={`${name.words} ${name.x1} ${name.y1}`} x={name.x1} y={name.y2 - 1.4} voice="ink3" halo>
            {name.words}
          </Text>
        ),
      )}
      {map.degrees.map(({ words, x1, y2 }) => (
        <Text key={`${words} ${x1}`} x={x1} y={y2 - 1.4} voice="ink3" halo={map.coasts.length > 0}>
          {words}
        </Text>
      ))}
      <g id={`${id}-holes`}>
        <path
          d={holes.map(({ name }) => (name?.lead == null ? '' : polyline(name.lead))).join('')}
          stroke={ink.line}
          strokeWidth={LINE.hair}
          fill="none"
        />
        {struckLast(holes).map(({ hole, x, y }) => (
          <HoleMark key={hole.row_id} x={x} y={y} kind={hole.kind} />
        ))}
        {map.ends.map(({ letter, x1, x2, y2 }) => (
          <Text key={letter} x={(x1 + x2) / 2} y={y2 - 1.2} anchor="middle" weight={600} halo>
            {letter}
          </Text>
        ))}
        {holes.map(({ hole, name }) =>
          name === null ? null : (
            <Text key={hole.row_id} x={name.x1 + 1} y={name.y2 - 1.4} halo>
              {hole.label}
            </Text>
          ),
        )}
      </g>
      <ScaleBar map={map} />
      <North x={frame.x2 - 4} y={barY(map)} />
    </g>
  );
}

/** Land round the place, and the place. */
function InsetMap({ inset: { x, y, r, land }, id }: { inset: Inset; id: string }) {
  const ink = useInk();
  return (
    <g transform={`translate(${r2(x)} ${r2(y)})`}>
      <clipPath id={`${id}-map-inset`}>
        <path d={`M${-r} 0A${r} ${r} 0 1 1 ${r} 0A${r} ${r} 0 1 1 ${-r} 0Z`} />
      </clipPath>
      <circle r={r} fill={ink.paper} />
      <g clipPath={`url(#${id}-map-inset)`}>
        <path d={land.map(polygon).join('')} fill={ink.leaf} stroke={ink.line} strokeWidth={LINE.hair} />
      </g>
      <circle r={r} fill="none" stroke={ink.ink} strokeWidth={LINE.fine} />
      <path d={box(-CROSS, -CROSS, CROSS, CROSS)} fill="none" stroke={ink.ink} strokeWidth={LINE.edge} />
    </g>
  );
}
/** Half of the box about the place, points. */
const CROSS = RADIUS / 10;

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
