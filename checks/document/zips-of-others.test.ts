/** Archives packed by other programs (fixtures/zips): the plain ones read the same, the others are named for what they are. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { readZip, writeFiles } from '@stillstand/campaign/document';

const folder = join(import.meta.dirname, 'fixtures/zips');
const PHOTO = 'photos/Düne ä.jpg';

function read(name: string): { files: Map<string, string>; codes: string[] } {
  const { document, problems } = readZip(new Uint8Array(readFileSync(join(folder, name))));
  const files = [...writeFiles(document)].map(
    ([path, bytes]) => [path.normalize('NFC'), Buffer.from(bytes).toString('latin1')] as const,
  );
  return { files: new Map(files), codes: problems.map(({ code, found }) => `${code}: ${found}`) };
}

const WHOLE: Record<string, string[]> = {
  'info-zip.zip': [],
  'info-zip-comment.zip': [],
  'info-zip-outer-folder.zip': ['outer-folder: spit/'],
  'info-zip-stored.zip': [],
  'info-zip-streamed.zip': [],
  'jar.zip': [],
  'python.zip': [],
  'python-code-page-437.zip': [],
  'python-streamed.zip': [],
};

for (const [name, codes] of Object.entries(WHOLE)) {
  test(`${name}: every file, byte for byte`, () => {
    const given = read(name);
    assert.deepEqual(given.codes, codes);
    assert.deepEqual([...given.files.keys()].sort(), ['datapackage.json', 'holes.csv', PHOTO]);
    assert.equal(given.files.get('holes.csv'), 'hole,method\nH1,string\n');
    assert.equal(given.files.get(PHOTO), '\xff\xd8\xff\x00photo');
  });
}

const REFUSED: Record<string, RegExp> = {
  'info-zip-bzip2.zip': /^unknown-packing: holes\.csv, packed by method 12/m,
  'info-zip-password.zip': /^encrypted-file: holes\.csv, under a password/m,
  'info-zip-zip64.zip': /^zip64: /m,
  'python-lzma.zip': /^unknown-packing: holes\.csv, packed by method 14/m,
  'python-zip64.zip': /^zip64: /m,
  'info-zip-link.zip': /^not-a-file: samples\.csv, a symbolic link/m,
};

for (const [name, expected] of Object.entries(REFUSED)) {
  test(`${name}: named for what it is`, () => {
    assert.match(read(name).codes.join('\n'), expected);
  });
}

test('every archive is read by one of these', () => {
  const names = [...Object.keys(WHOLE), ...Object.keys(REFUSED)].sort();
  assert.deepEqual(readdirSync(folder).sort(), names);
});
