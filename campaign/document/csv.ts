/**
 * CSV (RFC 4180) as spreadsheets really write it, text in, cells out, and back. Our own reader, because it must tell
 * what libraries swallow: where a quotation mark never closes, where text follows one that has closed, which line a
 * row has in a spreadsheet. Linear in the length of the text, whatever the text is.
 */
import type { Dialect, DocumentRow } from './document.ts';

/** More columns, or longer headings, than any table of people has: not a table. */
export const MOST_COLUMNS = 1000;
export const LONGEST_HEADING = 500;

export interface Csv {
  columns: string[];
  rows: DocumentRow[];
  delimiter: Dialect['delimiter'];
  line_end: Dialect['line_end'];
  sep_line: boolean;
  /** Line whose opening quotation mark never closes (read as an ordinary character from there on), or null. */
  unclosed_line: number | null;
}

const TAB = 9;
const LF = 10;
const CR = 13;
const SPACE = 32;
const COMMA = 44;
const SEMICOLON = 59;
const QUOTE = 34;
const DELIMITERS = [',', ';', '\t'] as const;

/**
 * Reads headings and rows. Rows in which nothing stands are skipped but counted. Null where the first line is too long
 * to be the headings of a table.
 */
export function readCsv(text: string): Csv | null {
  const sep = /^sep=([,;\t])(?:\r\n|\r|\n|$)/i.exec(text);
  const start = sep?.[0].length ?? 0;
  const delimiter = (sep?.[1] as Dialect['delimiter'] | undefined) ?? delimiterOf(text);
  if (delimiter === null) return null;
  const delimiterCode = delimiter.charCodeAt(0);
  const rows: DocumentRow[] = [];
  let columns: string[] | null = null;
  let line_end: Dialect['line_end'] | null = null;
  let unclosed_line: number | null = null;
  let at = start;
  let line = 0;

  while (at < text.length) {
    line++;
    const next = afterBlank(text, at, delimiterCode);
    if (next > at) {
      at = next;
      continue;
    }
    const cells: string[] = [];
    let strayQuote = false;
    let isBlank = true;
    for (;;) {
      let cell: string | null = null;
      if (text.charCodeAt(at) === QUOTE && unclosed_line === null) {
        const close = closingQuote(text, at + 1);
        if (close === -1) unclosed_line = line;
        else {
          cell = text.slice(at + 1, close);
          if (cell.includes('"')) cell = cell.replaceAll('""', '"');
          at = close + 1;
        }
      }
      const end = cellEnd(text, at, delimiterCode);
      if (cell === null) cell = text.slice(at, end);
      else if (end > at) {
        cell += text.slice(at, end);
        strayQuote = true;
      }
      cells.push(cell);
      if (isBlank && cell !== '' && cell.trim() !== '') isBlank = false;
      at = end;
      if (at < text.length && text.charCodeAt(at) === delimiterCode) at++;
      else break;
    }
    const lineEnd = lineEndAt(text, at);
    at += lineEnd.length;
    line_end ??= lineEnd === '' ? null : (lineEnd as Dialect['line_end']);
    if (isBlank) continue;
    if (columns === null) {
      if (cells.length > MOST_COLUMNS || cells.some((cell) => cell.length > LONGEST_HEADING)) return null;
      columns = cells;
    } else rows.push(strayQuote ? { cells, line, stray_quote: true } : { cells, line });
  }
  return {
    columns: columns ?? [],
    rows,
    delimiter,
    line_end: line_end ?? '\n',
    sep_line: sep !== null,
    unclosed_line,
  };
}

/** Writes headings and rows so that `readCsv` gives the same cells again. */
export function writeCsv(
  columns: readonly string[],
  rows: readonly Pick<DocumentRow, 'cells'>[],
  dialect: Dialect,
): string {
  const { line_end } = dialect;
  // A heading of one column shows no delimiter: the reader takes a comma.
  const delimiter = columns.length === 1 && !dialect.sep_line ? ',' : dialect.delimiter;
  const lines = [columns.map(written).join(delimiter)];
  for (const row of rows) lines.push(row.cells.map(written).join(delimiter));
  const sep = dialect.sep_line ? `sep=${delimiter}${line_end}` : '';
  return `${sep}${lines.join(line_end)}${line_end}`;
}

// Every delimiter is quoted, not only the one in use: the reader tells it from the heading.
const TO_QUOTE = /[",;\t\r\n]|^sep=/i;

const written = (cell: string): string => (TO_QUOTE.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

/** Position of the mark that closes a quotation opened before `from`; −1 where none does. */
function closingQuote(text: string, from: number): number {
  let at = from;
  for (;;) {
    at = text.indexOf('"', at);
    if (at === -1 || text.charCodeAt(at + 1) !== QUOTE) return at;
    at += 2;
  }
}

function cellEnd(text: string, from: number, delimiter: number): number {
  let at = from;
  while (at < text.length) {
    const code = text.charCodeAt(at);
    if (code === delimiter || code === LF || code === CR) break;
    at++;
  }
  return at;
}

function lineEndAt(text: string, at: number): string {
  const code = text.charCodeAt(at);
  if (code === CR) return text.charCodeAt(at + 1) === LF ? '\r\n' : '\r';
  return code === LF ? '\n' : '';
}

/** Where the next line begins, if nothing but delimiters and spaces stand in this one; else `from`. */
function afterBlank(text: string, from: number, delimiter: number): number {
  let at = from;
  while (at < text.length) {
    const code = text.charCodeAt(at);
    if (code === LF || code === CR) return at + lineEndAt(text, at).length;
    if (code !== delimiter && code !== SPACE) return from;
    at++;
  }
  return at;
}

/**
 * The mark that stands most often in the first line with anything else in it, quotations left out; `,` if none. Null
 * where that line does not end within the longest headings there may be.
 */
function delimiterOf(text: string): Dialect['delimiter'] | null {
  const counts = [0, 0, 0];
  let inQuotes = false;
  let begin = -1;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    const isLineEnd = (code === LF || code === CR) && !inQuotes;
    const which = code === TAB ? 2 : code === COMMA ? 0 : code === SEMICOLON ? 1 : -1;
    if (isLineEnd) {
      if (begin !== -1) break;
      counts.fill(0);
    } else if (code === QUOTE) {
      inQuotes = !inQuotes;
      if (begin === -1) begin = at;
    } else if (!inQuotes && which >= 0) counts[which]!++;
    else if (begin === -1 && code !== SPACE) begin = at;
    if (begin !== -1 && at - begin > MOST_COLUMNS * LONGEST_HEADING) return null;
  }
  const most = Math.max(...counts);
  return most === 0 ? ',' : DELIMITERS[counts.indexOf(most)]!;
}
