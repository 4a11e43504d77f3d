/** When the way is open, by shape and word: a box with its word; shut by water in ripples, shut by ground hatched. */
import './open-strip.css';

/** Pixels from the top of the drawing. */
export const STRIP = { y: 8, height: 24 };

export function OpenStrip({
  open,
  x,
  from,
  to,
  isBoat,
}: {
  open: readonly { a: number; b: number }[];
  x: (time_ms: number) => number;
  from: number;
  to: number;
  isBoat: boolean;
}) {
  const edges = [from, ...open.flatMap(({ a, b }) => [a, b]), to];
  const { y, height } = STRIP;
  return (
    <g className="open-strip">
      {edges.slice(1).map((end, i) => {
        const left = x(edges[i]!);
        const wide = x(end) - left;
        if (wide < 1) return null;
        const isOpen = i % 2 === 1;
        const word = isOpen ? (isBoat ? 'afloat' : 'dry') : isBoat ? 'aground' : 'covered';
        return (
          <g key={end} className={isOpen ? 'open' : isBoat ? 'shut aground' : 'shut'}>
            <rect x={left} y={y} width={wide} height={height} />
            {isOpen ? null : <path d={(isBoat ? hatches : ripples)(left, wide, y, height)} />}
            {wide < word.length * 8 + 8 ? null : (
              <text x={left + wide / 2} y={y + 17} textAnchor="middle">
                {word}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

function ripples(left: number, wide: number, top: number, height: number): string {
  const count = Math.floor(wide / 12);
  if (count < 1) return '';
  const start = left + (wide - count * 12) / 2;
  return [0.28, 0.72]
    .map((row) => `M${f(start)} ${f(top + row * height)}${'q3 -4 6 0t6 0'.repeat(count)}`)
    .join('');
}

function hatches(left: number, wide: number, top: number, height: number): string {
  const half = height / 2;
  let d = '';
  for (let at = half; at < wide - half; at += 9) {
    d += `M${f(left + at - half)} ${top + height}l${height} ${-height}`;
  }
  return d;
}

const f = (n: number): string => n.toFixed(1);
