/** Node reads our sources itself (scripts/typescript.mjs): what it does not take would be found only by who starts it. */
import assert from 'node:assert/strict';
import { globSync, readFileSync } from 'node:fs';
import { stripTypeScriptTypes } from 'node:module';
import { join } from 'node:path';
import { test } from 'node:test';

test('Node takes every source without JSX as it is', () => {
  const root = join(import.meta.dirname, '..');
  const files = globSync('{science,campaign,output,published,demo,surfaces,checks,bench,scripts}/**/*.ts', {
    cwd: root,
    exclude: (path) => path.includes('node_modules'),
  });
  assert.ok(files.length > 500);
  const refused = files.flatMap((file) => {
    try {
      stripTypeScriptTypes(readFileSync(join(root, file), 'utf8'));
      return [];
    } catch (error) {
      return [`${file}: ${String(error)}`];
    }
  });
  assert.deepEqual(refused, []);
});
