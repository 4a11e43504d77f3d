/** Annual means to blocks: by hand, and against dense algebra. What their sigma holds: checks/tides/annual-blocks.test.ts. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { cholesky, type RandomStream, randomStream, solveCholesky } from '@stillstand/science/base';
import { type AnnualMean, annualBlocks, BLOCK_YR } from './annual-blocks.ts';

const near = (actual: number, expected: number, within: number) =>
  assert.ok(Math.abs(actual - expected) <= within, `${actual} is not ${expected} ± ${within}`);

/** First-order noise of 1 sd. */
function wander(count: number, rho: number, stream: RandomStream): number[] {
  let last = stream.normal();
  return Array.from({ length: count }, (_, i) => {
    if (i > 0) last = rho * last + Math.sqrt(1 - rho * rho) * stream.normal();
    return last;
  });
}

const record = (years: readonly number[], level: (year: number, i: number) => number): AnnualMean[] =>
  years.map((year_ce, i) => ({ year_ce, level_m: level(year_ce, i), sigma_m: null }));
const from = (first: number, count: number): number[] => Array.from({ length: count }, (_, i) => first + i);

test('as even as whole years allow, each at the mean of the years it has', () => {
  const years = from(1901, 100).filter((year) => year < 1915 || year > 1924);
  const { blocks } = annualBlocks(record(years, (year) => 0.002 * (year - 1900)));
  assert.equal(blocks.length, Math.round(100 / BLOCK_YR));
  assert.deepEqual(
    blocks.map(({ from_year_ce, to_year_ce, years: count }) => [from_year_ce, to_year_ce, count]),
    [
      [1901, 1914, 14],
      [1925, 1940, 16],
      [1941, 1960, 20],
      [1961, 1980, 20],
      [1981, 2000, 20],
    ],
  );
  for (const { year_ce, level_m } of blocks) near(level_m, 0.002 * (year_ce - 1900), 1e-12);
  // No scatter at all: a millimetre is the least that is claimed.
  for (const { sigma_m } of blocks) assert.equal(sigma_m, 0.001);
  assert.equal(annualBlocks(record(from(1990, 25), () => 1)).blocks.length, 1);
});

test('what is stated of a year adds to the scatter of the years', () => {
  const stream = randomStream(5);
  const noise = wander(60, 0.4, stream);
  const bare = record(from(1950, 60), (_, i) => 0.03 * noise[i]!);
  const stated = bare.map((mean) => ({ ...mean, sigma_m: 0.04 }));
  annualBlocks(stated).blocks.forEach(({ sigma_m, years }, k) => {
    near(sigma_m, Math.hypot(annualBlocks(bare).blocks[k]!.sigma_m, 0.04 / Math.sqrt(years)), 1e-12);
  });
});

/** The same by the whole matrix of correlations. */
function dense(means: readonly AnnualMean[]): { sd_m: number; correlation: number } {
  const n = means.length;
  const terms = means.at(-1)!.year_ce - means[0]!.year_ce >= 40 ? 3 : 2;
  const middle = (means[0]!.year_ce + means.at(-1)!.year_ce) / 2;
  let [whole, sum, sumRho] = [0, 0, 0];
  for (let k = 0; k < 20; k++) {
    const rho = 0.05 * k;
    const apart = (i: number, j: number): number => Math.abs(means[i]!.year_ce - means[j]!.year_ce);
    const r = new Float64Array(n * n).map((_, at) => {
      const g = apart(Math.floor(at / n), at % n);
      return g === 0 ? 1 : rho ** g;
    });
    const l = cholesky(r, n)!;
    const columns = Array.from({ length: terms }, (_, c) =>
      Float64Array.from(means, ({ year_ce }) => ((year_ce - middle) / 50) ** c),
    );
    const y = Float64Array.from(means, ({ level_m }) => level_m);
    const dot = (a: Float64Array, b: Float64Array): number => a.reduce((s, v, i) => s + v * b[i]!, 0);
    const inverse = columns.map((column) => solveCholesky(l, column, n));
    const a = new Float64Array(terms * terms).map((_, at) =>
      dot(columns[Math.floor(at / terms)]!, inverse[at % terms]!),
    );
    const factor = cholesky(a, terms)!;
    const right = Float64Array.from(inverse, (column) => dot(column, y));
    const beta = solveCholesky(factor, right, terms);
    const residual = y.map((v, i) => v - columns.reduce((s, column, c) => s + column[i]! * beta[c]!, 0));
    const rss = dot(residual, solveCholesky(l, residual, n));
    const logDet = (of: Float64Array, m: number): number => {
      let s = 0;
      for (let i = 0; i < m; i++) s += 2 * Math.log(of[i * m + i]!);
      return s;
    };
    const weight = Math.exp(
      -0.5 * (logDet(l, n) + logDet(factor, terms)) - 0.5 * (n - terms) * Math.log(rss),
    );
    whole += weight;
    sum += (weight * rss) / (n - terms - 2);
    sumRho += weight * rho;
  }
  return { sd_m: Math.sqrt(sum / whole), correlation: sumRho / whole };
}

test('the scatter is that of the whole matrix of correlations, gaps and all', () => {
  for (const years of [from(1980, 14), [...from(1900, 20), ...from(1931, 6), ...from(1950, 30)]]) {
    const noise = wander(200, 0.5, randomStream(11));
    const means = record(years, (year, i) => 1 + 0.003 * (year - 1900) + 0.04 * noise[i]!);
    const { sd_m, correlation } = annualBlocks(means);
    const slow = dense(means);
    near(sd_m, slow.sd_m, 1e-9);
    near(correlation, slow.correlation, 1e-9);
  }
});
