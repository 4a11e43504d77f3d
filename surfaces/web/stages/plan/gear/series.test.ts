import assert from 'node:assert/strict';
import { test } from 'node:test';
import { itemKey } from '@stillstand/campaign/holes';
import { type SeriesAsked, seriesOf } from './series.ts';

const asked = (more: Partial<SeriesAsked>): SeriesAsked => ({
  first: '',
  last: '',
  length: '',
  lengths: '',
  item: 'joint',
  makeup_loss: '',
  pipe: '',
  ...more,
});
const of = (more: Partial<SeriesAsked>, taken: string[] = [], unit: 'm' | null = null) =>
  seriesOf(asked(more), new Set(taken.map((label) => itemKey('joint', label))), unit);
const labels = (series: ReturnType<typeof of>) =>
  series.rows.map((r) => `${r['stock_item']} ${r['length'] ?? ''}`.trim());

test('A1 to A12, 1.52 m each: twelve rows; what the stock has is left as it is', () => {
  const series = of({ first: 'A1', last: 'A12', length: '1.52 m', pipe: '3 in', makeup_loss: '3 cm' }, [
    'a3',
  ]);
  assert.equal(series.rows.length, 11);
  assert.deepEqual(series.there, ['A3']);
  assert.deepEqual(series.rows[0], {
    stock_item: 'A1',
    item: 'joint',
    length: '1.52 m',
    makeup_loss: '3 cm',
    pipe: '3 in',
  });
  assert.deepEqual(labels(of({ first: 'B08', last: 'B10' })), ['B08', 'B09', 'B10']);
  assert.deepEqual(labels(of({ first: 'S' })), ['S']);
});

test('pasted lengths run on from the first label; a line may name its own', () => {
  assert.deepEqual(labels(of({ first: 'A4', lengths: '3.05 m\n10 ft\n\n9 ft 11 1/2 in' })), [
    'A4 3.05 m',
    'A5 10 ft',
    'A6 9 ft 11 1/2 in',
  ]);
  assert.deepEqual(labels(of({ lengths: 'C1 3.05 m; C2: 3.04 m\nX, 1.5 m' })), [
    'C1 3.05 m',
    'C2 3.04 m',
    'X 1.5 m',
  ]);
});

test('what cannot be read is said, and nothing is added', () => {
  const fault = (more: Partial<SeriesAsked>) => {
    const { rows, fault } = of(more);
    assert.deepEqual(rows, []);
    return fault;
  };
  assert.match(fault({ first: 'A1', last: 'B4' })!, /differ in their number/);
  assert.match(fault({ first: 'A4', last: 'A1' })!, /before/);
  assert.match(fault({ first: 'A1', last: 'A900' })!, /200 at most/);
  assert.match(fault({ first: 'A1', last: 'A2', length: '3.05' })!, /Found “3.05”/);
  assert.match(fault({ lengths: '3.05 m' })!, /first label/);
  assert.match(fault({ lengths: 'A1 long' })!, /Found “A1 long”/);
  assert.match(fault({ lengths: 'A1 3 m\na1 3 m' })!, /twice/);
  assert.equal(of({ first: 'A1', last: 'A2', length: '3.05' }, [], 'm').rows.length, 2);
});
