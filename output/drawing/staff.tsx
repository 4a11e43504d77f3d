/** The staff: every axis is black and white by unit, as on a levelling staff, so that a length is counted, not read. */

import { decimalsOfStep, printed, signed } from '@stillstand/output/words';
import { LINE, useInk } from './ink.ts';
import { box, r2 } from './path.ts';
import { multiples, roundStep, type Scale } from './scale.ts';
import { SIZE, Text, textWidth } from './text.tsx';

interface StaffProps {
  scale: Scale;
  low: number;
  high: number;
  step: number;
  /** Every how many steps a label stands. */
  every: number;
}

const WIDTH = 4;

/** The step whose blocks are at least `least` points, and how many of them lie between labels of `room` points, at round numbers. */
export function staffStep(k: number, least: number, room: number): { step: number; every: number } {
  const step = roundStep(least / Math.abs(k));
  let apart = roundStep(Math.max(step, room / Math.abs(k)));
  // 5 is no multiple of 2.
  if (Math.abs(apart / step - Math.round(apart / step)) > 1e-6) apart = roundStep(apart * 1.01);
  return { step, every: Math.round(apart / step) };
}

/** Cuts [low, high] at the multiples of step; a block is black where its multiple is odd. */
function blocks(low: number, high: number, step: number): { from: number; to: number; black: boolean }[] {
  const cuts = [
    low,
    ...multiples(low, high, step).filter((m) => m - low > step * 1e-6 && high - m > step * 1e-6),
    high,
  ];
  return cuts.slice(1).map((to, i) => {
    const from = cuts[i]!;
    const index = Math.floor((from + to) / 2 / step);
    return { from, to, black: ((index % 2) + 2) % 2 === 1 };
  });
}

const labelled = (props: StaffProps): number[] =>
  multiples(props.low, props.high, props.step).filter((m) => {
    const index = Math.round(m / props.step);
    return index % props.every === 0;
  });

/** Black and paper in turn, one step each. */
function Blocks({
  low,
  high,
  step,
  outline,
}: Pick<StaffProps, 'low' | 'high' | 'step'> & { outline: (from: number, to: number) => string }) {
  const ink = useInk();
  return (
    <g stroke={ink.ink} strokeWidth={LINE.fine}>
      {blocks(low, high, step).map((b) => (
        <path key={b.from} d={outline(b.from, b.to)} fill={b.black ? ink.ink : ink.paper} />
      ))}
    </g>
  );
}

/** A staff standing at x (its left edge); labels on its left. */
export function UprightStaff(
  props: StaffProps & { x: number; sign: boolean; side?: 'left' | 'right' | 'unlabelled' },
) {
  const { scale, x, step, sign, side = 'left' } = props;
  const decimals = decimalsOfStep(step * props.every);
  return (
    <g>
      <Blocks {...props} outline={(from, to) => box(x, scale(from), x + WIDTH, scale(to))} />
      {(side === 'unlabelled' ? [] : labelled(props)).map((m) => (
        <Text
          key={m}
          x={side === 'left' ? x - 3.5 : x + WIDTH + 3.5}
          y={scale(m) + 2.4}
          anchor={side === 'left' ? 'end' : 'start'}
        >
          {m === 0 ? '0' : sign ? signed(m, decimals) : printed(m, decimals)}
        </Text>
      ))}
    </g>
  );
}

/** A staff lying at y (its upper edge); labels above or below it. */
export function LyingStaff(
  props: StaffProps & {
    y: number;
    labels: 'above' | 'below';
    label?: (value: number) => string;
    /** Labels reach no farther than these, left and right. */
    bounds?: readonly [number, number];
    height?: number;
  },
) {
  const { scale, y, step, labels, height = 3.4, bounds } = props;
  const decimals = decimalsOfStep(step * props.every);
  const labelOf = (m: number): string => props.label?.(m) ?? (m === 0 ? '0' : printed(m, decimals));
  const within = (x: number, label: string): number => {
    const half = textWidth(label) / 2;
    return bounds === undefined ? x : Math.max(bounds[0] + half, Math.min(bounds[1] - half, x));
  };
  return (
    <g>
      <Blocks {...props} outline={(from, to) => box(scale(from), y, scale(to), y + height)} />
      {labelled(props).map((m) => (
        <Text
          key={m}
          x={within(scale(m), labelOf(m))}
          y={labels === 'above' ? y - 2.6 : y + height + SIZE.text + 0.2}
          anchor="middle"
        >
          {labelOf(m)}
        </Text>
      ))}
    </g>
  );
}

/** Faint lines across a plot at the labelled steps. */
export function Ruling({ at, d }: { at: readonly number[]; d: (value: number) => string }) {
  const ink = useInk();
  return <path d={at.map(d).join('')} stroke={ink.rule} strokeWidth={r2(LINE.hair)} fill="none" />;
}
