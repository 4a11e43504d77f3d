/**
 * A number as people write it into a table: with its unit, a limit, a range, an error, a mark of a footnote, thousands
 * parted. Read right or refused; what is taken from it beyond the number is said.
 */
import { looksLikeDate, readLimit } from '@stillstand/campaign/tables';
import { compare, middle, readDecimal, writeDecimal } from './decimal.ts';
import { unitCalled } from './units.ts';

export interface TheirNumber {
  /** Plain: a point, no thousands; empty for a limit without a number. */
  value: string;
  /** Unit written behind it. */
  unit: string | null;
  qualifier: 'less_than' | 'greater_than' | 'not_determined' | null;
  /** Error written with it, the larger of two. */
  error: string | null;
  /** Ends of a range, of which the value is the middle. */
  range: readonly [string, string] | null;
  /** What should be said of it: taken as about, footnote left out … */
  remarks: readonly string[];
}

export type ReadNumber =
  | ({ kind: 'number' } & TheirNumber)
  | { kind: 'blank'; remark: string | null }
  | { kind: 'date' }
  | { kind: 'unreadable' };

const BLANK = /^(?:|[-–—.…]+|n\.?\/?a\.?|not available|none|null|nan|\?+|no data|unknown)$/iu;
/** Numbers that programs write for none. */
const FILLER = /^[-−]9{3,6}(?:\.0+)?$/u;
const FOOTNOTE = /(?:[*†‡§#]+|[¹²³⁴⁵⁶⁷⁸⁹⁰ᵃᵇᶜᵈᵉᶠ]+)$/u;
const ABOUT = /^(?:c(?:a|irca)?\.?|~|≈|approx\.?|about)\s*(?=[-+−]?[\d.,])/iu;

const N = String.raw`[-+−–]?(?:\d[\d., '’\u00a0\u2009\u202f]*\d|\d|[.,]\d+)(?:e[-+]?\d{1,2})?`;
// A unit is not the "to" between two numbers, and no number stands in it by itself.
const UNIT = String.raw`(?:\s*((?!(?:to|bis)\b)[\p{L}%°‰"'′″µ](?:(?!\s(?:to|bis)\b)(?:[\p{L}%°‰"'′″µ/. ()^⁻²³-]|(?<!\s[-−–]?)\d))*))?`;
const SINGLE = new RegExp(`^(${N})${UNIT}$`, 'iu');
const RANGE = new RegExp(`^(${N})${UNIT}\\s*(?:-|–|—|−|to|\\.\\.+|…|bis)\\s*(${N})${UNIT}$`, 'iu');
const WITH_ERROR = new RegExp(`^(${N})\\s*(?:±|\\+\\s*\\/?\\s*[-−–])\\s*(${N})${UNIT}$`, 'iu');
const TWO_ERRORS = new RegExp(`^(${N})\\s*\\+\\s*(${N})\\s*\\/?\\s*[-−–]\\s*(${N})${UNIT}$`, 'iu');

/** Longer cells are texts. */
const LONGEST = 80;

/** Reads one cell. `decimal_comma`: 3,05 is 3.05, and a point parts thousands. */
export function readTheirNumber(text: string, decimal_comma: boolean): ReadNumber {
  const typed = text
    .normalize('NFC')
    .replace(/[\s\u00a0]+/gu, ' ')
    .trim();
  if (BLANK.test(typed)) return { kind: 'blank', remark: null };
  if (FILLER.test(typed)) return { kind: 'blank', remark: `“${typed}” is read as no value` };
  if (typed.length > LONGEST) return { kind: 'unreadable' };
  const limit = readLimit(typed);
  if (limit !== null && limit.value === '') return number({ qualifier: limit.qualifier });
  const remarks: string[] = [];
  let rest = limit?.value ?? typed;
  const mark = FOOTNOTE.exec(rest)?.[0];
  if (mark !== undefined && mark !== rest) {
    rest = rest.slice(0, -mark.length).trim();
    remarks.push(`the mark “${mark}” is left out`);
  }
  if (ABOUT.test(rest)) {
    rest = rest.replace(ABOUT, '');
    remarks.push(`“${typed}” is taken as it is`);
  }
  // "±28": an error in a cell of its own
  rest = rest.replace(/^(?:±|\+\s*\/?\s*[-−–])\s*(?=[\d.,])/u, '');
  // "5920 14C yr BP": the isotope is no number.
  rest = rest.replace(/(\d)\s+14\s?C(?=\s|$)/iu, '$1');
  if (limit === null && looksLikeDate(rest)) return { kind: 'date' };
  const alone = single(rest, decimal_comma, remarks);
  // "0.3 g cm-3" is no range, "12 cm-14 cm" no unit.
  const isSure = alone?.unit == null || unitCalled(alone.unit) !== null;
  const read =
    alone !== null && isSure
      ? alone
      : ((limit === null ? several(rest, decimal_comma, remarks) : null) ?? alone);
  return read === null ? { kind: 'unreadable' } : number({ ...read, qualifier: limit?.qualifier ?? null });
}

const number = (parts: Partial<TheirNumber>): ReadNumber => ({
  kind: 'number',
  value: '',
  unit: null,
  qualifier: null,
  error: null,
  range: null,
  remarks: [],
  ...parts,
});

type Parts = Partial<TheirNumber> | null;

function single(text: string, decimal_comma: boolean, remarks: string[]): Parts {
  const form = SINGLE.exec(text);
  const value = form === null ? null : plainNumber(form[1]!, decimal_comma);
  return value === null ? null : { value, unit: form![2]?.trim() ?? null, remarks };
}

function several(text: string, decimal_comma: boolean, remarks: string[]): Parts {
  const two = TWO_ERRORS.exec(text);
  if (two !== null) {
    const [value, up, down] = [two[1]!, two[2]!, two[3]!].map((part) => plainNumber(part, decimal_comma));
    if (value == null || up == null || down == null) return null;
    const error = larger(up, down);
    return {
      value,
      error,
      unit: two[4]?.trim() ?? null,
      remarks: [...remarks, `of the errors +${up} and −${down} the larger is taken`],
    };
  }
  const one = WITH_ERROR.exec(text);
  if (one !== null) {
    const [value, error] = [one[1]!, one[2]!].map((part) => plainNumber(part, decimal_comma));
    return value == null || error == null ? null : { value, error, unit: one[3]?.trim() ?? null, remarks };
  }
  const range = RANGE.exec(text);
  if (range === null) return null;
  const [from, to] = [range[1]!, range[3]!].map((part) => plainNumber(part, decimal_comma));
  const [a, b] = [readDecimal(from ?? ''), readDecimal(to ?? '')];
  if (a === null || b === null) return null;
  const unit = range[4]?.trim() ?? range[2]?.trim() ?? null;
  return { value: writeDecimal(middle(a, b)), range: [from!, to!], unit, remarks };
}

/** Of two numbers the one further from 0. */
export function larger(a: string, b: string): string {
  const [x, y] = [readDecimal(a.replace(/^[-−]/u, '')), readDecimal(b.replace(/^[-−]/u, ''))];
  return x !== null && y !== null && compare(y, x) > 0 ? b.replace(/^[-−]/u, '') : a.replace(/^[-−]/u, '');
}

/** A number without thousands marks and with a point; null where it is not written as the table writes numbers. */
function plainNumber(text: string, decimal_comma: boolean): string | null {
  const [point, thousands] = decimal_comma ? [',', '.'] : ['.', ','];
  const spaced = text.trim().replace(/^[−–]/u, '-').replace(/^\+/, '');
  const [number = '', exponent] = spaced.split(/e/i);
  const [whole = '', decimals, ...more] = number.split(point);
  if (more.length > 0 || decimals === '') return null;
  const grouped = new RegExp(
    `^-?\\d{1,3}(?:([${thousands} '’\\u00a0\\u2009\\u202f])\\d{3})(?:\\1\\d{3})*$`,
    'u',
  );
  const plain = /^-?\d*$/.test(whole) ? whole : grouped.test(whole) ? whole.replace(/[^-\d]/gu, '') : null;
  if (plain === null || plain === '-') return plain === '-' && decimals ? `-0.${decimals}` : null;
  if (plain === '' && decimals === undefined) return null;
  const behind = decimals === undefined ? '' : `.${decimals}`;
  const written = `${plain || '0'}${behind}${exponent === undefined ? '' : `e${exponent}`}`;
  return readDecimal(written) === null ? null : written;
}

/** A short cell that begins as a number and has a mark in it. */
const NUMERIC = /^(?=.{2,40}$)[<>≤≥~±\s]*[-+−–]?\d*[.,]?\d[^\p{L}]*\p{L}{0,8}[^\p{L}]*$/u;

/** Which decimal mark a sheet writes. `asked`: nothing in it tells, but it matters. */
export function decimalMarkOf(cells: Iterable<string>): { decimal_comma: boolean; asked: boolean } {
  let comma = 0;
  let point = 0;
  let doubtful = 0;
  for (const cell of cells) {
    if (!NUMERIC.test(cell)) continue;
    for (const [found] of cell.matchAll(/\d*(?:[.,]\d+)+/g)) {
      const marks = [...found].filter((sign) => sign === '.' || sign === ',');
      const last = marks.at(-1)!;
      const behind = found.length - found.lastIndexOf(last) - 1;
      const inFront = found.indexOf(marks[0]!);
      if (
        new Set(marks).size > 1 ||
        (marks.length === 1 && (behind !== 3 || inFront > 3 || /^0?[.,]/.test(found)))
      ) {
        if (last === ',') comma++;
        else point++;
      } else if (marks.length > 1) {
        // 1.234.567: a mark that comes twice parts thousands.
        if (last === ',') point++;
        else comma++;
      } else if (last === ',') doubtful++;
    }
  }
  return { decimal_comma: comma > point, asked: comma === 0 && point === 0 && doubtful > 0 };
}
