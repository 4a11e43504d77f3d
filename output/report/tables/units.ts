/** What a unit says of a column: how it stands in a heading, and with how many decimals its numbers are written. */
import { decimalsFor } from '@stillstand/output/words';

/**
 * Units as the description of the results spells them. Decimals of a number that stands alone, and the least of one whose
 * uncertainty says how many. Heights are never coarser than a centimetre.
 */
const UNITS: Readonly<Record<string, { alone: number; least: number }>> = {
  m: { alone: 2, least: 2 },
  'mm/yr': { alone: 2, least: 1 },
  'cal BP': { alone: 0, least: 0 },
  yr: { alone: 0, least: 0 },
  '14C yr': { alone: 0, least: 0 },
  deg: { alone: 6, least: 6 },
  ratio: { alone: 2, least: 2 },
  '0 to 1': { alone: 3, least: 3 },
  joints: { alone: 0, least: 0 },
  line: { alone: 0, least: 0 },
  draws: { alone: 0, least: 0 },
  pairs: { alone: 0, least: 0 },
  changes: { alone: 0, least: 0 },
};
const LEAST = 2;
/** Digits of a number whose unit is not among them. */
const DIGITS = 4;
const OF_THE_PROPERTY = 'unit of the property';

/** The unit a property's name ends with, for shapes that say "unit of the property". */
export function unitInName(name: string): string {
  const units = Object.keys(UNITS).sort((a, b) => b.length - a.length);
  return units.find((unit) => `_${name}`.endsWith(`_${spelled(unit)}`)) ?? '';
}

/** Decimals of a number that has no uncertainty of its own: its unit's, or its first digits where the unit is new. */
export function decimalsOf(value: number | null, unit: string): number {
  const known = UNITS[unit];
  if (known !== undefined) return known.alone;
  if (value === null || !Number.isFinite(value) || value === 0) return 0;
  const exponent = Number(value.toExponential(DIGITS - 1).split('e')[1]);
  return Math.min(12, Math.max(0, DIGITS - 1 - exponent));
}

/** Decimals that follow an uncertainty, no fewer than the unit's least. */
export const decimalsWith = (twoSigma: number | null, unit: string): number =>
  decimalsFor(twoSigma ?? Number.NaN, UNITS[unit]?.least ?? LEAST);

/** "14C yr" as headings have it: "c14_yr". */
const spelled = (unit: string): string =>
  unit
    .replace('14C', 'c14')
    .replace(' per ', ' ')
    .toLowerCase()
    .replaceAll('²', '2')
    .replaceAll('³', '3')
    .replaceAll(/[^a-z0-9]+/g, '_');

/** A property's name with its unit in it, once. */
export function withUnit(name: string, unit: string): string {
  const isCounted = unit === '' || unit === '0 to 1' || unit === OF_THE_PROPERTY;
  return isCounted || `_${name}_`.includes(`_${spelled(unit)}_`) ? name : `${name}_${spelled(unit)}`;
}

/** What is said of a column: the description and, where it has one, the unit. */
export const aboutWithUnit = (about: string, unit: string): string =>
  unit === '' || unit === OF_THE_PROPERTY ? about : `${about}; ${unit}`;
