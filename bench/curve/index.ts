/**
 * How fast the smooth curve is: seconds and effective draws for growing numbers of points, and evaluations of its
 * likelihood a second beside the general engine for Gaussian processes, dense algebra (numpy where python3 has it, else
 * JavaScript), on the same points in the same run.
 */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { cholesky, randomStream, solveCholesky } from '@stillstand/science/base';
import {
  type CurvePoint,
  computeCurve,
  curveLikelihood,
  DEFAULT_CURVE_SETTINGS,
} from '@stillstand/science/curve';

export interface CurveBench {
  points: number;
  /** Whole computation, cold seed to summaries, one thread; least of the repeats. */
  seconds: number;
  sweeps: number;
  converged: boolean;
  rhat_max: number;
  ess_bulk_min: number;
  ess_per_second: number;
  likelihoods_per_second: number;
  dense_likelihoods_per_second: number;
  dense_engine: 'numpy' | 'javascript';
  /** Largest difference of the two log likelihoods. */
  likelihood_difference: number;
}

const RATE_SD = 2.5;
const LENGTH_KA = 2.5;

/** `repeats`: the first warms the engine up. */
export function benchCurve(sizes: readonly number[] = [20, 50, 100, 200], repeats = 3): CurveBench[] {
  return sizes.map((n) => {
    const points = risingSea(n);
    let seconds = Infinity;
    let result = computeCurve([], DEFAULT_CURVE_SETTINGS);
    for (let k = 0; k < repeats; k++) {
      const started = performance.now();
      result = computeCurve(points, DEFAULT_CURVE_SETTINGS);
      seconds = Math.min(seconds, (performance.now() - started) / 1000);
    }
    const likelihood = curveLikelihood(points, DEFAULT_CURVE_SETTINGS);
    const ours = perSecond(() => likelihood(RATE_SD, LENGTH_KA));
    const dense = denseWithNumpy(points) ?? denseInJavaScript(points);
    const { converged, rhat_max, ess_bulk_min, sweeps } = result.diagnostics;
    return {
      points: n,
      seconds,
      sweeps,
      converged,
      rhat_max,
      ess_bulk_min,
      ess_per_second: ess_bulk_min / seconds,
      likelihoods_per_second: ours.perSecond,
      dense_likelihoods_per_second: dense.perSecond,
      dense_engine: dense.engine,
      likelihood_difference: Math.abs(ours.value - dense.value),
    };
  });
}

/** Invented points, seed 41, with the errors usual for the trade: ages 30 to 120 yr, heights 0.1 to 0.4 m. */
export function risingSea(n: number): CurvePoint[] {
  const stream = randomStream(41).split(n);
  const level = (t: number): number => -0.3 * t - 6.5 * 1.6 * (Math.exp(-(8 - t) / 1.6) - Math.exp(-8 / 1.6));
  return Array.from({ length: n }, (_, i) => {
    const age = 100 + 7800 * stream.uniform();
    const sd_yr = 30 + 90 * stream.uniform();
    const sigma_m = 0.1 + 0.3 * stream.uniform();
    return {
      id: `P${i + 1}`,
      kind: 'index',
      height_m: level(age / 1000) + sigma_m * stream.normal(),
      sigma_m,
      half_range_m: 0,
      lowering_m: 0,
      shared: [],
      age: { kind: 'normal', mean_cal_bp: age + sd_yr * stream.normal(), sd_yr },
    };
  });
}

/** Runs for a fifth of a second, after as much to warm up. */
function perSecond(evaluate: () => number): { perSecond: number; value: number } {
  let value = 0;
  let rate = 0;
  for (let round = 0; round < 2; round++) {
    const started = performance.now();
    let count = 0;
    let elapsed = 0;
    while (elapsed < 200) {
      for (let k = 0; k < 10; k++) value = evaluate();
      count += 10;
      elapsed = performance.now() - started;
    }
    rate = (1000 * count) / elapsed;
  }
  return { perSecond: rate, value };
}

type Dense = { perSecond: number; value: number; engine: 'numpy' | 'javascript' };

/** Ages (ka), heights and sigmas (m) of the points. */
function columns(points: readonly CurvePoint[]): { t: number[]; y: number[]; s: number[] } {
  return {
    t: points.map((p) => (p.age.kind === 'normal' ? p.age.mean_cal_bp / 1000 : NaN)),
    y: points.map((p) => p.height_m),
    s: points.map((p) => p.sigma_m),
  };
}

function denseWithNumpy(points: readonly CurvePoint[]): Dense | null {
  const input = JSON.stringify({
    ...columns(points),
    rate_sd: RATE_SD,
    length: LENGTH_KA,
    level_sd: DEFAULT_CURVE_SETTINGS.priors.level_sd_m,
  });
  const run = spawnSync('python3', [join(import.meta.dirname, 'dense_likelihood.py')], {
    input,
    encoding: 'utf8',
    // One thread on either side.
    env: { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' },
  });
  if (run.status !== 0) return null;
  const answer = JSON.parse(run.stdout) as { perSecond: number; value: number };
  return { ...answer, engine: 'numpy' };
}

/** Rasmussen & Williams 2006, Algorithm 2.1, straight. */
function denseInJavaScript(points: readonly CurvePoint[]): Dense {
  const { t, y, s } = columns(points);
  const n = t.length;
  const lambda = Math.sqrt(3) / LENGTH_KA;
  const h = (x: number): number => {
    const z = lambda * Math.abs(x);
    return (RATE_SD / lambda) ** 2 * (2 * z - 3 + (z + 3) * Math.exp(-z));
  };
  const level = DEFAULT_CURVE_SETTINGS.priors.level_sd_m ** 2;
  const evaluate = (): number => {
    const k = new Float64Array(n * n);
    for (let i = 0; i < n; i++)
      for (let j = 0; j <= i; j++)
        k[i * n + j] = level + h(t[i]!) + h(t[j]!) - h(t[i]! - t[j]!) + (i === j ? s[i]! ** 2 : 0);
    const l = cholesky(k, n);
    if (l === null) return NaN;
    const solved = solveCholesky(l, Float64Array.from(y), n);
    let sum = -0.5 * n * Math.log(2 * Math.PI);
    for (let i = 0; i < n; i++) sum -= 0.5 * y[i]! * solved[i]! + Math.log(l[i * n + i]!);
    return sum;
  };
  return { ...perSecond(evaluate), engine: 'javascript' };
}
