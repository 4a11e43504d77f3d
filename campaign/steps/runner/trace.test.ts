import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { traceBuilder } from './trace.ts';

const [a, b, c] = ['A', 'B', 'C'].map((label) => traceId.date(label)) as [never, never, never];
const told = (id: typeof a) => ({
  id,
  label: id,
  how: 'sum',
  value: 1,
  sigma: null,
  unit: 'm',
  signed: false,
  row: null,
});

test('a node keeps its words and its parts, and the same id is one node', () => {
  const builder = traceBuilder();
  const first = builder.add(told(a), []);
  const second = builder.add(told(b), [first]);
  assert.equal(builder.add(told(b), []), second);
  const trace = builder.finish();
  assert.deepEqual(trace.node(trace.find(b)).parts, [a]);
  assert.equal(trace.find(c), -1);
});

test('a part must be older than its whole: no cycles', () => {
  assert.throws(() => traceBuilder().add(told(a), [0]), RangeError);
});
