/**
 * Annual means of a gauge as a few nearly independent levels of the smooth sea. Years are no independent readings of it:
 * weather, ocean and the lunar node keep the level high or low for years. So years are averaged in blocks of about one
 * turn of the node, and each block counts with the variance of such a mean, which grows with their correlation, and with
 * what neighbouring blocks share of it. Formulae and what was measured: docs/methods/tide.md.
 */
import { cholesky, exp, log, power, solveCholesky, square } from '@stillstand/science/base';

export interface AnnualMean {
  /** The calendar year, whole. */
  year_ce: number;
  level_m: number;
  /** 1 sigma of this year's mean alone, as stated; null where it was not. */
  sigma_m: number | null;
}

export interface LevelBlock {
  /** First and last calendar year that has a mean. */
  from_year_ce: number;
  to_year_ce: number;
  /** How many years have one. */
  years: number;
  /** Mean of those years: the time of the level. */
  year_ce: number;
  level_m: number;
  /** 1 sigma about the smooth sea; the zero of the gauge is not in it. */
  sigma_m: number;
}

export interface AnnualBlocks {
  blocks: LevelBlock[];
  /** 1 sd of a year about the smooth sea. */
  sd_m: number;
  /** Correlation of one year with the next, mean of its posterior. */
  correlation: number;
}

/** Years a block, about: the node of the moon turns in 18.61 years (Doodson 1921; from memory). */
export const BLOCK_YR = 19;
/** Fewer years do not show how they scatter. */
export const LEAST_YEARS = 10;
/** A longer record may bend: a parabola is taken off it, a line off a shorter. */
const BENDS_YR = 40;
/** Correlations looked at, each as probable before. */
const CORRELATIONS = Array.from({ length: 20 }, (_, i) => 0.05 * i);
/** Least 1 sigma of a block, m. */
const LEAST_SIGMA_M = 0.001;

/** `means`: one a year, in order, at least `LEAST_YEARS`. */
export function annualBlocks(means: readonly AnnualMean[]): AnnualBlocks {
  const first = means[0]!.year_ce;
  const span = means.at(-1)!.year_ce - first + 1;
  const count = Math.max(1, Math.round(span / BLOCK_YR));
  const given = [
    ...Map.groupBy(means, ({ year_ce }) => Math.floor(((year_ce - first) * count) / span)).values(),
  ];
  const { sd_m, correlation, variances_m2 } = scatter(means, given);
  return {
    sd_m,
    correlation,
    blocks: given.map((of, k) => {
      // Of the years' scatter, and of what was stated of each: some of that is in the scatter too, so never too little.
      const stated = meanOf(of, ({ sigma_m }) => square(sigma_m ?? 0)) / of.length;
      return {
        from_year_ce: of[0]!.year_ce,
        to_year_ce: of.at(-1)!.year_ce,
        years: of.length,
        year_ce: meanOf(of, ({ year_ce }) => year_ce),
        level_m: meanOf(of, ({ level_m }) => level_m),
        sigma_m: Math.max(LEAST_SIGMA_M, Math.sqrt(variances_m2[k]! + stated)),
      };
    }),
  };
}

const meanOf = (means: readonly AnnualMean[], value: (each: AnnualMean) => number): number =>
  means.reduce((sum, each) => sum + value(each), 0) / means.length;

interface Scatter {
  sd_m: number;
  correlation: number;
  /** Of each block. */
  variances_m2: number[];
}

/**
 * First-order autoregressive scatter about a line or parabola, its correlation ρ integrated out: restricted likelihood
 * (Patterson & Thompson 1971, Biometrika 58:545–554) on even correlations. Gaps are exact: years g apart have ρ^g.
 */
