/**
 * The hole to scale: ground and its units, the string joint by joint, water, plug, sampler and cable. Depths are to
 * scale, widths are not. What has not been read or sampled is left paper. Long because it is one drawing of many parts.
 */
import {
  box,
  Contact,
  horizontal,
  LINE,
  line,
  move,
  Pattern,
  r2,
  type Scale,
  scale,
  sedimentOfUnit,
  staffStep,
  Text,
  UprightStaff,
  useInk,
  vertical,
  wave,
} from '@stillstand/output/drawing';
import { metres, metresMost, PIPE, UNSEEN } from './steel.ts';
import type { HoleView } from './view.ts';

/** Lanes across, points. */
const X = { staff: 20, groundLeft: 27, pipe: 65.5, groundRight: 99, joints: 104 } as const;
const TOP = 10;
/** Room above the collar for the cable and its tape. */
const CABLE = 22;
/** A hole not begun is drawn this deep. */
const LEAST_DEPTH_M = 3;

interface Place {
  view: HoleView;
  depth: Scale;
  /** Depth of the collar below the ground: negative above it. */
  collar: number | null;
  id: string;
  danger: string;
}

export function ToScale({
  view,
  height,
  id,
  danger,
}: {
  view: HoleView;
  height: number;
  id: string;
  danger: string;
}) {
  const ink = useInk();
  const shown = collarDepth(view);
  const deepest = Math.max(
    LEAST_DEPTH_M,
    (view.shoe_depth_m ?? 0) + 0.25,
    shown === null || view.collar_to_shoe_m === null ? 0 : shown + view.collar_to_shoe_m + 0.25,
    ...view.left.map((l) => l.bottom_m + 0.25),
  );
  const above = Math.max(0.6, shown === null ? 0 : -shown, -(view.water_outside_m ?? 0) + 0.2);
  const depth = scale(-above, deepest, TOP + CABLE, height - 4);
  const place: Place = { view, depth, collar: shown, id, danger };
  const step = staffStep(depth.k, deepest > 4 ? 14 : 24, 11);
  return (
    <g>
      <Text x={7} y={7} voice="ink2">
        depth, m
      </Text>
      <GroundBeside {...place} bottom={deepest} />
      <UprightStaff x={X.staff} scale={depth} low={0} high={deepest} sign={false} {...step} />
      <WaterOutside {...place} />
      <path
        d={
          shown === null
            ? horizontal(X.staff + 4, X.groundRight + 1, depth(0))
            : `${horizontal(X.staff + 4, X.pipe - PIPE.outer, depth(0))}${horizontal(X.pipe + PIPE.outer, X.groundRight + 1, depth(0))}`
        }
        stroke={ink.ink}
        strokeWidth={LINE.page}
        fill="none"
      />
      <Reference {...place} />
      <LeftBehind {...place} />
      {shown === null ? null : <StringInGround {...place} collar={shown} />}
    </g>
  );
}

/** Where the collar stands, below the ground; a string being pulled, whose height nobody reads, is drawn a metre up. */
function collarDepth(view: HoleView): number | null {
  if (view.items.length === 0) return null;
  return view.collar_above_ground_m === null ? -1 : -view.collar_above_ground_m;
}

