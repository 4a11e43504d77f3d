/** Coasts of a campaign for its figures, from a folder and from a zip. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { campaignOf, openCampaign } from './campaign-folder.ts';
import { DiskFault } from './disk/fault.ts';
import { shapesOf } from './map-shapes.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillstand-coast-'));
after(() => rmSync(folder, { recursive: true, force: true }));

const COAST = JSON.stringify({
  type: 'Feature',
  properties: { natural: 'coastline' },
  geometry: {
    type: 'LineString',
    coordinates: [
      [-121.3, -46.4],
      [-121.2, -46.5],
    ],
  },
});

test('every .geojson next to the tables and in the folder files is a coast; no link is followed, what is none is left out', async () => {
  mkdirSync(join(folder, 'files'));
  writeFileSync(join(folder, 'sites.csv'), 'site\nNeck\n');
  writeFileSync(join(folder, 'coast.geojson'), COAST);
  writeFileSync(join(folder, 'files/abc.GEOJSON'), COAST);
  writeFileSync(join(folder, 'broken.geojson'), '{');
  writeFileSync(join(folder, 'notes.txt'), COAST);
  symlinkSync(join(folder, 'coast.geojson'), join(folder, 'link.geojson'));
  const opened = await openCampaign(folder);
  assert.deepEqual(await opened.coasts(), [
    'broken.geojson',
    'coast.geojson',
    'files/abc.GEOJSON',
    'link.geojson',
  ]);
  const { coasts, land } = await shapesOf(opened);
  assert.deepEqual(
    coasts.map(({ sea, places }) => [sea, places.length]),
    [
      ['right', 2],
      ['right', 2],
    ],
  );
  assert.ok(land.length > 100);
});

test('a coast that the disk refuses costs no other, and one that is none is said with what to do', async (t) => {
  const said = t.mock.method(console, 'error', () => {}).mock;
  const { coasts } = await shapesOf({
    coasts: async () => ['refused.geojson', 'broken.geojson', 'coast.geojson'],
    file: async (path) => {
      if (path === 'refused.geojson') throw new DiskFault(path, 'read', new Error('no permission'));
      return new TextEncoder().encode(path === 'broken.geojson' ? '{' : COAST);
    },
  });
  assert.equal(coasts.length, 1);
  const [refused, broken] = said.calls.map((call) => String(call.arguments[0]));
  assert.match(refused!, /^warning: refused\.geojson cannot be read: no permission/);
  assert.match(
    broken!,
    /^error: broken\.geojson: found “.+”; expected GeoJSON with .* Export the coast again/,
  );
});

test('so it is with a campaign whose files are at hand, and one without any has the land alone', async () => {
  const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
  const files = new Map([
    ['sites.csv', bytes('site\nNeck\n')],
    ['files/a.geojson', bytes(COAST)],
  ]);
  assert.equal((await shapesOf(campaignOf(files))).coasts.length, 1);
  files.delete('files/a.geojson');
  assert.deepEqual((await shapesOf(campaignOf(files))).coasts, []);
});
