/** A withdrawn reading amended: it is restored with the correction, unless nobody has decided what it said. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readingOf, type TypedRow, toAmend, toWithdraw } from './index.ts';

const row = (row_id: string, cells: Record<string, string>): TypedRow => ({
  row_id,
  cells: { hole: 'H1', seq: '1', to_sediment: '1 m', ...cells, row_id },
});
const written = (rows: readonly Record<string, string>[], from: number): TypedRow[] =>
  rows.map((cells, i) => row(`w${from + i}`, { time: `2024-03-05T10:0${from}:00Z`, by: 'DK', ...cells }));
const reading = (rows: readonly TypedRow[]) => readingOf('soundings', rows, 's')!;

test('withdrawn and amended: in force with the correction', () => {
  const first = [row('s', {})];
  const rows = [...first, ...written(toWithdraw(reading(first)), 1)];
  const again = [...rows, ...written(toAmend('soundings', reading(rows), { to_sediment: '2 m' })!, 3)];
  assert.equal(reading(again).now?.cells['to_sediment'], '2 m');
});

test('its amendments differ once it is restored: null, one must be chosen first', () => {
  const rivals = [
    row('s', {}),
    row('a', { to_sediment: '2 m', amends: 's', amend_kind: 'replace' }),
    row('b', { to_sediment: '3 m', amends: 's', amend_kind: 'replace' }),
  ];
  assert.equal(reading(rivals).state, 'conflict');
  const rows = [...rivals, ...written(toWithdraw(reading(rivals)), 1)];
  assert.equal(reading(rows).state, 'withdrawn');
  assert.equal(toAmend('soundings', reading(rows), { to_sediment: '4 m' }), null);
});
