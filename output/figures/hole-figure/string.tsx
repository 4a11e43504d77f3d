/** The string joint by joint, and what is in it: water, plug, sampler and cable. */
import {
  box,
  horizontal,
  LINE,
  line,
  move,
  Pattern,
  r2,
  Text,
  useInk,
  vertical,
  wave,
} from '@stillstand/output/drawing';
import { type Place, TOP, X } from './place.ts';
import { useSay } from './say.ts';
import { metres, metresMost, PIPE, UNSEEN } from './steel.ts';

export function StringInGround({ view, depth, collar, id, danger }: Place & { collar: number }) {
  const ink = useInk();
  const say = useSay();
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
          {say('joint')}
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
  const say = useSay();
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
        {say('head')} {view.head_m > 0.004 ? '+' : ''}
        {metresMost(view.head_m)}
      </Text>
      <path
        d={horizontal(X.pipe - PIPE.outer - 5, X.pipe - PIPE.outer - 1, inside)}
        stroke={ink.sea}
        strokeWidth={0.5}
        fill="none"
      />
      <Text x={X.pipe - PIPE.outer - 6.5} y={inside + 2.4} anchor="end" face="water" voice="sea" halo>
        {say('inside')} {metres(view.water_inside_m)}
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
