/**
 * Annual means of a gauge as a few nearly independent levels of the smooth sea. Years are no independent readings of it:
 * weather, ocean and the lunar node keep the level high or low for years. So years are averaged in blocks of about one
 * turn of the node, and each block counts with the long-run variance of the years' scatter, which grows with their
 * correlation. Formulae and what was measured: docs/methods/tide.md.
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
  const { sd_m, correlation, long_run_m2 } = scatter(means);
  const first = means[0]!.year_ce;
  const span = means.at(-1)!.year_ce - first + 1;
  const count = Math.max(1, Math.round(span / BLOCK_YR));
  const blocks = Map.groupBy(means, ({ year_ce }) => Math.floor(((year_ce - first) * count) / span));
  return {
    sd_m,
    correlation,
    blocks: [...blocks.values()].map((of) => {
      const mean = (value: (each: AnnualMean) => number): number =>
        of.reduce((sum, each) => sum + value(each), 0) / of.length;
      // Of the years' scatter, and of what was stated of each: some of that is in the scatter too, so never too little.
      const variance = long_run_m2 / of.length + mean(({ sigma_m }) => square(sigma_m ?? 0)) / of.length;
      return {
        from_year_ce: of[0]!.year_ce,
        to_year_ce: of.at(-1)!.year_ce,
        years: of.length,
        year_ce: mean(({ year_ce }) => year_ce),
        level_m: mean(({ level_m }) => level_m),
        sigma_m: Math.max(LEAST_SIGMA_M, Math.sqrt(variance)),
      };
    }),
  };
}

interface Scatter {
  sd_m: number;
  correlation: number;
  /** Variance of a mean of many years times their number. */
  long_run_m2: number;
}

/**
 * First-order autoregressive scatter about a line or parabola, its correlation ρ integrated out: restricted likelihood
 * (Patterson & Thompson 1971, Biometrika 58:545–554) on even correlations; long-run variance σ² (1 + ρ)/(1 − ρ). Gaps
 * are exact: years g apart have ρ^g.
 */
function scatter(means: readonly AnnualMean[]): Scatter {
  const n = means.length;
  const first = means[0]!.year_ce;
  const span = means.at(-1)!.year_ce - first;
  const terms = span >= BENDS_YR ? 3 : 2;
  const log_weight: number[] = [];
  const variances: number[] = [];
  for (const rho of CORRELATIONS) {
    const { rss, log_det } = whitened(means, terms, rho);
    log_weight.push(-0.5 * log_det - 0.5 * (n - terms) * log(Math.max(rss, 1e-12)));
    // Mean of the posterior of the variance given ρ.
    variances.push(rss / (n - terms - 2));
  }
  const most = Math.max(...log_weight);
  const weight = log_weight.map((l) => exp(l - most));
  const whole = weight.reduce((sum, w) => sum + w, 0);
  const over = (value: (rho: number, variance: number) => number): number =>
    CORRELATIONS.reduce((sum, rho, k) => sum + weight[k]! * value(rho, variances[k]!), 0) / whole;
  return {
    sd_m: Math.sqrt(over((_, variance) => variance)),
    correlation: over((rho) => rho),
    long_run_m2: over((rho, variance) => (variance * (1 + rho)) / (1 - rho)),
  };
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