function scatter(means: readonly AnnualMean[], blocks: readonly (readonly AnnualMean[])[]): Scatter {
  const n = means.length;
  const span = means.at(-1)!.year_ce - means[0]!.year_ce;
  const terms = span >= BENDS_YR ? 3 : 2;
  const each = CORRELATIONS.map((rho) => {
    const { rss, log_det } = whitened(means, terms, rho);
    return {
      rho,
      log_weight: -0.5 * log_det - 0.5 * (n - terms) * log(Math.max(rss, 1e-12)),
      // Mean of the posterior of the variance given ρ.
      variance: rss / (n - terms - 2),
    };
  });
  const most = Math.max(...each.map(({ log_weight }) => log_weight));
  const weights = each.map(({ log_weight }) => exp(log_weight - most));
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const variances_m2 = blocks.map(() => 0);
  let sum = 0;
  let rhos = 0;
  each.forEach(({ rho, variance }, k) => {
    const weight = weights[k]! / whole;
    sum += weight * variance;
    rhos += weight * rho;
    // What has no weight is not worked out.
    if (weight < 1e-6) return;
    blockVariances(blocks, rho).forEach((of, b) => {
      variances_m2[b] = variances_m2[b]! + weight * variance * of;
    });
  });
  return { sd_m: Math.sqrt(sum), correlation: rhos, variances_m2 };
}

/**
 * Variances that blocks, taken as independent, need: their own, each times what neighbours have in common adds to the
 * variance of a rate over the whole record, and never less than their own. In units of the variance of a year.
 */
function blockVariances(blocks: readonly (readonly AnnualMean[])[], rho: number): number[] {
  const powers: number[] = [1];
  const apart = (g: number): number => {
    while (powers.length <= g) powers.push(powers.at(-1)! * rho);
    return powers[g]!;
  };
  const covariance = (a: readonly AnnualMean[], b: readonly AnnualMean[]): number =>
    a.reduce((sum, one) => sum + meanOf(b, (other) => apart(Math.abs(one.year_ce - other.year_ce))), 0) /
    a.length;
  const own = blocks.map((block) => covariance(block, block));
  const times = blocks.map((block) => meanOf(block, ({ year_ce }) => year_ce));
  const middle = times.reduce((sum, time) => sum + time, 0) / times.length;
  let apartOnly = 0;
  let together = 0;
  blocks.forEach((a, i) => {
    apartOnly += square(times[i]! - middle) * own[i]!;
    blocks.forEach((b, j) => {
      if (i !== j) together += (times[i]! - middle) * (times[j]! - middle) * covariance(a, b);
    });
  });
  const more = apartOnly > 0 ? Math.max(1, 1 + together / apartOnly) : 1;
  return own.map((variance) => variance * more);
}

/** Residual sum of squares of the levels made independent, and the log determinants of noise and fit. */
function whitened(
  means: readonly AnnualMean[],
  terms: number,
  rho: number,
): { rss: number; log_det: number } {
  const middle = (means[0]!.year_ce + means.at(-1)!.year_ce) / 2;
  const rowOf = ({ year_ce, level_m }: AnnualMean): number[] => {
    const u = (year_ce - middle) / 50;
    return [1, u, square(u)].slice(0, terms).concat(level_m - means[0]!.level_m);
  };
  const width = terms + 1;
  const sums = new Float64Array(width * width);
  let log_det = 0;
  let before: number[] | null = null;
  means.forEach((mean, i) => {
    const row = rowOf(mean);
    const past = before === null ? 0 : power(rho, mean.year_ce - means[i - 1]!.year_ce);
    const left = 1 - square(past);
    const white = row.map((value, k) => (value - past * (before?.[k] ?? 0)) / Math.sqrt(left));
    log_det += log(left);
    for (let a = 0; a < width; a++)
      for (let b = 0; b < width; b++) sums[a * width + b] = sums[a * width + b]! + white[a]! * white[b]!;
    before = row;
  });
  const normal = new Float64Array(terms * terms);
  const right = new Float64Array(terms);
  for (let a = 0; a < terms; a++) {
    right[a] = sums[a * width + terms]!;
    for (let b = 0; b < terms; b++) normal[a * terms + b] = sums[a * width + b]!;
  }
  // Years that differ give a matrix of full rank.
  const factor = cholesky(normal, terms)!;
  for (let a = 0; a < terms; a++) log_det += 2 * log(factor[a * terms + a]!);
  const solved = solveCholesky(factor, right, terms);
  const explained = solved.reduce((sum, value, a) => sum + value * right[a]!, 0);
  return { rss: Math.max(0, sums[terms * width + terms]! - explained), log_det };
}
