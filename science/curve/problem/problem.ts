/** Points and settings made ready for the sampler: plain arrays by node, groups numbered, ages as densities. */

import { exp, log } from '@stillstand/science/base';
import type { AgePrior } from '@stillstand/science/clocks';
import { faultOf, type HoleInCurve, holesOf } from '../histories/histories.ts';
import type { CurveSettings } from '../result/result.ts';
import { type Bins, binsOf } from './age-bins.ts';
import { agePrior } from './age-prior.ts';
import { type AgeQuantiles, ageQuantiles } from './age-quantiles.ts';
import { type DepthOrder, depthOrder } from './depth-order.ts';
import { EXACT, LOWERED, logHeight, MARINE, TERRESTRIAL, UNIFORM } from './height.ts';
import type { CurvePoint } from './model.ts';
import { type AgeOutliers, ageOutliers, type HeightOutliers, heightOutliers } from './outliers.ts';

export interface Problem {
  settings: CurveSettings;
  /** Points that can be used, in the order given; and those that cannot. */
  points: CurvePoint[];
  refused: Refusal[];
  ages: AgePrior[];
  /** What is assumed of wrong dates, null for that there are none; and of wrong heights. */
  ageOutliers: AgeOutliers | null;
  heightOutliers: HeightOutliers;
  /** Ages in the order of their depths; null where no two are in one. */
  order: DepthOrder | null;
  /** Where each age may be at all; null for those that are certain. */
  bins: (Bins | null)[];
  /** Of each point: kind of height, and half width of the uniform part or scale of the lowering, m. */
  kind: Uint8Array;
  width_m: Float64Array;
  /** Which part of a height error is held explicitly where a point has both: 0 none, 1 lowering, 2 uniform. */
  explicit: Uint8Array;
  /** Nodes: points, then the prior of the level, then the tie where there is one. */
  nodes: number;
  /** Height shared errors act on, by name, and loadings g·nodes + i, m. The last so many are lowerings by burial, never below 0. */
  groups: string[];
  burials: number;
  loading_m: Float64Array;
  /** Largest loading of each group, m. */
  groupSigma_m: Float64Array;
  /** Errors shared by ages (of a reservoir, of doses measured together), by name, and the points of each. */
  offsets: string[];
  /** Largest 1 sigma of each, yr (of a reservoir 14C yr). */
  offsetSigma_yr: Float64Array;
  offsetMembers: Int32Array[];
  /** Group of each point's age in `offsets`, or −1. */
  offsetOf: Int32Array;
  /** Where each age lies in its date's distribution given the shared error; null for one that shares none. */
  quantiles: (AgeQuantiles | null)[];
  /** Holes whose histories some points have their ages from. */
  holes: HoleInCurve[];
  /** Order of updates: by prior mean age, fixed throughout (an order that followed the state would bias the draws). */
  visit: Int32Array;
}

/** In sigmas. */
const NOTHING = 1e-4;

/** A point that cannot be used, and why. */
export interface Refusal {
  id: string;
  found: string;
  expected: string;
}

/** Points no curve can be computed from; `computeCurve` leaves them out and says so in its remarks. */
export function unusablePoints(
  points: readonly CurvePoint[],
  settings: Pick<CurveSettings, 'age_range_cal_bp'>,
): Refusal[] {
  return points.map((point) => readAge(point, settings)).filter((read) => 'found' in read);
}

