/** `compute --package`: what cannot be written is said before anything is computed, and nothing is replaced. */
import assert from 'node:assert/strict';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-cli-package-'));
after(() => rmSync(place, { recursive: true, force: true }));
const campaign = join(place, 'campaign');
const out = join(place, 'out');
assert.equal((await said('new', campaign)).code, 0);

test('a file that is there, one that is no zip, a folder that is not there: refused, nothing computed', async () => {
  const there = join(place, 'kept.zip');
  writeFileSync(there, 'mine');
  for (const [file, words] of [
    [there, /is there already: name a new file, nothing was computed/],
    [join(place, 'data.tar'), /ends in \.zip/],
    [join(place, 'nowhere', 'data.zip'), /there is no folder .*nowhere/],
    [join(out, 'data.zip'), /is replaced as a whole: name a file outside it/],
  ] as const) {
    const { code, err } = await said('compute', campaign, '--out', out, '--package', file);
    assert.notEqual(code, 0);
    assert.match(err, words);
    assert.ok(!existsSync(out));
  }
  assert.equal(readFileSync(there, 'utf8'), 'mine');
});

test('an empty campaign has a package too; the place is said', async () => {
  const file = join(place, 'data.zip');
  const { out: printed } = await said(
    'compute',
    campaign,
    '--out',
    out,
    '--figures',
    'svg',
    '--package',
    file,
  );
  assert.match(printed, /Data package: .*data\.zip/);
  assert.equal(readFileSync(file).subarray(0, 2).toString(), 'PK');
});
