/**
 * The whole curve beside a general engine for Bayesian models, JAGS (Plummer 2003, Proc. DSC; in Debian), one chain on one
 * core, the same points and the same model in `general-engine.bug`: effective draws a second, warm-up counted on both sides,
 * of what settles last among σ, ℓ and the ages; and how far their means lie apart, which checks both.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { essBulk, mean, standardDeviation } from '@stillstand/science/base';
import { type CurvePoint, computeCurve, DEFAULT_CURVE_SETTINGS } from '@stillstand/science/curve';
import { risingSea } from './index.ts';

export interface GeneralEngineBench {
  points: number;
  seconds: number;
  least_effective_draws: number;
  effective_draws_per_second: number;
  general_seconds: number;
  general_least_effective_draws: number;
  general_effective_draws_per_second: number;
  times_as_fast: number;
  /** Largest difference of two means, in standard errors of that difference. */
  means_apart: number;
}

/** Draws of the general engine, after as many to warm up as the first number says. */
const SIZES = [
  { points: 20, warmUp: 300, draws: 1000 },
  { points: 50, warmUp: 200, draws: 400 },
] as const;

/** Null where the engine is not installed. */
export function benchGeneralEngine(): GeneralEngineBench[] | null {
  if (spawnSync('jags', [], { input: 'exit\n' }).error !== undefined) return null;
  return SIZES.map(({ points: n, warmUp, draws }) => {
    const points = risingSea(n);
    const settings = { ...DEFAULT_CURVE_SETTINGS, outliers: null, depth_order: false, burial_percent: null };
    // The first warms the engine up.
    computeCurve(points, settings);
    const started = performance.now();
    const curve = computeCurve(points, settings);
    const seconds = (performance.now() - started) / 1000;
    const ours = [curve.rate_sd_mm_yr, curve.length_ka!, ...curve.points.map((point) => point.age_cal_bp)];
    const theirs = inGeneralEngine(points, warmUp, draws);
    const least = Math.min(...ours.map(({ ess_bulk }) => ess_bulk));
    const theirEss = theirs.draws.map((each) => essBulk([each]));
    const theirLeast = Math.min(...theirEss);
    const apart = ours.map(({ mean: own, sd, ess_bulk }, k) => {
      const each = theirs.draws[k]!;
      const error = Math.hypot(sd / Math.sqrt(ess_bulk), standardDeviation(each) / Math.sqrt(theirEss[k]!));
      return Math.abs(own - mean(each)) / error;
    });
    return {
      points: n,
      seconds,
      least_effective_draws: least,
      effective_draws_per_second: least / seconds,
      general_seconds: theirs.seconds,
      general_least_effective_draws: theirLeast,
      general_effective_draws_per_second: theirLeast / theirs.seconds,
      times_as_fast: least / seconds / (theirLeast / theirs.seconds),
      means_apart: Math.max(...apart),
    };
  });
}

/** Draws of σ (mm/yr), ℓ (ka) and the ages (cal BP), and how long all of it took. */
function inGeneralEngine(
  points: readonly CurvePoint[],
  warmUp: number,
  draws: number,
): { draws: Float64Array[]; seconds: number } {
  const { priors } = DEFAULT_CURVE_SETTINGS;
  const folder = mkdtempSync(join(tmpdir(), 'stillstand-general-'));
  const column = (of: (point: CurvePoint) => number): string => `c(${points.map(of).join(', ')})`;
  const age = (point: CurvePoint): { mean: number; sd: number } =>
    point.age.kind === 'normal'
      ? { mean: point.age.mean_cal_bp / 1000, sd: point.age.sd_yr / 1000 }
      : { mean: Number.NaN, sd: Number.NaN };
  const file = (name: string, lines: readonly string[]): void =>
    writeFileSync(join(folder, name), `${lines.join('\n')}\n`);
  file('data.R', [
    `n <- ${points.length}`,
    `t <- ${column((point) => age(point).mean)}`,
    `t_sd <- ${column((point) => age(point).sd)}`,
    `y <- ${column((point) => point.height_m)}`,
    `s <- ${column((point) => point.sigma_m)}`,
    `level_sd <- ${priors.level_sd_m}`,
    `rate_sd_scale <- ${priors.rate_sd_scale_mm_yr}`,
    `length_median <- ${priors.length_median_ka}`,
    `length_log_sd <- ${priors.length_log_sd}`,
  ]);
  file('start.R', [
    `age <- ${column((point) => age(point).mean)}`,
    'sigma <- 2',
    'log_length <- 0.7',
    '.RNG.name <- "base::Mersenne-Twister"',
    '.RNG.seed <- 1',
  ]);
  const wanted = ['sigma', 'length', 'age'];
  file('run', [
    `model in "${join(import.meta.dirname, 'general-engine.bug')}"`,
    'data in "data.R"',
    'compile, nchains(1)',
    'parameters in "start.R"',
    'initialize',
    `update ${warmUp}`,
    ...wanted.map((name) => `monitor ${name}`),
    `update ${draws}`,
    'coda *, stem("out")',
    'exit',
  ]);
  const started = performance.now();
  const run = spawnSync('jags', ['run'], { cwd: folder, encoding: 'utf8' });
  const seconds = (performance.now() - started) / 1000;
  try {
    const index = readFileSync(join(folder, 'outindex.txt'), 'utf8').trim().split('\n');
    const values = readFileSync(join(folder, 'outchain1.txt'), 'utf8')
      .trim()
      .split('\n')
      .map((line) => Number(line.trim().split(/\s+/)[1]));
    const drawsOf = (name: string): Float64Array => {
      const line = index.find((each) => each.startsWith(`${name} `));
      const [from, to] = line!.split(' ').slice(1).map(Number);
      return Float64Array.from(values.slice(from! - 1, to));
    };
    const ages = points.map((_, i) => drawsOf(`age[${i + 1}]`).map((ka) => 1000 * ka));
    return { draws: [drawsOf('sigma'), drawsOf('length'), ...ages], seconds };
  } catch (error) {
    throw new Error(`the general engine gave no draws:\n${run.stdout}${run.stderr}`, { cause: error });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