/** What is known of a point's age, or why the point cannot be used. */
function readAge(point: CurvePoint, settings: Pick<CurveSettings, 'age_range_cal_bp'>): AgePrior | Refusal {
  const { id, age } = point;
  const not = (found: string, expected: string): Refusal => ({ id, found, expected });
  if (!Number.isFinite(point.height_m)) return not(`height ${point.height_m} m`, 'a finite height');
  if (!(point.sigma_m > 0 && point.sigma_m < Infinity))
    return not(`sigma ${point.sigma_m} m`, 'a sigma above 0');
  for (const [name, value] of [
    ['half range', point.half_range_m],
    ['lowering', point.lowering_m],
    ['compressible thickness', point.burial?.compressible_m ?? 0],
    ...point.shared.map((s) => [`shared error ${s.group}`, Math.abs(s.sigma_m)] as const),
  ] as const) {
    if (!(value >= 0 && value < Infinity)) return not(`${name} ${value} m`, '0 or more');
  }
  if (age.kind === 'normal' && !(Number.isFinite(age.mean_cal_bp) && age.sd_yr >= 0 && age.sd_yr < Infinity))
    return not(`age ${age.mean_cal_bp} ± ${age.sd_yr} cal BP`, 'a finite age with a sigma of 0 or more');
  if (age.kind === 'normal' && age.systematic !== undefined) {
    const { group, sd_yr } = age.systematic;
    if (!(sd_yr >= 0 && sd_yr <= age.sd_yr))
      return not(
        `age ${age.mean_cal_bp} ± ${age.sd_yr} cal BP, ${sd_yr} of it shared by ${group}`,
        'a shared part from 0 to the whole sigma',
      );
  }
  if (age.kind === 'radiocarbon') {
    if (!(age.error_yr > 0 && age.offset_sd_yr >= 0 && Number.isFinite(age.c14_age + age.offset_yr)))
      return not(
        `radiocarbon age ${age.c14_age} ± ${age.error_yr}, offset ${age.offset_yr} ± ${age.offset_sd_yr}`,
        'finite ages, an error above 0, an offset error of 0 or more',
      );
  }
  if (age.kind === 'of_hole') {
    const fault = faultOf(age);
    if (fault !== null) return { id, ...fault };
  }
  const prior = agePrior(age, settings.age_range_cal_bp);
  if (prior !== null) return prior;
  const { youngest, oldest } = settings.age_range_cal_bp;
  return age.kind === 'radiocarbon'
    ? not(
        `radiocarbon age ${age.c14_age} ± ${age.error_yr} on ${age.curve.name}`,
        `an age within 6 sigma of the curve from ${youngest} to ${oldest} cal BP`,
      )
    : not('an age density without mass', 'at least one finite value above 0');
}

export function makeProblem(given: readonly CurvePoint[], settings: CurveSettings): Problem {
  const points: CurvePoint[] = [];
  const ages: AgePrior[] = [];
  const refused: Refusal[] = [];
  for (const point of given) {
    const read = readAge(point, settings);
    if ('found' in read) refused.push(read);
    else {
      points.push(point);
      ages.push(read);
    }
  }
  const n = points.length;
  const nodes = n + (settings.tie === null ? 1 : 2);
  const kind = new Uint8Array(n);
  const width_m = new Float64Array(n);
  const explicit = new Uint8Array(n);
  const groups = [...new Set(points.flatMap((p) => p.shared.map((s) => s.group)))];
  // A share of what lies below, one a hole: an error of a known sign that its points share.
  const percent = settings.burial_percent;
  const buriedIn =
    percent === null ? [] : [...new Set(points.flatMap((p) => (isBuried(p) ? [p.burial.hole] : [])))];
  const shared = groups.length;
  groups.push(...buriedIn);
  const loading_m = new Float64Array(groups.length * nodes);
  const offsets: string[] = [];
  const offsetOf = new Int32Array(n).fill(-1);
  points.forEach((p, i) => {
    // Parts that add less than 1e-8 of the variance are nothing.
    const uniform = p.half_range_m > NOTHING * p.sigma_m ? p.half_range_m : 0;
    const lowering = p.lowering_m > NOTHING * p.sigma_m ? p.lowering_m : 0;
    if (p.kind === 'terrestrial') kind[i] = TERRESTRIAL;
    else if (p.kind === 'marine') kind[i] = MARINE;
    else if (uniform > 0 && lowering > 0) {
      // The narrower part is held explicitly: the wider, integrated out, then lets the height move freely.
      explicit[i] = lowering < uniform ? 1 : 2;
      kind[i] = lowering < uniform ? UNIFORM : LOWERED;
    } else kind[i] = uniform > 0 ? UNIFORM : lowering > 0 ? LOWERED : EXACT;
    width_m[i] = kind[i] === UNIFORM ? uniform : kind[i] === LOWERED ? lowering : 0;
    for (const s of p.shared) {
      const at = groups.indexOf(s.group) * nodes + i;
      loading_m[at] = loading_m[at]! + s.sigma_m;
    }
    if (percent !== null && isBuried(p))
      loading_m[(shared + buriedIn.indexOf(p.burial.hole)) * nodes + i] =
        -(percent / 100) * p.burial.compressible_m;
    const prior = ages[i]!;
    if (prior.shared !== null) {
      const name = prior.shared.group;
      if (!offsets.includes(name)) offsets.push(name);
      offsetOf[i] = offsets.indexOf(name);
    }
  });
  const holes = holesOf(points);
  const ofHoles = holes.flatMap(({ shared }) => shared.map(({ sharing }) => sharing));
  for (const { group } of ofHoles) if (!offsets.includes(group)) offsets.push(group);
  const wrongDates = ageOutliers(settings.outliers, settings.age_range_cal_bp);
  const numbers = Int32Array.from(points.keys());
  const offsetMembers = offsets.map((_, g) => numbers.filter((i) => offsetOf[i] === g));
  const groupSigma_m = Float64Array.from(groups, (_, g) =>
    loading_m.subarray(g * nodes, (g + 1) * nodes).reduce((most, l) => Math.max(most, Math.abs(l)), 0),
  );
  const offsetSigma_yr = Float64Array.from(offsets, (name, g) =>
    Math.max(
      0,
      ...Array.from(offsetMembers[g]!, (i) => loadingOf(ages[i]!)),
      ...ofHoles.flatMap(({ group, loading_yr }) => (group === name ? [loading_yr] : [])),
    ),
  );
  const visit = numbers.toSorted((i, j) => ages[i]!.mean_cal_bp - ages[j]!.mean_cal_bp || i - j);
  return {
    settings,
    points,
    refused,
    ages,
    ageOutliers: wrongDates,
    heightOutliers: heightOutliers(settings.outliers, points),
    order: depthOrder(points, ages, wrongDates, settings.depth_order),
    bins: ages.map((age) => binsOf(age, wrongDates)),
    kind,
    width_m,
    explicit,
    nodes,
    groups,
    burials: buriedIn.length,
    loading_m,
    groupSigma_m,
    offsets,
    offsetSigma_yr,
    offsetMembers,
    offsetOf,
    quantiles: ages.map(ageQuantiles),
    holes,
    visit,
  };
}

