/** Lengths as the crew reads them off its tape. */
import { FOOT_M, INCH_M } from '@stillstand/science/base';
import type { CrewUnit } from './hole-now.ts';

const MINUS = '−';

/** Metres with two decimals and a true minus; never "−0.00". */
export function m2(m: number): string {
  const digits = Math.abs(m).toFixed(2);
  return (m < 0 && digits !== '0.00' ? MINUS : '') + digits;
}

/** The same with its sign always shown. */
export const signed2 = (m: number): string => (m > 0.0049 ? `+${m2(m)}` : m2(m));

/**
 * A length as it would be typed, fit for a cell: metres to the centimetre, or feet and inches to the quarter inch, as
 * a tape is read.
 */
export function typedLength(m: number, unit: CrewUnit): string {
  const sign = m < 0 ? '-' : '';
  const size = Math.abs(m);
  if (unit === 'm') return `${sign}${size.toFixed(2)} m`;
  if (unit === 'cm') return `${sign}${(size * 100).toFixed(0)} cm`;
  const quarters = Math.round((size / INCH_M) * 4);
  const feet = Math.floor(quarters / 48);
  const rest = quarters - feet * 48;
  const inches = Math.floor(rest / 4);
  const fraction = ['', '1/4', '1/2', '3/4'][rest % 4]!;
  const inch = [inches > 0 || fraction === '' ? String(inches) : '', fraction]
    .filter((p) => p !== '')
    .join(' ');
  return feet === 0 ? `${sign}${inch} in` : `${sign}${feet} ft ${inch} in`;
}

/** The same for reading, with a true minus. */
export const saidLength = (m: number, unit: CrewUnit): string => typedLength(m, unit).replace('-', MINUS);

/** Tape on the cable: each metre and half metre, or each foot. */
export const tapeInterval_m = (unit: CrewUnit): number => (unit === 'ft' ? FOOT_M : 0.5);
