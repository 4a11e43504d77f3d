/**
 * The two ends of the string, enlarged: at the collar what the hand sees (cable tape, water), at the shoe what it does
 * not (top of the plug, tip, stop mark, shoe). Lengths are from the collar. Long because it is two drawings.
 */
import {
  box,
  horizontal,
  LINE,
  line,
  move,
  Pattern,
  placeAlong,
  r2,
  type Scale,
  Span,
  scale,
  TEXT_FAMILY,
  Text,
  useInk,
  vertical,
  wave,
} from '@stillstand/output/drawing';
import { metres, metresLeast, metresMost, UNSEEN } from './steel.ts';
import type { HoleView } from './view.ts';

const X = { title: 123, pipe: 140, label: 160 } as const;
const HALF = { outer: 14, inner: 11.2, sampler: 7 } as const;
const LABEL = 8.2;

interface Label {
  key: string;
  at: number;
  word: string;
  number: string;
  voice: 'ink' | 'sea' | 'danger';
  strong: boolean;
  water?: boolean;
}

/** Labels beside the pipe, moved apart where they would touch, each with a leader to its place. */
function Labels({
  labels,
  from,
  to,
  danger,
}: {
  labels: readonly Label[];
  from: number;
  to: number;
  danger: string;
}) {
  const ink = useInk();
  const ordered = [...labels].sort((a, b) => a.at - b.at);
  const centres = placeAlong(
    ordered.map((l) => ({ at: l.at, size: LABEL })),
    from,
    to,
  );
  return (
    <g>
      {ordered.map((l, i) => {
        const y = centres[i]!;
        const fill = l.voice === 'danger' ? danger : l.voice === 'sea' ? ink.sea : ink.ink;
        return (
          <g key={l.key}>
            <path
              d={`${move(X.pipe + HALF.outer + 1.6, l.at)}${line(X.label - 1.4, y)}`}
              stroke={l.voice === 'sea' ? ink.sea : ink.ink}
              strokeWidth={LINE.hair}
              fill="none"
            />
            {l.water ? (
              <Text x={X.label} y={y + 2.4} face="water" voice="sea">
                {l.word} {l.number}
              </Text>
            ) : (
              <text
                x={X.label}
                y={r2(y + 2.4)}
                fontFamily={TEXT_FAMILY}
                fill={fill}
                fontWeight={l.strong ? 700 : undefined}
              >
                {l.word}
                {l.number === '' ? null : (
                  <Span weight={400} voice="ink2">
                    {` ${l.number}`}
                  </Span>
                )}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** A torn edge: the pipe goes on. */
const torn = (y: number): string => {
  const left = X.pipe - HALF.outer - 3.5;
  let d = move(left, y);
  for (let i = 1; i <= 8; i++)
    d += line(left + (i * (HALF.outer * 2 + 7)) / 8, y + (i % 2 === 0 ? 2.2 : -2.2));
  return d;
};

/** Above and below the collar shown, metres. */
const ABOVE_M = 0.52;
const BELOW_M = 0.5;

export function CollarEnd({
  view,
  top,
  bottom,
  danger,
}: {
  view: HoleView;
  top: number;
  bottom: number;
  danger: string;
}) {
  const ink = useInk();
  if (view.items.length === 0) {
    return (
      <g>
        <Text x={X.title} y={top + 4} weight={600}>
          At the collar
        </Text>
        <Text x={X.title} y={top + 15} voice="ink2">
          no string
        </Text>
      </g>
    );
  }
  const s = scale(-ABOVE_M, BELOW_M, top + 10, bottom - 4);
  const x = X.pipe;
  const cut = s(BELOW_M);
  const tip = view.sampler?.tip_m ?? null;
  const water = view.water_inside_m;
  const labels: Label[] = [
    { key: 'collar', at: s(0), word: 'collar', number: '0', voice: 'ink', strong: false },
  ];
  if (water !== null && water > 0 && water < BELOW_M) {
    labels.push({
      key: 'water',
      at: s(water),
      word: 'water',
      number: metres(water),
      voice: 'sea',
      strong: false,
      water: true,
    });
  }
  const marks =
    tip === null
      ? []
      : view.marks
          .map((m) => ({ ...m, y: s(-(m.tip_m - tip)) }))
          .filter((m) => m.y > top + 9 && m.y < cut - 3);
  for (const m of marks) {
    const up = m.tip_m - tip!;
    labels.push({
      key: `mark${m.tip_m}`,
      at: m.y,
      word: m.is === 'stop' ? 'stop' : m.label,
      number: up > 0.005 ? `${metresMost(up)}${m.is === 'stop' ? ' up' : ''}` : '',
      voice: m.is === 'stop' ? 'danger' : 'ink',
      strong: m.is === 'stop',
    });
  }
  const reference =
    view.collar_above_ground_m === null ? null : view.collar_above_ground_m - view.reference_above_ground_m;
  if (reference !== null && reference > 0 && reference < BELOW_M - 0.03 && tip === null) {
    labels.push({
      key: 'reference',
      at: s(reference),
      word: 'reference',
      number: metres(reference),
      voice: 'ink',
      strong: false,
    });
  }
  return (
    <g>
      <Text x={X.title} y={top + 4} weight={600}>
        At the collar
      </Text>
      {water === null || water > BELOW_M ? null : (
        <>
          <path d={box(x - HALF.inner, s(Math.max(0, water)), x + HALF.inner, cut)} fill={ink.seaWash2} />
          <path
            d={wave(x - HALF.inner, x + HALF.inner, s(Math.max(0, water)), 2.2, 0.6)}
            stroke={ink.sea}
            strokeWidth={0.8}
            fill="none"
          />
        </>
      )}
      <path
        d={`${box(x - HALF.outer, s(0), x - HALF.inner, cut)}${box(x + HALF.inner, s(0), x + HALF.outer, cut)}${box(x - HALF.outer - 2.4, s(0), x - HALF.inner, s(0) + 10)}${box(x + HALF.inner, s(0), x + HALF.outer + 2.4, s(0) + 10)}`}
        fill={ink.ink}
      />
      {tip === null ? null : (
        <path d={vertical(x, top + 9, cut)} stroke={ink.ink} strokeWidth={1.2} fill="none" />
      )}
      {view.unmarked ? (
        <>
          <Text x={X.label} y={top + 14} voice="ink2">
            marks not
          </Text>
          <Text x={X.label} y={top + 22} voice="ink2">
            confirmed
          </Text>
        </>
      ) : null}
      {marks.map((m) =>
        m.is === 'stop' ? (
          <g key={m.tip_m}>
            <path d={box(x - 6.2, m.y - 3.3, x + 6.2, m.y + 3.3)} fill={ink.ink} />
            <path
              d={`${move(x - 2.4, m.y - 2)}l4.8 4m0 -4l-4.8 4`}
              stroke={ink.paper}
              strokeWidth={0.9}
              fill="none"
            />
          </g>
        ) : (
          <path
            key={m.tip_m}
            d={
              m.is === 'sediment'
                ? horizontal(x - 5, x + 5, m.y)
                : horizontal(x - 5, x + 5, m.y - 1.3) + horizontal(x - 5, x + 5, m.y + 1.3)
            }
            stroke={ink.ink}
            strokeWidth={1.6}
            fill="none"
          />
        ),
      )}
      <path
        d={`${torn(cut)}${line(x + HALF.outer + 3.5, cut + 5)}${line(x - HALF.outer - 3.5, cut + 5)}Z`}
        fill={ink.paper}
      />
      <path d={torn(cut)} fill="none" stroke={ink.ink} strokeWidth={0.7} />
      <Labels labels={labels} from={top + 9} to={bottom} danger={danger} />
    </g>
  );
}

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
        <Text x={X.title} y={top + 4} weight={600}>
          At the shoe
        </Text>
        <Text x={X.title} y={top + 15} voice="ink2">
          {view.items.length === 0 ? 'no string' : 'length not known'}
        </Text>
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
      <Text x={X.title} y={top + 4} weight={600}>
        At the shoe
      </Text>
      <Inside view={view} s={s} cut={cut} plugTop={plugTop} length={length} id={id} />
      {view.stop_m === null || s(view.stop_m) < cut ? null : (
        <StopZone y1={s(view.stop_m)} y2={yShoe} id={id} danger={danger} />
      )}
      <path
        d={`${move(x - HALF.inner, cut)}V${r2(yShoe)}${line(x - HALF.outer, yShoe - 7)}V${r2(cut)}Z${move(x + HALF.inner, cut)}V${r2(yShoe)}${line(x + HALF.outer, yShoe - 7)}V${r2(cut)}Z`}
        fill={ink.ink}
      />
      {view.sampler === null ? null : <Sampler view={view} s={s} cut={cut} id={id} />}
      {tip === null || past > 0 ? null : <Gap y1={s(tip)} y2={yShoe} right={right} />}
      <path
        d={`${torn(cut)}${line(x + HALF.outer + 3.5, cut - 6)}${line(x - HALF.outer - 3.5, cut - 6)}Z`}
        fill={ink.paper}
      />
      <path d={torn(cut)} fill="none" stroke={ink.ink} strokeWidth={0.7} />
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

/** The clearance itself, and the line that joins it to its number. */
function Gap({ y1, y2, right }: { y1: number; y2: number; right: number }) {
  const ink = useInk();
  const x = X.pipe;
  if (y2 - y1 < 3) return null;
  const head = Math.min(3.6, (y2 - y1) / 2.4);
  const y = Math.min(y1 + 7.5, (y1 + y2) / 2);
  return (
    <g fill="none" stroke={ink.ink}>
      <path d={vertical(x, y1, y2)} stroke={ink.tints.soil} strokeWidth={6} />
      <path
        d={`${vertical(x, y1 + 0.6, y2 - 0.6)}${move(x - 2.3, y1 + 0.6 + head)}l2.3 ${r2(-head)}l2.3 ${r2(head)}${move(x - 2.3, y2 - 0.6 - head)}l2.3 ${r2(head)}l2.3 ${r2(-head)}`}
        strokeWidth={1.15}
      />
      <path d={horizontal(x, right, y)} strokeWidth={0.7} />
    </g>
  );
}
