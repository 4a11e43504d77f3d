/** Tables of a folder replaced, on a disk that fails and under a program that is killed. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { DiskFault } from './fault.ts';
import { onFaultyDisk } from './faulty-disk.ts';
import { replaceFiles } from './replace.ts';
import type { Entry } from './write.ts';

const top = mkdtempSync(join(tmpdir(), 'stillstand-replace-'));
after(() => rmSync(top, { recursive: true, force: true }));
let made = 0;

const NEW: readonly Entry[] = [
  ['samples.csv', 'new samples, named by the dates\n'],
  ['determinations.csv', 'new dates\n'],
];

/** A folder with the old files, one of them of no concern. */
function folder(): string {
  const path = join(top, String(made++));
  mkdirSync(path);
  for (const name of ['samples.csv', 'determinations.csv', 'holes.csv'])
    writeFileSync(join(path, name), `old ${name}\n`);
  return path;
}

const inside = (path: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(path)
      .filter((name) => name.endsWith('.csv'))
      .map((name) => [name, readFileSync(join(path, name), 'utf8').slice(0, 3)]),
  );

test('killed at any call, each table is all old or all new, and never dates without their samples', async () => {
  const { calls } = await onFaultyDisk(
    () => 'goes',
    () => replaceFiles(folder(), NEW),
  );
  assert.ok(calls.length > 8);
  for (const at of calls.keys()) {
    const path = folder();
    await onFaultyDisk(
      ({ n }) => (n === at + 1 ? 'killed' : 'goes'),
      () => replaceFiles(path, NEW),
    );
    const { 'samples.csv': samples, 'determinations.csv': dates, 'holes.csv': holes } = inside(path);
    assert.equal(holes, 'old');
    assert.ok(
      [samples, dates].every((text) => text === 'old' || text === 'new'),
      `at ${at}`,
    );
    assert.ok(!(dates === 'new' && samples === 'old'), `at ${at}`);
    // The next one settles it.
    await replaceFiles(path, NEW);
    assert.deepEqual(inside(path), { 'samples.csv': 'new', 'determinations.csv': 'new', 'holes.csv': 'old' });
  }
});

test('a disk that refuses before the first rename leaves all as it was, and says so', async () => {
  const { calls } = await onFaultyDisk(
    () => 'goes',
    () => replaceFiles(folder(), NEW),
  );
  const firstRename = calls.findIndex(({ name }) => name === 'rename');
  for (let at = 0; at <= firstRename; at++) {
    const path = folder();
    const { ended } = await onFaultyDisk(
      ({ n }) => (n === at + 1 ? 'ENOSPC' : 'goes'),
      () => replaceFiles(path, NEW),
    );
    assert.ok('error' in ended && ended.error instanceof DiskFault, `at ${at}`);
    assert.match(ended.error.message, /the disk is full/);
    assert.deepEqual(readdirSync(path).sort(), ['determinations.csv', 'holes.csv', 'samples.csv']);
    assert.deepEqual(new Set(Object.values(inside(path))), new Set(['old']));
  }
});
