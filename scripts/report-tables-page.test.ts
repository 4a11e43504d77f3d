import assert from 'node:assert/strict';
import { test } from 'node:test';
import { reportTablesPage, writtenReportTablesPage } from './report-tables-page.ts';

test('docs/report-tables.md says what the description of the results says', () => {
  assert.equal(
    writtenReportTablesPage(),
    reportTablesPage(),
    'the description has changed: node --import tsx script./report-tables-page.ts',
  );
});
