/** Lengths as they stand in cells: read with the table's habits, written in the unit they were typed in. */
import { type LengthOptions, type LengthUnit, parseLength } from '@stillstand/campaign/tables';
import { INCH_M } from '@stillstand/science/base';

export interface ReadLength {
  m: number;
  unit: LengthUnit;
}

export function readLength(cell: string | undefined, options: LengthOptions): ReadLength | null {
  if (cell === undefined || cell.trim() === '') return null;
  const read = parseLength(cell, options);
  return read.ok ? { m: read.metres, unit: read.unit } : null;
}

/** Fit for a cell: metres and centimetres to the millimetre, feet and inches to the eighth. */
export function writtenLength(m: number, unit: LengthUnit): string {
  const sign = m < 0 ? '-' : '';
  const size = Math.abs(m);
  if (unit === 'm') return `${sign}${trimmed(size.toFixed(3), 2)} m`;
  if (unit === 'cm') return `${sign}${trimmed((size * 100).toFixed(1), 0)} cm`;
  if (unit === 'mm') return `${sign}${(size * 1000).toFixed(0)} mm`;
  const eighths = Math.round((size / INCH_M) * 8);
  const feet = unit === 'ft' ? Math.floor(eighths / 96) : 0;
  const rest = eighths - feet * 96;
  const inches = Math.floor(rest / 8);
  const fraction = ['', '1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'][rest % 8]!;
  const inch = [inches > 0 || fraction === '' ? String(inches) : '', fraction].filter(Boolean).join(' ');
  return `${sign}${unit === 'ft' ? `${feet} ft ` : ''}${inch} in`;
}

/** The same for a table that may write 3,05. */
export const writtenCell = (m: number, unit: LengthUnit, { decimal_comma }: LengthOptions): string => {
  const written = writtenLength(m, unit);
  return decimal_comma === true ? written.replace('.', ',') : written;
};

/** Trailing zeros off, down to `least` decimals. */
function trimmed(digits: string, least: number): string {
  const [whole = '', decimals = ''] = digits.split('.');
  const kept = decimals.replace(/0+$/, '').padEnd(least, '0');
  return kept === '' ? whole : `${whole}.${kept}`;
}

/** How far one press of an arrow moves a contact, and one with shift: what the tape in hand is read to. */
export function steps(unit: LengthUnit): { one_m: number; ten_m: number } {
  return unit === 'ft' || unit === 'in'
    ? { one_m: INCH_M / 2, ten_m: INCH_M * 4 }
    : { one_m: 0.01, ten_m: 0.1 };
}

/** To the nearest mark of that tape. */
export const onTape = (m: number, step_m: number): number => Math.round(m / step_m) * step_m;
