import assert from 'node:assert/strict';
import { test } from 'node:test';
import { reportTablesPage, writtenReportTablesPage } from './report-tables-page.ts';

test('docs/report-tables.md says what the description of the results says', () => {
  assert.equal(
    writtenReportTablesPage(),
    reportTablesPage(),
    'the description has changed: node --import tsx scripts/report-tables-page.ts',
  );
});

test('a heading of 2 sigma is described as 2 sigma', () => {
  const wrong = reportTablesPage()
    .split('\n')
    .filter((line) => /_2s(?:igma|d)(?:_\w+)?`/.test(line) && /\b1 (?:sigma|sd)\b/.test(line))
    .filter((line) => !/2 sigma \|$/.test(line));
  assert.deepEqual(wrong, []);
});
