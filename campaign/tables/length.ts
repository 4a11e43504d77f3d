/**
 * Lengths as people type them, to metres. The foot is exactly 0.3048 m (international yard and pound agreement, 1959),
 * the inch a twelfth of it. What was typed is held as a ratio of whole numbers and divided once, so the metres are
 * rounded once. Nothing is guessed: a bare number needs `unit`, a comma needs `decimal_comma`.
 */
import { power } from '@stillstand/science/base';
import { dateFault, decimalMarkFault, type Fault } from './fault.ts';
import { looksLikeDate } from './spreadsheet-date.ts';

export type LengthUnit = 'm' | 'cm' | 'mm' | 'ft' | 'in';

/** Units that lengths typed without one may be in: the setting `length_unit`. */
export const BARE_UNITS = ['m', 'cm', 'ft'] as const;

/** The setting as it was typed, "ft" or "FT"; null where there is none, or it names no such unit. */
export const bareUnit = (setting: string | null | undefined): (typeof BARE_UNITS)[number] | null =>
  BARE_UNITS.find((unit) => unit === setting?.trim().toLowerCase()) ?? null;

export interface LengthOptions {
  /** Unit of a bare number; without it a bare number is refused. */
  unit?: LengthUnit | null;
  /** The table writes 3,05 for 3.05. */
  decimal_comma?: boolean;
}

export type ParsedLength = { ok: true; metres: number; unit: LengthUnit } | ({ ok: false } & Fault);

/** A number as typed: numerator and denominator, exact while both stay below 2^53. */
interface Ratio {
  n: number;
  d: number;
}

const EXAMPLES = 'a length with its unit, such as 3.05 m, 305 cm, 10 ft or 9 ft 11 1/2 in';

const UNIT_OF: Readonly<Record<string, LengthUnit>> = {
  m: 'm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  cm: 'cm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  mm: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  ft: 'ft',
  'ft.': 'ft',
  foot: 'ft',
  feet: 'ft',
  "'": 'ft',
  in: 'in',
  'in.': 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
};

/** Metres are n·times / (d·over). */
const METRES: Readonly<Record<LengthUnit, { times: number; over: number }>> = {
  m: { times: 1, over: 1 },
  cm: { times: 1, over: 100 },
  mm: { times: 1, over: 1000 },
  ft: { times: 3048, over: 10000 },
  in: { times: 254, over: 10000 },
};

const NUMBER = String.raw`(?:\d+(?:[.,]\d+)?|[.,]\d+|\d+[ -]\d+\/\d+|\d+\/\d+)`;
const SINGLE = new RegExp(`^(${NUMBER}) ?([^\\d\\s.,/+-].*)?$`, 'u');
const FEET_INCHES = new RegExp(`^(\\d+) ?(ft\\.?|feet|foot|') ?(${NUMBER}) ?(in\\.?|inch|inches|")$`, 'i');

/**
 * Reads one length. Units m, cm, mm, ft, in, their names, ′ and ″; feet with inches; fractions (1/2, ½); any minus
 * sign in front. Never throws; a refusal says what came, what was expected and how to fix it.
 */
export function parseLength(text: string, options: LengthOptions = {}): ParsedLength {
  const typed = plainLength(text);
  const negative = typed.startsWith('-');
  const body = negative || typed.startsWith('+') ? typed.slice(1).trimStart() : typed;

  const feet = FEET_INCHES.exec(body);
  if (feet) return feetAndInches(text, feet[1]!, feet[3]!, negative, options);

  const single = SINGLE.exec(body);
  if (!single) return notALength(text, typed, options);
  const value = ratio(single[1]!, options);
  if ('code' in value) return { ok: false, ...value, found: text };
  const word = single[2]?.trim().toLowerCase() ?? '';
  const unit = word === '' ? (options.unit ?? null) : (UNIT_OF[word] ?? null);
  if (unit === null) return word === '' ? bareNumber(text) : wrongUnit(text, single[2]!);
  return length(text, value, unit, negative);
}

