/**
 * Reads the cells of an .xlsx workbook (ECMA-376, Office Open XML, part 1: SpreadsheetML) as text: shared and inline
 * strings, numbers, truth values, errors, and numbers that their style shows as dates. Values of formulas are those the
 * workbook was saved with; nothing in it is run.
 */
import { strFromU8, unzipSync } from 'fflate';
import { lettersOf, placeOf } from './columns.ts';
import type { TheirLine, TheirSheet } from './sheet.ts';

/** Unpacked, of one part: far beyond any table, far below what would stop the page. */
const MOST_PART = 60_000_000;
/** The same, of all parts together. */
const MOST_PARTS = 120_000_000;
const MOST_CELLS = 1_000_000;
const PARTS =
  /^xl\/(?:workbook\.xml|styles\.xml|sharedStrings\.xml|_rels\/workbook\.xml\.rels|worksheets\/[^/]+\.xml)$/;

/** Something about a workbook that a person should know. */
export interface Remark {
  severity: 'warning' | 'note';
  code: string;
  found: string;
  expected: string;
  fix: string;
}

/** Never throws; `fault` says what the file is, where it cannot be read. */
export function readWorkbook(bytes: Uint8Array): {
  sheets: TheirSheet[];
  fault: string | null;
  remarks: Remark[];
} {
  try {
    let room = MOST_PARTS;
    const parts = unzipSync(bytes, {
      // No part is inflated beyond the size it states.
      filter: (file) => {
        if (!PARTS.test(file.name) || file.originalSize > MOST_PART) return false;
        room -= file.originalSize;
        if (room < 0) throw new RangeError(`it unpacks to more than ${MOST_PARTS / 1e6} MB`);
        return true;
      },
    });
    const part = (name: string): string => (parts[name] === undefined ? '' : strFromU8(parts[name]));
    const workbook = part('xl/workbook.xml');
    if (workbook === '') return refused(unreadable(bytes));
    const strings = sharedStrings(part('xl/sharedStrings.xml'));
    const styles = numberStyles(part('xl/styles.xml'));
    const targets = new Map<string, string>();
    for (const { name, of } of elements(part('xl/_rels/workbook.xml.rels'))) {
      if (name === 'Relationship') targets.set(of('Id'), of('Target').replace(/^\/?(?:xl\/)?/, 'xl/'));
    }
    const is1904 = /<(?:\w+:)?workbookPr[^>]*date1904="(?:1|true)"/.test(workbook);
    const sheets: TheirSheet[] = [];
    const remarks: Remark[] = [];
    for (const { name, of } of elements(workbook)) {
      if (name !== 'sheet' || of('state') === 'veryHidden') continue;
      const xml = part(targets.get(of('r:id') || of('id')) ?? '');
      const { lines, uncounted, hidden } = linesOf(xml, strings, styles, is1904);
      if (lines.length > 0) sheets.push({ name: of('name'), lines });
      if (uncounted.length > 0) remarks.push(neverCounted(of('name'), uncounted));
      if (hidden > 0) remarks.push(hiddenLines(of('name'), hidden));
    }
    return sheets.length === 0 ? refused('a workbook without any cells') : { sheets, fault: null, remarks };
  } catch (error) {
    return refused(
      `a file that breaks off or is damaged (${error instanceof Error ? error.message : error})`,
    );
  }
}

const refused = (fault: string) => ({ sheets: [], fault, remarks: [] });

/** What a zip without a workbook is. */
function unreadable(bytes: Uint8Array): string {
  const front = strFromU8(bytes.subarray(0, 200), true);
  return front.includes('opendocument') ? 'an OpenDocument spreadsheet' : 'a zip file without a workbook';
}

const neverCounted = (sheet: string, cells: readonly string[]): Remark => ({
  severity: 'warning',
  code: 'formula-without-value',
  found: `${sheet}: ${cells.slice(0, 8).join(', ')}${cells.length > 8 ? ` and ${cells.length - 8} more` : ''}`,
  expected: 'formulas saved with their values',
  fix: 'Formulas are not run: open it in a spreadsheet program, save it again, and import that. These cells are read as empty.',
});