/** Whether sediment below a point may have lowered it. */
export const isBuried = (p: CurvePoint): p is CurvePoint & { burial: NonNullable<CurvePoint['burial']> } =>
  (p.burial?.compressible_m ?? 0) > 0;

/**
 * Log density of a height, its kind of error summed out, where all else expects `mean_m` of the latent height with
 * `variance_m2`, the point's own error not in it. `centre_m`: the height the sample's kind refers to.
 */
export function logHeightOf(
  problem: Problem,
  i: number,
  centre_m: number,
  mean_m: number,
  variance_m2: number,
): number {
  const kind = problem.kind[i]!;
  const width = problem.width_m[i]!;
  const { log_share, variance_m2: own } = problem.heightOutliers;
  const kinds = log_share.length;
  if (kinds === 1) return logHeight(kind, centre_m, width, mean_m, variance_m2 + own[i]!);
  let most = -Infinity;
  let sum = 0;
  for (let k = 0; k < kinds; k++) {
    const l = log_share[k]! + logHeight(kind, centre_m, width, mean_m, variance_m2 + own[kinds * i + k]!);
    if (l > most) {
      sum = sum * exp(most - l) + 1;
      most = l;
    } else sum += exp(l - most);
  }
  return most + log(sum);
}

/** Which kind of error it is, given the same: a draw, or with `u` NaN the probability that it is not the point's own. */
export function errorKindOf(
  problem: Problem,
  i: number,
  centre_m: number,
  mean_m: number,
  variance_m2: number,
  u: number,
): number {
  const { log_share, variance_m2: own } = problem.heightOutliers;
  const kinds = log_share.length;
  if (kinds === 1) return 0;
  const all = logHeightOf(problem, i, centre_m, mean_m, variance_m2);
  let left = u;
  for (let k = 0; k < kinds; k++) {
    const variance = variance_m2 + own[kinds * i + k]!;
    const p = exp(
      log_share[k]! + logHeight(problem.kind[i]!, centre_m, problem.width_m[i]!, mean_m, variance) - all,
    );
    if (Number.isNaN(u)) return Math.max(0, 1 - p);
    left -= p;
    if (left < 0) return k;
  }
  return 0;
}

/** Of a shared error, yr (of a reservoir 14C yr). */
function loadingOf(age: AgePrior): number {
  return age.shared?.loading_yr ?? 0;
}
