import assert from 'node:assert/strict';
import { mkdir, mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { constants, tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { DiskFault, reading, writing } from './fault.ts';

/** What the sentence says where every kind of failure ends. */
const SENTENCE = /^the place cannot be (?:read|written): [^\n]+\. [A-Z][^\n]+\.$/;

test('every code of the file system gives one sentence: the path, what failed, what to do', async () => {
  for (const code of Object.keys(constants.errno)) {
    const cause = Object.assign(new Error(`${code}: as the system says`), { code, syscall: 'open' });
    for (const doing of [reading, writing]) {
      const error: unknown = await doing('the place', () => Promise.reject(cause)).catch((e: unknown) => e);
      assert.ok(error instanceof DiskFault && SENTENCE.test(error.message), `${code}: ${error}`);
      assert.match(error.message, new RegExp(`\\(${code}\\)`));
      assert.equal(error.cause, cause);
    }
  }
});

test('what is no failure of the file system stays what it is', async () => {
  for (const thrown of [new Error('own'), new TypeError('x'), 'text', null]) {
    assert.equal(await reading('x', () => Promise.reject(thrown)).catch((e: unknown) => e), thrown);
  }
});

test('the system’s own failures are said so', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'stillstand-fault-'));
  await writeFile(join(folder, 'file'), 'x');
  await symlink('round', join(folder, 'round'));
  const said = async (work: () => Promise<unknown>): Promise<string> =>
    await reading('P', work).then(
      () => 'fine',
      (error: unknown) => (error as Error).message,
    );
  assert.match(await said(() => readFile(join(folder, 'none'))), /P cannot be read: there is no such file/);
  assert.match(await said(() => readFile(folder)), /it is a folder, not a file \(EISDIR\)/);
  assert.match(
    await said(() => readFile(join(folder, 'file/x'))),
    /a part of the path is a file.* \(ENOTDIR\)/,
  );
  assert.match(await said(() => readFile(join(folder, 'round'))), /links lead in a circle \(ELOOP\)/);
  assert.match(await said(() => readFile(join(folder, 'n'.repeat(300)))), /\(ENAMETOOLONG\)/);
  assert.match(await said(() => mkdir(folder)), /something of that name exists \(EEXIST\)/);
  await rm(folder, { recursive: true });
});
