/**
 * Reads the cells of an .xlsx workbook (ECMA-376, Office Open XML, part 1: SpreadsheetML) as text: shared and inline
 * strings, numbers, truth values, errors, and numbers that their style shows as dates. Values of formulas are those the
 * workbook was saved with; nothing in it is run.
 */
import { strFromU8, unzipSync } from 'fflate';
import type { TheirLine, TheirSheet } from './their-sheet.ts';

/** Unpacked, of one part: far beyond any table, far below what would stop the page. */
const MOST_PART = 60_000_000;
/** The same, of all parts together. */
const MOST_PARTS = 120_000_000;
const MOST_CELLS = 1_000_000;
const PARTS =
  /^xl\/(?:workbook\.xml|styles\.xml|sharedStrings\.xml|_rels\/workbook\.xml\.rels|worksheets\/[^/]+\.xml)$/;

export function readWorkbook(bytes: Uint8Array): { sheets: TheirSheet[]; fault: string | null } {
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
    if (workbook === '') return { sheets: [], fault: 'a zip file without a workbook' };
    const strings = sharedStrings(part('xl/sharedStrings.xml'));
    const dates = dateStyles(part('xl/styles.xml'));
    const targets = new Map<string, string>();
    for (const { name, of } of elements(part('xl/_rels/workbook.xml.rels'))) {
      if (name === 'Relationship') targets.set(of('Id'), of('Target').replace(/^\/?(?:xl\/)?/, 'xl/'));
    }
    const is1904 = /<(?:\w+:)?workbookPr[^>]*date1904="(?:1|true)"/.test(workbook);
    const sheets: TheirSheet[] = [];
    for (const { name, of } of elements(workbook)) {
      if (name !== 'sheet' || of('state') === 'veryHidden') continue;
      const lines = linesOf(part(targets.get(of('r:id') || of('id')) ?? ''), strings, dates, is1904);
      if (lines.length > 0) sheets.push({ name: of('name'), lines });
    }
    return { sheets, fault: sheets.length === 0 ? 'a workbook without any cells' : null };
  } catch (error) {
    return {
      sheets: [],
      fault: `a file that breaks off or is damaged (${error instanceof Error ? error.message : error})`,
    };
  }
}

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

/** Places of the cell styles whose numbers are shown as dates. */
function dateStyles(xml: string): Set<number> {
  const formats = new Set([14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47]);
  const found = new Set<number>();
  let isCellFormat = false;
  let at = 0;
  for (const { name, closes, of } of elements(xml)) {
    if (name === 'numFmt' && /[ymdhs]/i.test(of('formatCode').replace(/"[^"]*"|\[[^\]]*\]|\\./g, ''))) {
      formats.add(Number(of('numFmtId')));
    } else if (name === 'cellXfs') isCellFormat = !closes;
    else if (name === 'xf' && isCellFormat && !closes) {
      if (formats.has(Number(of('numFmtId')))) found.add(at);
      at++;
    }
  }
  return found;
}

function linesOf(
  xml: string,
  strings: readonly string[],
  dates: ReadonlySet<number>,
  is1904: boolean,
): TheirLine[] {
  const lines: TheirLine[] = [];
  let line: TheirLine = { line: 0, cells: [] };
  let column = 0;
  let type = '';
  let style = 0;
  let count = 0;
  let holds: 'v' | 't' | null = null;
  for (const { name, closes, isEmpty, of, text } of elements(xml)) {
    if (name === 'row' && !closes) {
      line = { line: Number(of('r')) || line.line + 1, cells: [] };
      column = 0;
      lines.push(line);
    } else if (name === 'c' && !closes) {
      const letters = /^[A-Z]+/.exec(of('r'))?.[0];
      if (letters !== undefined)
        column = [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
      type = of('t');
      style = Number(of('s')) || 0;
      column++;
      if (++count > MOST_CELLS) throw new RangeError(`more than ${MOST_CELLS} cells`);
    } else if (name === 'v' || name === 't') {
      holds = closes || isEmpty ? null : name;
      if (holds === null || column > 1000) continue;
      while (line.cells.length < column) line.cells.push('');
      const value = plain(text);
      line.cells[column - 1] +=
        holds === 't'
          ? value
          : type === 's'
            ? (strings[Number(value)] ?? '')
            : type === 'b'
              ? value === '1'
                ? 'yes'
                : 'no'
              : type === '' || type === 'n'
                ? dates.has(style)
                  ? isoDate(Number(value), is1904)
                  : number(value)
                : value;
    }
  }
  return lines.filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
}

/** Without the noise of binary fractions: 15 digits are what a spreadsheet shows. */
const number = (text: string): string => {
  const value = Number(text);
  return Number.isFinite(value) && text.trim() !== '' ? String(Number(value.toPrecision(15))) : text;
};

/** Days since the end of 1899 (with the 29 February 1900 that never was), or since 1904. */
function isoDate(serial: number, is1904: boolean): string {
  const days = is1904 ? serial + 1462 : serial < 60 ? serial + 1 : serial;
  const date = new Date(Math.round((days - 25569) * 86400) * 1000);
  return Number.isNaN(date.getTime())
    ? String(serial)
    : date
        .toISOString()
        .slice(0, serial % 1 === 0 ? 10 : 16)
        .replace('T', ' ');
}
