/** How much of what is known of an age lies below any age, outliers among the dates: for sums over the age. */
import { exp, normalCdf } from '@stillstand/science/base';
import {
  type AgePrior,
  cumulativeAt,
  logAgeGiven,
  normalGiven,
  quantileOf,
} from '@stillstand/science/clocks';
import type { AgeOutliers } from '../problem/outliers.ts';

const KA = 1000;
/** Knots of a normal date, in sd; of any other, so many even parts of all but this share at each end. */
const NORMAL_SD = [-6, -4, -3, -2, -1, 0, 1, 2, 3, 4, 6];
const PARTS = 12;
const FAINT = 3e-5;
/** Beyond them, where only outliers are, each knot is this much farther from the mean, up to so many of the longest scale. */
const GROWS = { index: 1.8, limit: 2.5 };
const SCALES = 8;
/** A density given a shared error is asked once in so many years: the error of a radiocarbon age is several times that. */
const YEARS = 3;

export interface AgeMass {
  prior: AgePrior;
  out: AgeOutliers | null;
  /** Ages to sum over, ascending, ka, and the mass below each, up to a constant. */
  knot_ka: Float64Array;
  below: Float64Array;
  /** Of a radiocarbon date that shares a reservoir error: mass at the end of each of its years given that error; else null. */
  given: Float64Array | null;
  /** The shared error that is given, in its sds. */
  shift: number;
}

/** Null for a certain year. `of` a limit, whose probability changes slowly, fewer knots do. */
export function ageMass(prior: AgePrior, out: AgeOutliers | null, of: keyof typeof GROWS): AgeMass | null {
  if (prior.kind === 'fixed') return null;
  const isShared = prior.kind === 'cells' && prior.shared !== null;
  const mass: AgeMass = {
    prior,
    out,
    knot_ka: Float64Array.from(knotsOf(prior, out, GROWS[of]), (age) => age / KA),
    below: new Float64Array(0),
    given: isShared ? new Float64Array(prior.logDensity.length) : null,
    shift: 0,
  };
  mass.below = new Float64Array(mass.knot_ka.length);
  if (isShared) giveShift(mass, 0);
  else fillBelow(mass);
  return mass;
}

/** Takes the shared error of a date as given, in its sds. */
export function giveShift(mass: AgeMass, shift: number): void {
  const { prior, given } = mass;
  mass.shift = shift;
  if (prior.kind === 'normal') fillBelow(mass);
  if (given === null || prior.kind !== 'cells' || prior.shared === null) return;
  const { from_cal_bp, shared } = prior;
  let sum = 0;
  for (let k = 0; k < given.length; k += YEARS) {
    const end = Math.min(given.length, k + YEARS);
    const middle = from_cal_bp + ((k + end - 1) >> 1);
    const each = exp(logAgeGiven(prior, middle, shift) - shared.log_mass);
    for (let year = k; year < end; year++) given[year] = sum += each;
  }
  fillBelow(mass);
}

/** Mass below an age, up to a constant. */
export function massBelow({ prior, out, given, shift }: AgeMass, age_ka: number): number {
  const age = KA * age_ka;
  const sound = given === null ? soundBelow(prior, age, shift) : below(given, prior, age);
  return out === null ? sound : exp(out.log_in) * sound + exp(out.log_out) * tailBelow(prior, out, age);
}

function fillBelow(mass: AgeMass): void {
  for (let k = 0; k < mass.below.length; k++) mass.below[k] = massBelow(mass, mass.knot_ka[k]!);
}

function soundBelow(prior: AgePrior, age: number, shift: number): number {
  if (prior.kind === 'cells') return below(prior.cumulative, prior, age);
  if (prior.kind === 'fixed') return cumulativeAt(prior, age);
  const { mean_cal_bp, sd_yr } = normalGiven(prior, shift);
  return normalCdf((age - mean_cal_bp) / sd_yr);
}

/** Of sums at the ends of whole years, even within each. */
function below(sums: Float64Array, prior: AgePrior, age: number): number {
  if (prior.kind !== 'cells') return 0;
  const years = age - (prior.from_cal_bp - 0.5);
  if (!(years > 0)) return 0;
  if (years >= sums.length) return sums.at(-1)!;
  const whole = Math.floor(years);
  const before = whole === 0 ? 0 : sums[whole - 1]!;
  return before + (years - whole) * (sums[whole]! - before);
}

/** Of the exponentials of `problem/outliers.ts` on both sides of the mean, cut at the ends of what is an age. */
function tailBelow(prior: AgePrior, out: AgeOutliers, age: number): number {
  const { youngest, oldest } = ends(prior, out);
  const older_by = Math.min(oldest, Math.max(youngest, age)) - prior.mean_cal_bp;
  let sum = 0;
  for (const scale of out.scales_yr) sum += exp(-Math.abs(older_by) / scale);
  const beyond = sum / out.scales_yr.length;
  return older_by < 0 ? out.too_old * beyond : 1 - (1 - out.too_old) * beyond;
}

const ends = ({ mean_cal_bp, sd_yr }: AgePrior, out: AgeOutliers): { youngest: number; oldest: number } => ({
  youngest: Math.min(out.youngest, mean_cal_bp - 6 * sd_yr),
  oldest: out.oldest,
});

function knotsOf(prior: AgePrior, out: AgeOutliers | null, grows: number): number[] {
  const { mean_cal_bp: mean } = prior;
  const knots = prior.kind === 'cells' ? yearsOf(prior) : normalKnots(prior);
  if (out === null) return knots;
  const { youngest, oldest } = ends(prior, out);
  const reach = SCALES * Math.max(...out.scales_yr);
  const [first, last] = [Math.max(youngest, mean - reach), Math.min(oldest, mean + reach)];
  while (knots[0]! > first) knots.unshift(Math.max(first, mean - grows * (mean - knots[0]!)));
  while (knots.at(-1)! < last) knots.push(Math.min(last, mean + grows * (knots.at(-1)! - mean)));
  return knots;
}

/** Finer where an error is shared: given it the date is narrower, and lies elsewhere among them. */
function normalKnots({ mean_cal_bp: mean, sd_yr, shared }: AgePrior): number[] {
  if (shared === null) return NORMAL_SD.map((z) => mean + z * sd_yr);
  const reach = Math.max(...NORMAL_SD);
  return Array.from({ length: 4 * PARTS + 1 }, (_, k) => mean + reach * sd_yr * (k / (2 * PARTS) - 1));
}

function yearsOf(prior: AgePrior & { kind: 'cells' }): number[] {
  const start = prior.from_cal_bp - 0.5;
  const end = start + prior.logDensity.length;
  // A shared error moves the date: of two sd either way all that the cells hold may count.
  const isShared = prior.shared !== null;
  const from = isShared ? start : quantileOf(prior, FAINT) - 0.5;
  const to = isShared ? end : quantileOf(prior, 1 - FAINT) + 0.5;
  const parts = Math.min(PARTS * (isShared ? 2 : 1), Math.ceil(to - from));
  const inner = Array.from({ length: parts + 1 }, (_, k) => from + ((to - from) * k) / parts);
  return [...new Set([start, ...inner, end])].sort((a, b) => a - b);
}
