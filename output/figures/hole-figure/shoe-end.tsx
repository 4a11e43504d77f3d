/** The string at the shoe, enlarged: what the hand does not see, the top of the plug, the tip, the stop mark and the shoe. */
import {
  box,
  horizontal,
  LINE,
  line,
  move,
  Pattern,
  r2,
  type Scale,
  scale,
  Text,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { clearOf, EndTitle, HALF, type Label, Labels, placed, TornEnd, X } from './end.tsx';
import { metres, metresLeast, metresMost, UNSEEN } from './steel.ts';
import type { HoleView } from './view.ts';

export function ShoeEnd({
  view,
  top,
  bottom,
  right,
  id,
  danger,
}: {
  view: HoleView;
  top: number;
  bottom: number;
  right: number;
  id: string;
  danger: string;
}) {
  const ink = useInk();
  const length = view.collar_to_shoe_m;
  const x = X.pipe;
  if (length === null) {
    return (
      <g>
        <EndTitle
          top={top}
          name="At the shoe"
          instead={view.items.length === 0 ? 'no string' : 'length not known'}
        />
      </g>
    );
  }
  const tip = view.sampler?.tip_m ?? null;
  const past = tip !== null && tip > length ? tip - length : 0;
  const plugTop = view.plug_m === null ? null : length - view.plug_m;
  const span = Math.min(3, Math.max(0.9, (view.plug_m ?? 1.2) + 0.3));
  const s = scale(length - span, length + Math.max(0.12, past + 0.08), top + 14, bottom - 4);
  const cut = s(length - span);
  const yShoe = s(length);
  const labels: Label[] = [
    { key: 'shoe', at: yShoe - 2, word: 'shoe', number: metresMost(length), voice: 'ink', strong: true },
  ];
  if (plugTop !== null && plugTop > length - span) {
    labels.push({
      key: 'plug',
      at: s(plugTop),
      word: 'plug top',
      number: metres(plugTop),
      voice: 'ink',
      strong: false,
    });
  }
  if (view.stop_m !== null && view.stop_m > length - span) {
    labels.push({
      key: 'stop',
      at: s(view.stop_m),
      word: 'stop',
      number: metresMost(view.stop_m),
      voice: 'danger',
      strong: true,
    });
  }
  if (tip !== null) {
    labels.push({
      key: 'tip',
      at: s(Math.max(length - span, tip)),
      word: 'tip',
      number: metresLeast(tip),
      voice: 'ink',
      strong: true,
    });
  }
  return (
    <g>
      <EndTitle top={top} name="At the shoe" />
      <Inside view={view} s={s} cut={cut} plugTop={plugTop} length={length} id={id} />
      {view.stop_m === null || s(view.stop_m) < cut ? null : (
        <StopZone y1={s(view.stop_m)} y2={yShoe} id={id} danger={danger} />
      )}
      <path
        d={`${move(x - HALF.inner, cut)}V${r2(yShoe)}${line(x - HALF.outer, yShoe - 7)}V${r2(cut)}Z${move(x + HALF.inner, cut)}V${r2(yShoe)}${line(x + HALF.outer, yShoe - 7)}V${r2(cut)}Z`}
        fill={ink.ink}
      />
      {view.sampler === null ? null : <Sampler view={view} s={s} cut={cut} id={id} />}
      {tip === null || past > 0 ? null : (
        <Gap y1={s(tip)} y2={yShoe} right={right} labels={placed(labels, top + 10, bottom + 2)} />
      )}
      <TornEnd at={cut} room={-6} />
      <Labels labels={labels} from={top + 10} to={bottom + 2} danger={danger} />
    </g>
  );
}

function Inside({
  view,
  s,
  cut,
  plugTop,
  length,
  id,
}: {
  view: HoleView;
  s: Scale;
  cut: number;
  plugTop: number | null;
  length: number;
  id: string;
}) {
  const ink = useInk();
  const x = X.pipe;
  const from = Math.max(cut, s(plugTop ?? length - view.plug_at_most_m));
  return (
    <g>
      {view.water_inside_m === null ? null : (
        <path d={box(x - HALF.inner, cut, x + HALF.inner, from)} fill={ink.seaWash} />
      )}
      {plugTop === null ? (
        from > s(length) - 14 ? null : (
          <Text x={x} y={(from + s(length)) / 2 + 2.4} anchor="middle" voice="ink2" weight={600}>
            ?
          </Text>
        )
      ) : (
        <>
          <Pattern
            sediment={UNSEEN}
            at={{ x1: x - HALF.inner, x2: x + HALF.inner, y1: from, y2: s(length) }}
            id={`${id}-shoe-plug`}
            seed={5}
          />
          <path
            d={horizontal(x - HALF.inner, x + HALF.inner, from)}
            stroke={ink.ink}
            strokeWidth={LINE.edge}
            fill="none"
          />
        </>
      )}
    </g>
  );
}

/** Below the stop mark nothing may hang: hatched. */
function StopZone({ y1, y2, id, danger }: { y1: number; y2: number; id: string; danger: string }) {
  const x1 = X.pipe - HALF.inner;
  const x2 = X.pipe + HALF.inner;
  let d = '';
  for (let x = x1 - (y2 - y1); x < x2; x += 4) d += `${move(x, y1)}${line(x + (y2 - y1), y2)}`;
  return (
    <g>
      <clipPath id={`${id}-stop`}>
        <path d={box(x1, y1, x2, y2)} />
      </clipPath>
      <path d={d} clipPath={`url(#${id}-stop)`} stroke={danger} strokeWidth={0.8} fill="none" />
      <path d={horizontal(x1, x2, y1)} stroke={danger} strokeWidth={1.4} fill="none" />
    </g>
  );
}

/** The sampler: what stands in it is drawn as far as its marks say, above it is blank. */
function Sampler({ view, s, cut, id }: { view: HoleView; s: Scale; cut: number; id: string }) {
  const ink = useInk();
  const sampler = view.sampler!;
  const x = X.pipe;
  const y = s(sampler.tip_m);
  const top = Math.max(cut, s(sampler.tip_m - sampler.length_m));
  const filled = sampler.start_m === null ? y : Math.max(top, s(sampler.start_m));
  if (y <= cut) return null;
  return (
    <g>
      <path d={box(x - HALF.sampler, top, x + HALF.sampler, y)} fill={ink.paper} />
      {filled >= y - 0.8 ? null : (
        <Pattern
          sediment={{ ...UNSEEN, tint: 'gravel' }}
          at={{ x1: x - HALF.sampler, x2: x + HALF.sampler, y1: filled, y2: y }}
          id={`${id}-in-sampler`}
          seed={31}
        />
      )}
      <path
        d={`${vertical(x - HALF.sampler, top, y)}${vertical(x + HALF.sampler, top, y)}`}
        stroke={ink.ink}
        strokeWidth={1.4}
        fill="none"
      />
      <path
        d={`${move(x - HALF.sampler, y)}${line(x, y - 4.2)}${line(x + HALF.sampler, y)}`}
        fill={ink.paper}
        stroke={ink.ink}
        strokeWidth={1.2}
      />
    </g>
  );
}

/** The clearance itself, and the line that joins it to its number, between the labels. */
function Gap({
  y1,
  y2,
  right,
  labels,
}: {
  y1: number;
  y2: number;
  right: number;
  labels: readonly { y: number }[];
}) {
  const ink = useInk();
  const x = X.pipe;
  if (y2 - y1 < 3) return null;
  const head = Math.min(3.6, (y2 - y1) / 2.4);
  const y = clearOf(labels, Math.min(y1 + 7.5, (y1 + y2) / 2), y1, y2);
  return (
    <g fill="none" stroke={ink.ink}>
      <path d={vertical(x, y1, y2)} stroke={ink.tints.soil} strokeWidth={6} />
      <path
        d={`${vertical(x, y1 + 0.6, y2 - 0.6)}${move(x - 2.3, y1 + 0.6 + head)}l2.3 ${r2(-head)}l2.3 ${r2(head)}${move(x - 2.3, y2 - 0.6 - head)}l2.3 ${r2(head)}l2.3 ${r2(-head)}`}
        strokeWidth={1.15}
      />
      {y === null ? null : <path d={horizontal(x, right, y)} strokeWidth={0.7} />}
    </g>
  );
}
