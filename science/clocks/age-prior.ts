/**
 * What is known of an age before the heights are seen, ready for a sampler: log density, draws, moments.
 *
 * A normal age stays a formula. Radiocarbon and arbitrary densities become probabilities of whole-year cells centred on
 * the year, cut where they fall below e⁻⁴⁰ of the peak. Where ages share an error (of a reservoir, of doses measured
 * together) the prior has it integrated out, used for draws; the density given the shared error is in `logAgeGiven`.
 */
import { exp, log, normalCdf, normalQuantile, type RandomStream, square } from '@stillstand/science/base';
import {
  doseGroup,
  logDateGiven,
  type NormalSharing,
  type OffsetSharing,
  shownBy,
} from '@stillstand/science/dating';
import { type AgeConstraint, sharedErrorOf } from './age-constraint.ts';

export type AgePrior = FixedAge | NormalAge | CellAge;

interface Moments {
  mean_cal_bp: number;
  sd_yr: number;
  /** Log of what the density of `logAgeDensity` sums to over the years. */
  log_mass: number;
}

/** Not drawn by itself: a certain year, or one that the history of its hole has (its moments are those without the heights). */
interface FixedAge extends Moments {
  kind: 'fixed';
  shared: null;
}

interface NormalAge extends Moments {
  kind: 'normal';
  shared: NormalSharing | null;
}

interface CellAge extends Moments {
  kind: 'cells';
  from_cal_bp: number;
  /** Log density per cell, largest 0. */
  logDensity: Float64Array;
  /** Sum up to and including each cell, ending at 1. */
  cumulative: Float64Array;
  shared: OffsetSharing | null;
}

const LOG_ROOT_2_PI = 0.5 * log(2 * Math.PI);
/** e⁻⁴⁰: nothing a sampler would ever visit. */
const FAINT = -40;

/** Ages that may be, cal BP. */
export interface AgeRange {
  youngest: number;
  oldest: number;
}

/** What is known is never changed, and a prior only read: each is made once while its age lives. */
const made = new WeakMap<AgeConstraint, { range: AgeRange; prior: AgePrior | null }>();

/** Null where the range leaves no age within 6 sigma of what was measured, or the density has no mass. */
export function priorOfAge(age: AgeConstraint, range: AgeRange): AgePrior | null {
  const known = made.get(age);
  if (known?.range.youngest === range.youngest && known.range.oldest === range.oldest) return known.prior;
  const prior = makePrior(age, range);
  made.set(age, { range, prior });
  return prior;
}

function makePrior(age: AgeConstraint, range: AgeRange): AgePrior | null {
  switch (age.kind) {
    case 'normal': {
      const { mean_cal_bp, sd_yr } = age;
      const log_mass = log(sd_yr) + LOG_ROOT_2_PI;
      return sd_yr > 0
        ? { kind: 'normal', mean_cal_bp, sd_yr, log_mass, shared: sharedNormal(age) }
        : { kind: 'fixed', mean_cal_bp, sd_yr, log_mass, shared: null };
    }
    case 'density':
      return cells(
        age.from_cal_bp,
        age.density.map((p) => (p > 0 ? log(p) : -Infinity)),
        () => null,
      );
    case 'radiocarbon':
      return radiocarbon(age, range);
  }
}

/** No age is known to less, yr: where all of its error is shared, ages of one group would be one to the day. */
const LEAST_OWN_YR = 1;

function sharedNormal(age: AgeConstraint & { kind: 'normal' }): NormalSharing | null {
  const shared = sharedErrorOf(age);
  if (shared === null) return null;
  const own = Math.sqrt(Math.max(0, (age.sd_yr - shared.sd_yr) * (age.sd_yr + shared.sd_yr)));
  const precision = 1 / square(Math.max(LEAST_OWN_YR, own));
  return {
    kind: 'normal',
    group: doseGroup(shared.group),
    loading_yr: shared.sd_yr,
    mean_cal_bp: age.mean_cal_bp,
    precision,
    log_precision: log(precision),
    log_mass: LOG_ROOT_2_PI,
  };
}

function radiocarbon(age: AgeConstraint & { kind: 'radiocarbon' }, range: AgeRange): AgePrior | null {
  const { curve } = age;
  const from = Math.max(Math.ceil(range.youngest), curve.from_cal_bp);
  const to = Math.min(Math.floor(range.oldest), curve.from_cal_bp + curve.c14_age.length - 1);
  if (!(to >= from)) return null;
  const n = to - from + 1;
  const shared = sharedErrorOf(age) !== null;
  const logDensity = new Float64Array(n).fill(-Infinity);
  let nearest = Infinity;
  for (let i = 0; i < n; i++) {
    const at = from + i - curve.from_cal_bp;
    const miss = age.c14_age - curve.c14_age[at]! - age.offset_yr;
    const variance = square(age.error_yr) + square(curve.sigma_yr[at]!) + square(age.offset_sd_yr);
    const off = (miss * miss) / variance;
    nearest = Math.min(nearest, off);
    // Beyond twice the faint nothing can matter, whatever the variances: most of a curve is spared the logarithm.
    if (off < nearest - 4 * FAINT) logDensity[i] = -0.5 * (off + log(variance));
  }
  if (!(nearest < 36)) return null;
  if (!shared) return cells(from, logDensity, () => null);
  return cells(from, logDensity, (first, kept, log_mass) => {
    const expected_yr = new Float64Array(kept);
    const precision = new Float64Array(kept);
    for (let i = 0; i < kept; i++) {
      const at = first + i - curve.from_cal_bp;
      expected_yr[i] = curve.c14_age[at]! + age.offset_yr;
      precision[i] = 1 / (square(age.error_yr) + square(curve.sigma_yr[at]!));
    }
    const group = age.delta_r_group ?? '';
    return {
      kind: 'offset',
      group,
      from_cal_bp: first,
      c14_age: age.c14_age,
      loading_yr: age.offset_sd_yr,
      expected_yr,
      precision,
      log_precision: precision.map(log),
      log_mass,
    };
  });
}

