/**
 * Folders are written whole or not at all: the program is killed at every single call of the file system, and every
 * call is refused. What is then on the disk is all of the old or all of the new.
 */
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { symlink } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after, test } from 'node:test';
import { DiskFault } from './fault.ts';
import { type Call, Killed, onFaultyDisk } from './faulty-disk.ts';
import { CHECKSUMS, type Entry, NoTarget, target, type Written, writeWhole } from './write.ts';

const top = mkdtempSync(join(tmpdir(), 'stillstand-write-'));
after(() => rmSync(top, { recursive: true, force: true }));
let made = 0;
const place = (): string => join(top, String(made++), 'result');

/** The files of a run; two runs have some names in common, and each has one of its own. */
const run = (which: string): Entry[] => [
  ['results.json', `{"format": "stillstand-results", "run": "${which}"}`],
  ['results.npz', new TextEncoder().encode(`draws of ${which} `.repeat(50))],
  ['tables/points.csv', `point\n${which}\n`],
  ['tables/holes.csv', `hole\n${which}\n`],
  [`figures/curve-${which}.svg`, `<svg>${which}</svg>`],
  ['report.html', `<p>${which}</p>`],
];

const plainWrite = async (said: string, entries: readonly Entry[]): Promise<Written> =>
  await writeWhole(await target(said, { replace: 'results' }), entries, { checksums: true, keep: true });

/** The same without waiting for the disk. */
async function write(said: string, entries: readonly Entry[]): Promise<Written> {
  const { ended } = await onFaultyDisk(
    () => 'goes',
    async () => await plainWrite(said, entries),
  );
  if ('error' in ended) throw ended.error;
  return ended.value;
}

function filesBelow(folder: string): Map<string, string> {
  const files = new Map<string, string>();
  if (!existsSync(folder)) return files;
  for (const path of readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort())
    if (lstatSync(join(folder, path)).isFile()) files.set(path, readFileSync(join(folder, path), 'utf8'));
  return files;
}

/** Which run a folder holds, every file of it and no other of the tool's; a person's own files are set apart. */
function heldBy(folder: string): { run: string | null; own: string[] } {
  const files = filesBelow(folder);
  for (const which of ['old', 'new', 'next']) {
    const entries = run(which);
    const isWhole = entries.every(
      ([path, content]) =>
        files.get(path) === (typeof content === 'string' ? content : new TextDecoder().decode(content)),
    );
    if (!isWhole) continue;
    const sums = new Map(
      (files.get(CHECKSUMS) ?? '').split('\n').map((line) => [line.slice(66), line.slice(0, 64)]),
    );
    for (const [path, content] of entries)
      assert.equal(sums.get(path), createHash('sha256').update(content).digest('hex'));
    const known = new Set([CHECKSUMS, ...entries.map(([path]) => path)]);
    return { run: which, own: [...files.keys()].filter((path) => !known.has(path)) };
  }
  return { run: null, own: [...files.keys()] };
}

const OWN: readonly Entry[] = [
  ['notes.txt', 'mine'],
  ['tables/points.xlsx', 'my own workbook'],
];
const addOwn = (folder: string): void => {
  for (const [path, content] of OWN) writeFileSync(join(folder, path), content);
};
const besides = (folder: string): string[] =>
  readdirSync(dirname(folder)).filter((name) => name !== 'result');

/** One write on a faulty disk over what stands there; `before` is made on a sound one. */
async function attempt(
  before: 'nothing' | 'old' | 'old with own files',
  fate: (call: Call) => 'goes' | 'killed' | `E${string}`,
) {
  const folder = place();
  if (before !== 'nothing') await write(folder, run('old'));
  if (before === 'old with own files') addOwn(folder);
  return { folder, ...(await onFaultyDisk(fate, () => plainWrite(folder, run('new')))) };
}

