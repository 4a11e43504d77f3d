/**
 * One cell to its value, by the kind of its column. A cell is read right or refused with its reason; it is never
 * guessed at. Blank cells are the business of the row.
 */

import type { ChoiceColumn, Column, NumberColumn, TideWord } from './column.ts';
import { choiceName } from './column-name.ts';
import { dateFault, decimalMarkFault, type Fault } from './fault.ts';
import { isIsoDate, isoTime } from './iso-time.ts';
import { type LengthOptions, parseLength } from './length.ts';
import { nearest } from './near.ts';
import { looksLikeDate } from './spreadsheet-date.ts';
import { parseTideWord } from './tide-word.ts';

export type CellValue = string | number | boolean | TideWord;

/** The value; the fault that refuses it; or both, where the value is kept as typed with a warning. */
export type ReadCell = { value: CellValue; fault?: Fault } | { value?: never; fault: Fault };

/** Reads one cell that is not blank. `column` names it for the messages. */
export function readCell(name: string, column: Column, text: string, options: LengthOptions): ReadCell {
  switch (column.kind) {
    case 'text':
    case 'label':
    case 'reference':
      // An é of one piece and an é of two are the same label.
      return { value: text.normalize('NFC') };
    case 'number':
      return readNumber(name, column, text, options.decimal_comma ?? false);
    case 'length': {
      const read = parseLength(text, options);
      if (!read.ok) {
        const { ok: _, ...fault } = read;
        return { fault };
      }
      if (read.metres >= column.min_m && read.metres <= column.max_m) return { value: read.metres };
      return { fault: outOfRange(name, text, read.metres, column.min_m, column.max_m, 'm') };
    }
    case 'choice':
      return readChoice(column, text);
    case 'boolean':
      return readBoolean(text);
    case 'tide': {
      const read = parseTideWord(text, options);
      if (read.ok) return { value: { level: read.level, offset_m: read.offset_m } };
      const { ok: _, ...fault } = read;
      return { fault };
    }
    case 'time':
      return readTime(text);
    case 'date':
      return isIsoDate(text) ? { value: text } : { value: text, fault: notADate(text) };
  }
}

