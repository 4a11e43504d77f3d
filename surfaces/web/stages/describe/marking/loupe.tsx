/** What the finger covers, enlarged above it; where there is no room, in the upper corner that the hand leaves free. */
import type { ReactNode } from 'react';
import { onPicture, type Pad, type Spot, type View } from './view.ts';

const RADIUS = 66;
const ABOVE = 118;
const LARGER = 4;

export function Loupe({
  id,
  view,
  pad,
  at,
  children,
}: {
  id: string;
  view: View;
  pad: Pad;
  at: Spot;
  /** The picture, in its own pixels. */
  children: ReactNode;
}) {
  const edge = RADIUS + 4;
  const isAbove = at.y - ABOVE > edge;
  const free = at.x < pad.width / 2 ? pad.width - edge : edge;
  const x = isAbove ? Math.min(pad.width - edge, Math.max(edge, at.x)) : free;
  const y = isAbove ? at.y - ABOVE : edge;
  // A pixel of the picture is one of the screen, or larger.
  const k = Math.max(1, view.k * LARGER);
  const { x_px, y_px } = onPicture(view, at);
  return (
    <g className="loupe">
      <clipPath id={id}>
        <circle cx={x} cy={y} r={RADIUS} />
      </clipPath>
      <circle className="ground" cx={x} cy={y} r={RADIUS} />
      <g clipPath={`url(#${id})`}>
        <g transform={`translate(${x} ${y}) scale(${k}) translate(${-x_px} ${-y_px})`}>{children}</g>
      </g>
      <path className="lining" d={crossAt(x, y)} />
      <path className="line" d={crossAt(x, y)} />
      <circle className="rim" cx={x} cy={y} r={RADIUS} />
    </g>
  );
}

const crossAt = (x: number, y: number): string =>
  `M${x - RADIUS} ${y}H${x - 4}M${x + 4} ${y}H${x + RADIUS}M${x} ${y - RADIUS}V${y - 4}M${x} ${y + 4}V${y + RADIUS}`;