function GroundBeside({ view, depth, id, bottom }: Place & { bottom: number }) {
  const ink = useInk();
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
            not yet
          </Text>
          <Text x={X.groundLeft + 1} y={unsampled + 8} voice="ink2">
            sampled
          </Text>
        </>
      )}
      {described > 0 ||
      sampled === null ||
      depth(sampled) - depth(0) < 42 ||
      hidesBehindWater(depth(sampled) - 14, water) ? null : (
        <>
          <Text x={X.groundLeft + 1} y={depth(sampled) - 14} voice="ink2">
            no units
          </Text>
          <Text x={X.groundLeft + 1} y={depth(sampled) - 6} voice="ink2">
            yet
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
function WaterOutside({ view, depth }: Place) {
  const ink = useInk();
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
        outside
      </Text>
      <Text x={X.groundLeft + 1} y={y + 8.2} face="water" voice="sea" halo>
        {metres(read)}
      </Text>
    </g>
  );
}

/** The levelled reference: a peg beside the hole, the zero of stick-up and of the water outside. */
function Reference({ view, depth }: Place) {
  const ink = useInk();
  const y = depth(-view.reference_above_ground_m);
  return (
    <path
      d={`${vertical(X.groundRight - 1, y, depth(0) + 4)}${horizontal(X.groundRight - 3, X.groundRight + 1, y)}`}
      stroke={ink.ink}
      strokeWidth={LINE.bold}
      fill="none"
    >
      <title>reference</title>
    </path>
  );
}

function StringInGround({ view, depth, collar, id, danger }: Place & { collar: number }) {
  const ink = useInk();
  const length = view.collar_to_shoe_m;
  const shoe = length === null ? (view.shoe_depth_m ?? 0) : collar + length;
  const yCollar = depth(collar);
  const yShoe = depth(shoe);
  const { outer, inner, coupling } = PIPE;
  const x = X.pipe;
  const joined: { y: number; tight: boolean | null; label: string; middle: number; room: number }[] = [];
  let up = shoe;
  for (const item of view.items) {
    const top = up - (item.made_up_m ?? 0);
    if (item.item !== 'shoe' || (item.made_up_m ?? 0) > 0) {
      joined.push({
        y: depth(up),
        tight: item.tight,
        label: item.item === 'shoe' ? '' : (item.label ?? '?'),
        middle: depth((up + top) / 2),
        room: depth(up) - depth(top),
      });
    }
    up = top;
  }
  const every = Math.max(
    1,
    Math.ceil(8.4 / Math.max(1, Math.min(...joined.filter((j) => j.label !== '').map((j) => j.room), 99))),
  );
  const pulled = view.collar_above_ground_m === null;
  return (
    <g>
      <Bore view={view} depth={depth} collar={collar} shoe={shoe} id={id} />
      <path
        d={`${box(x - outer, yCollar, x - inner, yShoe)}${box(x + inner, yCollar, x + outer, yShoe)}`}
        fill={ink.ink}
        {...(pulled ? { fillOpacity: 0.55 } : {})}
      />
      <path
        d={
          box(x - outer - 1.4, yCollar, x - inner, yCollar + 5) +
          box(x + inner, yCollar, x + outer + 1.4, yCollar + 5)
        }
        fill={ink.ink}
      />
      {joined
        .slice(1)
        .map((j) =>
          j.tight === false || j.tight === null ? (
            <path
              key={j.y}
              d={box(x - coupling, j.y - 1.7, x + coupling, j.y + 1.7)}
              fill={ink.paper}
              stroke={j.tight === false ? danger : ink.caution}
              strokeWidth={0.9}
            />
          ) : (
            <path key={j.y} d={box(x - coupling, j.y - 1.7, x + coupling, j.y + 1.7)} fill={ink.ink} />
          ),
        )}
      <path
        d={`${move(x - outer, yShoe - 3)}${line(x - outer - 0.9, yShoe - 3)}${line(x - inner, yShoe)}${move(x + outer, yShoe - 3)}${line(x + outer + 0.9, yShoe - 3)}${line(x + inner, yShoe)}`}
        fill={ink.ink}
      />
      {joined.some((j) => j.label !== '') ? (
        <Text x={X.joints - 5} y={Math.max(TOP + 5, yCollar - 9)} voice="ink2">
          joint
        </Text>
      ) : null}
      {joined.map((j, i) =>
        j.label === '' || (i % every !== 0 && i !== joined.length - 1) ? null : (
          <Text key={j.middle} x={X.joints} y={j.middle + 2.4} voice="ink2">
            {j.label}
          </Text>
        ),
      )}
      <Head view={view} depth={depth} collar={collar} />
      {view.sampler === null ? null : <Cable view={view} depth={depth} collar={collar} />}
    </g>
  );
}

/** Inside the pipe, from the top: air, water, plug; the plug is blank while nobody has sounded it. */
function Bore({
  view,
  depth,
  collar,
  shoe,
  id,
}: Omit<Place, 'danger' | 'collar'> & { collar: number; shoe: number }) {
  const ink = useInk();
  const { inner, sampler: half } = PIPE;
  const x = X.pipe;
  const plugTop = shoe - Math.min(shoe - collar, view.plug_m ?? view.plug_at_most_m);
  const water = view.water_inside_m === null ? null : collar + view.water_inside_m;
  const sampler = view.sampler;
  return (
    <g>
      <path d={box(x - inner, depth(collar), x + inner, depth(shoe))} fill={ink.paper} />
      {water === null || water >= plugTop ? null : (
        <>
          <path d={box(x - inner, depth(water), x + inner, depth(plugTop))} fill={ink.seaWash2} />
          <path
            d={wave(x - inner, x + inner, depth(water), 1.6, 0.5)}
            stroke={ink.sea}
            strokeWidth={0.8}
            fill="none"
          />
        </>
      )}
      {view.plug_m === null ? null : (
        <>
          <Pattern
            sediment={UNSEEN}
            at={{ x1: x - inner, x2: x + inner, y1: depth(plugTop), y2: depth(shoe) }}
            id={`${id}-plug`}
            seed={77}
          />
          <path
            d={horizontal(x - inner, x + inner, depth(plugTop))}
            stroke={ink.ink}
            strokeWidth={LINE.edge}
            fill="none"
          />
        </>
      )}
      {sampler === null ? null : (
        <g stroke={ink.ink} strokeWidth={0.75}>
          <path
            d={box(
              x - half,
              depth(collar + sampler.tip_m - sampler.length_m),
              x + half,
              depth(collar + sampler.tip_m),
            )}
            fill={ink.paper}
          />
          <path
            d={`${move(x - half, depth(collar + sampler.tip_m))}${line(x, depth(collar + sampler.tip_m) - 2.4)}${line(x + half, depth(collar + sampler.tip_m))}`}
            fill="none"
          />
        </g>
      )}
    </g>
  );
}

function Head({ view, depth, collar }: Pick<Place, 'view' | 'depth'> & { collar: number }) {
  const ink = useInk();
  if (view.head_m === null || view.water_inside_m === null || view.water_outside_m === null) return null;
  const inside = depth(collar + view.water_inside_m);
  const outside = depth(view.water_outside_m);
  const x = X.pipe + PIPE.outer + 6.5;
  return (
    <g>
      <path
        d={`${vertical(x, inside, outside)}${horizontal(x - 2, x + 2, inside)}${horizontal(x - 2, x + 2, outside)}`}
        stroke={ink.sea}
        strokeWidth={0.7}
        fill="none"
      />
      <Text x={x + 4} y={Math.min(inside, outside) + 2.6} face="water" voice="sea" halo>
        head {view.head_m > 0.004 ? '+' : ''}
        {metresMost(view.head_m)}
      </Text>
      <path
        d={horizontal(X.pipe - PIPE.outer - 5, X.pipe - PIPE.outer - 1, inside)}
        stroke={ink.sea}
        strokeWidth={0.5}
        fill="none"
      />
      <Text x={X.pipe - PIPE.outer - 6.5} y={inside + 2.4} anchor="end" face="water" voice="sea" halo>
        inside {metres(view.water_inside_m)}
      </Text>
    </g>
  );
}

/** The cable from above the collar to the sampler, its tape where it now hangs. */
function Cable({ view, depth, collar }: Pick<Place, 'view' | 'depth'> & { collar: number }) {
  const ink = useInk();
  const sampler = view.sampler!;
  const x = X.pipe;
  const tip = collar + sampler.tip_m;
  const at = (m: { tip_m: number }) => depth(tip - m.tip_m);
  const shown = view.marks.filter((m) => at(m) > 3 && at(m) < depth(tip - sampler.length_m) - 2);
  return (
    <g stroke={ink.ink} fill="none">
      <path d={vertical(x, 0, depth(tip - sampler.length_m))} strokeWidth={0.6} />
      {shown.map((m) =>
        m.is === 'stop' ? (
          <path key={m.tip_m} d={box(x - 2.6, at(m) - 1.7, x + 2.6, at(m) + 1.7)} fill={ink.ink} />
        ) : (
          <path
            key={m.tip_m}
            d={
              horizontal(x - 2, x + 2, at(m) - (m.is === 'sediment' ? 0 : 0.8)) +
              (m.is === 'sediment' ? '' : horizontal(x - 2, x + 2, r2(at(m) + 0.8)))
            }
            strokeWidth={0.75}
          />
        ),
      )}
    </g>
  );
}

/** Pipe that stayed down: its outline broken, as nobody sees it any more. */
function LeftBehind({ view, depth }: Place) {
  const ink = useInk();
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
              {l.label} left
            </Text>
          )}
        </g>
      ))}
    </g>
  );
}
