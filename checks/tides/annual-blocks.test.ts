/**
 * The rate of a century from the annual means of a gauge in blocks, under noise of several kinds. Bounds: `holds`.
 */
import assert from 'node:assert/strict';
import { type TestContext, test } from 'node:test';
import { cos, type RandomStream, randomStream } from '@stillstand/science/base';
import { type AnnualMean, annualBlocks } from '@stillstand/science/tide';
import { knownToFail } from '../bounds/known-to-fail.ts';

const from = (first: number, count: number): number[] => Array.from({ length: count }, (_, i) => first + i);
const record = (years: readonly number[], level: (year: number, i: number) => number): AnnualMean[] =>
  years.map((year_ce, i) => ({ year_ce, level_m: level(year_ce, i), sigma_m: null }));

/** First-order noise of 1 sd. */
function wander(count: number, rho: number, stream: RandomStream): number[] {
  let last = stream.normal();
  return Array.from({ length: count }, (_, i) => {
    if (i > 0) last = rho * last + Math.sqrt(1 - rho * rho) * stream.normal();
    return last;
  });
}

/**
 * Rate by weighted least squares of the blocks, ± 1.96 of its sigma, over 400 records of 110 years. Set before measuring:
 * 0.90 to 0.98 of them hold the true rate, whatever the noise (of 400 one sigma is 0.011).
 */
function holds(
  t: TestContext,
  name: string,
  level: (stream: RandomStream) => AnnualMean[],
  rate: number,
): number {
  let held = 0;
  let width = 0;
  for (let set = 0; set < 400; set++) {
    const { blocks } = annualBlocks(level(randomStream(191).split(name).split(set)));
    const weight = blocks.map(({ sigma_m }) => 1 / sigma_m ** 2);
    const whole = weight.reduce((s, w) => s + w, 0);
    const middle = blocks.reduce((s, { year_ce }, k) => s + weight[k]! * year_ce, 0) / whole;
    const precision = blocks.reduce((s, { year_ce }, k) => s + weight[k]! * (year_ce - middle) ** 2, 0);
    const found =
      blocks.reduce((s, { year_ce, level_m }, k) => s + weight[k]! * (year_ce - middle) * level_m, 0) /
      precision;
    const sigma = 1 / Math.sqrt(precision);
    if (Math.abs(found - rate) < 1.96 * sigma) held++;
    width += (2 * 1.96 * sigma * 1000) / 400;
  }
  t.diagnostic(`${name}: rate held ${(held / 400).toFixed(3)}, 95 % wide ${width.toFixed(2)} mm/yr`);
  return held / 400;
}

test('the rate of a century from blocks, under first-order noise and others, 400 records each (seed 191)', async (t) => {
  const years = from(1905, 110);
  const rise = (year: number): number => 0.002 * (year - 1905);
  const kinds: Record<string, (stream: RandomStream) => AnnualMean[]> = {};
  for (const rho of [0, 0.3, 0.6, 0.8])
    kinds[`correlation ${rho}`] = (stream) => {
      const noise = wander(110, rho, stream);
      return record(years, (year, i) => rise(year) + 0.03 * noise[i]!);
    };
  const open = years.filter((year) => (year < 1914 || year > 1919) && (year < 1940 || year > 1951));
  kinds['correlation 0.5, two gaps'] = (stream) => {
    const noise = wander(110, 0.5, stream);
    return record(open, (year) => rise(year) + 0.03 * noise[year - 1905]!);
  };
  kinds['a node of 15 mm beside correlation 0.3'] = (stream) => {
    const noise = wander(110, 0.3, stream);
    const phase = 2 * Math.PI * stream.uniform();
    return record(
      years,
      (year, i) => rise(year) + 0.015 * cos((2 * Math.PI * year) / 18.61 + phase) + 0.03 * noise[i]!,
    );
  };
  for (const [name, level] of Object.entries(kinds)) {
    const share = holds(t, name, level, 0.002);
    assert.ok(share >= 0.9 && share <= 0.98, `${name}: ${share}`);
  }
  // Outside the assumption: noise that decades have as well as years.
  const slow = holds(
    t,
    'years and, half as strong, decades: correlations 0.3 and 0.9',
    (stream) => {
      const [fast, slow] = [wander(110, 0.3, stream), wander(110, 0.9, stream)];
      return record(years, (year, i) => rise(year) + 0.03 * fast[i]! + 0.015 * slow[i]!);
    },
    0.002,
  );
  await knownToFail(t, {
    what: 'gauge, rate of a century from annual means under noise of decades too, correlations 0.3 and 0.9, 400 records, seed 191',
    bound: { at_least: 0.9 },
    measured: slow,
    stated: '0.797',
    since: '2026-11-29',
    page: 'docs/methods/tide.md',
  });
});
