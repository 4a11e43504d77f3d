/** `compute --package` and `--geopackage`: what cannot be made is said before anything is computed, and nothing is replaced. */
import assert from 'node:assert/strict';
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { after, test } from 'node:test';
import { filesOfZip } from '@stillstand/campaign/document';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-cli-package-'));
after(() => rmSync(place, { recursive: true, force: true }));
const campaign = join(place, 'campaign');
const out = join(place, 'out');
assert.equal((await said('new', campaign)).code, 0);

const pictured = join(place, 'pictured');
assert.equal((await said('new', pictured)).code, 0);
mkdirSync(join(pictured, 'photos'));
/** Photographs that are there, one that is not, and what only looks like one. */
const SECRET = 'of nobody else';
const PICTURE = Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919) % 251);
writeFileSync(join(pictured, 'photos', 'core 1.jpg'), PICTURE);
writeFileSync(join(pictured, 'beach.png'), PICTURE.subarray(0, 100));
writeFileSync(join(place, 'private.txt'), SECRET);
symlinkSync(join(place, 'private.txt'), join(pictured, 'photos', 'link.jpg'));
const heading = readFileSync(join(pictured, 'photos.csv'), 'utf8').split('\n')[0]!.split(',');
for (const file of ['photos/core 1.jpg', 'beach.png', 'photos/gone.jpg', 'photos/link.jpg', '../private.txt'])
  appendFileSync(
    join(pictured, 'photos.csv'),
    `${heading.map((column) => (column === 'file' ? file : '')).join(',')}\n`,
  );

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

test('a GeoPackage by itself: read by another SQLite; refused where it cannot be, nothing computed', async () => {
  const file = join(place, 'map.gpkg');
  const { out: printed } = await said(
    'compute',
    campaign,
    '--out',
    out,
    '--figures',
    'svg',
    '--geopackage',
    file,
  );
  assert.match(printed, /\nGeoPackage: .*map\.gpkg/);
  const db = new DatabaseSync(file, { readOnly: true });
  assert.deepEqual({ ...db.prepare('PRAGMA integrity_check').get() }, { integrity_check: 'ok' });
  assert.ok(Number(db.prepare('SELECT count(*) AS n FROM gpkg_contents').get()!['n']) > 20);
  db.close();
  const fresh = join(place, 'fresh');
  for (const [name, words] of [
    [file, /is there already: name a new file, nothing was computed/],
    [join(place, 'map.sqlite'), /--geopackage: found .*ends in \.gpkg/],
    [join(fresh, 'map.gpkg'), /is replaced as a whole: name a file outside it/],
  ] as const) {
    const { code, err } = await said('compute', campaign, '--out', fresh, '--geopackage', name);
    assert.notEqual(code, 0);
    assert.match(err, words);
    assert.ok(!existsSync(fresh));
  }
});

/** The files of a package of the campaign, with what was said. */
async function packageOf(from: string, name: string, ...more: string[]) {
  const file = join(place, name);
  const computed = await said(
    'compute',
    from,
    '--out',
    join(place, `out-${name}`),
    '--figures',
    'svg',
    '--package',
    file,
    ...more,
  );
  assert.ok(computed.code <= 1, computed.err);
  return { ...computed, file, files: filesOfZip(new Uint8Array(readFileSync(file))).files };
}

test('photographs of a folder go into its package; a missing one is named, no link is followed', async () => {
  const { files, err, file } = await packageOf(pictured, 'with.zip');
  assert.deepEqual(files.get('campaign/photos/core 1.jpg'), PICTURE);
  assert.deepEqual(files.get('campaign/beach.png'), PICTURE.subarray(0, 100));
  assert.match(
    err,
    /note: photos\.csv names files that are not there, and not in the package: photos\/gone\.jpg, photos\/link\.jpg, \.\.\/private\.txt/,
  );
  assert.ok([...files.values()].every((bytes) => !Buffer.from(bytes).includes(SECRET)));
  assert.match(new TextDecoder().decode(files.get('README.txt')), /Photographs: 2 of 5 /);

  // The package is a campaign with its photographs: computed again it gives the same package.
  const again = await packageOf(file, 'again.zip');
  assert.deepEqual(readFileSync(again.file), readFileSync(file));
  const compared = await said('compare', file, again.file);
  assert.equal(compared.code, 0, compared.err);
  assert.match(compared.out, /No row of the campaign changed/);
});

test('without photographs: only that differs, and the README says so', async () => {
  const { files, err } = await packageOf(pictured, 'without.zip', '--without-photographs');
  const names = [...filesOfZip(new Uint8Array(readFileSync(join(place, 'with.zip')))).files.keys()];
  assert.deepEqual(
    [...files.keys()],
    names.filter((name) => !/\.(?:jpg|png)$/.test(name)),
  );
  assert.doesNotMatch(err, /gone\.jpg/);
  assert.match(new TextDecoder().decode(files.get('README.txt')), /Photographs are left out: 5 photographs/);
  const alone = await said('compute', pictured, '--out', join(place, 'none'), '--without-photographs');
  assert.equal(alone.code, 2);
  assert.match(alone.err, /goes with --package/);
});

test('more photographs than a package that opens again may have: said before anything is computed', async () => {
  const huge = join(pictured, 'photos', 'gone.jpg');
  writeFileSync(huge, '');
  truncateSync(huge, 600_000_000);
  const none = join(place, 'none');
  const { code, err } = await said('compute', pictured, '--out', none, '--package', join(place, 'huge.zip'));
  rmSync(huge);
  assert.notEqual(code, 0);
  assert.match(err, /found a photograph of 600 MB, expected at most 500 MB: .* Add --without-photographs/);
  assert.ok(!existsSync(none) && !existsSync(join(place, 'huge.zip')));
});
