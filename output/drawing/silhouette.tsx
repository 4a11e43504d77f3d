/**
 * A calibrated age: the silhouette of its density on its own line, below it the 68 % set thick and the 95 % set thin,
 * with their gaps left open.
 */
import type { AgeInterval, DateResult } from '@stillstand/campaign/results';
import { LINE, useInk } from './ink.ts';
import { box, horizontal, polyline, r2 } from './path.ts';
import type { Scale } from './scale.ts';

/** Below this share of the peak a silhouette is not drawn. */
const NOTHING = 0.002;
/** Points of paper between vertices. */
const FINENESS = 0.3;

/** The outline above `y`, `height` points at the peak; years are averaged where they lie closer than print can show. */
export function outline(
  date: Pick<DateResult, 'density' | 'from_cal_bp'>,
  x: Scale,
  y: number,
  height: number,
): [number, number][] {
  const { density, from_cal_bp } = date;
  let peak = 0;
  for (const p of density) peak = Math.max(peak, p);
  if (!(peak > 0)) return [];
  const step = Math.max(1, Math.round(FINENESS / Math.abs(x.k)));
  const points: [number, number][] = [];
  let top = 0;
  const means: number[] = [];
  for (let i = 0; i < density.length; i += step) {
    let sum = 0;
    const end = Math.min(density.length, i + step);
    for (let j = i; j < end; j++) sum += density[j]!;
    const mean = sum / (end - i);
    means.push(mean);
    top = Math.max(top, mean);
  }
  const first = means.findIndex((m) => m > NOTHING * top);
  const last = means.findLastIndex((m) => m > NOTHING * top);
  const age = (i: number): number => from_cal_bp + i * step + (step - 1) / 2;
  points.push([x(age(first - 1)), y]);
  for (let i = first; i <= last; i++) points.push([x(age(i)), y - (means[i]! / top) * height]);
  points.push([x(age(last + 1)), y]);
  return points;
}

function intervals(sets: readonly AgeInterval[], x: Scale, y: number): string {
  return sets
    .map((s) => {
      const a = x(s.older_cal_bp);
      const b = x(s.younger_cal_bp);
      // Never thinner than the eye can find.
      const middle = (a + b) / 2;
      const half = Math.max(Math.abs(b - a) / 2, 0.25);
      return horizontal(middle - half, middle + half, y);
    })
    .join('');
}

/** Highest-density sets under a baseline. */
export function Sets({
  date,
  x,
  y,
}: {
  date: Pick<DateResult, 'sets_68' | 'sets_95' | 'status'>;
  x: Scale;
  y: number;
}) {
  const ink = useInk();
  const stroke = date.status === 'rejected' ? ink.ink3 : ink.ink;
  return (
    <g fill="none" stroke={stroke}>
      <path d={intervals(date.sets_95, x, y)} strokeWidth={LINE.edge} />
      <path d={intervals(date.sets_68, x, y)} strokeWidth={2} />
    </g>
  );
}

/** Marine ages in sea colour; rejected ones dotted, hollow and struck once. */
export function Silhouette({
  date,
  x,
  y,
  height,
}: {
  date: Pick<DateResult, 'density' | 'from_cal_bp' | 'curve' | 'status'>;
  x: Scale;
  y: number;
  height: number;
}) {
  const ink = useInk();
  const points = outline(date, x, y, height);
  if (points.length === 0) return null;
  const colour = isMarine(date) ? ink.sea : ink.ink;
  const d = `${polyline(points)}Z`;
  if (date.status === 'rejected') {
    const x1 = points[0]![0];
    const x2 = points.at(-1)![0];
    const low = Math.min(x1, x2);
    const high = Math.max(x1, x2);
    return (
      <g fill="none" stroke={ink.ink2}>
        <path
          d={d}
          fill={ink.paper}
          strokeWidth={LINE.fine}
          strokeLinecap="round"
          strokeDasharray="0.01 1.1"
        />
        <path
          d={`M${r2(low - 2)} ${r2(y + 1)}L${r2(high + 2)} ${r2(y - height - 1)}`}
          strokeWidth={LINE.edge}
        />
      </g>
    );
  }
  return (
    <path
      d={d}
      fill={colour}
      fillOpacity={0.86}
      stroke={colour}
      strokeWidth={LINE.hair}
      strokeLinejoin="round"
    />
  );
}

export const isMarine = (date: Pick<DateResult, 'curve'>): boolean =>
  date.curve?.startsWith('marine') ?? false;

/** A swatch for legends. */
export function SilhouetteSwatch({
  x,
  y,
  kind,
}: {
  x: number;
  y: number;
  kind: 'plain' | 'land' | 'marine' | 'rejected';
}) {
  const ink = useInk();
  const hill: [number, number][] = [
    [0, 0],
    [2, -0.6],
    [4, -3],
    [5.5, -7],
    [7, -5],
    [8, -6],
    [9.5, -2],
    [11, -0.5],
    [13, 0],
  ];
  const d = `${polyline(hill.map(([a, b]) => [x + a, y + b]))}Z`;
  const colour = kind === 'marine' ? ink.sea : ink.ink;
  if (kind === 'plain')
    return <path d={d} fill={ink.ink3} fillOpacity={0.3} stroke={ink.ink3} strokeWidth={LINE.hair} />;
  return kind === 'rejected' ? (
    <g fill="none" stroke={ink.ink2}>
      <path d={d} strokeWidth={LINE.fine} strokeLinecap="round" strokeDasharray="0.01 1.1" />
      <path d={`M${r2(x)} ${r2(y + 1)}L${r2(x + 13)} ${r2(y - 8)}`} strokeWidth={LINE.edge} />
    </g>
  ) : (
    <g>
      <path d={d} fill={colour} fillOpacity={0.86} stroke={colour} strokeWidth={LINE.hair} />
      <path d={horizontal(x + 1, x + 11.5, y + 2)} stroke={ink.ink} strokeWidth={LINE.edge} fill="none" />
      <path d={box(x + 3.6, y + 1, x + 9.4, y + 3)} fill={ink.ink} />
    </g>
  );
}
