/** Test files that share a process: each is run once, and what would lose the tests of others has a process to itself. */
import assert from 'node:assert/strict';
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { processesOf } from './test-processes.ts';

const root = join(import.meta.dirname, '..');
const files = globSync('{science,campaign,output,surfaces,checks}/**/*.test.{ts,tsx}', {
  cwd: root,
  exclude: (path) => path.includes('node_modules'),
});

test('each file is in one process, once', () => {
  const processes = processesOf(files);
  assert.deepEqual(processes.flat().sort(), [...files].sort());
});

test('a file with a hook of the whole process, and a long one, share with no other but one that needs the same curve', () => {
  const [together, ...others] = processesOf(files);
  assert.deepEqual(together, [
    'checks/results/numbers.long.test.ts',
    'checks/whole-way/real-curve.long.test.ts',
  ]);
  const shared = others.filter((own) => own.length > 1).flat();
  assert.ok(shared.length > 50);
  for (const file of shared) {
    assert.doesNotMatch(file, /\.long\.test/);
    assert.doesNotMatch(readFileSync(join(root, file), 'utf8'), /^before(Each)?\(/m, file);
  }
});
