/** What is filled into a reading by itself: who it is, its place in its series, when, who and with what. */
import { isTableName, schemas, type TableName } from '@stillstand/campaign/tables';
import type { DocRow } from './content.ts';

/** What orders readings: those of one hole, loop, gauge or day stand in one series, whatever table they are in. */
const SERIES = ['hole', 'loop', 'gauge', 'date'] as const;

/** An opaque random identity. */
export function newRowId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  return `r-${Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}

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

/** A moment as ISO 8601 to the second with the offset of this device's clock from UTC. */
export function timeWithOffset(at: Date): string {
  const minutes = -at.getTimezoneOffset();
  const two = (n: number): string => String(Math.trunc(n)).padStart(2, '0');
  const local = new Date(at.getTime() + minutes * 60_000).toISOString().slice(0, 19);
  return `${local}${minutes < 0 ? '-' : '+'}${two(Math.abs(minutes) / 60)}:${two(Math.abs(minutes) % 60)}`;
}

/** Who writes on this device, and what it is called; stated once, kept with every reading. */
interface Crew {
  by: string;
  device: string;
}

const CREW_KEY = 'stillstand.crew';

export function crew(): Crew {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(CREW_KEY) ?? '{}');
    const { by, device } = (kept ?? {}) as { by?: unknown; device?: unknown };
    return { by: typeof by === 'string' ? by : '', device: typeof device === 'string' ? device : '' };
  } catch {
    return { by: '', device: '' };
  }
}

export const setCrew = (who: Crew): void => localStorage.setItem(CREW_KEY, JSON.stringify(who));
