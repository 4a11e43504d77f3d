/** Marks that tell sites apart within a drawing: by shape and filling, so that greys do too. */
import { useInk } from './ink.ts';
import { box, dot, line, move, polygon } from './path.ts';

const FORMS = ['circle', 'square', 'triangle', 'lozenge', 'cross'] as const;
/** So many are told apart: each form filled, then each open; more would not be. */
export const SITE_MARKS = 2 * FORMS.length - 1;
/** Half of a mark, points. */
const HALF = 1.5;

/** The n-th mark, counted from 0, about a place. */
export function SiteMark({ n, x, y }: { n: number; x: number; y: number }) {
  const ink = useInk();
  const form = FORMS[n % FORMS.length]!;
  if (form === 'cross') {
    const arms =
      move(x - HALF, y - HALF) +
      line(x + HALF, y + HALF) +
      move(x - HALF, y + HALF) +
      line(x + HALF, y - HALF);
    return <path d={arms} stroke={ink.ink} strokeWidth={0.8} fill="none" />;
  }
  const isOpen = n >= FORMS.length;
  const look = { fill: isOpen ? ink.paper : ink.ink, stroke: ink.ink, strokeWidth: 0.5 };
  if (form === 'circle')
    return isOpen ? (
      <circle cx={x} cy={y} r={HALF} {...look} />
    ) : (
      <path d={dot(x, y)} stroke={ink.ink} strokeWidth={2 * HALF} strokeLinecap="round" />
    );
  const d =
    form === 'square'
      ? box(x - HALF, y - HALF, x + HALF, y + HALF)
      : form === 'triangle'
        ? polygon([
            [x - 1.2 * HALF, y + HALF],
            [x, y - 1.2 * HALF],
            [x + 1.2 * HALF, y + HALF],
          ])
        : polygon([
            [x - 1.3 * HALF, y],
            [x, y - 1.3 * HALF],
            [x + 1.3 * HALF, y],
            [x, y + 1.3 * HALF],
          ]);
  return <path d={d} {...look} />;
}
