import assert from 'node:assert/strict';
import { test } from 'node:test';
import { stepRunner } from './runner.ts';
import { traceBuilder } from './trace.ts';

const told = (id: string) => ({ id, label: id, how: 'sum', value: 1, sigma: null, unit: 'm', row: null });

test('a node keeps its words and its parts, and the same id is one node', () => {
  const builder = traceBuilder();
  const a = builder.add(told('a'), []);
  const b = builder.add(told('b'), [a]);
  assert.equal(builder.add(told('b'), []), b);
  const trace = builder.finish();
  assert.deepEqual(trace.node(trace.find('b')).parts, ['a']);
  assert.equal(trace.find('c'), -1);
});

test('a part must be older than its whole: no cycles', () => {
  assert.throws(() => traceBuilder().add(told('a'), [0]), RangeError);
});

test('a step is computed once for the same inputs and anew when a row changes', () => {
  const memo = new Map();
  let computed = 0;
  const once = (content: string): number => {
    const run = stepRunner('1', memo);
    const row = run.row('joints', { row_id: 'r1', content }, 'joint');
    return run.step(
      'length',
      'string',
      [row],
      () => ++computed,
      () => told('string'),
    ).value;
  };
  assert.equal(once('10 ft'), 1);
  assert.equal(once('10 ft'), 1);
  assert.equal(once('3 m'), 2);
  assert.equal(once('10 ft'), 1);
});

test('the version of the computation is part of every key', () => {
  const memo = new Map();
  let computed = 0;
  for (const version of ['1', '2', '1']) {
    stepRunner(version, memo).step(
      's',
      's',
      [],
      () => ++computed,
      () => told('s'),
    );
  }
  assert.equal(computed, 2);
});
