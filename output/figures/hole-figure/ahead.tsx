/** Below the shoe what is expected, by what other holes have: faint, its edge broken, and named so. Nobody has seen it. */
import { box, LINE, Pattern, sedimentOfUnit, Text, useInk } from '@stillstand/output/drawing';
import { type Place, X } from './place.ts';
import { useSay } from './say.ts';

/** Lines of words one below the other, points. */
const APART = 8.5;

export function Ahead({ view, depth, id, bottom }: Place & { bottom: number }) {
  const ink = useInk();
  const say = useSay();
  const layers = view.ahead.filter(({ from_m }) => from_m < bottom);
  if (layers.length === 0) return null;
  const [x1, x2] = [X.groundLeft, X.groundRight];
  const places = layers.map((layer) => ({
    ...layer,
    y1: depth(layer.from_m),
    y2: depth(Math.min(bottom, layer.to_m)),
  }));
  return (
    <g>
      {places.map(({ sediment, present, y1, y2 }, i) => (
        <g key={`${sediment}${y1}`} opacity={faint(present)}>
          <Pattern
            sediment={sedimentOfUnit({ sediment, secondary_sediment: null })}
            at={{ x1, x2, y1, y2 }}
            id={`${id}-ahead-${i}`}
            seed={40 + i}
          />
        </g>
      ))}
      <path
        d={places.map(({ y1, y2 }) => box(x1, y1, x2, y2)).join('')}
        stroke={ink.ink2}
        strokeWidth={LINE.fine}
        strokeDasharray="2.4 1.9"
        fill="none"
      />
      {named(places, depth(bottom)).map(({ words, y, isSaid }) => (
        <Text key={`${words}${y}`} x={(x1 + x2) / 2} y={y} anchor="middle" voice="ink2" halo>
          {isSaid ? say(words) : words}
        </Text>
      ))}
    </g>
  );
}

/** The less probable the fainter, and never as strong as what was seen. */
const faint = (present: number): number => 0.2 + 0.3 * Math.min(1, Math.max(0, present));

/**
 * The layers that have room for their names, then the word that says what all of it is: below the last layer, else in the
 * place of a name.
 */
function named(
  places: readonly { sediment: string; y1: number; y2: number }[],
  lowest: number,
): { words: string; y: number; isSaid: boolean }[] {
  const names: { words: string; y: number; isSaid: boolean }[] = [];
  let last = places[0]!.y1 - 2;
  for (const { sediment, y1, y2 } of places) {
    const y = Math.max(last + APART, (y1 + y2) / 2 + 2.4);
    // with its layer, or just below it where it is thin
    if (y > Math.min(lowest - 1, y2 + 7)) continue;
    names.push({ words: sediment, y, isSaid: false });
    last = y;
  }
  const below = Math.max(last, places.at(-1)!.y2) + APART;
  const y = below <= lowest ? below : (names.pop()?.y ?? lowest - 1);
  return [...names, { words: 'expected', y, isSaid: true }];
}
