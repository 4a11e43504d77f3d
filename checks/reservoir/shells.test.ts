/** ΔR of 70 published shells of known age, of five of their localities together, and of a published pair. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { before, test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import {
  offsetOfKnownAge,
  offsetOfPair,
  pooledOffset,
  type ReservoirOffset,
  type YearlyCurve,
} from '@stillstand/science/dating';

let marine: YearlyCurve;
before(async () => {
  marine = await loadCurve('marine20');
});

const shells = readFileSync(new URL('data/shells.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => {
    const [reference, latitude, , age, error, collected, delta_r] = line.split(',') as string[];
    return {
      reference: reference!,
      latitude: Number(latitude),
      measured: { c14_age: Number(age), error_yr: Number(error) },
      cal_bp: Number(collected),
      delta_r: delta_r === '' ? null : Number(delta_r),
    };
  });

test('each of 70 shells to 0.1 yr; collected after 1950, none', () => {
  assert.equal(shells.length, 70);
  let dated = 0;
  for (const { measured, cal_bp, delta_r } of shells) {
    const answer = offsetOfKnownAge(measured, cal_bp, marine);
    if (delta_r === null) {
      assert.equal(answer.kind, 'beyond_curve');
      assert.match('reason' in answer ? answer.reason : '', /195\d CE .*bomb carbon/);
      continue;
    }
    assert.ok(answer.kind === 'offset');
    assert.ok(Math.abs(answer.offset_yr - delta_r) <= 0.1, `${answer.offset_yr} for ${delta_r}`);
    assert.equal(answer.error_yr, measured.error_yr);
    dated++;
  }
  assert.equal(dated, shells.filter(({ cal_bp }) => cal_bp >= 0).length);
});

/** 5 % points of chi-square for n − 1 degrees of freedom. */
const CHI_SQUARE_5: Readonly<Record<number, number>> = { 4: 7.815, 5: 9.488, 7: 12.592, 14: 22.362 };

// n, mean, weighted error, chi-square, scatter not reduced: computed apart, in numpy.
const LOCALITIES: [string, number, number, number, number, number, number][] = [
  ['Merino-Campos et al. 2019', -41.8596, 7, -12.1, 9.9, 13.3, 39.0],
  ['Ortlieb et al. 2011', -23.06, 5, 48.4, 15.5, 80.7, 155.4],
  ['Jones et al. 2007', -12.06, 14, 27.6, 12.4, 15.4, 50.4],
  ['Jones et al. 2007', -8.23, 4, 14.4, 20.6, 4.2, 48.6],
  ['Jones et al. 2007', -5.75, 4, 26.9, 19.7, 6.1, 56.1],
];

test('five localities together', () => {
  for (const [of, at, n, mean, weighted, chi_square, scatter] of LOCALITIES) {
    const offsets = shells
      .filter(({ reference, latitude }) => reference === of && latitude === at)
      .map(({ measured, cal_bp }) => offsetOfKnownAge(measured, cal_bp, marine))
      .filter((answer): answer is ReservoirOffset => answer.kind === 'offset');
    const pool = pooledOffset(offsets);
    assert.equal(pool.n, n, `${of} ${at}`);
    const near = (found: number, expected: number) =>
      assert.ok(Math.abs(found - expected) <= 0.1, `${of} ${at}: ${found} for ${expected}`);
    near(pool.mean_yr, mean);
    near(pool.weighted_error_yr, weighted);
    near(pool.chi_square, chi_square);
    near(pool.scatter_yr!, scatter);
    assert.equal(pool.p < 0.05, chi_square > CHI_SQUARE_5[n]!);
  }
});

test('a shell with charcoal: the published ΔR to 10 yr, 2 yr in its error', async () => {
  const answer = offsetOfPair(
    { c14_age: 3137, error_yr: 24 },
    { c14_age: 2768, error_yr: 15 },
    marine,
    await loadCurve('intcal20'),
  );
  assert.ok(answer.kind === 'offset');
  // Published −93 ± 36 by another method; −87 ± 38 computed apart by this one.
  assert.ok(Math.abs(answer.offset_yr + 93) <= 10 && Math.abs(answer.error_yr - 36) <= 3);
  assert.ok(Math.abs(answer.offset_yr + 87) <= 1 && Math.abs(answer.error_yr - 38) <= 1);
});
