/** The numbers of the gear that pulls the string: what they may be, and what is said of one that cannot be used. */

/** What pulls the string and what is marked on it; null where nobody has said. */
export interface PullingGear {
  parts: number;
  sheaves: number | null;
  bearing: 'plain' | 'roller';
  hanging_kg: number;
  rated_line_kn: number | null;
  rated_hook_kn: number | null;
  rated_head_kn: number | null;
  /** Given, and of no use: no load is computed until it is corrected. */
  unusable: readonly { name: GearNumber; words: string }[];
}

const LOAD = { unit: 'kN', min: 0.01, max: 10_000, whole: false };

/** Wide enough for any gear of this kind: outside them a value is a slip or in another unit. Common practice, no source. */
export const GEAR_NUMBERS = {
  line_parts: { label: 'Parts of line', unit: '', min: 1, max: 32, whole: true },
  line_sheaves: { label: 'Sheaves', unit: '', min: 0, max: 32, whole: true },
  hanging_kg: { label: 'Suspended gear', unit: 'kg', min: 0, max: 10_000, whole: false },
  rated_line_kn: { label: 'Rated load: line', ...LOAD },
  rated_hook_kn: { label: 'Rated load: hook', ...LOAD },
  rated_head_kn: { label: 'Rated load: tripod', ...LOAD },
} as const;

export type GearNumber = keyof typeof GEAR_NUMBERS;

/** "Suspended gear 15000 kg is out of range 0 to 10000"; null where the value can be used, or nothing was typed. */
export function gearFault(name: GearNumber, typed: string): string | null {
  const value = typed.trim();
  if (value === '') return null;
  const { label, unit, min, max, whole } = GEAR_NUMBERS[name];
  const said = `${label} ${value}${unit === '' ? '' : ` ${unit}`}`;
  const number = Number(value);
  if (Number.isNaN(number)) return `${label} “${value}” is not a number from ${min} to ${max}`;
  if (number < min || number > max) return `${said} is out of range ${min} to ${max}`;
  return whole && !Number.isInteger(number) ? `${said} is not a whole number` : null;
}
