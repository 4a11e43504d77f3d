/** Cells that somebody corrected before the import: the file stays as it is. */
import type { TheirSheet } from '@stillstand/campaign/import';

/** By line and column (A is 0): what is read there instead. */
export type Corrections = ReadonlyMap<string, string>;

export const placeOf = (line: number, column: number): string => `${line} ${column}`;

export function withCorrections(sheet: TheirSheet, corrections: Corrections): TheirSheet {
  if (corrections.size === 0) return sheet;
  return {
    ...sheet,
    lines: sheet.lines.map((line) => {
      const cells = line.cells.map((cell, at) => corrections.get(placeOf(line.line, at)) ?? cell);
      return cells.every((cell, at) => cell === line.cells[at]) ? line : { ...line, cells };
    }),
  };
}
