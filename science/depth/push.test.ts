import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type Push, placeInPush, reducePush } from './push.ts';

const push = (more: Partial<Push>): Push => ({
  row_id: 'P1',
  from_m: 0.2,
  to_m: 2.2,
  recovered_m: null,
  inside_top_m: null,
  outside_top_m: null,
  chamber: false,
  ...more,
});

test('shortening is inside minus outside; without readings what came up tells, with a larger sigma', () => {
  const read = reducePush(push({ inside_top_m: 0.9, outside_top_m: 0.6, recovered_m: 1.6 }));
  assert.equal(read.entered_from, 'readings');
  assert.ok(Math.abs(read.entered_m - 1.7) < 1e-9 && Math.abs(read.shortening_m! - 0.3) < 1e-9);
  const told = reducePush(push({ recovered_m: 1.6 }));
  assert.equal(told.entered_from, 'recovered');
  assert.ok(told.sigma_m > read.sigma_m);
  assert.equal(reducePush(push({})).entered_from, 'nothing');
  assert.equal(reducePush(push({ chamber: true })).entered_m, 2);
  assert.equal(reducePush(push({ to_m: 0 })).entered_m, 0);
});

test('core places: lost at the base, squeezed where the core is longer than what entered', () => {
  const p = push({ inside_top_m: 0.9, outside_top_m: 0.6, recovered_m: 1.6 });
  assert.equal(placeInPush(p, reducePush(p), 0.5).low_m, 0.5);
  const swollen = push({ inside_top_m: 0.9, outside_top_m: 0.6, recovered_m: 3.4 });
  assert.ok(Math.abs(placeInPush(swollen, reducePush(swollen), 1).low_m - 0.5) < 1e-9);
});
