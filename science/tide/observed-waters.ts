/** High and low waters in the readings of a gauge. */
import { square } from '@stillstand/science/base';
import { type TideExtreme, tabulatedExtremes } from './extremes.ts';
import type { TideRecord } from './record.ts';

/** Between readings further apart a turn of the tide may be missed; of hourly ones a single one may be missing. */
const GAP_MS = 2.1 * 3_600_000;
/** A water is the highest or the lowest of all readings so near to it. */
const ALONE_MS = 2.5 * 3_600_000;
/** Its height is that of a parabola through the readings so near: noise is averaged, a tide of 12.4 h kept to 0.3 %. */
const FIT_MS = 3_600_000;

/** Stretches of less than a tidal day hold one of two highs, at night or by day: left out. */
const WHOLE_MS = 25 * 3_600_000;

interface Part {
  time_ms: number[];
  height_m: number[];
}

/** Stretches of a record without a gap, of a tidal day or more. */
export function partsOf({ time_ms, height_m }: TideRecord): Part[] {
  const parts: Part[] = [];
  for (let i = 0; i < time_ms.length; i++) {
    const last = parts.at(-1);
    if (last === undefined || time_ms[i]! - last.time_ms.at(-1)! > GAP_MS)
      parts.push({ time_ms: [time_ms[i]!], height_m: [height_m[i]!] });
    else {
      last.time_ms.push(time_ms[i]!);
      last.height_m.push(height_m[i]!);
    }
  }
  return parts.filter(({ time_ms: times }) => times.at(-1)! - times[0]! >= WHOLE_MS);
}

/** Of one stretch, taking turns, as a table lists them; none at its very ends, where the turn may lie outside. */
export function observedWaters(part: Part): TideExtreme[] {
  const found: TideExtreme[] = [];
  for (let i = 1; i < part.time_ms.length - 1; i++) {
    const kind = turnAt(part, i);
    if (kind === null) continue;
    const water: TideExtreme = { kind, time_ms: part.time_ms[i]!, height_m: turnHeight(part, i) };
    const before = found.at(-1);
    if (before?.kind !== kind) found.push(water);
    else if (kind === 'high' ? water.height_m > before.height_m : water.height_m < before.height_m)
      found[found.length - 1] = water;
  }
  return tabulatedExtremes(found);
}

/** Whether reading `i` is the highest or the lowest of those near it; of equal ones the first is. */
function turnAt({ time_ms, height_m }: Part, i: number): TideExtreme['kind'] | null {
  let isHigh = true;
  let isLow = true;
  const [time, height] = [time_ms[i]!, height_m[i]!];
  for (let j = i - 1; j >= 0 && time - time_ms[j]! <= ALONE_MS; j--) {
    isHigh &&= height_m[j]! < height;
    isLow &&= height_m[j]! > height;
  }
  for (let j = i + 1; j < time_ms.length && time_ms[j]! - time <= ALONE_MS; j++) {
    isHigh &&= height_m[j]! <= height;
    isLow &&= height_m[j]! >= height;
  }
  return isHigh === isLow ? null : isHigh ? 'high' : 'low';
}

/** Where the least-squares parabola about reading `i` turns, m; the reading itself where that is not within the fit. */
function turnHeight({ time_ms, height_m }: Part, i: number): number {
  const hours: number[] = [];
  const above: number[] = [];
  const add = (j: number): void => {
    hours.push((time_ms[j]! - time_ms[i]!) / 3_600_000);
    above.push(height_m[j]! - height_m[i]!);
  };
  for (let j = i; j >= 0 && (j >= i - 1 || time_ms[i]! - time_ms[j]! <= FIT_MS); j--) add(j);
  for (let j = i + 1; j < time_ms.length && (j === i + 1 || time_ms[j]! - time_ms[i]! <= FIT_MS); j++) add(j);
  const [a, b, c] = parabola(hours, above);
  const at = -b / (2 * c);
  const isWithin = at > Math.min(...hours) && at < Math.max(...hours);
  return height_m[i]! + (isWithin ? a + (b * at) / 2 : 0);
}

/** a + b·x + c·x² by least squares, by the normal equations about x = 0. */
function parabola(x: readonly number[], y: readonly number[]): [a: number, b: number, c: number] {
  const sum = (of: (x: number, y: number) => number): number =>
    x.reduce((total, each, k) => total + of(each, y[k]!), 0);
  const [n, s1, s2] = [x.length, sum((v) => v), sum(square)];
  const [s3, s4] = [sum((v) => v * v * v), sum((v) => square(v * v))];
  const [t0, t1, t2] = [sum((_, w) => w), sum((v, w) => v * w), sum((v, w) => v * v * w)];
  const determinant = n * (s2 * s4 - s3 * s3) - s1 * (s1 * s4 - s3 * s2) + s2 * (s1 * s3 - s2 * s2);
  return [
    (t0 * (s2 * s4 - s3 * s3) - s1 * (t1 * s4 - s3 * t2) + s2 * (t1 * s3 - s2 * t2)) / determinant,
    (n * (t1 * s4 - t2 * s3) - t0 * (s1 * s4 - s3 * s2) + s2 * (s1 * t2 - t1 * s2)) / determinant,
    (n * (s2 * t2 - s3 * t1) - s1 * (s1 * t2 - t1 * s2) + t0 * (s1 * s3 - s2 * s2)) / determinant,
  ];
}
