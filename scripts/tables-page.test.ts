import assert from 'node:assert/strict';
import { test } from 'node:test';
import { tablesPage, writtenTablesPage } from './tables-page.ts';

test('docs/tables.md says what the schemas say', () => {
  assert.equal(
    writtenTablesPage(),
    tablesPage(),
    'the schemas have changed: node --import tsx scripts/tables-page.ts',
  );
});
