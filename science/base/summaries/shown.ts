/**
 * Numbers on which somebody acts, rounded to their safe side. A limit not to be passed from below (a stop mark, a
 * clearance, an hour to leave by) is shown at most as large as it is; a load, a distance to keep, water to add at least
 * as large. Which number has which side: docs/methods/rig.md.
 */
import { power } from '../functions/powers.ts';
import { INCH_M } from '../units.ts';

/** Of a step of what is shown: 2.87 kept in binary is not 2.8699…, and stays 2.87. */
const NOISE = 1e-8;

/** Rounded down (towards −∞): never more than it is, but for the noise of binary numbers (1e-8 of the last decimal). */
export function atMost(value: number, decimals: number): number {
  const steps = power(10, decimals);
  return Math.floor(value * steps + NOISE) / steps + 0;
}

/** Rounded up (towards +∞): never less than it is. */
export function atLeast(value: number, decimals: number): number {
  return -atMost(-value, decimals) + 0;
}

const MINUTE_MS = 60_000;

/** The whole minute that has begun: when something closes, and when to leave. ms since 1970. */
export const minuteAtMost = (time_ms: number): number => Math.floor(time_ms / MINUTE_MS) * MINUTE_MS;

/** The next whole minute: when something opens. */
export const minuteAtLeast = (time_ms: number): number => Math.ceil(time_ms / MINUTE_MS) * MINUTE_MS;

/** How a tape is read: metres to the centimetre, whole centimetres, or feet and inches to the quarter inch. */
export type TapeUnit = 'm' | 'cm' | 'ft';

/** Which way a length is rounded. */
export type Side = 'nearest' | 'at most' | 'at least';

const STEP_M: Record<TapeUnit, number> = { m: 0.01, cm: 0.01, ft: INCH_M / 4 };

/** "3.05 m", "−4 cm", "10 ft 2 1/4 in": a length as a tape is read, with a true minus. */
export function tapeLength(m: number, unit: TapeUnit, side: Side = 'nearest'): string {
  const steps = wholeSteps(m / STEP_M[unit], side);
  const sign = steps < 0 ? '−' : '';
  const size = Math.abs(steps);
  if (unit === 'm') return `${sign}${(size / 100).toFixed(2)} m`;
  if (unit === 'cm') return `${sign}${size} cm`;
  const feet = Math.floor(size / 48);
  const inches = Math.floor((size % 48) / 4);
  const fraction = ['', '1/4', '1/2', '3/4'][size % 4]!;
  const inch = [inches > 0 || fraction === '' ? String(inches) : '', fraction]
    .filter((p) => p !== '')
    .join(' ');
  return `${sign}${feet === 0 ? '' : `${feet} ft `}${inch} in`;
}

function wholeSteps(steps: number, side: Side): number {
  if (side === 'at most') return Math.floor(steps + NOISE) + 0;
  if (side === 'at least') return Math.ceil(steps - NOISE) + 0;
  return Math.sign(steps) * Math.round(Math.abs(steps)) + 0;
}
