/**
 * No sequence of acts orphans a reading: random acts on the store as the app opens it, in two windows that hear of each
 * other late or not at all, with windows that are closed and opened again in between. The gate takes 1,000 sequences,
 * `STILLSTAND_SETS=2000` so many.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign, rowsInForce, unresolved, withRows } from '@stillstand/campaign/document';
import { isTableName, schemas, type TableName } from '@stillstand/campaign/tables';
import { randomStream } from '@stillstand/science/base';
import { HOLE, memoryDevice, type Window } from './fixtures/memory-device.ts';
import type { Store } from './store.ts';

const SEQUENCES = Number(process.env['STILLSTAND_SETS'] ?? 1000);
const ACTS = 30;
/** Each has its own seed, from here on. */
const SEED = 9_000;

type Random = ReturnType<typeof randomStream>;
const below = (random: Random, n: number): number => Math.floor(random.uniform() * n);
const pick = <T>(random: Random, list: readonly T[]): T | undefined => list[below(random, list.length)];

const LABELS = ['1', '2', '3', '4'];
const cell = (row: { cells: Readonly<Record<string, string>> } | undefined, column: string): string =>
  row?.cells[column]?.trim() ?? '';
const isFree = (store: Store, table: TableName, column: string, label: string): boolean =>
  !store.rows(table).some((row) => cell(row, column) === label);

/** A row of a table that is there, and what it is called. */
const named = (store: Store, random: Random, table: TableName, column: string): string =>
  cell(pick(random, store.rows(table)), column);

const ACTS_OF: readonly ((store: Store, random: Random) => void)[] = [
  // what is planned and described
  (store, random) => {
    const hole = `H${pick(random, LABELS)}`;
    const pipe = named(store, random, 'pipes', 'pipe');
    if (isFree(store, 'holes', 'hole', hole)) store.addRow('holes', { hole, method: 'string', pipe });
  },
  (store, random) => {
    const pipe = `P${pick(random, LABELS)}`;
    if (isFree(store, 'pipes', 'pipe', pipe)) store.addRow('pipes', { pipe });
  },
  (store, random) => {
    const sampler = `V${pick(random, LABELS)}`;
    if (isFree(store, 'samplers', 'sampler', sampler)) store.addRow('samplers', { sampler });
  },
  // a second hole beside one
  (store, random) => {
    const replaces = named(store, random, 'holes', 'hole');
    const hole = `H${pick(random, LABELS)}`;
    if (replaces !== '' && replaces !== hole && isFree(store, 'holes', 'hole', hole)) {
      store.together(() => store.addRow('holes', { hole, method: 'string', replaces, state: 'open' }));
    }
  },
  (store, random) => {
    const hole = named(store, random, 'holes', 'hole');
    const sample = `S${pick(random, LABELS)}`;
    if (hole !== '' && isFree(store, 'samples', 'sample', sample)) {
      store.addRow('samples', { sample, hole, depth_basis: 'entered', top: '1 m', bottom: '1.1 m' });
    }
  },
  (store, random) => {
    const run = pick(random, rowsInForce('runs', store.rows('runs')));
    const place = { depth_basis: 'run', run: cell(run, 'run'), hole: cell(run, 'hole') };
    if (run !== undefined)
      store.addRow('units', { ...place, unit: '1', top: '0 m', bottom: '1 m', sediment: 'sand' });
  },
  (store, random) => {
    const sample = named(store, random, 'samples', 'sample');
    const lab_code = `L${pick(random, LABELS)}`;
    if (sample !== '' && isFree(store, 'determinations', 'lab_code', lab_code)) {
      store.addRow('determinations', { lab_code, sample, method: 'radiocarbon', value: '4000', error: '30' });
    }
  },
  (store, random) => {
    const [a, b] = [pick(random, store.rows('units')), pick(random, store.rows('units'))];
    if (a === undefined || b === undefined || a === b) return;
    store.addRow('correlations', {
      hole_a: cell(a, 'hole'),
      unit_a: cell(a, 'unit'),
      hole_b: cell(b, 'hole'),
      unit_b: cell(b, 'unit'),
    });
  },
  // what is read
  (store, random) => {
    const hole = named(store, random, 'holes', 'hole');
    if (hole !== '') store.addReading('drives', { hole, stick_up_start: '2 m', stick_up_end: '1 m' });
  },
  (store, random) => {
    const hole = named(store, random, 'holes', 'hole');
    const sampler = named(store, random, 'samplers', 'sampler');
    const run = `R${pick(random, LABELS)}`;
    const taken = rowsInForce('runs', store.rows('runs')).some(
      (row) => cell(row, 'hole') === hole && cell(row, 'run') === run,
    );
    if (hole !== '' && !taken) store.addReading('runs', { hole, run, sampler });
  },
  (store, random) => {
    const run = pick(random, rowsInForce('runs', store.rows('runs')));
    const piece = { hole: cell(run, 'hole'), run: cell(run, 'run'), top: '0 m', bottom: '1 m' };
    if (run !== undefined) store.addReading('pieces', piece);
  },
  (store, random) => {
    const table = pick(random, ['drives', 'runs', 'pieces'] as const)!;
    const row = pick(random, store.rows(table));
    if (row !== undefined) store.amend(table, row.row_id, { note: `n${below(random, 3)}`, time: '' });
  },
  (store, random) => {
    const table = pick(random, ['drives', 'runs', 'pieces'] as const)!;
    const row = pick(random, store.rows(table));
    const hole = named(store, random, 'holes', 'hole');
    if (row !== undefined && hole !== '') store.amend(table, row.row_id, { hole });
  },
  (store, random) => {
    const run = pick(random, store.rows('runs'));
    if (run !== undefined) store.amend('runs', run.row_id, { run: `R${pick(random, LABELS)}` });
  },
  (store, random) => {
    const table = pick(random, ['drives', 'runs', 'pieces'] as const)!;
    const row = pick(random, store.rows(table));
    if (row === undefined) return;
    if (random.uniform() < 0.5) store.withdraw(table, row.row_id);
    else store.restore(table, row.row_id);
  },
  (store, random) => {
    const table = pick(random, ['drives', 'runs', 'pieces'] as const)!;
    const row = pick(random, store.rows(table));
    if (row !== undefined) store.decide(table, row.row_id, random.uniform() < 0.2 ? null : row.row_id);
  },
  // what is changed, renamed, deleted
  (store, random) => {
    const hole = pick(random, store.rows('holes'));
    if (hole !== undefined)
      store.editRow('holes', hole.row_id, { note: `n${below(random, 3)}`, state: 'open' });
  },
  (store, random) => {
    const [table, column, letter] = pick(random, [
      ['holes', 'hole', 'H'],
      ['pipes', 'pipe', 'P'],
      ['samplers', 'sampler', 'V'],
      ['samples', 'sample', 'S'],
    ] as const)!;
    const row = pick(random, store.rows(table));
    const label = `${letter}${pick(random, LABELS)}`;
    if (row !== undefined && isFree(store, table, column, label))
      store.editRow(table, row.row_id, { [column]: label });
  },
  (store, random) => {
    const sample = pick(random, store.rows('samples'));
    const hole = named(store, random, 'holes', 'hole');
    if (sample !== undefined && hole !== '') store.editRow('samples', sample.row_id, { hole });
  },
  ...[0, 1].map(() => (store: Store, random: Random): void => {
    const table = pick(random, [
      'holes',
      'holes',
      'pipes',
      'samplers',
      'samples',
      'units',
      'determinations',
    ] as const)!;
    const row = pick(random, store.rows(table));
    if (row !== undefined) store.removeRow(table, row.row_id);
  }),
  (store, random) => {
    const hole = pick(random, store.rows('holes'));
    if (hole === undefined) return;
    store.together(() => {
      for (const table of ['correlations', 'units', 'samples'] as const) {
        for (const row of store.rows(table)) {
          if (Object.values(row.cells).includes(cell(hole, 'hole'))) store.removeRow(table, row.row_id);
        }
      }
      store.removeRow('holes', hole.row_id);
    });
  },
  ...[0, 1, 2].map(
    () =>
      (store: Store): void =>
        store.undo(),
  ),
  (store) => store.redo(),
];

