import assert from 'node:assert/strict';
import { test } from 'node:test';
import { checksOf } from './answers.ts';

const RFC = { delimiter: ';', line_terminator: '\n', decimal_comma: true };

test('a table that writes its numbers with a comma hides no answer', () => {
  const rows = {
    holes: [{ row_id: 'h', cells: { hole: 'H1' } }],
    checks: [
      {
        row_id: 'c',
        cells: {
          hole: 'H1',
          date: '2024-03-05',
          item: 'Mast clear of overhead lines',
          answer: 'no',
          seq: '3,5',
        },
      },
    ],
  };
  const source = {
    rows: (table: string) => rows[table as keyof typeof rows] ?? [],
    dialect: (table: string) => (table === 'checks' ? RFC : undefined),
  };
  const check = checksOf(source as never, '2024-03-05', 'H1').find((c) => c.check === 'overhead');
  assert.equal(check?.state, 'danger');
});

test('a hole whose other cells are wrong still has its answers', () => {
  const rows = {
    holes: [{ row_id: 'h', cells: { hole: 'H1', method: 'nonsense', site: 'nowhere', state: 'open' } }],
    checks: [
      {
        row_id: 'c',
        cells: {
          hole: 'H1',
          date: '2024-03-05',
          item: 'Mast clear of overhead lines',
          answer: 'no',
          seq: '1',
        },
      },
    ],
  };
  const source = { rows: (table: string) => rows[table as keyof typeof rows] ?? [] };
  const check = checksOf(source as never, '2024-03-05', 'H1').find((c) => c.check === 'overhead');
  assert.equal(check?.state, 'danger');
});
