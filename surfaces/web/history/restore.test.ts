import assert from 'node:assert/strict';
import { test } from 'node:test';
import { HOLE, memoryDevice } from '../store/fixtures/memory-device.ts';
import { restoreRow } from './restore.ts';

const unit = { hole: 'H1', unit: '1', depth_basis: 'entered', top: '0 m', bottom: '1 m', sediment: 'sand' };

test('a row is set back as a new act, which is undone like any other', async () => {
  const { store } = await memoryDevice(HOLE).window();
  const row_id = store.addRow('units', unit);
  store.editRow('units', row_id, { sediment: 'peat', top: '0.5 m' });
  store.editRow('units', row_id, { colour: '10YR 2/1' });
  const cells = () => store.rows('units').find((row) => row.row_id === row_id)?.cells ?? {};
  assert.ok(restoreRow(store, 'units', row_id, { sediment: 'sand', top: '0 m' }));
  assert.deepEqual([cells()['sediment'], cells()['top'], cells()['colour']], ['sand', '0 m', '10YR 2/1']);
  assert.equal(store.acts().length, 4);
  store.undo();
  assert.equal(cells()['sediment'], 'peat');
});

test('a deleted row comes back under its identity, with what it said then', async () => {
  const { store } = await memoryDevice(HOLE).window();
  const row_id = store.addRow('units', unit);
  store.editRow('units', row_id, { sediment: 'peat' });
  store.removeRow('units', row_id);
  assert.ok(restoreRow(store, 'units', row_id, { sediment: 'sand' }));
  const [row] = store.rows('units');
  assert.deepEqual([row?.row_id, row?.cells['sediment'], row?.cells['bottom']], [row_id, 'sand', '1 m']);
  store.undo();
  assert.deepEqual(store.rows('units'), []);
});

test('readings are amended, never set back', async () => {
  const { store } = await memoryDevice(HOLE).window();
  const row_id = store.addReading('soundings', { hole: 'H1', to_sediment: '2 m' });
  assert.throws(() => restoreRow(store, 'soundings', row_id, { to_sediment: '1 m' }), /readings/);
});
