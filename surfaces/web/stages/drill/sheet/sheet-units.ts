/**
 * Numbers of a sheet that would be ordinary in another unit, asked about line by line: each line is compared with the
 * hole as it was after the lines above it.
 */

import { holeReader, type RowSource } from '@stillstand/campaign/holes';
import { parseLength, type TableName } from '@stillstand/campaign/tables';
import { unitMeant } from '../forms/ordinary.ts';
import { kindOf, lengthAsWritten, readingsOf, type SheetLine } from './sheet.ts';

/** What is asked of a line: which value, what it is called, and as it would be written. */
export interface Asked {
  at: number;
  label: string;
  text: string;
}

/** Higher than any reading of the hole: the sheet comes behind them. */
const BEHIND = 1_000_000;

/** For each line what is asked of it, or null. `unit`: of a length that has none of its own. */
export function unitsMeant(
  lines: readonly SheetLine[],
  source: RowSource,
  hole: string,
  unit: string,
): (Asked | null)[] {
  const read = holeReader();
  const above = new Map<TableName, { row_id: string; cells: Record<string, string> }[]>();
  const sheet = { hole, unit, day: '2000-01-01', offset: 'Z', nextRun: 1000, nextPush: 1000 };
  return lines.map((line, i) => {
    const kind = kindOf(line.letter);
    if (kind === undefined) return null;
    const now = read({ rows: (table) => [...source.rows(table), ...(above.get(table) ?? [])] }, hole);
    for (const { table, cells } of readingsOf([line], sheet)) {
      const label = 'run' in cells ? { run: `line ${i}` } : {};
      const row = { row_id: `line-${i}`, cells: { ...cells, ...label, seq: String(BEHIND + i) } };
      above.set(table, [...(above.get(table) ?? []), row]);
    }
    if (now === null) return null;
    const written = kind.columns.map((c, at) => (c.kind === 'length' ? lengthAsWritten(line, at, unit) : ''));
    const lengths = Object.fromEntries(
      kind.columns.map((c, at) => {
        const length = parseLength(written[at]!);
        return [c.column, length.ok ? length.metres : null];
      }),
    );
    for (const [at, { column, label }] of kind.columns.entries()) {
      const meant = unitMeant(column, written[at]!, now, { lengths, cells: kind.fixed });
      if (meant !== null) return { at, label, text: meant.text };
    }
    return null;
  });
}
