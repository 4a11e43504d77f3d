/**
 * Two copies of a season merged: 10,000 readings in 40 holes and 3,000 edits of 600 units, each with its act, of which
 * each copy wrote a tenth since they parted; some cells on both. What a person waits for: the plan, then the update.
 */
import { newDocument, withRows } from '@stillstand/campaign/document';
import { type MergeSide, mergedUpdate, planMerge } from '@stillstand/campaign/merge';
import { actsOf, type Change, fill, make, reader, type Writer } from '@stillstand/campaign/replica';
import { schemas, type TableName } from '@stillstand/campaign/tables';
import * as Y from 'yjs';
import { least_ms } from '../least.ts';

export interface MergeBench {
  readings: number;
  edits: number;
  conflicts: number;
  /** The least of the repeats. */
  plan_ms: number;
  update_ms: number;
  both_ms: number;
  /** The same where the copies have no history in common. */
  by_rows_plan_ms: number;
  by_rows_update_ms: number;
}

const HOLES = 40;
const READINGS = 10_000;
const UNITS = 600;
const EDITS = 3000;
const REPEATS = 3;

export function benchMerge(): MergeBench {
  const first = device('A');
  write(first, 0, READINGS * 0.8, 'common');
  edit(first, 0, EDITS * 0.8, 0);
  const second = device('B', first.doc);
  write(first, READINGS * 0.8, READINGS * 0.9, 'A');
  edit(first, 0, EDITS * 0.1, 1);
  write(second, READINGS * 0.8, READINGS * 0.9, 'B');
  // Fifty units on both.
  edit(second, EDITS * 0.1 - 50, EDITS * 0.2 - 50, 2);
  const [ours, theirs] = [sideOf(first.doc), sideOf(second.doc)];
  const rows = sideOf(withoutHistory(second));
  const plan_ms = least_ms(() => planMerge(ours, theirs), REPEATS);
  const update_ms = least_ms(() => mergedUpdate(ours, theirs, new Map(), second.writer), REPEATS);
  return {
    readings: READINGS,
    edits: EDITS,
    conflicts: planMerge(ours, theirs).conflicts.length,
    plan_ms,
    update_ms,
    both_ms: plan_ms + update_ms,
    by_rows_plan_ms: least_ms(() => planMerge(ours, rows), REPEATS),
    by_rows_update_ms: least_ms(() => mergedUpdate(ours, rows, new Map(), second.writer), REPEATS),
  };
}

const sideOf = (doc: Y.Doc): MergeSide => ({ doc, files: new Map() });

function device(name: string, from?: Y.Doc) {
  const doc = new Y.Doc();
  if (from !== undefined) Y.applyUpdate(doc, Y.encodeStateAsUpdate(from));
  else {
    const holes = Array.from({ length: HOLES }, (_, i) => ({
      hole: `H${i}`,
      method: 'string',
      row_id: `h${i}`,
    }));
    const units = Array.from({ length: UNITS }, (_, i) => ({
      hole: `H${i % HOLES}`,
      unit: String(1 + Math.floor(i / HOLES)),
      sediment: 'sand',
      row_id: `u${i}`,
    }));
    fill(doc, withRows(withRows(newDocument('season', 'season'), 'holes', holes), 'units', units));
  }
  let made = 0;
  const writer: Writer = {
    crew: () => ({ by: `crew of ${name}`, device: name }),
    time: () =>
      `2026-02-15T${String(8 + (Math.floor(made / 60) % 12)).padStart(2, '0')}:${String(made % 60).padStart(2, '0')}:00+01:00`,
    newRowId: () => `${name}-${made++}`,
  };
  const acts = actsOf(doc);
  const { read: readAny, forget } = reader(doc);
  // Where readings lie is asked of nobody: they are appended.
  const read = (table: TableName) => (schemas[table].readings ? null : readAny(table));
  return {
    doc,
    writer,
    one: (change: Change) => make({ doc, acts, read, forget, writer }, [change], 'done'),
  };
}

type Device = ReturnType<typeof device>;

/** Each reading as the act of its own that it is on the rig; a new hole every 250. */
function write({ one, writer }: Device, from: number, until: number, name: string): void {
  for (let i = from; i < until; i++) {
    // In the strands that nobody else knows, holes are shared and the places are the same.
    const table: TableName = i % 3 === 0 ? 'drives' : 'soundings';
    const cells =
      table === 'drives'
        ? { stick_up_start: '2.00 m', stick_up_end: '1.00 m' }
        : { to_sediment: `${(1 + (i % 250) / 100).toFixed(2)} m` };
    const hole = `H${Math.floor(i / 250) % HOLES}`;
    const row_id = `${name}-${i}`;
    one({ kind: 'add', table, row_id, cells: { hole, seq: String(i + 1), time: writer.time(), ...cells } });
  }
}

function edit({ one }: Device, from: number, until: number, value: number): void {
  for (let i = from; i < until; i++) {
    const row_id = `u${i % UNITS}`;
    one({
      kind: 'edit',
      table: 'units',
      row_id,
      before: {},
      after: { colour: `10YR ${value}/${Math.floor(i / UNITS)}` },
    });
  }
}

/** The copy as its tables say it, opened elsewhere. */
function withoutHistory({ doc }: Device): Y.Doc {
  const { document } = reader(doc);
  const other = new Y.Doc();
  fill(other, {
    ...document(),
    source: null,
    tables: new Map([...document().tables].map(([name, table]) => [name, { ...table, source: null }])),
  });
  return other;
}
