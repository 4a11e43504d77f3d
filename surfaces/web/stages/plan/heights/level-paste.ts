/** A block out of a spreadsheet put into the grid: by its headings where it has them, else by place. */
import { columnOfHeading } from '@stillstand/campaign/import';
import { ENTRIES, type Entry, type LineCells } from './level-lines.ts';

/** Null for text that is one cell: it is pasted into the field as any text is. */
export function pastedLines(text: string, from: Entry): Partial<LineCells>[] | null {
  if (!/[\t\n]/.test(text.trim())) return null;
  const rows = text
    .replace(/[\r\n]+$/, '')
    .split(/\r\n|\r|\n/)
    .map((row) => row.split('\t').map((cell) => cell.trim()));
  const headings = rows[0]!.map((cell) => columnOfHeading('levelling', cell));
  const isHeaded = headings.filter((column) => ENTRIES.some((entry) => entry === column)).length >= 2;
  const columns = isHeaded ? headings : ENTRIES.slice(ENTRIES.indexOf(from));
  return rows.slice(isHeaded ? 1 : 0).map((row) =>
    Object.fromEntries(
      row.flatMap((cell, i) => {
        const entry = ENTRIES.find((each) => each === columns[i]);
        return entry === undefined ? [] : [[entry, cell]];
      }),
    ),
  );
}
