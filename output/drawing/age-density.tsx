/**
 * A calibrated age: the outline of its density on its own line, filled within its 95.4 % range and darker within its
 * 68.3 %, gaps left open; nothing below. Carbon of the land is flat tones on a straight base; marine carbon is ruled within
 * 95.4 % and stands on a wave, so that the two differ without colour.
 */
import type { AgeInterval, DateResult } from '@stillstand/campaign/results';
import { PUBLISHED_CURVES } from '@stillstand/campaign/tables';
import { exp } from '@stillstand/science/base';
import { LINE, useInk } from './ink.ts';
import { horizontal, line, move, polyline, r2, wave } from './path.ts';
import { type Scale, scale } from './scale.ts';

/** Below this share of the peak nothing is drawn. */
const NOTHING = 0.002;
/** A density narrower on paper than this is drawn this wide, about its middle, points. */
const LEAST_WIDTH = 2.4;
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

/** Of the base of an age, points. */
const BASE = 0.9;
/** Between the rules of a marine age. */
const RULE = 1.5;

/** The outline where it lies between two places across, closed along the base `y`; empty where it does not. */
function within(
  points: readonly (readonly [number, number])[],
  y: number,
  a: number,
  b: number,
): [number, number][] {
  const [left, right] = [Math.min(a, b), Math.max(a, b)];
  const inOrder = points[0]![0] <= points.at(-1)![0] ? points : [...points].reverse();
  const at = (x: number): number => {
    const i = inOrder.findIndex((p) => p[0] >= x);
    if (i <= 0) return y;
    const [before, after] = [inOrder[i - 1]!, inOrder[i]!];
    const share = after[0] === before[0] ? 1 : (x - before[0]) / (after[0] - before[0]);
    return before[1] + share * (after[1] - before[1]);
  };
  const inside = inOrder.filter(([x]) => x > left && x < right);
  return [
    [left, y],
    [left, at(left)],
    ...inside.map(([x, h]): [number, number] => [x, h]),
    [right, at(right)],
    [right, y],
  ];
}

/** Rules within such a part, as far as the outline is above them. */
function ruled(part: readonly (readonly [number, number])[], y: number): string {
  const top = Math.min(...part.map(([, h]) => h));
  let d = '';
  for (let level = y - RULE; level > top; level -= RULE) {
    let from: number | null = null;
    for (let i = 1; i < part.length; i++) {
      const [p, q] = [part[i - 1]!, part[i]!];
      const isUp = p[1] > level && q[1] <= level;
      const isDown = p[1] <= level && q[1] > level;
      if (!isUp && !isDown) continue;
      const x = q[1] === p[1] ? q[0] : p[0] + ((level - p[1]) / (q[1] - p[1])) * (q[0] - p[0]);
      if (isUp) from = x;
      else if (from !== null) d += `${move(from, level)}${line(x, level)}`;
    }
  }
  return d;
}

/** The scale an age is drawn at: wider about its 95.4 % where that would be a hair. */
function seen({ sets_95 }: Pick<DateResult, 'sets_95'>, x: Scale): Scale {
  const older = sets_95[0]?.older_cal_bp;
  const younger = sets_95.at(-1)?.younger_cal_bp;
  if (older === undefined || younger === undefined) return x;
  const width = Math.abs(x(younger) - x(older));
  if (width >= LEAST_WIDTH) return x;
  const middle = x((older + younger) / 2);
  const half = (older - younger) / 2 || 0.5;
  const way = Math.sign(x.k) * (LEAST_WIDTH / 2);
  const centre = (older + younger) / 2;
  return scale(centre - half, centre + half, middle - way, middle + way);
}

type DrawnAge = Pick<DateResult, 'density' | 'from_cal_bp' | 'curve' | 'status' | 'sets_68' | 'sets_95'> &
  OfCarbon;

type OfCarbon = Pick<DateResult, 'curve'> & Partial<Pick<DateResult, 'delta_r' | 'delta_r_error'>>;

/**
 * A calibrated age standing on `y`, `height` points at its peak. Rejected ones dotted, hollow and struck once. `hollow`:
 * the outline alone, of one that is kept and not relied on.
 */
export function AgeDensity({
  date,
  x: asScaled,
  y,
  height,
  hollow = false,
}: {
  date: DrawnAge;
  x: Scale;
  y: number;
  height: number;
  hollow?: boolean;
}) {
  const ink = useInk();
  const x = seen(date, asScaled);
  const points = outline(date, x, y, height);
  if (points.length === 0) return null;
  const ends = [points[0]![0], points.at(-1)![0]];
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const d = `${polyline(points)}Z`;
  if (date.status === 'rejected') {
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
  const marine = isMarine(date);
  const colour = marine ? ink.sea : ink.ink;
  const parts = (sets: readonly AgeInterval[]): [number, number][][] =>
    sets.map((s) => within(points, y, x(s.older_cal_bp), x(s.younger_cal_bp)));
  const filled = (sets: readonly AgeInterval[]): string =>
    parts(sets)
      .map((part) => `${polyline(part)}Z`)
      .join('');
  return (
    <g>
      <path d={d} fill={ink.paper} />
      {hollow ? null : marine ? (
        <path
          d={parts(date.sets_95)
            .map((part) => ruled(part, y))
            .join('')}
          stroke={colour}
          strokeWidth={LINE.hair}
          fill="none"
        />
      ) : (
        <path d={filled(date.sets_95)} fill={colour} fillOpacity={0.17} />
      )}
      {hollow ? null : <path d={filled(date.sets_68)} fill={colour} fillOpacity={ink.dark} />}
      <path d={polyline(points)} fill="none" stroke={colour} strokeWidth={LINE.fine} strokeLinejoin="round" />
      <path
        d={marine ? wave(low - 2, high + 2, y, 1.7, 0.5) : horizontal(low - 2, high + 2, y)}
        stroke={colour}
        strokeWidth={BASE}
        fill="none"
      />
    </g>
  );
}

/** Of the sea alone; a curve of the campaign's own is, where a reservoir offset goes with it. */
export function isMarine({ curve, delta_r = 0, delta_r_error = 0 }: OfCarbon): boolean {
  if (curve === null) return false;
  const isOwn = !(PUBLISHED_CURVES as readonly string[]).includes(curve);
  return curve.startsWith('marine') || (isOwn && (delta_r !== 0 || delta_r_error !== 0));
}

/** A hill of 120 years, for legends. */
const SWATCH: Omit<DrawnAge, 'curve' | 'status'> = (() => {
  const density = Float64Array.from({ length: 121 }, (_, i) => {
    const off = (i - 55) / 20;
    return exp(-0.5 * off * off);
  });
  const set = (older_cal_bp: number, younger_cal_bp: number, probability: number): AgeInterval => ({
    older_cal_bp,
    younger_cal_bp,
    probability,
  });
  return { density, from_cal_bp: 0, sets_68: [set(75, 35, 0.683)], sets_95: [set(95, 15, 0.954)] };
})();

/** Thirteen points wide, seven high. */
export function AgeSwatch({
  x,
  y,
  kind,
}: {
  x: number;
  y: number;
  kind: 'land' | 'marine' | 'hollow' | 'rejected';
}) {
  return (
    <AgeDensity
      date={{
        ...SWATCH,
        curve: kind === 'marine' ? 'marine' : 'land',
        status: kind === 'rejected' ? 'rejected' : 'accepted',
      }}
      x={scale(120, 0, x, x + 13)}
      y={y}
      height={7}
      hollow={kind === 'hollow'}
    />
  );
}
