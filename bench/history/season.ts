/** A season on three devices: 10,000 readings one by one and 3,000 edits of layers, with the three meeting every day. */
import { newDocument, readFiles, rowIds, withRows, writeFiles } from '@stillstand/campaign/document';
import { actsOf, fill, make, reader, type Writer } from '@stillstand/campaign/replica';
import type { TableName } from '@stillstand/campaign/tables';
import { randomStream } from '@stillstand/science/base';
import * as Y from 'yjs';

const HOLES = 40;
const UNITS = 15;
const DAYS = 40;

export const SEASON = { readings: 10_000, edits: 3_000 } as const;

/** The devices after the season, each with what it knows: all of it but the last day of the others. */
export function season(): Y.Doc[] {
  const holes = Array.from({ length: HOLES }, (_, i) => ({
    hole: `T${i + 1}`,
    method: 'string',
    row_id: `h${i}`,
  }));
  const units = holes.flatMap(({ hole }) =>
    Array.from({ length: UNITS }, (_, i) => ({
      hole,
      unit: String(i + 1),
      depth_basis: 'in_situ',
      top: `${i * 0.4} m`,
      bottom: `${(i + 1) * 0.4} m`,
      sediment: 'sand',
      row_id: `u-${hole}-${i}`,
    })),
  );
  const document = withRows(withRows(newDocument('Season', 'season'), 'holes', holes), 'units', units);
  const read = readFiles(writeFiles(document)).document;
  const devices = ['tablet A', 'tablet B', 'laptop'].map((name, i) => deviceOf(name, i, read));
  const random = randomStream(1);
  const below = (n: number): number => Math.floor(random.uniform() * n);
  const meters = (from: number, to: number): string => (from + random.uniform() * (to - from)).toFixed(2);
  const perDay = (all: number): number => all / DAYS;
  for (let day = 0; day < DAYS; day++) {
    if (day > 0) for (const { doc: from } of devices) for (const { doc: into } of devices) take(from, into);
    for (let i = 0; i < perDay(SEASON.readings); i++) {
      const hole = `T${day + 1}`;
      const seq = String(i + 1);
      const cells =
        i % 2 === 0
          ? { drive: seq, stick_up_start: `${meters(1, 3)} m`, stick_up_end: `${meters(0, 1)} m` }
          : { to_sediment: `${meters(0, 30)} m` };
      devices[below(3)]!.add(i % 2 === 0 ? 'drives' : 'soundings', { hole, seq, ...cells });
    }
    for (let i = 0; i < perDay(SEASON.edits); i++) {
      const cells =
        i % 3 === 0
          ? { top: `${meters(0, 15)} m`, bottom: `${meters(15, 30)} m` }
          : { colour: `10YR ${below(9)}/${below(9)}` };
      devices[below(3)]!.edit(units[below(units.length)]!.row_id, cells);
    }
  }
  return devices.map(({ doc }) => doc);
}

/** `into` takes what it has not got. */
export const take = (from: Y.Doc, into: Y.Doc): void =>
  Y.applyUpdate(into, Y.encodeStateAsUpdate(from, Y.encodeStateVector(into)));

function deviceOf(name: string, number: number, document: ReturnType<typeof newDocument>) {
  const doc = new Y.Doc();
  fill(doc, document, rowIds(document));
  const { read, forget } = reader(doc);
  const random = randomStream(number + 10);
  const hex = (): string =>
    Math.floor(random.uniform() * 2 ** 40)
      .toString(16)
      .padStart(10, '0');
  let made = 0;
  const two = (n: number): string => String(n).padStart(2, '0');
  const acts = actsOf(doc);
  const writer: Writer = {
    crew: () => ({ by: ['driller', 'recorder', 'geologist'][number]!, device: name }),
    time: () => `2026-03-${two(1 + (made % 28))}T${two(8 + (made % 9))}:${two(made++ % 60)}:07+01:00`,
    // As on a device: 80 random bits, which no packing makes smaller.
    newRowId: () => `r-${hex()}${hex()}`,
  };
  // Readings are only appended: their tables need not be read again for each of thousands.
  const appending = { doc, acts, read: () => null, forget, writer };
  return {
    doc,
    add: (table: TableName, cells: Readonly<Record<string, string>>): void => {
      const row_id = writer.newRowId();
      const { by, device } = writer.crew();
      const all = { ...cells, time: writer.time(), by, device, row_id };
      make(appending, [{ kind: 'add', table, row_id, cells: all }], 'done');
    },
    edit: (row_id: string, after: Readonly<Record<string, string>>): void => {
      const { cells } = read('units')!.rows.find((row) => row.row_id === row_id)!;
      const before = Object.fromEntries(Object.keys(after).map((column) => [column, cells[column] ?? '']));
      make(
        { doc, acts, read, forget, writer },
        [{ kind: 'edit', table: 'units', row_id, before, after }],
        'done',
      );
    },
  };
}
