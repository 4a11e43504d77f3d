import assert from 'node:assert/strict';
import { chmod, mkdir, mkdtemp, readdir, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { newDocument, writeFiles } from '@stillstand/campaign/document';
import { openFiles } from '@stillstand/campaign/versions';
import { folderIsFree, isFile, readFolder, writeFolder } from './folder.ts';

async function inTemporaryFolder(work: (folder: string) => Promise<void>): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'stillstand-'));
  try {
    await work(folder);
  } finally {
    await rm(folder, { recursive: true });
  }
}

test('a new campaign is written, read again the same, and written again without touching a file', async () => {
  await inTemporaryFolder(async (parent) => {
    const folder = join(parent, 'spit');
    assert.equal(await folderIsFree(folder), true);
    const files = writeFiles(newDocument('spit'));
    await writeFolder(folder, files);
    assert.equal(await folderIsFree(folder), false);
    assert.equal(await isFile(folder), false);
    const read = await readFolder(folder);
    assert.deepEqual(new Map([...read].sort()), new Map([...files].sort()));
    const opened = openFiles(read);
    assert.deepEqual(opened.problems, []);
    const before = (await stat(join(folder, 'holes.csv'))).ino;
    await writeFolder(folder, writeFiles(opened.document));
    assert.equal((await stat(join(folder, 'holes.csv'))).ino, before);
  });
});

test('photos in folders are read and written; hidden files and links out of the folder are left alone', async () => {
  await inTemporaryFolder(async (folder) => {
    await writeFolder(folder, new Map([['photos/day 1/ä.jpg', Uint8Array.of(1, 2)]]));
    await mkdir(join(folder, '.hidden'));
    await writeFile(join(folder, '.hidden', 'x'), 'x');
    await symlink('/etc', join(folder, 'etc'));
    assert.deepEqual([...(await readFolder(folder)).keys()], ['photos/day 1/ä.jpg']);
    assert.equal((await readFolder(folder, (path) => path.endsWith('.csv'))).size, 0);
  });
});

test('a write that fails leaves everything as it was', async () => {
  await inTemporaryFolder(async (folder) => {
    const old = new Map([['a.csv', new TextEncoder().encode('old\n')]]);
    await writeFolder(folder, old);
    // "a.csv/b" cannot be made, because a.csv is a file.
    const broken = new Map([
      ['a.csv', new TextEncoder().encode('new\n')],
      ['a.csv/b', Uint8Array.of(1)],
    ]);
    await assert.rejects(writeFolder(folder, broken));
    assert.deepEqual(await readFolder(folder), old);
    assert.deepEqual(await readdir(folder), ['a.csv']);
    await assert.rejects(writeFolder(folder, new Map([['../b', Uint8Array.of(1)]])), RangeError);
    await chmod(folder, 0o755);
  });
});
