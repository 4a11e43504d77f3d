/**
 * The order of the ages in a hole: where the depths of two samples do not overlap, the lower one is the older (Steno's
 * superposition; undisturbed ground is assumed). It holds of the true ages, whatever the dates say: a date that
 * contradicts it is an outlier. Ages along a hole as ordered unknowns: Buck, Kenworthy, Litton & Smith 1991, Antiquity
 * 65:808–821.
 *
 * Which samples are so is worked out once, from joint draws of their depths (`surelyBelow`); a chain sees each age between
 * the oldest of those above it and the youngest of those below it.
 */
import { type RandomStream, randomStream } from '@stillstand/science/base';
import { type AgePrior, cumulativeAt, quantileOf } from '@stillstand/science/clocks';
import type { CurvePoint } from './model.ts';
import { type AgeOutliers, drawAgeOf, logAge } from './outliers.ts';

const KA = 1000;
/** Where every date is taken as given, two that are in this order less probably than this are not put into it. */
const NEVER = 0.001;
/** Below this probability that the lower is the older, two dates contradict their depths. */
const CONTRADICTED = 0.025;
/** Without outliers an age is sought within so many sd of its date. */
const REACH_SD = 6;
/** Tries to start an age from its date; and where none is in order, this far below the one above, yr. */
const TRIES = 20;
const NEAR_YR = 1;

export interface DepthOrder {
  /** Of each point those surely above it and those surely below it. */
  above: Int32Array[];
  below: Int32Array[];
  /** Points in an order at all, those above first. */
  ordered: Int32Array;
  pairs: Pair[];
  /** Those put into their order against their dates. */
  contradicting: Pair[];
  /** Ages that are in order, ka. */
  start_ka: Float64Array;
}

/** Two points of which the lower should be the older. */
interface Pair {
  upper: number;
  lower: number;
  /** Probability that it is, from the two dates alone. */
  p: number;
  isImposed: boolean;
}

/** A sample in a hole: joint draws of its top and base, m below ground; draw k of all is one state of the hole. */
export interface SampleInHole {
  id: string;
  hole: string;
  top_m: Float64Array;
  base_m: Float64Array;
}

/** Of each sample the ids of those that lie below it in every draw, without overlap. */
export function surelyBelow(samples: readonly SampleInHole[]): Map<string, string[]> {
  const below = new Map<string, string[]>(samples.map(({ id }) => [id, []]));
  for (const ofHole of Map.groupBy(samples, (s) => s.hole).values())
    for (const upper of ofHole)
      for (const lower of ofHole) if (isBelow(lower, upper)) below.get(upper.id)!.push(lower.id);
  return below;
}

function isBelow(lower: SampleInHole, upper: SampleInHole): boolean {
  const draws = Math.min(lower.top_m.length, upper.base_m.length);
  for (let k = 0; k < draws; k++) if (!(lower.top_m[k]! > upper.base_m[k]!)) return false;
  return draws > 0;
}

/** Null where no two points are in an order, or it was not asked for. */
export function depthOrder(
  points: readonly CurvePoint[],
  ages: readonly AgePrior[],
  out: AgeOutliers | null,
  isAsked: boolean,
): DepthOrder | null {
  if (!isAsked) return null;
  const at = new Map(points.map(({ id }, i) => [id, i]));
  const pairs = points.flatMap(({ older_below = [] }, upper): Pair[] =>
    older_below.flatMap((id) => {
      const lower = at.get(id);
      if (lower === undefined || lower === upper) return [];
      // A history keeps its own order.
      if (isOfHistory(points[upper]!) || isOfHistory(points[lower]!)) return [];
      const p = probabilityOlder(ages[lower]!, ages[upper]!);
      return [{ upper, lower, p, isImposed: isPossible(ages[upper]!, ages[lower]!, p, out) }];
    }),
  );
  if (pairs.length === 0) return null;
  const found = imposed(pairs, points.length);
  if (startInOrder(found, ages, out)) return found;
  // Every two could be in order but not all of them together.
  return imposed(
    pairs.map((pair) => ({ ...pair, isImposed: false })),
    points.length,
  );
}

const isOfHistory = ({ age }: CurvePoint): boolean => age.kind === 'of_hole';

function imposed(pairs: Pair[], points: number): DepthOrder {
  const of = (pick: (pair: Pair) => readonly [number, number]): Int32Array[] =>
    Array.from({ length: points }, (_, i) =>
      Int32Array.from(
        pairs.filter((pair) => pair.isImposed && pick(pair)[0] === i),
        (pair) => pick(pair)[1],
      ),
    );
  const above = of(({ upper, lower }) => [lower, upper]);
  const below = of(({ upper, lower }) => [upper, lower]);
  // One with more above it is further down: what lies above a point lies above all that lie below it.
  const ordered = Int32Array.from(above.keys())
    .filter((i) => above[i]!.length + below[i]!.length > 0)
    .sort((i, j) => above[i]!.length - above[j]!.length || i - j);
  const contradicting = pairs.filter(({ p, isImposed }) => isImposed && p < CONTRADICTED);
  return { above, below, ordered, pairs, contradicting, start_ka: new Float64Array(points) };
}

