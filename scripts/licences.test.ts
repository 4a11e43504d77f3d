/** The list of licences is that of what is locked, and nothing in it forbids shipping under Apache-2.0. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { licencesPage, writtenLicencesPage } from './licences.ts';

test('docs/licences.md lists what ships', () => {
  assert.equal(
    writtenLicencesPage(),
    licencesPage(),
    'packages or curves have changed: node --import tsx scripts/licences.ts',
  );
});

test('what is built into the app has a permissive licence, typefaces the open one', () => {
  const app = licencesPage().split('## On the command line')[0]!;
  const rows = [...app.matchAll(/^\| (\S+) \| \d\S* \| (.+?) \|/gm)];
  assert.ok(rows.length >= 8, `${rows.length} packages`);
  // Of a package with two licences, one of its code and one of its font, each must be; so must each of those to choose from.
  for (const [, name, licences] of rows)
    for (const licence of licences!.replace(/^\((.*)\)$/, '$1').split(/ AND | OR /))
      assert.match(licence, /^(MIT|ISC|0BSD|Apache-2\.0|BSD-[23]-Clause|OFL-1\.1)$/, name);
  for (const name of [
    'react',
    'yjs',
    'fflate',
    'pdfkit',
    'fontkit',
    '@noble/hashes',
    '@fontsource-variable/stix-two-text',
  ])
    assert.ok(
      rows.some(([, known]) => known === name),
      name,
    );
});