function feetAndInches(
  text: string,
  feetTyped: string,
  inchesTyped: string,
  negative: boolean,
  options: LengthOptions,
): ParsedLength {
  const inches = ratio(inchesTyped, options);
  if ('code' in inches) return { ok: false, ...inches, found: text };
  if (inches.n >= 12 * inches.d) {
    return {
      ok: false,
      code: 'not-a-length',
      found: text,
      expected: 'less than 12 inches after the feet',
      fix: 'Correct the feet or the inches.',
    };
  }
  const whole = { n: 12 * Number(feetTyped) * inches.d + inches.n, d: inches.d };
  const read = length(text, whole, 'in', negative);
  return read.ok ? { ...read, unit: 'ft' } : read;
}

function length(text: string, value: Ratio, unit: LengthUnit, negative: boolean): ParsedLength {
  const { times, over } = METRES[unit];
  const metres = (value.n * times) / (value.d * over);
  if (!Number.isFinite(metres)) return notALength(text, text, {});
  return { ok: true, metres: negative && metres !== 0 ? -metres : metres, unit };
}

/** One number: 3, 3.05, 3,05 (if the table writes so), 11 1/2, 1/2. */
function ratio(typed: string, options: LengthOptions): Ratio | Fault {
  const fraction = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(typed);
  if (fraction) {
    const [whole, n, d] = [Number(fraction[1] ?? 0), Number(fraction[2]), Number(fraction[3])];
    if (d === 0) {
      return {
        code: 'not-a-length',
        found: typed,
        expected: 'a fraction of a number above 0',
        fix: 'Correct it.',
      };
    }
    return { n: whole * d + n, d };
  }
  const mark = options.decimal_comma ? ',' : '.';
  const wrong = options.decimal_comma ? '.' : ',';
  if (typed.includes(wrong)) return decimalMarkFault(typed, options.decimal_comma ?? false);
  const [whole, decimals = ''] = typed.split(mark);
  const n = Number(`${whole}${decimals}`);
  // Past 2^53 the digits themselves are the nearest double.
  if (n > Number.MAX_SAFE_INTEGER || decimals.length > 22)
    return { n: Number(`${whole || 0}.${decimals || 0}`), d: 1 };
  return { n, d: power(10, decimals.length) };
}

function bareNumber(text: string): ParsedLength {
  return {
    ok: false,
    code: 'no-unit',
    found: text,
    expected: EXAMPLES,
    fix: `Write the unit (${text.trim()} m? ${text.trim()} ft?), or choose a unit for all lengths typed without one in the settings.`,
  };
}

function wrongUnit(text: string, unit: string): ParsedLength {
  if (looksLikeDate(text.trim())) return { ok: false, ...dateFault(text, EXAMPLES) };
  const inches = /^(?:ft\.?|feet|foot|') ?\d(.*)$/i.exec(unit)?.[1];
  if (inches === undefined) {
    return {
      ok: false,
      code: 'wrong-unit',
      found: text,
      expected: EXAMPLES,
      fix: `“${unit.trim()}” is no unit of length here: write m, cm, mm, ft or in.`,
    };
  }
  return /[a-z"]/i.test(inches)
    ? {
        ok: false,
        code: 'not-a-length',
        found: text,
        expected: 'whole feet before the inches',
        fix: 'Correct it.',
      }
    : {
        ok: false,
        code: 'no-unit',
        found: text,
        expected: EXAMPLES,
        fix: `Write ${text.trim()} in, if inches are meant.`,
      };
}

function notALength(text: string, typed: string, options: LengthOptions): ParsedLength {
  if (looksLikeDate(typed)) return { ok: false, ...dateFault(text, EXAMPLES) };
  if (/^[-+]?\d{1,3}(?:[., ']\d{3})+(?:[.,]\d+)?\s*\p{L}*$/u.test(typed)) {
    return { ok: false, ...decimalMarkFault(text, options.decimal_comma ?? false) };
  }
  return { ok: false, code: 'not-a-length', found: text, expected: EXAMPLES, fix: 'Correct it.' };
}

const FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

const PLAIN = /^[\x20-\x7e]*$/;

/** The same length in plain characters: one kind of minus, prime, space and fraction. */
function plainLength(text: string): string {
  const spaced = PLAIN.test(text)
    ? text
    : text
        .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/gu, (sign) => ` ${FRACTIONS[sign]}`)
        .replaceAll('⁄', '/')
        .replace(/[−–‒]/gu, '-')
        .replace(/[′’‘´ʹ]/gu, "'")
        .replace(/[″”“ʺ]/gu, '"');
  return spaced.replaceAll("''", '"').replace(/\s+/gu, ' ').trim();
}
