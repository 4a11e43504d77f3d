import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  type CampaignDocument,
  DOCUMENT_VERSION,
  newDocument,
  parseCampaign,
  readFiles,
  withRows,
  writeFiles,
  writeZip,
} from '@stillstand/campaign/document';
import { lift, openFiles, openZip, VERSION_STEPS, versionOf } from './versions.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const filesOf = (files: Record<string, string>) =>
  new Map(Object.entries(files).map(([path, text]) => [path, bytes(text)]));

interface Package {
  title?: string;
  ours?: number;
  stillstand?: unknown;
  resources?: { path: string }[];
}

/** A document of each older version, to be lifted by the step that begins there. */
const OLDER: Readonly<Record<number, CampaignDocument[]>> = {
  0: [
    readFiles(filesOf({ 'holes.csv': 'hole,method\nH1,string\n' })).document,
    readFiles(
      filesOf({
        'datapackage.json':
          '{"title":"old","ours":1,"stillstand":{"crew":3},"resources":[{"name":"x","path":"x.bin"}]}',
        'holes.csv': 'hole,method\nH1,string\n',
      }),
    ).document,
  ],
};

test('the steps lead without a gap from 0 to the version we write, and every one is exercised', () => {
  assert.deepEqual(
    VERSION_STEPS.map(({ from, to }) => [from, to]),
    Array.from({ length: DOCUMENT_VERSION }, (_, i) => [i, i + 1]),
  );
  for (const step of VERSION_STEPS) {
    const older = OLDER[step.from] ?? [];
    assert.ok(older.length > 0, `no document of version ${step.from}`);
    for (const document of older) {
      assert.equal(versionOf(document), step.from);
      const before = writeFiles(document);
      const after = step.apply(document);
      assert.equal(versionOf(after), step.to);
      assert.deepEqual(writeFiles(document), before, 'a step must not change the document it is given');
    }
  }
});

test('step 0 → 1 states the version, lists the tables and keeps what was there', () => {
  const [bare, described] = OLDER[0]!.map((document) => lift(document).document.package) as unknown as [
    Package,
    Package,
  ];
  assert.deepEqual(bare.stillstand, { version: 1 });
  assert.deepEqual(
    bare.resources?.map(({ path }) => path),
    ['holes.csv'],
  );
  assert.equal(described.title, 'old');
  assert.equal(described.ours, 1);
  assert.deepEqual(described.stillstand, { crew: 3, version: 1 });
  assert.deepEqual(
    described.resources?.map(({ path }) => path),
    ['x.bin', 'holes.csv'],
  );
});

test('a document of our version stays the very same object', () => {
  const document = newDocument('x');
  assert.equal(lift(document).document, document);
  const opened = openZip(writeZip(document));
  assert.deepEqual(opened.problems, []);
  assert.equal(opened.read_only, false);
  assert.deepEqual(writeFiles(opened.document), writeFiles(document));
});

test('a newer document, or one whose version is none, is read as far as it goes and not written', () => {
  for (const [version, code] of [
    ['2', 'newer-version'],
    ['999', 'newer-version'],
    ['-1', 'unknown-version'],
    ['1.5', 'unknown-version'],
    ['"two"', 'unknown-version'],
    ['null', 'unknown-version'],
  ] as const) {
    const opened = openFiles(
      filesOf({
        'datapackage.json': `{"stillstand":{"version":${version}}}`,
        'holes.csv': 'hole,method,depth_of_everything\nH1,string,3\n',
      }),
    );
    assert.equal(opened.read_only, true);
    assert.deepEqual(
      opened.problems.map((p) => p.code),
      [code],
    );
    assert.ok(opened.problems[0]!.found.includes(version));
    assert.equal(parseCampaign(opened.document).campaign.rows.holes.length, 1);
  }
});

test('a package that cannot be read is never written over', () => {
  const opened = openFiles(filesOf({ 'datapackage.json': '{ torn', 'holes.csv': 'hole,method\n' }));
  assert.equal(opened.read_only, true);
  const edited = withRows(opened.document, 'holes', [{ hole: 'H1', method: 'string' }]);
  assert.deepEqual(writeFiles(edited).get('datapackage.json'), bytes('{ torn'));
});
