/** Rows of a small check table: RFC 4180, comma, heading line; every cell text. */
import { readFileSync } from 'node:fs';

export type Cells = Readonly<Record<string, string>>;

export function readTable(file: URL): Cells[] {
  const lines: string[][] = [];
  let row: string[] = [];
  const cell = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r?\n|$)/y;
  const text = readFileSync(file, 'utf8');
  while (cell.lastIndex < text.length) {
    const found = cell.exec(text);
    if (found === null) throw new RangeError(`${file.pathname}: not CSV at character ${cell.lastIndex}`);
    row.push(found[1] === undefined ? (found[2] ?? '') : found[1].replaceAll('""', '"'));
    if (found[3] === ',') continue;
    lines.push(row);
    row = [];
  }
  const [head = [], ...body] = lines;
  return body.map((values) => Object.fromEntries(head.map((name, i) => [name, values[i] ?? ''])));
}
