import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { newDocument, parseCampaign, withRows, writeFiles } from '@stillstand/campaign/document';
import { openFiles } from '@stillstand/campaign/versions';
import { DiskFault } from './fault.ts';
import { isFile, readBytes, readCampaignFolder } from './read.ts';
import { target, writeWhole } from './write.ts';

const top = mkdtempSync(join(tmpdir(), 'stillstand-read-'));
after(() => rmSync(top, { recursive: true, force: true }));
const PLAIN = { checksums: false, keep: false };

test('a new campaign is written and read again the same', async () => {
  const folder = join(top, 'spit');
  const files = writeFiles(newDocument('spit'));
  await writeWhole(await target(folder, { replace: 'nothing' }), files, PLAIN);
  assert.equal(await isFile(folder), false);
  const read = await readCampaignFolder(folder);
  assert.deepEqual(new Map([...read.files].sort()), new Map([...files].sort()));
  assert.deepEqual(openFiles(read.files).problems, []);
  await assert.rejects(target(folder, { replace: 'nothing' }), /exists and is not empty/);
});

test('tables are read in any letters, as tab-separated text, and in folders the package lists; nothing else is', async () => {
  const folder = join(top, 'mixed');
  mkdirSync(join(folder, 'data/deep'), { recursive: true });
  mkdirSync(join(folder, 'results/tables'), { recursive: true });
  const listed = { resources: [{ name: 'sites', path: 'data/deep/s.csv' }, { path: '../x.csv' }, 7, null] };
  writeFileSync(join(folder, 'datapackage.json'), JSON.stringify(listed));
  for (const path of [
    'HOLES.CSV',
    'units.tsv',
    'data/deep/s.csv',
    'results/tables/points.csv',
    '.hidden.csv',
    'a.jpg',
  ])
    writeFileSync(join(folder, path), 'x\n');
  const { files, notFiles } = await readCampaignFolder(folder);
  assert.deepEqual([...files.keys()].sort(), [
    'HOLES.CSV',
    'data/deep/s.csv',
    'datapackage.json',
    'units.tsv',
  ]);
  assert.equal(notFiles.size, 0);
});

test('a link, a folder or a pipe under the name of a table is named for what it is, not as a missing table', async () => {
  const folder = join(top, 'odd');
  let document = newDocument('odd');
  document = withRows(document, 'holes', [{ hole: 'H1', method: 'string' }]);
  document = withRows(document, 'soundings', [
    { hole: 'H1', seq: '1', to_sediment: '1 m', purpose: 'after_drive' },
  ]);
  await writeWhole(await target(folder, { replace: 'nothing' }), writeFiles(document), PLAIN);
  const found = async (): Promise<string[]> => {
    const { files, notFiles } = await readCampaignFolder(folder);
    const opened = openFiles(files, notFiles);
    const problems = [...opened.problems, ...parseCampaign(opened.document).problems];
    return problems
      .filter(({ severity }) => severity === 'error')
      .map((p) => `${p.code} ${p.table}: ${p.found}. ${p.fix}`);
  };
  const expected = (what: string): string[] => [
    `not-a-file holes: holes.csv, ${what}. Put the file itself under that name. Until then it is not read.`,
    'missing-table holes: no holes, though soundings name them. holes.csv is there but was not read: correct it. Until then the rows that name them are set aside.',
  ];
  const path = join(folder, 'holes.csv');
  rmSync(path);
  symlinkSync('/etc/passwd', path);
  assert.deepEqual(await found(), expected('a symbolic link'));
  rmSync(path);
  mkdirSync(path);
  assert.deepEqual(await found(), expected('a folder'));
  rmSync(path, { recursive: true });
  if (spawnSync('mkfifo', [path]).status === 0)
    assert.deepEqual(await found(), expected('a pipe or a device'));
});

test('a folder that is really a link out of the campaign is not entered', async () => {
  const folder = join(top, 'leads-out');
  mkdirSync(folder);
  mkdirSync(join(top, 'outside'));
  writeFileSync(join(top, 'outside/holes.csv'), 'hole,method\n');
  symlinkSync(join(top, 'outside'), join(folder, 'data'));
  writeFileSync(
    join(folder, 'datapackage.json'),
    JSON.stringify({ resources: [{ name: 'holes', path: 'data/holes.csv' }] }),
  );
  const { files, notFiles } = await readCampaignFolder(folder);
  assert.deepEqual(
    [[...files.keys()], [...notFiles]],
    [['datapackage.json'], [['data/holes.csv', 'a symbolic link']]],
  );
});

test('a file larger than we read, or a device that never ends, is refused before it fills the memory', async () => {
  const path = join(top, 'large.zip');
  writeFileSync(path, '');
  truncateSync(path, 2 ** 30 + 1);
  const refusal = async (of: string): Promise<string> =>
    await readBytes(of).then(
      () => 'read',
      (error: unknown) => (error instanceof DiskFault ? error.message : String(error)),
    );
  assert.match(await refusal(path), /cannot be read: it has more than 1024 MiB/);
  if (process.platform === 'linux') {
    assert.match(await refusal('/dev/zero'), /it is a device, not a file/);
    assert.equal((await readBytes('/proc/self/stat')).length > 10, true);
  }
  assert.match(await refusal(join(top, 'none')), /there is no such file or folder \(ENOENT\)/);
});