for (const before of ['nothing', 'old', 'old with own files'] as const) {
  test(`killed at every call of the file system, over ${before}: never two runs in one folder`, async (t) => {
    const { calls } = await attempt(before, () => 'goes');
    let wholes = { old: 0, new: 0, none: 0 };
    for (const at of calls.keys()) {
      const { folder, ended } = await attempt(before, ({ n }) => (n === at + 1 ? 'killed' : 'goes'));
      const where = `killed at ${at + 1}, ${calls[at]!.name}`;
      if ('error' in ended) assert.ok(ended.error instanceof Killed, `${where}: ${ended.error}`);
      const seen = heldBy(folder);
      if (seen.run === null) {
        assert.deepEqual(seen.own, [], `${where}: part of a run`);
        if (before !== 'nothing') {
          // Between the two renames: both runs stand whole beside, under names that say so.
          const held = besides(folder).map((name) => [
            name.split('-')[1],
            heldBy(join(dirname(folder), name)).run,
          ]);
          assert.deepEqual(
            held.sort(),
            [
              ['new', 'new'],
              ['old', 'old'],
            ],
            where,
          );
        }
        wholes = { ...wholes, none: wholes.none + 1 };
      } else {
        assert.ok(seen.run === 'new' || before !== 'nothing', where);
        wholes = { ...wholes, [seen.run]: wholes[seen.run as 'old' | 'new'] + 1 };
      }
      // The next write, killed before it changes anything, has settled what was left; then one goes through.
      const settled = await target(folder, { replace: 'results' });
      const after = heldBy(folder);
      assert.ok(
        after.run === (before === 'nothing' && seen.run === null ? null : (seen.run ?? 'old')),
        where,
      );
      assert.deepEqual(besides(folder), [], where);
      assert.equal(settled.said, folder);
      await write(folder, run('next'));
      const last = heldBy(folder);
      assert.equal(last.run, 'next', where);
      const own = before === 'old with own files' ? OWN.map(([path]) => path) : [];
      assert.deepEqual(last.own.sort(), own, `${where}: a person’s own files`);
      for (const path of own) assert.equal(readFileSync(join(folder, path), 'utf8'), new Map(OWN).get(path));
      assert.deepEqual(besides(folder), [], where);
    }
    t.diagnostic(`${calls.length} kills: ${JSON.stringify(wholes)}`);
    assert.ok(calls.length >= 50 && wholes.new > 0 && (before === 'nothing' || wholes.old > 0));
  });
}

test('killed by the system, twelve times: one run in the folder, and no more beside it than one write leaves', async () => {
  const folder = place();
  for (let kill = 0; kill < 12; kill++) {
    const program = spawn(process.execPath, [
      '--import',
      'tsx',
      join(import.meta.dirname, 'write-for-ever.ts'),
      folder,
    ]);
    program.stderr.pipe(process.stderr);
    // It is killed when so many writes were said to stand, in the middle of the next.
    await new Promise<void>((resolve) => {
      let rounds = 0;
      program.stdout.on('data', (data: Buffer) => {
        rounds += data.length / 2;
        if (rounds > kill % 5) program.kill('SIGKILL');
      });
      program.on('exit', (_, signal) => {
        assert.equal(signal, 'SIGKILL');
        resolve();
      });
    });
    const files = filesBelow(folder);
    if (files.size > 0) {
      const letters = new Set([...files].filter(([path]) => path !== CHECKSUMS).map(([, text]) => text[0]));
      assert.equal(letters.size, 1, 'two runs in one folder');
      assert.equal(files.size, 21);
      const sums = new Map(
        files
          .get(CHECKSUMS)!
          .split('\n')
          .map((line) => [line.slice(66), line.slice(0, 64)]),
      );
      for (const [path, text] of files)
        if (path !== CHECKSUMS)
          assert.equal(sums.get(path), createHash('sha256').update(text).digest('hex'), path);
    } else assert.equal(besides(folder).length, 2);
    assert.ok(besides(folder).length <= 2);
  }
  await target(folder, { replace: 'results' });
  assert.deepEqual([filesBelow(folder).size, besides(folder)], [21, []]);
});

const CODES = ['EACCES', 'ENOSPC', 'EXDEV'] as const;

test('refused at every call with several codes: a sentence that names the path, and the folder as it was', async (t) => {
  const { calls } = await attempt('old with own files', () => 'goes');
  let refused = 0;
  for (const code of CODES) {
    for (const at of calls.keys()) {
      const { folder, ended } = await attempt('old with own files', ({ n }) =>
        n === at + 1 ? code : 'goes',
      );
      const where = `${code} at ${at + 1}, ${calls[at]!.name} ${calls[at]!.path}`;
      const seen = heldBy(folder);
      if ('error' in ended) {
        refused++;
        assert.ok(ended.error instanceof DiskFault, `${where}: ${ended.error}`);
        assert.match(
          ended.error.message,
          /^\/\S+.* cannot be (read|written): .+ \(E\w+\)\. [A-Z].+\.$/,
          where,
        );
        assert.equal(seen.run, seen.run === null ? null : 'old', where);
        if (seen.run === 'old')
          assert.deepEqual(
            seen.own.sort(),
            OWN.map(([path]) => path),
            where,
          );
      } else {
        assert.equal(seen.run, 'new', where);
      }
      await write(folder, run('next'));
      assert.equal(heldBy(folder).run, 'next', where);
      assert.deepEqual(
        heldBy(folder).own.sort(),
        OWN.map(([path]) => path),
        where,
      );
      assert.deepEqual(besides(folder), [], where);
    }
  }
  t.diagnostic(`${calls.length} calls × ${CODES.length} codes, ${refused} refused`);
  assert.ok(refused > 100);
});

