import assert from 'node:assert/strict';
import { test } from 'node:test';
import { resultsPage, writtenResultsPage } from './results-page.ts';

test('docs/results.md says what the description of the results says', () => {
  assert.equal(
    writtenResultsPage(),
    resultsPage(),
    'the description has changed: node --import tsx scripts/results-page.ts',
  );
});
