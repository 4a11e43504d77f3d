/** A cell of theirs as the cell of ours that says the same: its unit written with it, or converted where ours has one. */
import { type Column, type Fault, parseLength } from '@stillstand/campaign/tables';
import { readHalf, withPlainSigns } from '@stillstand/science/survey';
import { type Decimal, half, middle, readDecimal, times, writeDecimal } from './decimal.ts';
import type { Said } from './given.ts';
import { type Mapping, wordFor } from './mapping.ts';
import { readTheirNumber, type TheirNumber } from './their-number.ts';
import { converted, isLengthUnit, unitCalled, unitsFor } from './units.ts';

export interface OurCell {
  /** Null where the cell says nothing, or has a fault. */
  cell: string | null;
  fault: Fault | null;
  /** What the note should keep, because the cell does not say it. */
  notes: string[];
  /** What else stood in the cell. */
  number: TheirNumber | null;
}

const NOTHING: OurCell = { cell: null, fault: null, notes: [], number: null };
const refused = (fault: Fault): OurCell => ({ ...NOTHING, fault });

/** A length: a number and its unit, exact. */
export interface Length {
  value: Decimal;
  unit: string;
}

export const writtenLength = ({ value, unit }: Length): string => `${writeDecimal(value)} ${unit}`;

/** The same in metres, exactly; null for a unit that is no length. */
export function inMetres({ value, unit }: Length): Decimal | null {
  const metres = converted(writeDecimal(value), unit, 'm');
  return metres === null ? null : readDecimal(metres);
}

/** Ends of a length: of "12–14 cm" both, of "12 cm" the same twice. */
export interface ReadLength {
  fault: Fault | null;
  from: Length | null;
  to: Length | null;
  /** As typed, where that is a length of ours with its unit already. */
  typed: string | null;
  isRange: boolean;
  notes: string[];
}

export function readLength({ text, column }: Said, { decimal_comma }: Mapping): ReadLength {
  const none: ReadLength = { fault: null, from: null, to: null, typed: null, isRange: false, notes: [] };
  const read = readTheirNumber(text, decimal_comma);
  if (read.kind === 'blank') return { ...none, notes: noted(read.remark, column.heading) };
  if (read.kind !== 'number') {
    const feet = parseLength(text, { decimal_comma });
    if (feet.ok) {
      const value = readDecimal(String(feet.metres))!;
      return { ...none, from: { value, unit: 'm' }, to: { value, unit: 'm' }, typed: text };
    }
    return { ...none, fault: unreadable(read.kind, text, 'a length') };
  }
  if (read.qualifier === 'not_determined' || read.value === '') return none;
  const unit = read.unit === null ? column.unit : unitCalled(read.unit);
  if (unit === null || !isLengthUnit(unit)) {
    const expected = 'a unit of length: m, cm, mm, ft, in';
    const fix =
      read.unit === null
        ? `State the unit of “${column.heading}”.`
        : 'Correct the cell, or choose another column.';
    return { ...none, fault: { code: 'no-unit', found: text, expected, fix } };
  }
  const length = (number: string): Length => plainUnit({ value: readDecimal(number)!, unit });
  const ends = read.range ?? [read.value, read.value];
  const limit =
    read.qualifier === null ? [] : [`${column.heading}: ${text}${read.unit === null ? ` ${unit}` : ''}`];
  return {
    fault: null,
    from: length(ends[0]),
    to: length(ends[1]),
    typed: null,
    isRange: read.range !== null,
    notes: [...limit, ...read.remarks.map((remark) => `${column.heading}: ${remark}`)],
  };
}

/** Decimetres are no unit of ours. */
const plainUnit = (length: Length): Length =>
  length.unit === 'dm' ? { value: times(length.value, 10, 0), unit: 'cm' } : length;

const noted = (remark: string | null, heading: string): string[] =>
  remark === null ? [] : [`${heading}: ${remark}`];

