/** The waters of an official table as lines: what is recorded of a day, with what was changed and added since. */
import { type TypedRow, typedReadings } from '@stillstand/campaign/document';
import { TIDE_TABLE_FLAG } from '@stillstand/campaign/steps';
import {
  clockAt,
  dateAt,
  dayBounds,
  isoAt,
  offsetIn,
  TABLE_ENTRIES,
  type TableCells,
  type TableRead,
} from '../../../../days/index.ts';

/** What holds for all lines of a table. */
export interface TableFacts {
  /** Offset of its clock, "+08:00", without summer time. */
  clock: string;
  summer: string;
  /** Of heights that state none. */
  unit: string;
  /** Where its heights begin: `below` (the campaign datum), `unknown`, `datum:` or `gauge:` and a label; empty: not said. */
  zero: string;
  below_m: string;
}

interface AddedWater {
  row_id: string;
  cells: TableCells;
}

/** What is typed and not recorded. `edits`: of recorded waters, by the row first written. */
export interface TableDraft {
  facts: Partial<TableFacts>;
  edits: Readonly<Record<string, Partial<TableCells>>>;
  added: readonly AddedWater[];
}

export const NO_DRAFT: TableDraft = { facts: {}, edits: {}, added: [] };
export const BLANK: TableCells = { date: '', time: '', height: '' };
export const isBlank = (cells: TableCells): boolean =>
  TABLE_ENTRIES.every((entry) => cells[entry].trim() === '');

export interface Recorded {
  row_id: string;
  gauge: string;
  time: string;
  time_ms: number;
  height: string;
}

export interface WaterLine {
  key: string;
  /** Null for a line that is not recorded. */
  recorded: Recorded | null;
  cells: TableCells;
}

/** A table gives the last water of the day before and the first of the next too. */
const AROUND_MS = 12 * 3_600_000;

/** All waters of official tables in force between two moments, in order of time. */
function watersBetween(rows: readonly TypedRow[], from_ms: number, to_ms: number): Recorded[] {
  return typedReadings('gauge_readings', rows)
    .all.flatMap(({ first, now }): Recorded[] => {
      const { flag = '', time = '', gauge = '', height_m = '' } = now?.cells ?? {};
      const time_ms = Date.parse(time);
      return flag.startsWith(TIDE_TABLE_FLAG) && time_ms >= from_ms && time_ms <= to_ms
        ? [{ row_id: first.row_id, gauge: gauge.trim(), time, time_ms, height: height_m }]
        : [];
    })
    .sort((a, b) => a.time_ms - b.time_ms);
}

/** Waters of the day’s table in order of time: of one gauge, that of the first water of the day. */
export function recordedWaters(rows: readonly TypedRow[], date: string, offset_min: number): Recorded[] {
  const day = dayBounds(date, offset_min);
  if (day === null) return [];
  const all = watersBetween(rows, day.from_ms - AROUND_MS, day.to_ms + AROUND_MS);
  const gauge = all.find(({ time_ms }) => time_ms >= day.from_ms && time_ms < day.to_ms)?.gauge;
  return all.filter((water) => water.gauge === gauge);
}

/** Clock and zero of what is recorded; else the clock of the campaign, and no zero: it is asked for. */
export function factsOf(
  recorded: readonly Recorded[],
  offset: string,
  typed: Partial<TableFacts>,
): TableFacts {
  const [first] = recorded;
  return {
    clock:
      first === undefined
        ? offset
        : (/([+-]\d\d:\d\d|Z)$/.exec(first.time)?.[1] ?? offset).replace('Z', '+00:00'),
    summer: '',
    unit: 'm',
    zero: first === undefined ? '' : `gauge:${first.gauge}`,
    below_m: '',
    ...typed,
  };
}

/** Minutes ahead of UTC of the times as typed; null for a clock that cannot be read. */
export function clockOf({ clock, summer }: TableFacts): number | null {
  const offset = offsetIn(clock);
  return offset === null ? null : offset + (summer === 'yes' ? 60 : 0);
}

/** Recorded lines by the clock they were recorded with, added ones, and a blank one to go on with. */
export function linesOf(recorded: readonly Recorded[], draft: TableDraft, blank: string): WaterLine[] {
  const offset = offsetIn(recorded[0]?.time ?? '') ?? 0;
  const known = new Set(recorded.map(({ row_id }) => row_id));
  return [
    ...recorded.map((water) => ({
      key: water.row_id,
      recorded: water,
      cells: {
        date: dateAt(water.time_ms, offset),
        time: clockAt(water.time_ms, offset),
        height: water.height.replace(/^-/, '−'),
        ...draft.edits[water.row_id],
      },
    })),
    ...draft.added
      .filter(({ row_id }) => !known.has(row_id))
      .map(({ row_id, cells }) => ({ key: row_id, recorded: null, cells })),
    { key: blank, recorded: null, cells: BLANK },
  ];
}

/** The draft with other cells in a line; the blank line becomes an added one. */
export function typedIn(draft: TableDraft, line: WaterLine, cells: Partial<TableCells>): TableDraft {
  if (line.recorded !== null)
    return { ...draft, edits: { ...draft.edits, [line.key]: { ...draft.edits[line.key], ...cells } } };
  const next = { row_id: line.key, cells: { ...line.cells, ...cells } };
  const isThere = draft.added.some(({ row_id }) => row_id === line.key);
  return {
    ...draft,
    added: isThere
      ? draft.added.map((each) => (each.row_id === line.key ? next : each))
      : [...draft.added, next],
  };
}

export interface ToWrite {
  added: { key: string; cells: Record<string, string> }[];
  amended: { row_id: string; cells: Record<string, string> }[];
  withdrawn: string[];
}

/** What recording would write under that gauge; lines that cannot be read are left as they are. */
export function toWrite(
  lines: readonly WaterLine[],
  { waters }: TableRead,
  gauge: string,
  offset_min: number,
): ToWrite {
  const write: ToWrite = { added: [], amended: [], withdrawn: [] };
  for (const { recorded, cells } of lines)
    if (recorded !== null && isBlank(cells)) write.withdrawn.push(recorded.row_id);
  for (const { line, time_ms, height_m, kind } of waters) {
    const { key, recorded } = lines[line]!;
    const cells = {
      gauge,
      time: isoAt(time_ms, offset_min),
      height_m: String(Math.round(height_m * 1000) / 1000),
      flag: kind === null ? TIDE_TABLE_FLAG : `${TIDE_TABLE_FLAG}: ${kind}`,
    };
    if (recorded === null) write.added.push({ key, cells });
    else if (
      recorded.gauge !== gauge ||
      recorded.time_ms !== time_ms ||
      Math.abs(Number(recorded.height.replace(',', '.')) - height_m) > 5e-4
    )
      write.amended.push({ row_id: recorded.row_id, cells });
  }
  return write;
}

/**
 * Waters recorded before, by a table of the site, in the time that the added ones cover, and not among the lines: they give
 * way, or two tables would be drawn as one. `gauges`: those of the site’s tables.
 */
export function replacedWaters(
  rows: readonly TypedRow[],
  lines: readonly WaterLine[],
  { added }: ToWrite,
  gauges: ReadonlySet<string>,
): string[] {
  const times = added.map(({ cells }) => Date.parse(cells['time']!));
  const shown = new Set(lines.map(({ key }) => key));
  return watersBetween(rows, Math.min(...times), Math.max(...times))
    .filter(({ row_id, gauge }) => gauges.has(gauge) && !shown.has(row_id))
    .map(({ row_id }) => row_id);
}