const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i;
const WITH_UNIT = /^([-+]?(?:\d+[.,]?\d*|[.,]\d+)(?:e[-+]?\d+)?)\s*([\p{L}°%‰'"′″µ].*)$/iu;

function readNumber(
  name: string,
  column: NumberColumn<boolean>,
  text: string,
  decimal_comma: boolean,
): ReadCell {
  const typed = text.replace(/^[−–]/u, '-');
  const bare = withoutOwnUnit(typed, column.unit);
  if (decimal_comma && /^[-+]?\d*\.\d/.test(bare)) return { fault: decimalMarkFault(text, true) };
  const plain = decimal_comma ? bare.replace(',', '.') : bare;
  if (!NUMBER.test(plain)) return { fault: notANumber(column, text, bare, decimal_comma) };
  const value = Number(plain);
  if (!(value >= column.min && value <= column.max) || !Number.isFinite(value)) {
    return { fault: outOfRange(name, text, value, column.min, column.max, column.unit) };
  }
  if (column.integer && !Number.isInteger(value)) {
    return {
      fault: { code: 'not-whole', found: text, expected: 'a whole number', fix: 'Correct it.' },
    };
  }
  // A typed −0 is 0.
  return { value: value === 0 ? 0 : value };
}

/** The number without the column's own unit behind it. */
function withoutOwnUnit(typed: string, unit: string): string {
  const behind = WITH_UNIT.exec(typed);
  const own = unit === 'deg' ? ['deg', '°'] : [unit];
  return behind !== null && own.includes(behind[2]!.trim()) ? behind[1]! : typed;
}

function notANumber(
  column: NumberColumn<boolean>,
  text: string,
  typed: string,
  decimal_comma: boolean,
): Fault {
  const expected = column.unit === '' ? 'a number' : `a number (${column.unit})`;
  if (looksLikeDate(typed)) return dateFault(text, expected);
  const unit = WITH_UNIT.exec(typed)?.[2];
  if (unit !== undefined) {
    const metres = column.unit === 'm' ? parseLength(text, { decimal_comma }) : null;
    return {
      code: 'wrong-unit',
      found: text,
      expected,
      fix: metres?.ok
        ? `It is in metres here: write ${metres.metres}.`
        : `“${unit}” does not belong here: check that it is in the right place, and write the number alone.`,
    };
  }
  if (/^[-+]?\d[\d., '’\u00a0\u2009\u202f]*$/u.test(typed)) return decimalMarkFault(text, decimal_comma);
  return {
    code: 'not-a-number',
    found: text,
    expected,
    fix: typed.startsWith('#')
      ? 'This is the error of a spreadsheet formula: write the number itself.'
      : 'Write the number alone; doubts and limits go into the note.',
  };
}

function outOfRange(
  name: string,
  text: string,
  value: number,
  min: number,
  max: number,
  unit: string,
): Fault {
  const of = unit === '' ? '' : ` ${unit}`;
  if (value < 0 && min === 0 && /(?:^|_)(?:error|sigma|sd|value)(?:_|$)/.test(name)) {
    return {
      code: 'negative-error',
      found: text,
      expected: 'an error of 0 or more',
      fix: 'Write the error without its sign.',
    };
  }
  const range =
    max === Number.POSITIVE_INFINITY
      ? min === Number.NEGATIVE_INFINITY
        ? 'a finite number'
        : `at least ${min}${of}`
      : min === Number.NEGATIVE_INFINITY
        ? `at most ${max}${of}`
        : `${min} to ${max}${of}`;
  return { code: 'out-of-range', found: text, expected: range, fix: 'Check number and unit.' };
}

/** Choices are written with _; spaces, hyphens and capitals do not matter. */
function readChoice({ choices, names }: ChoiceColumn<string, boolean>, text: string): ReadCell {
  if (choices.includes(text)) return { value: text };
  const loose = plainWord(text);
  const same = choices.find((choice) => plainWord(choice) === loose);
  if (same !== undefined) return { value: same };
  return names === undefined ? { fault: choiceFault(text, choices, '') } : { value: text.normalize('NFC') };
}

/** A word that is none of the choices; `or` says what else it might have been. */
export function choiceFault(text: string, choices: readonly string[], or: string): Fault {
  const near = nearest(plainWord(text), choices);
  return {
    code: 'unknown-choice',
    found: text,
    expected: `one of ${choices.map(choiceName).join(', ')}${or}`,
    fix: near === null ? 'Choose one of them.' : `Perhaps ${choiceName(near)} is meant.`,
  };
}

/** A word as headings and choices are compared: small letters, _ for spaces and hyphens. */
export const plainWord = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/gu, '_');

/** The same of a heading, which may have a byte-order mark in front. */
export const plainHeading = (heading: string): string => plainWord(heading.replace(/^\ufeff/, ''));

const YES = new Set(['true', 'yes', 'y', '1']);
const NO = new Set(['false', 'no', 'n', '0']);

function readBoolean(text: string): ReadCell {
  const word = text.toLowerCase();
  if (YES.has(word)) return { value: true };
  if (NO.has(word)) return { value: false };
  return {
    fault: { code: 'not-yes-or-no', found: text, expected: 'yes or no', fix: 'Write yes or no.' },
  };
}

function readTime(text: string): ReadCell {
  const form = isoTime(text);
  if (form === 'offset') return { value: text };
  return {
    value: text,
    fault: {
      code: form === 'local' ? 'time-without-offset' : 'not-a-time',
      found: text,
      expected: 'a date and time with its offset from UTC, such as 2024-03-05T14:30+08:00',
      fix: 'It is kept as typed: times are information and order nothing. Write it with its offset to compare it with tides.',
    },
  };
}

function notADate(text: string): Fault {
  return {
    code: 'not-a-date',
    found: text,
    expected: 'a date, year first, such as 2024-03-05',
    fix: 'It is kept as typed. Write it year first, so that day and month cannot be confused.',
  };
}
