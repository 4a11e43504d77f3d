/** Size of what is loaded first. How long a person waits is measured in `bench/app`. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { firstScriptBytes } from './speed.ts';

test('what is loaded first is at most 250 kB of script, packed', async () => {
  const bytes = await firstScriptBytes();
  console.log(`first script: ${bytes} bytes packed`);
  assert.ok(bytes <= 250_000, `${bytes} bytes`);
});
