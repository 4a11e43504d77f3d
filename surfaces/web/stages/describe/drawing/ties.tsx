/** From where each layer lay in the core to where it lies in the ground: shortening is seen, not told. */
import { LINE, useInk } from '@stillstand/output/drawing';
import type { Drawn } from './drawn.ts';
import type { Frame } from './lanes.ts';

export function Ties({ frame, drawn }: { frame: Frame; drawn: readonly Drawn[] }) {
  const ink = useInk();
  const [left, right] = frame.lanes.ties;
  const bands = drawn.flatMap((d) => {
    const cored = d.pieces.filter((p) => p.core !== null);
    const [first, last] = [cored[0], cored.at(-1)];
    if (first === undefined || last === undefined) return [];
    return [
      {
        id: d.layer.id,
        tint: ink.tints[d.sediment.tint],
        top: [first.core!.y1, first.ground.y1] as const,
        base: [last.core!.y2, last.ground.y2] as const,
      },
    ];
  });
  return (
    <g>
      {bands.map((b) => (
        <path
          key={b.id}
          d={`M${left} ${b.top[0]}L${right} ${b.top[1]}V${b.base[1]}L${left} ${b.base[0]}Z`}
          fill={b.tint}
          fillOpacity={0.75}
        />
      ))}
      <path
        d={bands
          .map((b) => `M${left} ${b.top[0]}L${right} ${b.top[1]}M${left} ${b.base[0]}L${right} ${b.base[1]}`)
          .join('')}
        stroke={ink.ink}
        strokeWidth={LINE.fine}
        fill="none"
      />
    </g>
  );
}
