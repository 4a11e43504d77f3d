/** Rows of a plain CSV (no quoted commas in these files) as objects of the named columns. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';

export function readCsv<Column extends string>(
  name: string,
  columns: readonly Column[],
): Record<Column, string>[] {
  const text = readFileSync(new URL(`./data/${name}`, import.meta.url), 'utf8');
  const [heading, ...lines] = text.trim().split(/\r?\n/);
  const places = columns.map((column) => heading!.split(',').indexOf(column));
  assert.ok(!places.includes(-1), `${name} has the columns ${heading}; expected ${columns.join(', ')}`);
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(columns.map((column, i) => [column, cells[places[i]!] ?? ''])) as Record<
      Column,
      string
    >;
  });
}
