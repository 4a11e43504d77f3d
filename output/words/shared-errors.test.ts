import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { HoleHistory } from '@stillstand/campaign/results';
import { sharedErrorInWords } from './shared-errors.ts';

const error = (group: string, dates: string[], holes: string[]): HoleHistory['shared'][number] =>
  ({
    group,
    sigma_yr: 100,
    shift_yr: { mean: -42.4, sd: 30 },
    dates,
    holes,
  }) as unknown as HoleHistory['shared'][number];

test('which error dates share, with whom, and what they made of it', () => {
  assert.equal(
    sharedErrorInWords('H1', error('shells', ['a', 'b'], ['H2', 'H3'])),
    '2 dates of H1 share the reservoir offset shells with dates of H2, H3: the error is −42 ± 60 14C yr (2σ), stated ±200',
  );
  assert.equal(
    sharedErrorInWords('H1', error('dose:lamp', ['a'], ['H2'])),
    '1 date of H1 shares the systematic error of the dates lamp with dates of H2: the error is −42 ± 60 yr (2σ), stated ±200',
  );
  assert.match(sharedErrorInWords('H1', error('shells', ['a', 'b'], [])), /offset shells: the error/);
});
