/** Units people head their columns with, and what a number in them is in the unit of our column: exactly. */
import { readDecimal, times, writeDecimal } from './decimal.ts';

/** Ours = theirs × n / 10^shift. */
interface Factor {
  n: number;
  shift: number;
}

const LENGTH: Readonly<Record<string, Factor>> = {
  m: { n: 1, shift: 0 },
  dm: { n: 1, shift: 1 },
  cm: { n: 1, shift: 2 },
  mm: { n: 1, shift: 3 },
  // International yard and pound agreement, 1959.
  ft: { n: 3048, shift: 4 },
  in: { n: 254, shift: 4 },
};
const YEARS: Readonly<Record<string, Factor>> = { yr: { n: 1, shift: 0 }, kyr: { n: 1000, shift: 0 } };
const SHARE: Readonly<Record<string, Factor>> = { '': { n: 1, shift: 0 }, '%': { n: 1, shift: 2 } };

/** By the unit of our column, as its schema states it. */
const OURS: Readonly<Record<string, Readonly<Record<string, Factor>>>> = {
  m: LENGTH,
  mm: { m: { n: 1000, shift: 0 }, cm: { n: 10, shift: 0 }, mm: { n: 1, shift: 0 }, in: { n: 254, shift: 1 } },
  yr: YEARS,
  '14C yr': YEARS,
  '14C yr BP': YEARS,
  'cal BP': YEARS,
  '': SHARE,
};

/** One name for each unit, by the spellings met. */
const SPELLINGS: readonly (readonly [string, RegExp])[] = [
  ['mm', /^(?:mm|milli ?met(?:re|er)s?)$/],
  ['cm', /^(?:cm|cms|centi ?met(?:re|er)s?)$/],
  ['dm', /^(?:dm|deci ?met(?:re|er)s?)$/],
  ['m', /^(?:m|met(?:re|er)s?)$/],
  ['ft', /^(?:ft\.?|feet|foot)$/],
  ['in', /^(?:in\.?|inch|inches)$/],
  ['kyr', /^(?:ka|kyrs?|kyr b ?p|k ?yr|ka b ?p|cal ka(?: b ?p)?|ky)$/],
  [
    'yr',
    /^(?:yrs?|years?|a|a b ?p|yrs? b ?p|years? b ?p|b ?p|cal b ?p|cal yrs? b ?p|14c yrs?(?: b ?p)?|14c a b ?p|years? before 1950|yrs? ce)$/,
  ],
  ['deg', /^(?:deg|degrees?|decimal degrees|dd|°)$/],
  ['%', /^(?:%|pct|percent|per cent|wt\.? ?%|weight ?%|vol\.? ?%)$/],
  ['‰', /^(?:‰|permil|per mil|per mill?e|o\/oo)(?: .*)?$/],
  [
    'g/cm3',
    /^(?:g(?:rams?)? ?(?:\/|per|\.)? ?cm(?:-3|\^-?3|3|³|⁻³)|g cc|g\/cc|grams? per cubic centi ?met(?:re|er)s?)$/,
  ],
  ['kg/m3', /^kg ?\/? ?m(?:-3|3|³|⁻³)$/],
  ['g/m2/yr', /^g ?\/? ?m(?:-2|2|²|⁻²) ?\/? ?(?:yr|a|y)(?:-1|⁻¹)?$/],
  ['Bq/kg', /^(?:bq ?[/·.]? ?kg(?:\^?[-−–]1|⁻¹)?|beque?rels? ?per ?kilograms?)$/],
  ['dpm/g', /^dpm ?[/·.]? ?g(?:\^?[-−–]1|⁻¹)?$/],
  ['mBq/g', /^mbq ?[/·.]? ?g(?:\^?[-−–]1|⁻¹)?$/],
  ['Bq/g', /^bq ?[/·.]? ?g(?:\^?[-−–]1|⁻¹)?$/],
  ['pCi/g', /^pci ?[/·.]? ?g(?:\^?[-−–]1|⁻¹)?$/],
  ['µm', /^(?:µm|μm|um|micron|microns|micromet(?:re|er)s?)$/],
  ['mg/g', /^mg ?\/? ?g(?:-1|⁻¹)?$/],
  ['ppm', /^ppm$/],
  ['ppb', /^ppb$/],
  ['phi', /^(?:phi|φ)$/],
  ['mm/yr', /^mm ?\/? ?(?:yr|a|y)(?:-1|⁻¹)?$/],
  ['cm/yr', /^cm ?\/? ?(?:yr|a|y)(?:-1|⁻¹)?$/],
  ['g', /^(?:g|grams?)$/],
  ['mg', /^(?:mg|milligrams?)$/],
];

const tidy = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[\s_\u00a0]+/g, ' ')
    .replace(/^[([]|[)\]]$/g, '')
    .replace(/\.$/, '')
    .trim();

/** Our name of a unit, however it is spelt; null where it is none we know. */
export function unitCalled(text: string): string | null {
  const plain = tidy(text);
  return SPELLINGS.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
}

/** Words of a row of units that say there is none. */
export const isNoUnit = (text: string): boolean =>
  /^(?:|-|–|none|unitless|dimensionless|text|code|nominal|n\/?a|category|id|yyyy(?:-mm-dd)?)$/i.test(
    text.trim(),
  );

export const isLengthUnit = (unit: string): boolean => Object.hasOwn(LENGTH, unit);

/** Units a number of that column of ours can come in. */
export const unitsFor = (ours: string): readonly string[] => Object.keys(OURS[ours] ?? {});

/**
 * A number in their unit as one in ours, digits kept; null where it cannot be. `theirs` null: the unit of ours is meant.
 */
export function converted(number: string, theirs: string | null, ours: string): string | null {
  if (theirs === null || theirs === ours || theirs === unitCalled(ours)) return number;
  const factors = Object.hasOwn(OURS, ours) ? OURS[ours]! : {};
  const factor = Object.hasOwn(factors, theirs) ? factors[theirs] : undefined;
  const decimal = readDecimal(number);
  if (factor === undefined || decimal === null) return null;
  return writeDecimal(times(decimal, factor.n, factor.shift));
}
