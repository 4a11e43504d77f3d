/** Ages as laboratories gave them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { DateResult } from '@stillstand/campaign/results';
import { countedFrom, statedAge } from './stated-age.ts';

const date = (over: Partial<DateResult>): DateResult =>
  ({
    method: 'luminescence',
    value: 1670,
    error: 110,
    f14c: null,
    f14c_sigma: null,
    counts_from_ce: 2023,
    error_shape: 'normal',
    ...over,
  }) as DateResult;

test('an age with its error, a limit, F14C, and a range by its ends', () => {
  assert.deepEqual(statedAge(date({})), ['1,670', '± 110']);
  assert.deepEqual(statedAge(date({ method: 'radiocarbon', error: 0 })), ['1,670', 'limit']);
  assert.deepEqual(statedAge(date({ f14c: 1.2345, f14c_sigma: 0.003 })), ['F14C 1.2345', '± 0.0030']);
  assert.deepEqual(statedAge(date({ value: 85, error: 15, error_shape: 'uniform' })), ['100–70', '']);
});

test('the years that calendar ages count back from, once each; 1950 where there are none', () => {
  const carbon = date({ method: 'radiocarbon', counts_from_ce: 1950 });
  assert.equal(countedFrom([carbon]), 'yr before 1950');
  assert.equal(countedFrom([carbon, date({})]), 'yr before 2023');
  assert.equal(
    countedFrom([date({}), date({ counts_from_ce: 1950 }), date({ counts_from_ce: 2019 }), date({})]),
    'yr before 1950, 2019 or 2023',
  );
});