function startInOrder(order: DepthOrder, ages: readonly AgePrior[], out: AgeOutliers | null): boolean {
  order.start_ka.set(ages.map((age) => age.mean_cal_bp / KA));
  return putInOrder(order, ages, out, order.start_ka, randomStream(0));
}

/** Two certain years are what they are; and without outliers dates that cannot be in order are not put into it. */
function isPossible(upper: AgePrior, lower: AgePrior, p: number, out: AgeOutliers | null): boolean {
  if (upper.kind === 'fixed' && lower.kind === 'fixed') return p === 1;
  return out !== null || p >= NEVER;
}

/** Pairs whose dates contradict the order of their depths, whether they are put into it or not. */
export const againstDepths = ({ pairs }: DepthOrder): Pair[] => pairs.filter(({ p }) => p < CONTRADICTED);

/** Ages between which an age lies, ka: the oldest above it and the youngest below it. */
export interface AgeBounds {
  youngest: number;
  oldest: number;
}
export const ANY_AGE: AgeBounds = { youngest: -Infinity, oldest: Infinity };

export function boundsOf(order: DepthOrder | null, age_ka: Float64Array, i: number): AgeBounds {
  if (order === null || order.above[i]!.length + order.below[i]!.length === 0) return ANY_AGE;
  let youngest = -Infinity;
  for (const j of order.above[i]!) if (age_ka[j]! > youngest) youngest = age_ka[j]!;
  let oldest = Infinity;
  for (const j of order.below[i]!) if (age_ka[j]! < oldest) oldest = age_ka[j]!;
  return { youngest, oldest };
}

export const isWithin = ({ youngest, oldest }: AgeBounds, age_ka: number): boolean =>
  age_ka > youngest && age_ka < oldest;

export function isInOrder(order: DepthOrder, age_ka: Float64Array): boolean {
  for (const i of order.ordered) if (!(boundsOf(order, age_ka, i).youngest < age_ka[i]!)) return false;
  return true;
}

/** Puts ages into the order of their depths, from above: each as its date has it where that is in order. False where none is. */
export function putInOrder(
  order: DepthOrder,
  ages: readonly AgePrior[],
  out: AgeOutliers | null,
  age_ka: Float64Array,
  stream: RandomStream,
): boolean {
  // The oldest each may be, so that all below it have room.
  const oldest = new Float64Array(ages.length);
  for (const i of order.ordered.toReversed()) {
    const own = reachOf(ages[i]!, out).oldest / KA;
    oldest[i] = order.below[i]!.reduce((least, j) => Math.min(least, oldest[j]!), own);
  }
  for (const i of order.ordered) {
    const above = boundsOf(order, age_ka, i).youngest;
    const youngest = Math.max(above, reachOf(ages[i]!, out).youngest / KA);
    let age = age_ka[i]!;
    if (ages[i]!.kind === 'fixed') {
      if (!(age > above)) return false;
      continue;
    }
    const isFine = (at: number): boolean =>
      at > above && at < oldest[i]! && logAge(ages[i]!, out, KA * at) > -Infinity;
    for (let k = 0; k < TRIES && !isFine(age); k++) age = drawAgeOf(ages[i]!, out, stream) / KA;
    if (!isFine(age)) {
      const near = Math.min(NEAR_YR / KA, (oldest[i]! - youngest) / (2 + order.ordered.length));
      age = youngest + near * (0.5 + 0.5 * stream.uniform());
    }
    if (!isFine(age)) return false;
    age_ka[i] = age;
  }
  return true;
}

function reachOf(prior: AgePrior, out: AgeOutliers | null): { youngest: number; oldest: number } {
  const { mean_cal_bp: mean, sd_yr: sd } = prior;
  if (prior.kind === 'fixed') return { youngest: mean, oldest: mean };
  if (out !== null) return { youngest: Math.min(out.youngest, mean - REACH_SD * sd), oldest: out.oldest };
  if (prior.kind === 'normal') return { youngest: mean - REACH_SD * sd, oldest: mean + REACH_SD * sd };
  const from = prior.from_cal_bp - 0.5;
  return { youngest: from, oldest: from + prior.logDensity.length };
}

/** Probability that one age is older than another, from their dates alone, each taken for itself. */
function probabilityOlder(lower: AgePrior, upper: AgePrior): number {
  let sum = 0;
  // Over the middles of equally probable parts.
  for (let k = 0; k < PARTS; k++) sum += 1 - cumulativeAt(lower, quantileOf(upper, (k + 0.5) / PARTS));
  return sum / PARTS;
}
const PARTS = 200;
