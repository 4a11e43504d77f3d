/**
 * What a press on the keypad does to the text of a length. The text stays as a person would write it ("38 ft 4 in"):
 * it goes into the record as typed. A number without a unit takes the lit unit when it is recorded.
 */

import { type ParsedLength, parseLength } from '@stillstand/campaign/tables';
import { t } from '../../language/index.ts';

export type PadUnit = 'm' | 'cm' | 'ft' | 'in';
export type PadKey =
  | '0'
  | '1'
  | '2'
  | '3'
  | '4'
  | '5'
  | '6'
  | '7'
  | '8'
  | '9'
  | '.'
  | '1/4'
  | '1/2'
  | '3/4'
  | '1/8'
  | 'sign'
  | 'delete'
  | PadUnit;

export interface Typing {
  text: string;
  /** Of a number that has none of its own. */
  unit: PadUnit;
}

export const PAD_UNITS: readonly PadUnit[] = ['m', 'cm', 'ft', 'in'];
const isUnit = (key: PadKey): key is PadUnit => (PAD_UNITS as readonly string[]).includes(key);

/** The number at the end that has no unit yet. */
const openNumber = (text: string): string => /(?:\d+ )?[\d./]*$/.exec(text)?.[0] ?? '';
const closed = (text: string): boolean => /(?:mm|cm|m|ft|in)\s*$/.test(text);

export function pressKey(typing: Typing, key: PadKey): Typing {
  const { text } = typing;
  if (key === 'delete') {
    // a unit taken away is the one of the number that is left
    const unit = / ?(m|cm|ft|in)$/.exec(text.trimEnd())?.[1] as PadUnit | undefined;
    return { text: shortenedByOne(text), unit: unit ?? typing.unit };
  }
  if (key === 'sign') return { ...typing, text: text.startsWith('-') ? text.slice(1) : `-${text}` };
  if (isUnit(key)) return pressUnit(typing, key);
  // A length that already ends in a unit is complete, except feet, which inches may follow.
  if (closed(text) && !/ft\s*$/.test(text)) return typing;
  const base = /ft$/.test(text) ? `${text} ` : text;
  const open = openNumber(base);
  if (key === '.')
    return open.includes('.') || open.includes('/')
      ? typing
      : { ...typing, text: `${base}${open === '' ? '0' : ''}.` };
  if (key.includes('/')) {
    if (open.includes('/') || open.includes('.')) return typing;
    return { ...typing, text: `${base}${open === '' ? '' : ' '}${key}` };
  }
  return open.includes('/') ? typing : { ...typing, text: base + key };
}

function pressUnit({ text, unit }: Typing, key: PadUnit): Typing {
  const open = openNumber(text).trim();
  if (open === '') {
    // After the unit, another one takes its place; in an empty field it is lit.
    if (/^-?[\d./ ]+ (m|cm|ft|in)$/.test(text))
      return { text: text.replace(/(m|cm|ft|in)$/, key), unit: after(key) };
    return { text, unit: key };
  }
  const feetBefore = /\dft |\d ft /.test(text);
  if (feetBefore && key !== 'in') return { text, unit };
  return { text: `${text.trimEnd()} ${key}`, unit: after(key) };
}

/** An empty field again, for what replaces the text: inches that were to follow feet follow nothing any more. */
export const emptied = ({ text, unit }: Typing): Typing => ({
  text: '',
  unit: unit === 'in' && /ft/.test(text) ? 'ft' : unit,
});

/** Inches are expected to follow feet. */
const after = (key: PadUnit): PadUnit => (key === 'ft' ? 'in' : key);

/** One step back: a whole unit, a whole fraction, or one digit. */
function shortenedByOne(text: string): string {
  const trimmed = text.trimEnd();
  const unit = / ?(?:m|cm|ft|in)$/.exec(trimmed)?.[0];
  if (unit !== undefined) return trimmed.slice(0, -unit.length);
  const fraction = / ?\d\/\d$/.exec(trimmed)?.[0];
  if (fraction !== undefined) return trimmed.slice(0, -fraction.length);
  return trimmed.slice(0, -1).trimEnd();
}

/** The text as it goes into the record: a number left open takes the lit unit. */
export function completeLength({ text, unit }: Typing): string {
  const trimmed = text.trim().replace(/\.$/, '');
  if (trimmed === '' || trimmed === '-') return '';
  if (!/[\d)]$/.test(trimmed)) return trimmed;
  const feetBefore = /ft/.test(trimmed);
  return `${trimmed} ${feetBefore ? 'in' : unit}`;
}

/** The length typed so far; null where nothing was. */
export function readTyping(typing: Typing): ParsedLength | null {
  const complete = completeLength(typing);
  return complete === '' ? null : parseLength(complete);
}

/** What is said below a length that cannot be read: what was expected, or the fix where that is more. */
export const faultWords = ({ code, expected, fix }: Extract<ParsedLength, { ok: false }>): string =>
  code === 'not-a-length' ? t`Expected ${expected}.` : fix;
