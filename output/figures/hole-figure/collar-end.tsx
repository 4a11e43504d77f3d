/** The string at the collar, enlarged: what the hand sees there, the cable's tape and the water. */
import { box, horizontal, move, scale, Text, useInk, vertical, wave } from '@stillstand/output/drawing';
import { EndTitle, HALF, type Label, Labels, TornEnd, X } from './end.tsx';
import { useSay } from './say.ts';
import { metres, metresMost } from './steel.ts';
import type { HoleView } from './view.ts';

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
  const say = useSay();
  if (view.items.length === 0) {
    return (
      <g>
        <EndTitle top={top} name="At the collar" instead="no string" />
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
      <EndTitle top={top} name="At the collar" />
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
            {say('marks not')}
          </Text>
          <Text x={X.label} y={top + 22} voice="ink2">
            {say('confirmed')}
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
      <TornEnd at={cut} room={5} />
      <Labels labels={labels} from={top + 9} to={bottom} danger={danger} />
    </g>
  );
}
