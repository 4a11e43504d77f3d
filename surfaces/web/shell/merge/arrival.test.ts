import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, readZip, writeZip } from '@stillstand/campaign/document';
import { migrate } from '@stillstand/campaign/versions';
import { askedOf } from './arrival.ts';
import type { Target } from './copy.ts';

const ID = 'a1000000-0000-4000-8000-000000000001';
const arrived = (id?: string, version?: number) => {
  const made = newDocument('Copy', id);
  const stated = version === undefined ? made.package : { ...made.package, stillstand: { version } };
  const document = readZip(writeZip({ ...made, package: stated, source: null })).document;
  return {
    file: new Blob([]),
    unpacked: { ...migrate(document), written: null, update: new Uint8Array() },
  };
};
const target = (package_id: string | null, read_only = false): Target => ({
  id: 'here',
  name: 'Here',
  package_id,
  read_only,
});

test('a file is asked about where its campaign is here, and else opened', () => {
  assert.equal(askedOf({ arrived: arrived(ID), here: [], into: null }), null);
  const here = target(ID);
  assert.deepEqual(askedOf({ arrived: arrived(ID), here: [here], into: null }), {
    kind: 'here',
    targets: [here],
    whyNot: null,
  });
});

test('a file chosen for a campaign is its copy, another, or one that does not say', () => {
  const into = target(ID);
  assert.equal(askedOf({ arrived: arrived(ID), here: [into], into })!.kind, 'here');
  const other = askedOf({ arrived: arrived('b'), here: [], into })!;
  assert.deepEqual([other.kind, other.targets], ['other', []]);
  const silent = askedOf({ arrived: arrived(), here: [], into })!;
  assert.deepEqual([silent.kind, silent.targets], ['not stated', [into]]);
});

test('nothing is merged from a newer copy, nor into a campaign that is read only', () => {
  const newer = askedOf({ arrived: arrived(ID, 99), here: [target(ID)], into: null })!;
  assert.deepEqual([newer.targets, /newer Stillstand/.test(newer.whyNot!)], [[], true]);
  const shut = askedOf({ arrived: arrived(ID), here: [target(ID, true)], into: null })!;
  assert.deepEqual([shut.targets, /read only/.test(shut.whyNot!)], [[], true]);
});