const hiddenLines = (sheet: string, lines: number): Remark => ({
  severity: 'note',
  code: 'hidden-lines',
  found: `${sheet}: ${lines} hidden ${lines === 1 ? 'line' : 'lines'}`,
  expected: 'lines that are seen',
  fix: 'They are read like the others: leave out those that are not wanted.',
});

interface Element {
  /** Without its prefix. */
  name: string;
  closes: boolean;
  /** Closed in itself. */
  isEmpty: boolean;
  of: (attribute: string) => string;
  /** Text up to the next tag. */
  text: string;
}

/** Every tag in its order, with the text behind it. */
function* elements(xml: string): Generator<Element> {
  for (const [, slash, name, attributes, end, text] of xml.matchAll(
    /<(\/?)(?:\w+:)?(\w+)((?:\s+[\w:]+\s*=\s*(?:"[^"]*"|'[^']*'))*)\s*(\/?)>([^<]*)/g,
  )) {
    const of = (attribute: string): string =>
      plain(new RegExp(`\\s${attribute}\\s*=\\s*["']([^"']*)["']`).exec(attributes!)?.[1] ?? '');
    yield { name: name!, closes: slash === '/', isEmpty: end === '/', of, text: text! };
  }
}

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', apos: "'", amp: '&' };
const plain = (text: string): string =>
  text
    .replace(/&(?:#x([0-9a-f]+)|#(\d+)|(lt|gt|quot|apos|amp));/gi, (_, hex, decimal, name) =>
      name !== undefined
        ? ENTITIES[name.toLowerCase()]!
        : String.fromCodePoint(hex ? Number.parseInt(hex, 16) : Number(decimal)),
    )
    .replace(/_x([0-9A-F]{4})_/g, (_, hex) => String.fromCharCode(Number.parseInt(hex, 16)));

/** Runs of one string are joined; phonetic readings are left out. */
function sharedStrings(xml: string): string[] {
  const strings: string[] = [];
  let isPhonetic = false;
  for (const { name, closes, isEmpty, text } of elements(xml)) {
    if (name === 'si' && !closes) strings.push('');
    else if (name === 'rPh') isPhonetic = !closes && !isEmpty;
    else if (name === 't' && !closes && !isPhonetic) strings[strings.length - 1] += plain(text);
  }
  return strings;
}

type Shown = 'date' | 'percent';

/** By the place of a cell style, how it shows numbers where that is not as they are. */
function numberStyles(xml: string): Map<number, Shown> {
  const formats = new Map<number, Shown>([9, 10].map((id) => [id, 'percent']));
  for (const id of [14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47]) formats.set(id, 'date');
  const found = new Map<number, Shown>();
  let isCellFormat = false;
  let at = 0;
  for (const { name, closes, of } of elements(xml)) {
    if (name === 'numFmt') {
      const code = of('formatCode').replace(/"[^"]*"|\[[^\]]*\]|\\./g, '');
      const shown = code.includes('%') ? 'percent' : /[ymdhs]/i.test(code) ? 'date' : null;
      if (shown !== null) formats.set(Number(of('numFmtId')), shown);
    } else if (name === 'cellXfs') isCellFormat = !closes;
    else if (name === 'xf' && isCellFormat && !closes) {
      const shown = formats.get(Number(of('numFmtId')));
      if (shown !== undefined) found.set(at, shown);
      at++;
    }
  }
  return found;
}

/** Past it a spreadsheet has no columns. */
const MOST_COLUMNS = 1000;

interface SheetLines {
  lines: TheirLine[];
  /** Cells with a formula and no value. */
  uncounted: string[];
  hidden: number;
}

function linesOf(
  xml: string,
  strings: readonly string[],
  styles: ReadonlyMap<number, Shown>,
  is1904: boolean,
): SheetLines {
  const lines: { line: number; cells: string[] }[] = [];
  const uncounted: string[] = [];
  const merged: string[] = [];
  let hidden = 0;
  let line: { line: number; cells: string[] } = { line: 0, cells: [] };
  let column = 0;
  let type = '';
  let style = 0;
  let count = 0;
  let holds: 'v' | 't' | null = null;
  let formula: string | null = null;
  for (const { name, closes, isEmpty, of, text } of elements(xml)) {
    if (name === 'row' && !closes) {
      line = { line: Number(of('r')) || line.line + 1, cells: [] };
      column = 0;
      lines.push(line);
      if (/^(?:1|true)$/.test(of('hidden'))) hidden++;
    } else if (name === 'mergeCell' && !closes) merged.push(of('ref'));
    else if (name === 'c' && closes) {
      if (formula !== null) uncounted.push(formula);
      formula = null;
    } else if (name === 'c') {
      const letters = /^[A-Z]+/.exec(of('r'))?.[0];
      if (letters !== undefined) column = placeOf(letters);
      type = of('t');
      style = Number(of('s')) || 0;
      column++;
      if (++count > MOST_CELLS) throw new RangeError(`more than ${MOST_CELLS} cells`);
    } else if (name === 'f' && !closes) formula = `${lettersOf(column - 1)}${line.line}`;
    else if (name === 'v' || name === 't') {
      holds = closes || isEmpty ? null : name;
      if (holds === null || column > MOST_COLUMNS) continue;
      formula = null;
      while (line.cells.length < column) line.cells.push('');
      line.cells[column - 1] +=
        holds === 't' ? plain(text) : shownValue(plain(text), type, strings, styles.get(style), is1904);
    }
  }
  spread(lines, merged);
  return { lines: lines.filter(({ cells }) => cells.some((cell) => cell.trim() !== '')), uncounted, hidden };
}

function shownValue(
  value: string,
  type: string,
  strings: readonly string[],
  shown: Shown | undefined,
  is1904: boolean,
): string {
  if (type === 's') return strings[Number(value)] ?? '';
  if (type === 'b') return value === '1' ? 'yes' : 'no';
  if (type !== '' && type !== 'n') return value;
  if (shown === 'date') return isoDate(Number(value), is1904);
  return shown === 'percent' ? `${number(String(100 * Number(value)))}%` : number(value);
}

/** A merged cell is said in each of the cells it covers, within the lines and columns that are there. */
function spread(lines: readonly { line: number; cells: string[] }[], merged: readonly string[]): void {
  const byLine = new Map(lines.map((line) => [line.line, line.cells]));
  const last = lines.at(-1)?.line ?? 0;
  let room = MOST_CELLS;
  for (const ref of merged) {
    const [, left, top, right, bottom] = /^([A-Z]{1,3})(\d{1,7}):([A-Z]{1,3})(\d{1,7})$/.exec(ref) ?? [];
    if (bottom === undefined) continue;
    const from = placeOf(left!);
    const to = Math.min(placeOf(right!), MOST_COLUMNS - 1);
    const said = byLine.get(Number(top))?.[from] ?? '';
    if (said.trim() === '') continue;
    for (let line = Number(top); line <= Math.min(Number(bottom), last); line++) {
      room -= 1 + Math.max(0, to - from);
      if (room < 0) throw new RangeError(`merged cells over more than ${MOST_CELLS} cells`);
      const cells = byLine.get(line);
      if (cells === undefined) continue;
      while (cells.length <= to) cells.push('');
      cells.fill(said, from, to + 1);
    }
  }
}

/** Without the noise of binary fractions: 15 digits are what a spreadsheet shows. */
const number = (text: string): string => {
  const value = Number(text);
  return Number.isFinite(value) && text.trim() !== '' ? String(Number(value.toPrecision(15))) : text;
};

/** Days since the end of 1899 (with the 29 February 1900 that never was), or since 1904. */
function isoDate(serial: number, is1904: boolean): string {
  const days = is1904 ? serial + 1462 : serial < 60 ? serial + 1 : serial;
  // biome-ignore lint/plugin: the day a cell shows, not the clock, and said in no zone but UTC
  const date = new Date(Math.round((days - 25569) * 86400) * 1000);
  return Number.isNaN(date.getTime())
    ? String(serial)
    : date
        .toISOString()
        .slice(0, serial % 1 === 0 ? 10 : 16)
        .replace('T', ' ');
}