/** `sharedOf` is asked with the first year, the number of those worth keeping, and the log of their sum as it was given. */
function cells(
  from: number,
  logDensity: Float64Array,
  sharedOf: (first_cal_bp: number, kept: number, log_mass: number) => OffsetSharing | null,
): CellAge | null {
  let peak = -Infinity;
  for (const l of logDensity) if (l > peak) peak = l;
  if (!(peak > -Infinity && peak < Infinity)) return null;
  let first = 0;
  let last = logDensity.length - 1;
  while (logDensity[first]! < peak + FAINT) first++;
  while (logDensity[last]! < peak + FAINT) last--;
  const kept = logDensity.slice(first, last + 1).map((l) => l - peak);
  const cumulative = new Float64Array(kept.length);
  let total = 0;
  let moment = 0;
  for (let i = 0; i < kept.length; i++) {
    const p = exp(kept[i]!);
    total += p;
    moment += p * i;
    cumulative[i] = total;
  }
  const centre = moment / total;
  // Cells are a year wide: a twelfth of a square year.
  let squares = total / 12;
  for (let i = 0; i < kept.length; i++) {
    squares += exp(kept[i]!) * square(i - centre);
    cumulative[i] = cumulative[i]! / total;
  }
  // Made whole, after every number in it: an engine (V8 13.6) has been seen to let such objects share a number when the
  // shape of earlier ones changed later, so that one age took the mean of another, once in fifty runs.
  const from_cal_bp = from + first;
  const mean_cal_bp = from_cal_bp + centre;
  const sd_yr = Math.sqrt(squares / total);
  const log_mass = log(total);
  const shared = sharedOf(from_cal_bp, kept.length, peak + log_mass);
  return { kind: 'cells', from_cal_bp, logDensity: kept, cumulative, shared, mean_cal_bp, sd_yr, log_mass };
}

/** One draw, cal BP. */
export function drawAge(prior: AgePrior, stream: RandomStream): number {
  switch (prior.kind) {
    case 'fixed':
      return prior.mean_cal_bp;
    case 'normal':
      return prior.mean_cal_bp + prior.sd_yr * stream.normal();
    case 'cells': {
      const cell = cellAt(prior, stream.uniform());
      return prior.from_cal_bp + cell - 0.5 + stream.uniform();
    }
  }
}

/** The cell in which the sum passes `p`. */
function cellAt({ cumulative: c }: CellAge, p: number): number {
  let low = 0;
  let high = c.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (c[middle]! > p) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Age below which a share `p` lies, to the year where it is of cells. */
export function quantileOf(prior: AgePrior, p: number): number {
  if (prior.kind === 'cells') return prior.from_cal_bp + cellAt(prior, p);
  return prior.kind === 'fixed' ? prior.mean_cal_bp : prior.mean_cal_bp + prior.sd_yr * normalQuantile(p);
}

/** Probability of an age no older, to the year where it is of cells. */
export function cumulativeAt(prior: AgePrior, age_cal_bp: number): number {
  if (prior.kind === 'fixed') return age_cal_bp < prior.mean_cal_bp ? 0 : 1;
  if (prior.kind === 'normal') return normalCdf((age_cal_bp - prior.mean_cal_bp) / prior.sd_yr);
  const cell = Math.round(age_cal_bp - prior.from_cal_bp);
  if (cell < 0) return 0;
  // Half of the cell it lies in.
  const before = cell === 0 ? 0 : prior.cumulative[Math.min(cell, prior.cumulative.length) - 1]!;
  return cell < prior.cumulative.length ? (before + prior.cumulative[cell]!) / 2 : 1;
}

/** Log density up to a constant, of the distribution `drawAge` draws from. */
export function logAgeDensity(prior: AgePrior, age_cal_bp: number): number {
  if (prior.kind === 'cells') {
    const cell = Math.round(age_cal_bp - prior.from_cal_bp);
    return cell >= 0 && cell < prior.logDensity.length ? prior.logDensity[cell]! : -Infinity;
  }
  const z = (age_cal_bp - prior.mean_cal_bp) / prior.sd_yr;
  return -0.5 * z * z;
}

/** Log density up to a constant given the shared error `shift` (in its sds); the same where there is none. */
export const logAgeGiven = (prior: AgePrior, age_cal_bp: number, shift: number): number =>
  prior.shared === null ? logAgeDensity(prior, age_cal_bp) : logDateGiven(prior.shared, age_cal_bp, shift);

/** What an age shows of the error it shares (`shownBy`). */
export const shownOfShared = (
  { shared }: AgePrior,
  age_cal_bp: number,
): { miss_yr: number; precision: number } =>
  shared === null ? { miss_yr: 0, precision: 0 } : shownBy(shared, age_cal_bp);

/** Mean and sd of a normal age given the error it shares. */
export function normalGiven(
  { mean_cal_bp, sd_yr, shared }: NormalAge,
  shift: number,
): { mean_cal_bp: number; sd_yr: number } {
  if (shared === null) return { mean_cal_bp, sd_yr };
  return { mean_cal_bp: mean_cal_bp - shared.loading_yr * shift, sd_yr: 1 / Math.sqrt(shared.precision) };
}
