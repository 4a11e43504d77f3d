/** Whenever `compute`, `new` or the demo is killed or refused, nobody finds half of what it writes. */
import assert from 'node:assert/strict';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { Killed, onFaultyDisk } from './disk/faulty-disk.ts';
import { target, writeWhole } from './disk/write.ts';
import { said, saidBy } from './fixtures/said.ts';
import { SMALL_CAMPAIGN } from './fixtures/small-campaign.ts';
import { computeFiles } from './index.ts';

const top = mkdtempSync(join(tmpdir(), 'stillstand-kills-'));
after(() => rmSync(top, { recursive: true, force: true }));

const campaign = join(top, 'campaign');
await writeWhole(await target(campaign, { replace: 'nothing' }), SMALL_CAMPAIGN, {
  checksums: false,
  keep: false,
});
const CHANGES = /^(?:mkdir|open|write|sync|close|rename|rm|rmdir)$/;

/** A new campaign has an id by chance: two runs differ in it and in nothing else. */
const RANDOM_ID = /"id": "[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}"/;

/** The files of a folder by path, and what stands beside it. */
function standing(out: string): { files: Map<string, string>; beside: string[] } {
  const found = new Map<string, string>();
  if (existsSync(out))
    for (const entry of readdirSync(out, { recursive: true, withFileTypes: true })) {
      const path = join(entry.parentPath, entry.name);
      if (entry.isFile())
        found.set(path.slice(out.length + 1), readFileSync(path, 'latin1').replace(RANDOM_ID, '"id": "…"'));
    }
  return { files: found, beside: readdirSync(join(out, '..')).filter((name) => !out.endsWith(`/${name}`)) };
}

/** Kills a command at every call that changes the disk; what stands at `out` is then what stood there before or what a whole run leaves. */
async function killedEverywhere(
  name: string,
  before: (out: string) => Promise<void>,
  work: (out: string) => Promise<unknown>,
): Promise<{ kills: number; seen: Set<string> }> {
  const prepared = async (): Promise<string> => {
    const parent = mkdtempSync(join(top, `${name}-`));
    await before(join(parent, 'out'));
    return join(parent, 'out');
  };
  const untouched = standing(await prepared()).files;
  const done = await prepared();
  const { calls } = await onFaultyDisk(
    () => 'goes',
    async () => await work(done),
  );
  const whole = standing(done).files;
  assert.notDeepEqual(whole, untouched);
  const seen = new Set<string>();
  const changing = calls.filter(({ name: call }) => CHANGES.test(call));
  for (const { n, name: call, path } of changing) {
    const out = await prepared();
    const { ended } = await onFaultyDisk(
      (c) => (c.n === n ? 'killed' : 'goes'),
      async () => await work(out),
    );
    if ('error' in ended) assert.ok(ended.error instanceof Killed, String(ended.error));
    const now = standing(out);
    const is = (files: Map<string, string>): boolean => sameFiles(now.files, files);
    const what = is(whole) ? 'new' : is(untouched) ? 'old' : now.files.size === 0 ? 'none' : 'half';
    assert.notEqual(
      what,
      'half',
      `${name} killed at ${n}, ${call} ${path}: ${[...now.files.keys()].join(' ')}`,
    );
    if (what === 'none' && untouched.size > 0) assert.equal(now.beside.length, 2, 'both runs beside');
    seen.add(what);
    await onFaultyDisk(
      () => 'goes',
      async () => await work(out),
    );
    assert.ok(sameFiles(standing(out).files, whole), `${name} after ${n}`);
    assert.deepEqual(standing(out).beside, [], `${name} after ${n}`);
    rmSync(join(out, '..'), { recursive: true });
  }
  return { kills: changing.length, seen };
}

const sameFiles = (a: Map<string, string>, b: Map<string, string>): boolean =>
  a.size === b.size && [...a].every(([path, text]) => b.get(path) === text);

const computed = async (out: string, kind: string): Promise<unknown> =>
  await said('compute', campaign, '--out', out, '--figures', kind);

test('compute over results of another campaign, killed at every change of the disk: all of one or all of the other', async (t) => {
  const other = join(top, 'other');
  assert.equal((await said('new', other)).code, 0);
  const earlier = join(top, 'earlier');
  await said('compute', other, '--out', earlier, '--figures', 'svg');
  const { kills, seen } = await killedEverywhere(
    'compute',
    async (out) => {
      mkdirSync(join(out, 'tables'), { recursive: true });
      for (const [path, text] of standing(earlier).files) writeFileSync(join(out, path), text, 'latin1');
    },
    async (out) => await computed(out, 'svg'),
  );
  t.diagnostic(`${kills} kills; seen ${[...seen].join(', ')}`);
  assert.deepEqual([...seen].sort(), ['new', 'none', 'old']);
  assert.ok(kills >= 50);
});

test('new, killed at every change of the disk: a whole campaign or none', async (t) => {
  const { kills, seen } = await killedEverywhere(
    'new',
    async () => undefined,
    // A second one is refused, rightly, where the first came through.
    async (out) => await said('new', out),
  );
  t.diagnostic(`${kills} kills; seen ${[...seen].join(', ')}`);
  assert.deepEqual([...seen].sort(), ['new', 'old']);
});

test('campaign and results at once, as the demo writes them, killed at every change of the disk', async (t) => {
  const { kills, seen } = await killedEverywhere(
    'demo',
    async (out) => {
      mkdirSync(out, { recursive: true });
      writeFileSync(join(out, 'results.json'), 'of an earlier version');
      writeFileSync(join(out, 'stale.txt'), 'x');
    },
    async (out) =>
      await saidBy(
        async () => await computeFiles(SMALL_CAMPAIGN, out, { kinds: ['svg'], campaignIn: 'campaign' }),
      ),
  );
  t.diagnostic(`${kills} kills; seen ${[...seen].join(', ')}`);
  assert.deepEqual([...seen].sort(), ['new', 'none', 'old']);
});

test('compute and new: every call refused leaves what was there, and says why in one sentence', async (t) => {
  const out = join(top, 'refused', 'out');
  await computed(out, 'svg');
  const before = standing(out).files;
  const { calls } = await onFaultyDisk(
    () => 'goes',
    async () => await computed(out, 'svg'),
  );
  let refused = 0;
  for (const code of ['ENOSPC', 'EACCES'] as const) {
    for (const { n, name: call, path } of calls) {
      const { ended } = await onFaultyDisk(
        (c) => (c.n === n ? code : 'goes'),
        async () => await said('compute', campaign, '--out', out, '--figures', 'svg'),
      );
      assert.ok('value' in ended, `${code} at ${call} ${path}: ${'error' in ended ? ended.error : ''}`);
      const { code: exit, err } = ended.value;
      // Campaign, seed and version are the same, so a run that came through gives the same bytes.
      assert.ok(sameFiles(standing(out).files, before), `${code} at ${call} ${path}`);
      if (exit === 2) {
        refused++;
        assert.match(
          err,
          new RegExp(`^error: /[^\n]+ cannot be (read|written): [^\n]+ \\(${code}\\)\\. [^\n]+\\.$`),
        );
      } else assert.equal(exit, 1, err);
    }
  }
  t.diagnostic(`${calls.length} calls, ${refused} refused`);
  assert.ok(refused > 100);
});
