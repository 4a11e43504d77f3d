import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { type Memo, stepRunner } from './runner.ts';
import { step } from './step.ts';

let computed = 0;
const length = step(
  'length, for a test',
  ({ row, scale }: { row: { content: string }; scale: number | null }) => {
    computed += 1;
    return `${row.content} × ${scale}`;
  },
);
const id = traceId.hole('H').rig;
const told = (value: string) => ({ label: value, how: 'sum', value: null, sigma: null, unit: '' });

function lengthOf(memo: Memo, content: string, scale: number | null, computation = '1'): string {
  const run = stepRunner({ computation, memo });
  const row = run.row('string_items', { row_id: 'r1', content }, 'joint');
  return run.do(length, id, { row, scale: scale === null ? null : run.plain(scale) }, told).value;
}

test('a step is computed once for the same values, and again when one of them changes', () => {
  computed = 0;
  const memo: Memo = new Map();
  for (const [content, scale, times] of [
    ['10 ft', 1, 1],
    ['10 ft', 1, 1],
    ['3 m', 1, 2],
    ['3 m', 2, 3],
    ['3 m', null, 4],
    ['10 ft', 1, 4],
  ] as const) {
    assert.equal(lengthOf(memo, content, scale), `${content} × ${scale}`);
    assert.equal(computed, times);
  }
});

test('the version of the computation is part of every key', () => {
  computed = 0;
  const memo: Memo = new Map();
  for (const version of ['1', '2', '1']) lengthOf(memo, 'a', 1, version);
  assert.equal(computed, 2);
});

test('words are made each time, whether or not anything is computed', () => {
  const memo: Memo = new Map();
  const labels = ['as it was', 'reworded'].map((label) => {
    const run = stepRunner({ computation: '1', memo });
    const row = run.row('string_items', { row_id: 'r1', content: '3 m' }, 'joint');
    run.do(length, id, { row, scale: null }, () => told(label));
    return run.trace().node(run.trace().find(id)).label;
  });
  assert.deepEqual(labels, ['as it was', 'reworded']);
});

test('two steps of one name are refused', () => {
  assert.throws(() => step('length, for a test', () => 1), /two steps are named/);
});
