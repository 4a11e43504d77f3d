import { printed } from '@stillstand/output/words';
/** An axis as a levelling staff: black and white by unit, so that a length can be counted without reading. */
import './staff.css';

interface StaffProps {
  /** Values at its two ends; `from` is at `at[0]`. */
  from: number;
  to: number;
  /** Pixels of the two ends along the axis. */
  at: readonly [number, number];
  /** Pixels across the axis where the band begins. */
  across: number;
  /** Length of one band and of a label, in units. */
  unit: number;
  labelEvery?: number;
  lies?: 'upright' | 'flat';
  /** Side the labels stand on. */
  labels?: 'before' | 'after' | 'none';
  write?: (value: number) => string;
}

const WIDTH = 8;

export function Staff({
  from,
  to,
  at,
  across,
  unit,
  labelEvery = unit,
  lies = 'upright',
  labels = 'before',
  write = (value) => printed(value, Number.isInteger(labelEvery) ? 0 : 1),
}: StaffProps) {
  const place = (value: number): number => at[0] + ((value - from) / (to - from)) * (at[1] - at[0]);
  const low = Math.min(from, to);
  const high = Math.max(from, to);
  const bands: { key: number; a: number; b: number; isBlack: boolean }[] = [];
  for (let i = Math.floor(low / unit); i * unit < high - 1e-9; i++) {
    const a = place(Math.max(i * unit, low));
    const b = place(Math.min((i + 1) * unit, high));
    bands.push({ key: i, a: Math.min(a, b), b: Math.max(a, b), isBlack: i % 2 === 0 });
  }
  const ticks: number[] = [];
  for (let i = Math.ceil(low / labelEvery - 1e-9); i * labelEvery <= high + 1e-9; i++)
    ticks.push(i * labelEvery);
  const isUpright = lies === 'upright';
  const outer = labels === 'after' ? across + WIDTH : across;
  const sign = labels === 'after' ? 1 : -1;
  return (
    <g className="staff">
      {bands.map(({ key, a, b, isBlack }) => (
        <rect
          key={key}
          className={isBlack ? 'black' : 'white'}
          {...(isUpright
            ? { x: across, y: a, width: WIDTH, height: b - a }
            : { x: a, y: across, width: b - a, height: WIDTH })}
        />
      ))}
      {labels === 'none'
        ? null
        : ticks.map((value) => {
            const p = place(value);
            return isUpright ? (
              <g key={value}>
                <line className="tick" x1={outer} x2={outer + sign * 4} y1={p} y2={p} />
                <text x={outer + sign * 8} y={p + 4.5} textAnchor={sign === 1 ? 'start' : 'end'}>
                  {write(value)}
                </text>
              </g>
            ) : (
              <g key={value}>
                <line className="tick" y1={outer} y2={outer + sign * 4} x1={p} x2={p} />
                <text x={p} y={sign === 1 ? outer + 18 : outer - 8} textAnchor="middle">
                  {write(value)}
                </text>
              </g>
            );
          })}
    </g>
  );
}