/** Codes of the problems a reading has whose row is gone, as the whole campaign is parsed. */
const ORPHANED = new Set(['unknown-reference', 'missing-table']);

function orphansOf(store: Store): string[] {
  return parseCampaign(store.document())
    .problems.filter((p) => ORPHANED.has(p.code) && isTableName(p.table) && p.table !== 'correlations')
    .map((p) => `${p.code}: ${p.table} ${p.label} ${p.column} ${p.found}`);
}

const readingsLost = (store: Store): string[] =>
  unresolved(store.rows)
    .filter(({ table }) => schemas[table].readings)
    .map(({ table, row_id, column }) => `${table} ${row_id} ${column}`);

const START = withRows(HOLE, 'pipes', [{ pipe: 'P1', row_id: 'p1' }]);

async function sequence(seed: number): Promise<{ refused: number; undone: number; restored: number }> {
  const random = randomStream(seed);
  const { window } = memoryDevice(START);
  const windows: Window[] = [await window(), await window()];
  const seen = { refused: 0, undone: 0, restored: 0 };
  for (let i = 0; i < ACTS; i++) {
    const at = below(random, 2);
    const chance = random.uniform();
    if (chance < 0.15) await windows[at]!.listen();
    else if (chance < 0.17) {
      await windows[at]!.store.close();
      windows[at] = await window();
    } else {
      const { store } = windows[at]!;
      pick(random, ACTS_OF)!(store, random);
      const news = store.news();
      if (news?.isRefusal === true) seen.refused += 1;
      else if (news?.words.startsWith('Undone') === true) seen.undone += 1;
    }
    const { store } = windows[at]!;
    if (store.news()?.words.includes('restored') === true) seen.restored += 1;
    assert.deepEqual(readingsLost(store), [], `seed ${seed}, after act ${i}`);
  }
  for (let round = 0; round < 3; round++) for (const each of windows) await each.listen();
  for (const { store } of windows) assert.deepEqual(orphansOf(store), [], `seed ${seed}, at the end`);
  assert.deepEqual(windows[0]!.store.document().tables, windows[1]!.store.document().tables, `seed ${seed}`);
  const again = await window();
  assert.deepEqual(orphansOf(again.store), [], `seed ${seed}, opened again`);
  for (const { store } of [...windows, again]) await store.close();
  return seen;
}

test(`no sequence of acts orphans a reading: ${SEQUENCES} sequences of ${ACTS} acts in two windows (seeds from ${SEED})`, async () => {
  const total = { refused: 0, undone: 0, restored: 0 };
  for (let seed = SEED; seed < SEED + SEQUENCES; seed++) {
    const seen = await sequence(seed);
    for (const key of Object.keys(total) as (keyof typeof total)[]) total[key] += seen[key];
  }
  // The test is worth nothing where the acts do not meet what they are to be kept from.
  assert.ok(total.refused > SEQUENCES / 2, `only ${total.refused} refused`);
  assert.ok(total.undone > SEQUENCES / 2, `only ${total.undone} undone`);
  assert.ok(total.restored > SEQUENCES / 100, `only ${total.restored} restored`);
});
