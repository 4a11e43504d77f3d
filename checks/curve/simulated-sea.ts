/**
 * A sea level drawn from the prior by dense algebra (Rasmussen & Williams 2006, their appendix A.2), and points on it:
 * the simulation shares no code with the sampler it checks.
 */
import { cholesky, type RandomStream } from '@stillstand/science/base';
import { type CurvePriors, type RateModel, SMOOTH_RATE } from '@stillstand/science/curve';

export interface Sea {
  rate_sd_mm_yr: number;
  length_ka: number;
  slowing_mm_yr_ka: number;
  /** Where the rate starts afresh, cal BP, the youngest first; the rates beside it and the jump up at it. */
  changes: { age_cal_bp: number; older_mm_yr: number; younger_mm_yr: number; jump_m: number }[];
  /** By the ages asked for, cal BP. */
  level_m: (age_cal_bp: number) => number;
  rate_mm_yr: (age_cal_bp: number) => number;
}

/** σ, ℓ, and level and rate at the given ages, jointly; changes are not younger than 1950. */
export function drawSea(
  priors: CurvePriors,
  levels_at: readonly number[],
  rates_at: readonly number[],
  stream: RandomStream,
  model: RateModel = SMOOTH_RATE,
): Sea {
  const rate_sd_mm_yr = priors.rate_sd_scale_mm_yr * Math.abs(stream.normal());
  const length_ka = priors.length_median_ka * Math.exp(priors.length_log_sd * stream.normal());
  const slowing_mm_yr_ka =
    model.slowing_mm_yr_ka > 0 ? model.slowing_mm_yr_ka * Math.abs(stream.normal()) : 0;
  const { changes_from_cal_bp: from, changes_to_cal_bp: to } = model;
  const count =
    model.kind === 'smooth' && model.changes > 0 ? stream.integer(model.changes + 1) : model.changes;
  const breaks = Array.from({ length: count }, () => to + (from - to) * stream.uniform()).sort(
    (a, b) => a - b,
  );
  const lambda = model.kind === 'smooth' ? Math.sqrt(3) / length_ka : 0;

  // The pieces one after another, the youngest first: each knows the level it begins with, 0 at 1950.
  const edges = [-Infinity, ...breaks, Infinity];
  const levels = new Map<number, number>();
  const rates = new Map<number, number>();
  const changes: Sea['changes'] = [];
  let begins = 0;
  let younger_mm_yr = Number.NaN;
  edges.slice(1).forEach((end, piece) => {
    const start = edges[piece]!;
    const isIn = (age: number): boolean => age > start && age <= end;
    const origin = Math.max(0, start);
    const last = Number.isFinite(end) ? [end] : [];
    const first = piece > 0 ? [start] : [];
    const level = [...new Set([...levels_at.filter(isIn), ...last])];
    const rate = [...new Set([...rates_at.filter(isIn), ...first, ...last])];
    const drawn = drawPiece(
      lambda,
      level.map((age) => age - origin),
      rate.map((age) => age - origin),
      stream,
    );
    const rateAt = (age: number): number => rate_sd_mm_yr * drawn[level.length + rate.indexOf(age)]!;
    if (piece > 0) changes.at(-1)!.older_mm_yr = rateAt(start) + meanAt(start);
    level.forEach((age, i) => {
      levels.set(age, begins + rate_sd_mm_yr * drawn[i]!);
    });
    for (const age of rate) rates.set(age, rateAt(age));
    if (last.length === 0) return;
    younger_mm_yr = rateAt(end) + meanAt(end);
    const jump_m = model.jump_sd_m > 0 ? model.jump_sd_m * stream.normal() : 0;
    changes.push({ age_cal_bp: end, older_mm_yr: Number.NaN, younger_mm_yr, jump_m });
    begins = levels.get(end)! - jump_m;
  });
  const alpha = priors.level_sd_m * stream.normal();
  const mean = priors.rate_mean_mm_yr;
  function meanAt(age: number): number {
    return priors.rate_mean_mm_yr + (slowing_mm_yr_ka * age) / 1000;
  }
  return {
    rate_sd_mm_yr,
    length_ka,
    slowing_mm_yr_ka,
    changes,
    level_m: (age) =>
      alpha + levels.get(age)! - (mean * age) / 1000 - 0.5 * slowing_mm_yr_ka * (age / 1000) ** 2,
    rate_mm_yr: (age) => meanAt(age) + rates.get(age)!,
  };
}

/** Level from its origin and rate of one piece of σ = 1, at ages (yr) from that origin, jointly. */
function drawPiece(
  lambda: number,
  level_at: readonly number[],
  rate_at: readonly number[],
  stream: RandomStream,
): number[] {
  // h″ is the covariance of the rate over σ²; its double integral from 0.
  const h = (x: number): number => {
    const z = lambda * Math.abs(x);
    if (z < 1e-3) return (x * x) / 2;
    return (2 * z - 3 + (z + 3) * Math.exp(-z)) / lambda ** 2;
  };
  const h1 = (x: number): number => {
    const z = lambda * Math.abs(x);
    if (lambda === 0) return x;
    return (Math.sign(x) * (2 - (z + 2) * Math.exp(-z))) / lambda;
  };
  const h2 = (x: number): number => {
    const z = lambda * Math.abs(x);
    return (1 + z) * Math.exp(-z);
  };
  const all = [
    ...level_at.map((age) => ({ rate: false, t: age / 1000 })),
    ...rate_at.map((age) => ({ rate: true, t: age / 1000 })),
  ];
  const n = all.length;
  const k = new Float64Array(n * n);
  all.forEach((a, i) => {
    all.forEach((b, j) => {
      if (a.rate && b.rate) k[i * n + j] = h2(a.t - b.t);
      else if (!(a.rate || b.rate)) k[i * n + j] = h(a.t) + h(b.t) - h(a.t - b.t);
      else {
        const x = a.rate ? b.t : a.t;
        const y = a.rate ? a.t : b.t;
        k[i * n + j] = -h1(y) - h1(x - y);
      }
    });
    // The level at 0 is exactly α, and close ages are nearly one: a hair of noise (10⁻⁵ σ) keeps the factor.
    k[i * n + i] = k[i * n + i]! + 1e-10;
  });
  const l = cholesky(k, n);
  if (l === null) throw new RangeError('drawSea: covariance not positive definite');
  const e = Float64Array.from({ length: n }, () => stream.normal());
  return all.map((_, i) => {
    let sum = 0;
    for (let j = 0; j <= i; j++) sum += l[i * n + j]! * e[j]!;
    return sum;
  });
}
