/** What is filled into a reading by itself: who it is, its place in its series, when, who and with what. */
import { SERIES } from '@stillstand/campaign/document';
import { isTableName, schemas, type TableName } from '@stillstand/campaign/tables';
import type { DocRow } from './layout.ts';

/** The next whole `seq` of the series a reading of these cells belongs to. */
export function nextSeq(
  cells: Readonly<Record<string, string>>,
  rowsOf: (table: TableName) => readonly DocRow[],
): string {
  const series = SERIES.find((column) => (cells[column] ?? '').trim() !== '');
  if (series === undefined) return '1';
  const name = cells[series]!.trim();
  let last = 0;
  for (const table of Object.keys(schemas)) {
    if (!isTableName(table) || !schemas[table].readings || !Object.hasOwn(schemas[table].columns, series))
      continue;
    for (const row of rowsOf(table)) {
      if (row.cells[series]?.trim() !== name) continue;
      const seq = Number(row.cells['seq']?.replace(',', '.'));
      if (seq > last) last = seq;
    }
  }
  return String(Math.floor(last) + 1);
}

/** Who writes, with what, and what only the device knows: its clock, and chance. */
export interface Writer {
  /** Kept with every reading; empty where nobody said. */
  crew(): { by: string; device: string };
  /** Now, ISO 8601 to the second with the offset of the device's clock from UTC. */
  time(): string;
  /** An opaque identity that no row has: random. */
  newRowId(): string;
}
