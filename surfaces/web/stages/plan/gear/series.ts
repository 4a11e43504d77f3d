/** A series of joints as rows of the stock: "A1 to A12, 1.52 m each", or lengths pasted one a line. */
import { itemKey } from '@stillstand/campaign/holes';
import { type LengthOptions, parseLength } from '@stillstand/campaign/tables';

export interface SeriesAsked {
  first: string;
  last: string;
  /** Of each of them, as typed; empty where they are not measured yet. */
  length: string;
  /** Instead of `last` and `length`: "3.05 m" or "A1 3.05 m", one a line. */
  lengths: string;
  item: string;
  makeup_loss: string;
  pipe: string;
}

export interface Series {
  rows: Record<string, string>[];
  /** Labels that the stock has already: left as they are. */
  there: string[];
  /** What is wrong with what was typed, and what to do; null where nothing is. */
  fault: string | null;
}

/** So many at once, lest a slip of a digit fills the stock. */
const MOST = 200;

/** `taken`: keys (`itemKey`) of the stock. */
export function seriesOf(
  asked: SeriesAsked,
  taken: ReadonlySet<string>,
  unit: LengthOptions['unit'],
): Series {
  const listed = asked.lengths.trim() === '' ? fromTo(asked) : pasted(asked, unit);
  if (typeof listed === 'string') return { rows: [], there: [], fault: listed };
  const fault = [...listed.map((one) => one.length), asked.makeup_loss]
    .map((typed) => lengthFault(typed, unit))
    .find((words) => words !== null);
  if (fault !== undefined) return { rows: [], there: [], fault };
  const keys = listed.map(({ label }) => itemKey(asked.item, label));
  const twice = listed.find((_, i) => keys.indexOf(keys[i]!) !== i);
  if (twice !== undefined)
    return { rows: [], there: [], fault: `${twice.label} is there twice. Each label once.` };
  const isThere = (i: number): boolean => taken.has(keys[i]!);
  const { item, makeup_loss, pipe } = asked;
  return {
    rows: listed.flatMap(({ label, length }, i) =>
      isThere(i) ? [] : [filled({ stock_item: label, item, length, makeup_loss, pipe })],
    ),
    there: listed.flatMap(({ label }, i) => (isThere(i) ? [label] : [])),
    fault: null,
  };
}

interface Listed {
  label: string;
  length: string;
}

const filled = (cells: Record<string, string>): Record<string, string> =>
  Object.fromEntries(
    Object.entries(cells).flatMap(([name, cell]) => (cell.trim() === '' ? [] : [[name, cell.trim()]])),
  );

/** "A7" is A and 7, written with one digit. */
function partsOf(label: string): { prefix: string; number: number; digits: number } | null {
  const parts = /^(.*?)(\d{1,6})$/.exec(label.trim());
  return parts === null ? null : { prefix: parts[1]!, number: Number(parts[2]), digits: parts[2]!.length };
}

function labelAt({ prefix, number, digits }: NonNullable<ReturnType<typeof partsOf>>, i: number): string {
  return prefix + String(number + i).padStart(digits, '0');
}

function fromTo({ first, last, length }: SeriesAsked): Listed[] | string {
  if (first.trim() === '') return '';
  if (last.trim() === '') return [{ label: first.trim(), length }];
  const [from, to] = [partsOf(first), partsOf(last)];
  if (from === null || to === null || from.prefix.toUpperCase() !== to.prefix.toUpperCase())
    return `Found “${first.trim()}” to “${last.trim()}”; expected labels that differ in their number, such as A1 to A12.`;
  const count = to.number - from.number + 1;
  if (count < 1) return `${last.trim()} is before ${first.trim()}. Exchange them.`;
  if (count > MOST) return `Found ${count} items; expected ${MOST} at most. Add them in parts.`;
  return Array.from({ length: count }, (_, i) => ({ label: labelAt(from, i), length }));
}

/** A line is a length, or a label and a length; those without a label run on from the first. */
function pasted({ first, lengths }: SeriesAsked, unit: LengthOptions['unit']): Listed[] | string {
  const from = partsOf(first);
  const lines = lengths.split(/[\n;]+/).flatMap((line) => (line.trim() === '' ? [] : [line.trim()]));
  if (lines.length > MOST) return `Found ${lines.length} lines; expected ${MOST} at most. Add them in parts.`;
  const listed: Listed[] = [];
  let bare = 0;
  for (const line of lines) {
    const parts = /^(\S+)[\s,:]+(.+)$/.exec(line);
    if (parseLength(line, { unit: unit ?? null }).ok) {
      if (from === null) return 'Enter the first label, such as A1: the lengths have none.';
      listed.push({ label: labelAt(from, bare++), length: line });
    } else if (parts !== null && parseLength(parts[2]!, { unit: unit ?? null }).ok) {
      listed.push({ label: parts[1]!.replace(/[,:]$/, ''), length: parts[2]! });
    } else return `Found “${line}”; expected a length with its unit, or a label and a length: A1 3.05 m.`;
  }
  return listed;
}

function lengthFault(typed: string, unit: LengthOptions['unit']): string | null {
  if (typed.trim() === '') return null;
  const read = parseLength(typed, { unit: unit ?? null });
  return read.ok ? null : `Found “${typed.trim()}”; expected ${read.expected}.`;
}
