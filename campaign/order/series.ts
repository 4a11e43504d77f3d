/** The readings in force of every hole, loop, gauge and day, in their order. */
import {
  compareReadings,
  type InOrder,
  SERIES,
  type TypedRow,
  typedReadings,
  typedSeq,
} from '@stillstand/campaign/document';
import type { RowSource } from '@stillstand/campaign/holes';
import { schemas, type TableName } from '@stillstand/campaign/tables';

/** What readings are of, and ordered in. */
export interface Series {
  readonly kind: (typeof SERIES)[number];
  readonly name: string;
}

/** A reading in force in its place. `row_id` is that of the row in force, as in the campaign. */
export interface Placed extends InOrder {
  /** The reading as first written. */
  readonly first_id: string;
  readonly cells: TypedRow['cells'];
}

const READINGS = (Object.keys(schemas) as TableName[]).filter((table) => schemas[table].readings);

/** What a row is a reading of; null where it does not say. */
export function seriesOf(cells: TypedRow['cells']): Series | null {
  for (const kind of SERIES) {
    const name = cells[kind]?.trim() ?? '';
    if (name !== '') return { kind, name };
  }
  return null;
}

/** Every series that has readings, or the one asked for. */
export function seriesIn(source: RowSource, only: Series | null): { series: Series; readings: Placed[] }[] {
  const found = new Map<string, { series: Series; readings: Placed[] }>();
  for (const table of READINGS) {
    for (const { now, first, place } of typedReadings(table, source.rows(table)).all) {
      const seq = typedSeq(place.by);
      const series = now === null ? null : seriesOf(now.cells);
      if (now === null || series === null || seq === null) continue;
      const { kind, name } = series;
      if (only !== null && (kind !== only.kind || name !== only.name)) continue;
      const key = `${kind} ${name}`;
      let of = found.get(key);
      if (of === undefined) {
        of = { series, readings: [] };
        found.set(key, of);
      }
      const time = now.cells['time']?.trim() ?? '';
      of.readings.push({
        table,
        seq,
        time: time === '' ? null : time,
        row_id: now.row_id,
        first_id: first.row_id,
        cells: now.cells,
      });
    }
  }
  for (const { readings } of found.values()) readings.sort(compareReadings);
  return [...found.values()];
}

/** The readings in force of one series, in their order. */
export const readingsOf = (source: RowSource, series: Series): Placed[] =>
  seriesIn(source, series).flatMap(({ readings }) => readings);
