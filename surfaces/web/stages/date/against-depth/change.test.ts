import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { HoleHistory } from '@stillstand/campaign/results';
import { changeOf } from './change.ts';
import { changeInWords } from './change-words.ts';

/** Ages at 0, 5 and 10 m, sd 50 yr, 400 effective draws: one standard error is 2.5 yr, of a difference 3.54 yr. */
const history = (median: readonly number[], bottom_m = 10): HoleHistory =>
  ({
    depth_m: Float64Array.of(0, bottom_m / 2, bottom_m),
    age_cal_bp: { median: Float64Array.from(median), sd: Float64Array.of(50, 50, 50) },
    diagnostics: { ess_bulk_min: 400, ess_tail_min: 900 },
  }) as unknown as HoleHistory;

test('what changed most and at the base is said in years, older or younger', () => {
  const change = changeOf(history([100, 2000, 5000]), history([100, 2342, 4877]));
  assert.deepEqual(change, {
    base_m: 10,
    base: { depth_m: 10, yr: -123 },
    most: { depth_m: 5, yr: 342 },
  });
  assert.equal(changeInWords(change), 'base (10.00 m) 120 yr younger; most at 5.00 m, 340 yr older.');
});

test('a difference the draws may give by chance is none: 4 × 3.54 yr here', () => {
  const before = history([100, 2000, 5000]);
  assert.equal(
    changeInWords(changeOf(before, history([114, 1986, 5014]))),
    'no age changed by more than chance.',
  );
  const more = changeOf(before, history([100, 2015, 5000]));
  assert.deepEqual(more.most, { depth_m: 5, yr: 15 });
  assert.equal(changeInWords(more), 'base (10.00 m) unchanged; most at 5.00 m, 15 yr older.');
});

test('histories of different depths are compared as far down as both reach', () => {
  // At 8 m the longer one is 2000 + 3/5 × 3000 = 3800, the shorter one 4000.
  const { base_m, base } = changeOf(history([100, 2000, 5000]), history([100, 1640, 4000], 8));
  assert.equal(base_m, 8);
  assert.ok(Math.abs(base!.yr - 200) < 1e-9);
});
