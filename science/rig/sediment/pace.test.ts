import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, log, randomStream } from '@stillstand/science/base';
import { type Pace, paceOf, paceTrend, usualPace } from './pace.ts';

/** Rates of one hole, each drive a metre, judged in order as the fold does. */
function judged(rates: readonly number[]): (Pace | null)[] {
  const drives: Parameters<typeof usualPace>[0][number][] = [];
  for (const rate of rates) {
    const at = drives.length;
    drives.push({
      from_m: at,
      to_m: at + 1,
      rate_m_per_min: rate,
      frequency_hz: null,
      pace: paceOf(rate, usualPace(drives)),
    });
  }
  return drives.map((d) => d.pace);
}

test('a rate that falls step by step is named and stays named; one odd drive moves nothing', () => {
  assert.deepEqual(judged([1, 1, 1, 0.7, 0.49, 0.34, 0.24, 0.09]), [
    null,
    'steady',
    'steady',
    'steady',
    'slowing',
    'slowing',
    'slowing',
    'refusal',
  ]);
  assert.deepEqual(judged([1, 1.1, 0.9, 6, 1]).slice(3), ['steady', 'steady']);
  assert.deepEqual(judged([0.03]), ['refusal']);
});

test('a fall in the second drive is named: nothing waits for three', () => {
  assert.deepEqual(judged([3.27, 0.79, 0.17]), [null, 'slowing', 'refusal']);
  assert.deepEqual(judged([2, 4, 1.4, 3, 1.4]), [null, 'steady', 'slowing', 'steady', 'slowing']);
});

test('half of the usual rate is steady, a tenth is slowing, 5 cm in a minute is not yet refusal', () => {
  assert.deepEqual(judged([1, 0.5, 0.1, 0.15, 0.0999]).slice(1), ['steady', 'slowing', 'slowing', 'slowing']);
  assert.deepEqual(judged([1, 0.0999]), [null, 'refusal']);
  assert.deepEqual([judged([0.05]), judged([0.0499])], [[null], ['refusal']]);
});

test('usual is the median of the last five, neither of four nor of the first', () => {
  // of 1, 1, 1, 0.6, 0.6 it is 1, and half of it more than 0.45; of the last four it would be 0.8
  assert.equal(judged([1, 1, 1, 0.6, 0.6, 0.45]).at(-1), 'slowing');
  // of 1, 1, 0.6, 0.6, 0.6 it is 0.6; of the first five it would be 1
  assert.equal(judged([1, 1, 1, 1, 1, 0.6, 0.6, 0.6, 0.31]).at(-1), 'steady');
});

/** A slow twin: every pair by hand, the median by sorting. */
function slopeByHand(depth: readonly number[], rate: readonly number[]): number {
  const slopes: number[] = [];
  depth.forEach((d, i) => {
    depth.forEach((e, j) => {
      if (j < i) slopes.push((log(rate[i]!) - log(rate[j]!)) / (d - e));
    });
  });
  slopes.sort((a, b) => a - b);
  const n = slopes.length;
  return n % 2 === 1 ? slopes[(n - 1) / 2]! : (slopes[n / 2 - 1]! + slopes[n / 2]!) / 2;
}

test('trend: its 95 % interval holds the true slope 93–98 % of the time, with a fifth of the drives odd (seed 4251)', () => {
  const stream = randomStream(4251);
  let inside = 0;
  let odd = 0;
  const holes = 1000;
  for (let h = 0; h < holes; h++) {
    const drives = Array.from({ length: 14 }, (_, i) => {
      const outlier = stream.uniform() < 0.2;
      if (outlier) odd++;
      const rate =
        1.5 * exp(-0.12 * (i + 0.5) + 0.2 * stream.normal() + (outlier ? 1.5 * stream.normal() : 0));
      return { from_m: i, to_m: i + 1, rate_m_per_min: rate, frequency_hz: null };
    });
    const trend = paceTrend(drives)!;
    if (h < 20) {
      const twin = slopeByHand(
        drives.map((d) => d.from_m + 0.5),
        drives.map((d) => d.rate_m_per_min),
      );
      assert.ok(Math.abs(trend.slope_per_m - twin) < 1e-12);
    }
    if (trend.lower95! <= -0.12 && trend.upper95! >= -0.12) inside++;
  }
  assert.ok(odd > 0);
  assert.ok(inside / holes > 0.93 && inside / holes < 0.98, `${inside / holes}`);
});

test('trend of a rate that halves each 2 m, and of too few drives', () => {
  const drives = Array.from({ length: 6 }, (_, i) => ({
    from_m: i,
    to_m: i + 1,
    rate_m_per_min: 2 * 0.5 ** (i / 2),
    frequency_hz: 170,
  }));
  const trend = paceTrend(drives)!;
  assert.ok(Math.abs(trend.halving_m! - 2) < 1e-9);
  assert.ok(Math.abs(trend.rate_m_per_min - 2 * 0.5 ** 2.5) < 1e-9);
  assert.equal(trend.verdict, 'slowing');
  assert.equal(paceTrend(drives.slice(0, 2)), null);
});
