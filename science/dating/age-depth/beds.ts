/**
 * The ground without the beds that were laid down at once, by a storm, a flood or a slide: they take no time, so the
 * depths between them are counted as if they were not there. In each state of the hole they lie elsewhere.
 */
import { median } from '@stillstand/science/base';
import type { Bed } from './model.ts';

/** By state of the hole, from the top down: beds that lie apart, m below the ground. */
export type Beds = readonly { top_m: Float64Array; bottom_m: Float64Array }[];

/** Beds that touch or overlap are one; one that ends where it begins is none. */
export const bedsOf = (beds: readonly Bed[], states: number): Beds =>
  Array.from({ length: states }, (_, k) =>
    apart(beds.map(({ top_m, bottom_m }) => [Math.max(0, top_m[k]!), bottom_m[k]!])),
  );

/** Those at their median depths, as the only state. */
export const medianBeds = (beds: readonly Bed[]): Beds => [
  apart(beds.map(({ top_m, bottom_m }) => [Math.max(0, median(top_m)), median(bottom_m)])),
];

function apart(beds: readonly (readonly [number, number])[]): Beds[number] {
  const tops: number[] = [];
  const bottoms: number[] = [];
  for (const [top, bottom] of beds.filter(([t, b]) => b > t).sort((a, b) => a[0] - b[0])) {
    const above = bottoms.length - 1;
    if (above >= 0 && top <= bottoms[above]!) bottoms[above] = Math.max(bottoms[above]!, bottom);
    else {
      tops.push(top);
      bottoms.push(bottom);
    }
  }
  return { top_m: Float64Array.from(tops), bottom_m: Float64Array.from(bottoms) };
}

/** A depth counted without the beds above it; all of a bed is where its top is. */
export function withoutBeds(beds: Beds, depth_m: number, state: number): number {
  if (beds.length === 0) return depth_m;
  const { top_m, bottom_m } = beds[state]!;
  let above = 0;
  for (let b = 0; b < top_m.length && depth_m > top_m[b]!; b++) {
    if (depth_m <= bottom_m[b]!) return top_m[b]! - above;
    above += bottom_m[b]! - top_m[b]!;
  }
  return depth_m - above;
}

/** The depth that is counted so; where a bed lies there, its top. */
export function withBeds(beds: Beds, counted_m: number, state: number): number {
  if (beds.length === 0) return counted_m;
  const { top_m, bottom_m } = beds[state]!;
  let depth = counted_m;
  for (let b = 0; b < top_m.length && depth > top_m[b]!; b++) depth += bottom_m[b]! - top_m[b]!;
  return depth;
}
