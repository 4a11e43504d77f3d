/** The changelog has a line for every version that is written into files. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { DOCUMENT_VERSION } from '@stillstand/campaign/document';
import { COMPUTATION } from '@stillstand/campaign/steps';

const ROOT = join(import.meta.dirname, '..');
const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

test('versions of document, results and computation have their line in CHANGELOG.md', () => {
  const page = read('CHANGELOG.md');
  const { properties } = JSON.parse(read('campaign/results/results.schema.json')) as {
    properties: { version: { const: number } };
  };
  assert.equal(typeof properties.version.const, 'number');
  assert.match(page, new RegExp(`^- Document ${DOCUMENT_VERSION}\\b`, 'm'));
  assert.match(page, new RegExp(`^- Results ${properties.version.const}:`, 'm'));
  assert.match(page, new RegExp(`^- \`computation\` ${COMPUTATION}:`, 'm'));
});

test('one version of Stillstand in package.json and CITATION.cff', () => {
  const { version } = JSON.parse(read('package.json')) as { version: string };
  assert.match(read('CITATION.cff'), new RegExp(`^version: ${version.replaceAll('.', '\\.')}$`, 'm'));
});
