/** Beside the string: the ground and its units, the water outside, the reference, and pipe that stayed down. */
import {
  box,
  Contact,
  horizontal,
  LINE,
  move,
  Pattern,
  sedimentOfUnit,
  Text,
  useInk,
  vertical,
  wave,
} from '@stillstand/output/drawing';
import { type Place, X } from './place.ts';
import { useSay } from './say.ts';
import { metres, PIPE } from './steel.ts';

export function GroundBeside({ view, depth, id, bottom }: Place & { bottom: number }) {
  const ink = useInk();
  const say = useSay();
  const sides = [
    { x1: X.groundLeft, x2: X.pipe - PIPE.outer, side: 'left' },
    { x1: X.pipe + PIPE.outer, x2: X.groundRight, side: 'right' },
  ] as const;
  const units = view.units.filter((u) => u.bottom_m > 0 && u.top_m < bottom);
  const sampled = view.sampled_to_m;
  const described = units.at(-1)?.bottom_m ?? 0;
  const water = view.water_outside_m === null ? null : depth(view.water_outside_m);
  const below = depth(Math.max(sampled ?? 0, described)) + 9.5;
  const unsampled = hidesBehindWater(below, water) ? water! + 17.5 : below;
  return (
    <g>
      {sides.map(({ x1, x2, side }, s) =>
        units.map((u, i) => (
          <g key={`${side}${u.top_m}`}>
            <Pattern
              sediment={sedimentOfUnit(u)}
              at={{ x1, x2, y1: depth(Math.max(0, u.top_m)), y2: depth(Math.min(bottom, u.bottom_m)) }}
              id={`${id}-${side}-${i}`}
              seed={i * 2 + s}
            />
            {i === units.length - 1 ? null : (
              <Contact kind={u.contact_below} x1={x1} x2={x2} y={depth(u.bottom_m)} />
            )}
          </g>
        )),
      )}
      {sampled === null || sampled <= 0 || sampled > bottom ? null : (
        <path
          d={sides.map(({ x1, x2 }) => horizontal(x1, x2, depth(Math.max(sampled, described)))).join('')}
          stroke={ink.ink}
          strokeWidth={LINE.edge}
          strokeDasharray="2.4 1.9"
          fill="none"
        />
      )}
      {depth(bottom) - unsampled < 10 ? null : (
        <>
          <Text x={X.groundLeft + 1} y={unsampled} voice="ink2">
            {say('not yet')}
          </Text>
          <Text x={X.groundLeft + 1} y={unsampled + 8} voice="ink2">
            {say('sampled')}
          </Text>
        </>
      )}
      {described > 0 ||
      sampled === null ||
      depth(sampled) - depth(0) < 42 ||
      hidesBehindWater(depth(sampled) - 14, water) ? null : (
        <>
          <Text x={X.groundLeft + 1} y={depth(sampled) - 14} voice="ink2">
            {say('no units')}
          </Text>
          <Text x={X.groundLeft + 1} y={depth(sampled) - 6} voice="ink2">
            {say('yet')}
          </Text>
        </>
      )}
    </g>
  );
}

/** Whether two lines of words from this baseline down would meet the words at the water. */
const hidesBehindWater = (y: number, water: number | null): boolean =>
  water !== null && y + 8 > water - 9 && y - 6 < water + 9;

/** Water outside, with its triangle on a ripple; the number is below the reference, as it was read. */
export function WaterOutside({ view, depth }: Place) {
  const ink = useInk();
  const say = useSay();
  const level = view.water_outside_m;
  if (level === null) return null;
  const y = depth(level);
  const right = X.groundRight;
  const read = level + view.reference_above_ground_m;
  return (
    <g>
      <path
        d={`${wave(X.groundLeft, X.pipe - PIPE.outer, y, 1.6, 0.5)}${wave(X.pipe + PIPE.outer, right, y, 1.6, 0.5)}`}
        stroke={ink.sea}
        strokeWidth={0.8}
        fill="none"
      />
      <path d={`${move(right - 9, y - 4.6)}h5l-2.5 4.2Z`} fill={ink.sea} />
      <path
        d={`${horizontal(right - 8.6, right - 4.4, y + 2)}${horizontal(right - 7.6, right - 5.4, y + 3.4)}`}
        stroke={ink.sea}
        strokeWidth={0.6}
        fill="none"
      />
      <Text x={X.groundLeft + 1} y={y - 2.6} face="water" voice="sea" halo>
        {say('outside')}
      </Text>
      <Text x={X.groundLeft + 1} y={y + 8.2} face="water" voice="sea" halo>
        {metres(read)}
      </Text>
    </g>
  );
}

/** The levelled reference: a peg beside the hole, the zero of stick-up and of the water outside. */
export function Reference({ view, depth }: Place) {
  const ink = useInk();
  const say = useSay();
  const y = depth(-view.reference_above_ground_m);
  return (
    <path
      d={`${vertical(X.groundRight - 1, y, depth(0) + 4)}${horizontal(X.groundRight - 3, X.groundRight + 1, y)}`}
      stroke={ink.ink}
      strokeWidth={LINE.bold}
      fill="none"
    >
      <title>{say('reference')}</title>
    </path>
  );
}

/** Pipe that stayed down: its outline broken, as nobody sees it any more. */
export function LeftBehind({ view, depth }: Place) {
  const ink = useInk();
  const say = useSay();
  if (view.left.length === 0) return null;
  const { outer, inner } = PIPE;
  const x = X.pipe;
  return (
    <g>
      {view.left.map((l) => (
        <g key={`${l.label}${l.bottom_m}`}>
          <path
            d={`${box(x - outer, depth(l.top_m), x - inner, depth(l.bottom_m))}${box(x + inner, depth(l.top_m), x + outer, depth(l.bottom_m))}`}
            fill="none"
            stroke={ink.ink2}
            strokeWidth={0.7}
            strokeDasharray="2 1.4"
          />
          {depth(l.bottom_m) - depth(l.top_m) < 7 ? null : (
            <Text x={X.joints} y={(depth(l.top_m) + depth(l.bottom_m)) / 2 + 2.4} voice="ink2">
              {l.label} {say('left')}
            </Text>
          )}
        </g>
      ))}
    </g>
  );
}
