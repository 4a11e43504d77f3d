/** Sides of the core on its picture, with the top up, and what a hand does to them. */
import type { LengthOptions, LengthUnit } from '@stillstand/campaign/tables';
import { type Strip, sidesOf } from '@stillstand/output/photographs';
import { INCH_M } from '@stillstand/science/base';
import { readLength, writtenCell } from '../length.ts';
import type { Marking } from './marking.ts';

export const SIDES = ['left', 'right', 'middle'] as const;
export type Side = (typeof SIDES)[number];

/** Where a side is, metres to the right of the line through the marks. */
export function acrossOf(strip: Pick<Strip, 'width_m' | 'offset_m'>, side: Side): number {
  const { left_m, right_m } = sidesOf(strip);
  return side === 'left' ? left_m : side === 'right' ? right_m : strip.offset_m;
}

/**
 * The core with one side elsewhere, metres to the right of the line through the marks; the other side stays, or with the
 * middle both go. The width changes by twice what is written at the finest, so that its middle can be written too.
 */
export function withSide(
  marking: Marking,
  strip: Strip,
  side: Side,
  across_m: number,
  options: LengthOptions,
): Marking {
  const unit = readLength(marking.width, options)?.unit ?? 'm';
  const least_m = finest(unit);
  const written = (offset_m: number): string =>
    Math.abs(offset_m) < least_m / 2 ? '' : writtenCell(Math.min(1, Math.max(-1, offset_m)), unit, options);
  if (side === 'middle') return { ...marking, offset: written(across_m) };
  const sense = side === 'left' ? -1 : 1;
  const other_m = acrossOf(strip, side === 'left' ? 'right' : 'left');
  const steps = (width_m: number): number => Math.round((width_m - strip.width_m) / (2 * least_m));
  const wider = Math.max(steps(sense * (across_m - other_m)), steps(LEAST_M));
  const width_m = strip.width_m + 2 * least_m * wider;
  if (width_m > 1) return marking;
  return {
    ...marking,
    width: writtenCell(width_m, unit, options),
    offset: written(other_m + (sense * width_m) / 2),
  };
}

/** A core is no narrower. */
const LEAST_M = 0.005;

/** As lengths are written: millimetres, or eighths of an inch. */
const finest = (unit: LengthUnit): number => (unit === 'ft' || unit === 'in' ? INCH_M / 8 : 0.001);