test('a full disk in the middle leaves the old results and nothing beside', async () => {
  const { folder, ended } = await attempt('old', ({ name, path }) =>
    name === 'write' && path.includes('points.csv') ? 'ENOSPC' : 'goes',
  );
  assert.ok('error' in ended && ended.error instanceof DiskFault);
  assert.match(
    ended.error.message,
    /points\.csv cannot be written: the disk is full \(ENOSPC\)\. Free some space/,
  );
  assert.deepEqual([heldBy(folder), besides(folder)], [{ run: 'old', own: [] }, []]);
});

test('what a person changed or added stays; a figure of an earlier run does not', async () => {
  const folder = place();
  await write(folder, run('old'));
  addOwn(folder);
  writeFileSync(join(folder, 'tables/points.csv'), 'point\nedited by hand\n');
  const { kept, remains } = await write(folder, run('new'));
  assert.deepEqual(kept, ['notes.txt', 'tables/points.kept.csv', 'tables/points.xlsx']);
  assert.equal(remains, null);
  assert.equal(readFileSync(join(folder, 'tables/points.kept.csv'), 'utf8'), 'point\nedited by hand\n');
  assert.equal(readFileSync(join(folder, 'tables/points.csv'), 'utf8'), 'point\nnew\n');
  assert.equal(existsSync(join(folder, 'figures/curve-old.svg')), false);
});

test('results of a version without checksums are replaced, and what has no successor is kept', async () => {
  const folder = place();
  mkdirSync(join(folder, 'tables'), { recursive: true });
  for (const path of ['results.json', 'report.html', 'tables/points.csv', 'tables/mine.csv'])
    writeFileSync(join(folder, path), 'earlier');
  assert.deepEqual((await write(folder, run('new'))).kept, ['tables/mine.csv']);
  assert.deepEqual(heldBy(folder), { run: 'new', own: ['tables/mine.csv'] });
});

test('a folder that is not for results is refused before anything is written', async () => {
  const folder = place();
  mkdirSync(join(folder, 'campaign'), { recursive: true });
  const refusal = async (said: string, spare?: string): Promise<string> => {
    const before = filesBelow(dirname(folder));
    const error: unknown = await target(said, {
      replace: 'results',
      ...(spare === undefined ? {} : { spare }),
    }).then(
      () => assert.fail('taken'),
      (thrown: unknown) => thrown,
    );
    assert.ok(error instanceof NoTarget, String(error));
    assert.deepEqual(filesBelow(dirname(folder)), before);
    return error.message;
  };
  assert.match(await refusal(folder, join(folder, 'campaign')), /holds the campaign: name a folder/);
  writeFileSync(join(folder, 'notes.txt'), 'mine');
  assert.match(await refusal(folder), /holds other files and no results/);
  writeFileSync(join(folder, 'results.json'), '{}');
  assert.match(await refusal(folder), /holds folders of yours besides results \(campaign\)/);
  writeFileSync(join(folder, 'datapackage.json'), '{}');
  assert.match(await refusal(folder), /is a campaign/);
  assert.match(await refusal(join(folder, 'notes.txt')), /is a file/);
  assert.match(await refusal('.'), /the folder this command is given in/);
  assert.match(await refusal('..'), /the folder this command is given in/);
  assert.match(await refusal('/'), /is a whole disk/);
  await symlink(join(top, 'nowhere'), join(dirname(folder), 'link'));
  assert.match(await refusal(join(dirname(folder), 'link')), /a link that leads nowhere/);
  if (existsSync('/dev/shm')) assert.match(await refusal('/dev/shm'), /is the top of a disk/);
});

test('a link to a folder of results: the folder it leads to is replaced, the link stays', async () => {
  const folder = place();
  await write(folder, run('old'));
  const link = join(dirname(folder), 'link');
  await symlink(folder, link);
  await write(link, run('new'));
  assert.equal(lstatSync(link).isSymbolicLink(), true);
  assert.deepEqual(heldBy(folder), { run: 'new', own: [] });
});

test('a disk with too little room is named before anything is computed', async () => {
  const folder = place();
  await write(folder, run('old'));
  const { ended } = await onFaultyDisk(
    () => 'goes',
    async () => {
      const { promises } = await import('node:fs');
      const { statfs } = promises;
      const full = async () => ({ ...(await statfs(folder)), blocks: 9, bavail: 3, bsize: 4096 });
      Object.assign(promises, { statfs: full });
      const { syncBuiltinESMExports } = await import('node:module');
      syncBuiltinESMExports();
      return await target(folder, { replace: 'results' });
    },
  );
  assert.ok('error' in ended && ended.error instanceof NoTarget);
  assert.match(ended.error.message, /has 0\.0 MiB free, and results need about 1\.0 MiB/);
});

test('paths that lead out of the folder are refused', async () => {
  const folder = place();
  await assert.rejects(write(folder, [['../b', 'x']]), RangeError);
  assert.deepEqual([existsSync(folder), besides(folder)], [false, []]);
});
