/** Somebody's table, whatever it came in: lines of cells. Nothing in it is run, and nothing of it is understood yet. */
import { decode, readCsv } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { headingScore } from './known-headings.ts';
import type { TheirLine, TheirSheet, Theirs } from './sheet.ts';

/** Larger than any table that people fill in. */
const MOST_BYTES = 20_000_000;
/** As many lines as a spreadsheet of now has. */
const MOST_LINES = 1_048_576;
/** More cells in a line than any table of people has. */
const MOST_CELLS = 1000;

/**
 * Reads a file (CSV, TSV, .xlsx) or pasted cells. Never throws; what cannot be read is named in the problems and has no
 * sheets.
 */
export async function readTheirs(
  name: string,
  bytes: Uint8Array,
): Promise<Theirs & { problems: readonly Problem[] }> {
  const refused = (refusal: Refusal) => ({ name, sheets: [], problems: [refusedFile(name, refusal)] });
  if (bytes.length > MOST_BYTES) {
    return refused({
      code: 'table-too-large',
      found: `${Math.round(bytes.length / 1e6)} MB`,
      expected: `a table of at most ${MOST_BYTES / 1e6} MB`,
      fix: 'Save only the sheet with the table, or divide it.',
    });
  }
  const otherKind = kindOfFile(bytes);
  if (otherKind !== null) return refused(otherKind);
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) {
    // Only a spreadsheet costs the code that opens one.
    const { readWorkbook } = await import('./workbook.ts');
    const { sheets, fault, remarks } = readWorkbook(bytes);
    if (fault !== null) {
      return refused({
        code: 'not-a-spreadsheet',
        found: fault,
        expected: 'a spreadsheet (.xlsx) or CSV',
        fix: SAVE,
      });
    }
    return {
      name,
      sheets,
      problems: remarks.map((remark) => problem({ ...remark, table: name })),
    };
  }
  return readText(name, bytes);
}

const SAVE = 'Open it in a spreadsheet program and save it as .xlsx or CSV. Nothing was changed.';

interface Refusal {
  code: string;
  found: string;
  expected: string;
  fix: string;
}

const refusedFile = (table: string, refusal: Refusal): Problem =>
  problem({ ...refusal, severity: 'error', table });

/** Kinds of file that are met instead of a table, by their first bytes. */
function kindOfFile(bytes: Uint8Array): Refusal | null {
  const begins = (...codes: number[]): boolean => codes.every((code, i) => bytes[i] === code);
  const expected = '.xlsx, CSV or TSV';
  if (bytes.length === 0) {
    return { code: 'empty-file', found: '', expected, fix: 'The file is empty: look for the right one.' };
  }
  if (begins(0xd0, 0xcf, 0x11, 0xe0)) {
    return isLocked(bytes)
      ? {
          code: 'locked-spreadsheet',
          found: 'a spreadsheet locked with a password',
          expected,
          fix: 'Open it in a spreadsheet program with its password and save a copy without one. Nothing was changed.',
        }
      : { code: 'old-spreadsheet', found: 'a spreadsheet in the old binary format', expected, fix: SAVE };
  }
  if (begins(0x25, 0x50, 0x44, 0x46)) {
    return {
      code: 'not-a-table',
      found: 'a PDF',
      expected,
      fix: 'Ask for the table itself, or copy its cells from the PDF into a spreadsheet and compare them with the page.',
    };
  }
  if (
    /^\s*<(?:!doctype|html|\?xml|table)/i.test(new TextDecoder('windows-1252').decode(bytes.subarray(0, 200)))
  ) {
    return { code: 'not-a-table', found: 'a web page or an XML file', expected, fix: SAVE };
  }
  return null;
}

/** Office encrypts a workbook into a compound file with a stream of this name, UTF-16. */
function isLocked(bytes: Uint8Array): boolean {
  const name = 'EncryptedPackage';
  const wide = Uint8Array.from([...name].flatMap((letter) => [letter.charCodeAt(0), 0]));
  for (let at = bytes.indexOf(wide[0]!); at !== -1; at = bytes.indexOf(wide[0]!, at + 1)) {
    if (wide.every((byte, i) => bytes[at + i] === byte)) return true;
  }
  return false;
}

function readText(name: string, bytes: Uint8Array): Theirs & { problems: readonly Problem[] } {
  const decoded = decode(bytes);
  if (decoded.text === null) {
    const refusal = {
      code: 'not-a-table',
      found: `${bytes.length} bytes; ${decoded.reason}`,
      expected: '.xlsx, CSV or TSV',
      fix: SAVE,
    };
    return { name, sheets: [], problems: [refusedFile(name, refusal)] };
  }
  const problems: Problem[] = [];
  if (decoded.encoding === 'windows-1252') {
    problems.push(
      problem({
        severity: 'warning',
        code: 'not-utf-8',
        table: name,
        found: 'bytes that are not UTF-8',
        expected: 'a table in UTF-8',
        fix: 'It is read as Windows-1252: check that accents and signs such as ± and δ are right.',
      }),
    );
  }
  // A letter above the table may show another delimiter than the table: the one with the best headings is right.
  const stated = /^sep=([,;\t])(?:\r\n|\r|\n|$)/i.exec(decoded.text);
  const delimiters = stated === null ? [',', ';', '\t'] : [stated[1]!];
  const text = decoded.text.slice(stated?.[0].length ?? 0);
  const readings = delimiters.map((delimiter) => linesIn(text, delimiter, stated === null ? 0 : 1));
  const best = readings.reduce((a, b) => (worth(b.lines) > worth(a.lines) ? b : a));
  if (best.unclosed_line !== null) {
    problems.push(
      problem({
        severity: 'warning',
        code: 'unclosed-quote',
        table: name,
        line: best.unclosed_line,
        found: 'a quotation mark that opens a cell and is never closed',
        expected: 'quotation marks in pairs',
        fix: 'From here on marks are read as ordinary characters: check the cells of this line and those below.',
      }),
    );
  }
  const lines = best.lines.slice(0, MOST_LINES);
  const sheets: TheirSheet[] = lines.length === 0 ? [] : [{ name, lines }];
  return { name, sheets, problems };
}

/** `before`: lines of the file in front of the text. */
function linesIn(
  text: string,
  delimiter: string,
  before: number,
): { lines: TheirLine[]; unclosed_line: number | null } {
  // Our reader wants a line of headings; ours is put in front, so that all of theirs are rows.
  const csv = readCsv(`sep=${delimiter}\n-\n${text}`);
  if (csv === null) return { lines: [], unclosed_line: null };
  const line = (counted: number): number => counted - 1 + before;
  return {
    lines: csv.rows.map((row) => ({ line: line(row.line), cells: row.cells.slice(0, MOST_CELLS) })),
    unclosed_line: csv.unclosed_line === null ? null : line(csv.unclosed_line),
  };
}

/** What a delimiter makes of a text: known headings first, then lines of many cells alike. */
function worth(lines: readonly TheirLine[]): number {
  const first = lines.slice(0, 60);
  const headings = Math.max(0, ...first.map(({ cells }) => headingScore(cells)));
  const widths = Map.groupBy(first, ({ cells }) => cells.length);
  const alike = Math.max(0, ...[...widths].map(([width, of]) => Math.min(width - 1, 50) * of.length));
  return headings * 10_000 + alike;
}
