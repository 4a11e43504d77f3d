/** A mark on the picture: open at the place itself, so that it hides nothing of it. Arrows move it pixel by pixel. */
import type { PicturePoint } from '@stillstand/output/photographs';
import type { MarkIndex } from './marking.ts';
import type { Spot } from './view.ts';

const CROSS = 'M-22 0H-5M5 0H22M0 -22V-5M0 5V22';

export function MarkHandle({
  index,
  at,
  spot: { x, y },
  depth,
  isAtRight,
  isChosen,
  onFocus,
  onMove,
}: {
  index: MarkIndex;
  at: PicturePoint;
  spot: Spot;
  /** As typed. */
  depth: string;
  /** Of the pad: its words have room at the left alone. */
  isAtRight: boolean;
  isChosen: boolean;
  onFocus: () => void;
  /** By pixels of the picture. */
  onMove: (x: number, y: number) => void;
}) {
  const number = index + 1;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot be drawn
    <g
      id={markId(index)}
      role="button"
      tabIndex={0}
      aria-label={`Mark ${number}: ${Math.round(at.x_px)} px from the left, ${Math.round(at.y_px)} px from the top. Arrow keys move it.`}
      className={isChosen ? 'mark-handle chosen' : 'mark-handle'}
      transform={`translate(${x} ${y})`}
      onFocus={onFocus}
      onKeyDown={(event) => {
        const step = event.shiftKey ? 10 : 1;
        const [right, down] = ARROWS[event.key] ?? [0, 0];
        if (right === 0 && down === 0) return;
        event.preventDefault();
        onMove(right * step, down * step);
      }}
    >
      <circle className="focus-ring" r={24} />
      <path className="lining" d={CROSS} />
      <circle className="lining" r={13} fill="none" />
      <path className="line" d={CROSS} />
      <circle className="line" r={13} fill="none" />
      <text className="words" x={isAtRight ? -16 : 16} y={-18} textAnchor={isAtRight ? 'end' : 'start'}>
        {depth.trim() === '' ? number : `${number} · ${depth.trim()}`}
      </text>
    </g>
  );
}

export const markId = (index: MarkIndex): string => `picture-mark-${index + 1}`;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