/** One cell for a column of ours. `name`: of that column. */
export function ourCell(name: string, column: Column, said: Said, mapping: Mapping): OurCell {
  const { text } = said;
  if (column.kind === 'length') {
    const read = readLength(said, mapping);
    if (read.fault !== null || read.from === null)
      return { ...NOTHING, fault: read.fault, notes: read.notes };
    const range = read.isRange ? [`${said.column.heading}: ${text}, its middle is written`] : [];
    const value = read.isRange ? middle(read.from.value, read.to!.value) : read.from.value;
    const cell = read.typed ?? writtenLength({ value, unit: read.from.unit });
    return { ...NOTHING, cell, notes: [...read.notes, ...range] };
  }
  if (column.kind === 'number') return numberCell(name, column.unit, said, mapping);
  const word = wordFor(mapping, name, text);
  if (/^(?:[-–—]+|n\/?a|none|nan)$/i.test(word) && !column.required) return NOTHING;
  return { ...NOTHING, cell: word };
}

function numberCell(name: string, ours: string, said: Said, { decimal_comma }: Mapping): OurCell {
  const { text, column } = said;
  const minutes = ours === 'deg' ? degrees(text) : null;
  if (minutes !== null) return { ...NOTHING, cell: minutes };
  const read = readTheirNumber(text, decimal_comma);
  const expected = ours === '' || ours === 'as stated' ? 'a number' : `a number (${ours})`;
  if (read.kind === 'blank') return { ...NOTHING, notes: noted(read.remark, column.heading) };
  if (read.kind !== 'number') return refused(unreadable(read.kind, text, expected));
  const notes = read.remarks.map((remark) => `${column.heading}: ${remark}`);
  if (read.range !== null) notes.push(`${column.heading}: ${text}, its middle is written`);
  if (read.value === '') return { ...NOTHING, notes, number: read };
  const direction = ours === 'deg' ? /^[NSEW]$/i.exec(read.unit ?? '')?.[0].toUpperCase() : undefined;
  const isCalibrated = /\bcal/i.test(read.unit ?? '') && name === 'value';
  const unit =
    read.unit === null || direction !== undefined ? column.unit : (unitCalled(read.unit) ?? read.unit);
  if (unit === null && (ours === 'm' || ours === 'mm')) {
    const fix = `State the unit of “${column.heading}”.`;
    return refused({ code: 'no-unit', found: text, expected: 'a unit of length: m, cm, mm, ft, in', fix });
  }
  // A unit in the cell that is another than the column's is no number of that column.
  const asStated = column.unit === null || unit === column.unit ? read.value : null;
  const value = isCalibrated ? null : ours === 'as stated' ? asStated : converted(read.value, unit, ours);
  if (value === null) {
    return refused({
      code: 'wrong-unit',
      found: read.unit === null ? `${text} ${unit}` : text,
      expected: `${expected}, or one in ${unitsFor(ours).join(', ') || (column.unit ?? ours)}`,
      fix: isCalibrated
        ? 'This age is calibrated already: choose the column of the conventional age.'
        : 'Choose another column for it, or correct its unit.',
    });
  }
  const signed = (direction === 'S' || direction === 'W') && !value.startsWith('-') ? `-${value}` : value;
  return {
    ...NOTHING,
    cell: signed,
    notes,
    number: { ...read, unit, error: inOurs(read.error, unit, ours) },
  };
}

const inOurs = (error: string | null, unit: string | null, ours: string): string | null =>
  error === null || ours === 'as stated' ? error : converted(error, unit, ours);

/** 31°32'12.5"N as decimal degrees, to 1e-7 (a centimetre). */
function degrees(text: string): string | null {
  const half = readHalf(withPlainSigns(text));
  return half === null || half.parts === 1 ? null : half.value.toFixed(7);
}

function unreadable(kind: 'date' | 'unreadable', found: string, expected: string): Fault {
  if (kind === 'date') {
    return {
      code: 'date-for-number',
      found,
      expected,
      fix: 'A spreadsheet has made a date of it (3-5 becomes 3 May): write what the printed table says into the cell, its column set to text, and import again.',
    };
  }
  if (found.startsWith('=') || found.startsWith('#')) {
    return {
      code: 'formula-for-number',
      found,
      expected,
      fix: 'This is a formula or its error: save the table with values instead, and import again.',
    };
  }
  return {
    code: 'not-a-number',
    found,
    expected,
    fix: 'Correct the cell, choose another column, or leave the line out.',
  };
}

/** An error stated at one sigma level as it is at another. */
export function atSigma(error: string, theirs: 1 | 2, ours: 1 | 2): string {
  const decimal = readDecimal(error);
  if (decimal === null || theirs === ours) return error;
  return writeDecimal(theirs === 2 ? half(decimal) : times(decimal, 2, 0));
}
