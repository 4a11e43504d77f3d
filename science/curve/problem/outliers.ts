/**
 * Dates and heights that are wrong by more than their errors say: a sample that was reworked or rooted, a laboratory or
 * label mixed up, a contact that was lowered or misread. Each is a mixture, summed out where one point is in play:
 *
 *   age:    with probability 1 − p the date as it is; else the true age lies before or after the date's mean by an
 *           exponential of one of several scales, more often younger than the date (dates too old are the usual fault of
 *           a coast: old carbon and reworked shells outlive the layer they end in);
 *   height: with probability 1 − p the normal error s; else s and an error of several times the whole of the point's own.
 *
 * A limit is wrong in the same two ways. Densities are of the date and the height found, so that a shared reservoir error
 * sees only dates that are no outliers.
 */
import { exp, log, type RandomStream, square } from '@stillstand/science/base';
import { type AgePrior, drawAge, logAgeDensity, logAgeGiven } from '@stillstand/science/clocks';
import type { OutlierPriors } from '../result/result.ts';
import type { CurvePoint } from './model.ts';

/** What is assumed of the ages of one problem. */
export interface AgeOutliers {
  log_in: number;
  log_out: number;
  too_old: number;
  scales_yr: readonly number[];
  /** Ages beyond these are no ages. */
  youngest: number;
  oldest: number;
}

export function ageOutliers(
  priors: OutlierPriors | null,
  range: { youngest: number; oldest: number },
): AgeOutliers | null {
  if (priors === null || !(priors.age_probability > 0)) return null;
  return {
    log_in: log(1 - priors.age_probability),
    log_out: log(priors.age_probability),
    too_old: priors.too_old_share,
    scales_yr: priors.age_scales_yr,
    youngest: range.youngest,
    oldest: range.oldest,
  };
}

/** Log density, per year, of the true age of a date that is an outlier, as it is used with the date's own mass. */
function logTail(out: AgeOutliers, prior: AgePrior, age_cal_bp: number): number {
  const younger_by = prior.mean_cal_bp - age_cal_bp;
  // A date younger than the range, as one after 1950, is no reason to forbid its own years.
  const youngest = Math.min(out.youngest, prior.mean_cal_bp - 6 * prior.sd_yr);
  if (age_cal_bp < youngest || age_cal_bp > out.oldest) return -Infinity;
  const distance = Math.abs(younger_by);
  const share = younger_by > 0 ? out.too_old : 1 - out.too_old;
  let sum = 0;
  for (const scale of out.scales_yr) sum += exp(-distance / scale) / scale;
  return log((share * sum) / out.scales_yr.length);
}

const logSum = (a: number, b: number): number => {
  const most = Math.max(a, b);
  return most === -Infinity ? most : most + log(exp(a - most) + exp(b - most));
};

/** Log density of an age up to a constant, outliers among its dates; `out` null: as in `logAgeDensity`. */
export function logAge(prior: AgePrior, out: AgeOutliers | null, age_cal_bp: number): number {
  const sound = logAgeDensity(prior, age_cal_bp);
  if (out === null || prior.kind === 'fixed') return sound;
  return logSum(out.log_in + sound, out.log_out + prior.log_mass + logTail(out, prior, age_cal_bp));
}

/** The same given a shared error, which an outlier knows nothing of. */
export function logAgeUnder(
  prior: AgePrior,
  out: AgeOutliers | null,
  age_cal_bp: number,
  shift: number,
): number {
  if (prior.shared === null) return logAge(prior, out, age_cal_bp);
  const sound = logAgeGiven(prior, age_cal_bp, shift);
  if (out === null) return sound;
  const tail = prior.shared.log_mass + logTail(out, prior, age_cal_bp);
  return logSum(out.log_in + sound, out.log_out + tail);
}

/** Probability that the date of an age is an outlier, the age and the shared reservoir error given. */
export function ageOutlierProbability(
  prior: AgePrior,
  out: AgeOutliers | null,
  age_cal_bp: number,
  shift: number,
): number {
  if (out === null || prior.kind === 'fixed') return 0;
  const sound = out.log_in + logAgeGiven(prior, age_cal_bp, shift);
  const mass = prior.shared?.log_mass ?? prior.log_mass;
  const tail = out.log_out + mass + logTail(out, prior, age_cal_bp);
  return 1 / (1 + exp(sound - tail));
}

/** A draw from the density of `logAge`, but for ages beyond the range, which have none. */
export function drawAgeOf(prior: AgePrior, out: AgeOutliers | null, stream: RandomStream): number {
  if (out === null || prior.kind === 'fixed' || log(stream.uniform()) < out.log_in)
    return drawAge(prior, stream);
  return prior.mean_cal_bp - drawDistance(out, stream);
}

/** How much older a wrong date is than its sample, yr; negative where it is younger. */
function drawDistance(out: AgeOutliers, stream: RandomStream): number {
  const side = stream.uniform() < out.too_old ? 1 : -1;
  return side * drawReach(out, stream);
}

/** A distance in years at which an outlier may lie, of either side. */
export function drawReach(out: AgeOutliers, stream: RandomStream): number {
  const scale = out.scales_yr[Math.floor(stream.uniform() * out.scales_yr.length)]!;
  return -scale * log(1 - stream.uniform());
}

/** Ages at which outliers of a date may lie, with the share of each: for sums over an age. */
export function tailGrid(prior: AgePrior, out: AgeOutliers): { age_cal_bp: number; weight: number }[] {
  const grid: { age_cal_bp: number; weight: number }[] = [];
  for (const scale of out.scales_yr)
    for (let k = 0; k < TAIL_PARTS; k++) {
      const distance = -scale * log(1 - (k + 0.5) / TAIL_PARTS);
      const each = 1 / (TAIL_PARTS * out.scales_yr.length);
      for (const side of [1, -1]) {
        const age_cal_bp = prior.mean_cal_bp - side * distance;
        const isAge = logTail(out, prior, age_cal_bp) > -Infinity;
        if (isAge) grid.push({ age_cal_bp, weight: each * (side > 0 ? out.too_old : 1 - out.too_old) });
      }
    }
  return grid;
}
const TAIL_PARTS = 3;

/** Log probabilities of the kinds of height error, the sound one first; variances, m², of each point and kind. */
export interface HeightOutliers {
  log_share: Float64Array;
  variance_m2: Float64Array;
}

/** Without outliers there is one kind: the point's own. */
export function heightOutliers(priors: OutlierPriors | null, points: readonly CurvePoint[]): HeightOutliers {
  const p = priors === null ? 0 : priors.height_probability;
  const times = p > 0 ? priors!.height_times : [];
  const kinds = 1 + times.length;
  const log_share = new Float64Array(kinds).fill(log(p / times.length));
  log_share[0] = log(1 - p);
  const variance_m2 = new Float64Array(kinds * points.length);
  points.forEach(({ sigma_m, half_range_m, lowering_m }, i) => {
    const own = square(sigma_m);
    const whole = own + square(half_range_m) / 3 + square(lowering_m);
    for (let k = 0; k < kinds; k++)
      variance_m2[kinds * i + k] = own + (k === 0 ? 0 : whole * square(times[k - 1]!));
  });
  return { log_share, variance_m2 };
}
