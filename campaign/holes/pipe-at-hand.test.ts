import assert from 'node:assert/strict';
import { test } from 'node:test';
import { goneWords, pipeAtHand } from './pipe-at-hand.ts';
import type { PipeItem } from './pipe-inventory.ts';

const joint = (
  label: string,
  length_m: number | null,
  whereabouts: PipeItem['whereabouts'],
  hole = 'T1',
): PipeItem => ({
  item: 'joint',
  label,
  length_m,
  length_in: length_m === null ? null : 'string_items',
  makeup_loss_m: null,
  pipe: null,
  row_id: label,
  stock_row_id: null,
  whereabouts,
  hole,
  time_ms: Number.NaN,
  isAtHand: whereabouts === 'pulled' || whereabouts === 'shortened',
});

test('pipe at hand reaches its made-up lengths less the stick-up; what is lost or elsewhere counts for nothing', () => {
  const items = [
    joint('A1', 3, 'pulled'),
    joint('A2', 3, 'pulled'),
    joint('A3', 2.6, 'shortened'),
    joint('A4', null, 'pulled'),
    joint('C1', 3, 'lost'),
    joint('C2', 3, 'lost'),
    joint('B2', 3, 'in string', 'T3'),
    { ...joint('S1', 0.15, 'lost'), item: 'shoe' as const },
  ];
  const at = pipeAtHand(items, 0.03, 0.8);
  // 3.00 + 3.00 − 0.03 − 0.80
  assert.ok(Math.abs(at.reach_m - 5.17) < 1e-12);
  assert.equal(at.joints, 2);
  assert.deepEqual(at.unmeasured, ['A3', 'A4']);
  assert.equal(goneWords(at.gone), 'C1, C2 lost in T1; B2 in the string of T3');
  assert.deepEqual(pipeAtHand([], 0.03, 0.8), { joints: 0, unmeasured: [], reach_m: 0, gone: [] });
});
