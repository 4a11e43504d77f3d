/** Copies to send: what is left out is named, what is not in them is not called kept. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  HISTORY_PATH,
  leftOutList,
  leftOutPaths,
  PHOTOS_LEFT_OUT,
  readZip,
} from '@stillstand/campaign/document';
import { HOLE, memoryDevice } from './fixtures/memory-device.ts';
import { packed } from './pack.ts';

const read = async (zip: Blob) => readZip(new Uint8Array(await zip.arrayBuffer())).document;
const textOf = (bytes: Uint8Array | undefined): string => new TextDecoder().decode(bytes);

async function withPhotos() {
  const { window } = memoryDevice(HOLE);
  const { store } = await window();
  const paths = [];
  for (const byte of [1, 2]) paths.push(await store.addFile(new Uint8Array(100).fill(byte), 'image/jpeg'));
  const other = await store.addFile(new Uint8Array([3]), 'text/plain');
  return { store, paths, other };
}

test('a copy without photos has everything else and lists them by name', async () => {
  const { store, paths, other } = await withPhotos();
  const sizes = await store.photoSizes();
  assert.deepEqual(
    [...sizes],
    paths.map((path) => [path, 100]),
  );
  const { zip } = await store.pack(new Set(sizes.keys()));
  const { files, tables } = await read(zip);
  assert.deepEqual([...files.keys()].sort(), [HISTORY_PATH, other, PHOTOS_LEFT_OUT].sort());
  assert.deepEqual(leftOutPaths(textOf(files.get(PHOTOS_LEFT_OUT))), paths);
  assert.equal(tables.get('holes')?.rows.length, 1);
});

test('a device that was sent a copy without photos goes on naming them until they come, and then no longer', async () => {
  const on = new Map<string, Blob>([
    [PHOTOS_LEFT_OUT, new Blob([leftOutList(['photos/a.jpg', 'photos/b.jpg'])])],
    ['photos/b.jpg', new Blob(['b'])],
  ]);
  const pack = async () =>
    (await read(await packed(HOLE, [...on.keys()], async (path) => on.get(path) ?? null))).files;
  assert.deepEqual(leftOutPaths(textOf((await pack()).get(PHOTOS_LEFT_OUT))), ['photos/a.jpg']);
  on.set('photos/a.jpg', new Blob(['a']));
  assert.deepEqual([...(await pack()).keys()].sort(), ['photos/a.jpg', 'photos/b.jpg']);
});

test('a list that a hand has edited is read with either end of line', () => {
  assert.deepEqual(leftOutPaths('Photos\r\n\r\nphotos/a.jpg\r\n\r\nphotos/b.jpg'), [
    'photos/a.jpg',
    'photos/b.jpg',
  ]);
});

test('a copy counts when it is kept, and only for the changes that were in it', async () => {
  const { store } = await withPhotos();
  const add = (hole: string): string => store.addRow('holes', { hole, method: 'string' });
  add('H2');
  add('H3');
  const before = store.keptElsewhere().changes;
  assert.ok(before >= 2);
  const { wasKept } = await store.pack();
  assert.deepEqual(store.keptElsewhere(), { changes: before, exported_ms: null }, 'packed, not kept');
  add('H4');
  await wasKept();
  assert.equal(store.keptElsewhere().changes, 1, 'H4 is not in it');
  assert.notEqual(store.keptElsewhere().exported_ms, null);
});
