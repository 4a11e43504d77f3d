/**
 * How much better two units are explained as one layer than as two picked at random from their columns: natural
 * logarithms of ratios of probabilities, one for each thing compared, added. What is random is taken from the two
 * columns themselves, so that a thing in which all units are alike (everything named sand) says nothing.
 */
import { exp, log, logNormalDensity, normalLogCdf, square } from '@stillstand/science/base';
import type { CorrelatedColumn, CorrelatedUnit, Measured } from './column.ts';
import { LIKENESSES, type Likeness, likeness } from './likeness.ts';
import type { CorrelationSettings } from './settings.ts';

/** Parts of the score of a pair; 0 where a thing is not known of both. */
export interface ScoreParts {
  sediment: number;
  thickness: number;
  elevation: number;
  properties: number;
}

export interface PairScores {
  /** All but the elevation. */
  steady: (a: number, b: number) => Omit<ScoreParts, 'elevation'>;
  /** `rise_m`: what all contacts of the second hole lie higher than those of the first. */
  elevation: (a: number, b: number, rise_m: number) => number;
}

/** @param distance_m between the holes; null where it is not known */
export function pairScores(
  a: CorrelatedColumn,
  b: CorrelatedColumn,
  distance_m: number | null,
  settings: CorrelationSettings,
): PairScores {
  const pairs = a.units.flatMap((one) => b.units.map((other) => [one, other] as const));
  /** A thing compared may be plainly wrong: then it says nothing. */
  const softened = (score: number): number => log((1 - settings.blunder) * exp(score) + settings.blunder);

  const ofSediment = sedimentScore(pairs, settings);
  const ofThickness = thicknessScore(pairs, settings);
  const apart_m = distance_m ?? settings.distance_m;
  const relief = square(settings.relief_m) + square(settings.slope * apart_m);
  const ofElevation =
    a.hasElevations && b.hasElevations
      ? differenceScore(
          pairs.map(([one, other]) => heights(one, other)),
          () => relief,
        )
      : () => 0;
  const names = new Set(a.units.flatMap(({ properties }) => Object.keys(properties)));
  const ofProperties = [...names].map((name) => {
    const known = pairs.flatMap(([{ properties: p }, { properties: q }]): [Measured, Measured][] =>
      p[name] === undefined || q[name] === undefined ? [] : [[p[name], q[name]]],
    );
    const score = differenceScore(known, (spread) => square(settings.property_share) * spread);
    return ({ properties: p }: CorrelatedUnit, { properties: q }: CorrelatedUnit): number =>
      p[name] === undefined || q[name] === undefined ? 0 : softened(score([p[name], q[name]]));
  });

  return {
    steady: (i, j) => {
      const [one, other] = [a.units[i]!, b.units[j]!];
      return {
        sediment: softened(ofSediment(one, other)),
        thickness: softened(ofThickness(one, other)),
        properties: ofProperties.reduce((sum, of) => sum + of(one, other), 0),
      };
    },
    elevation: (i, j, rise_m) => softened(ofElevation(heights(a.units[i]!, b.units[j]!), rise_m)),
  };
}

type Pair = readonly [CorrelatedUnit, CorrelatedUnit];
type Score = (a: CorrelatedUnit, b: CorrelatedUnit) => number;

/** Of pairs at random: counted in the two columns, with one of each kind before anything is counted. */
function sedimentScore(pairs: readonly Pair[], { odds }: CorrelationSettings): Score {
  const counts: Record<Likeness, number> = { same: 1, akin: 1, different: 1 };
  let all = LIKENESSES.length;
  for (const [one, other] of pairs) {
    const found = likeness(one, other);
    if (found === null) continue;
    counts[found] += 1;
    all += 1;
  }
  const usual = log(LIKENESSES.reduce((sum, kind) => sum + (odds[kind] * counts[kind]) / all, 0));
  return (a, b) => {
    const found = likeness(a, b);
    return found === null ? 0 : log(odds[found]) - usual;
  };
}

/** Two whole thicknesses by their ratio; a whole and a least one by the chance of at least that ratio. */
function thicknessScore(pairs: readonly Pair[], { thickness_log_sd }: CorrelationSettings): Score {
  const whole = pairs.filter(([a, b]) => a.isBaseSeen && b.isBaseSeen);
  const spread = meanOf(whole.map(([a, b]) => square(logRatio(a.thickness_m, b.thickness_m))));
  return (a, b) => {
    if (!a.isBaseSeen && !b.isBaseSeen) return 0;
    const own = square(thickness_log_sd) + relative(a.thickness_m) + relative(b.thickness_m);
    const [near, far] = [Math.sqrt(own), Math.sqrt(Math.max(own, spread))];
    const ratio = logRatio(a.thickness_m, b.thickness_m);
    if (a.isBaseSeen && b.isBaseSeen)
      return logNormalDensity(ratio, 0, near) - logNormalDensity(ratio, 0, far);
    const more = a.isBaseSeen ? -ratio : ratio;
    return normalLogCdf(-more / near) - normalLogCdf(-more / far);
  };
}

/** Thinner than this no thickness is told apart, m. */
const THINNEST_M = 0.01;
const logRatio = (a: Measured, b: Measured): number =>
  log(Math.max(THINNEST_M, a.value)) - log(Math.max(THINNEST_M, b.value));
const relative = ({ value, sigma }: Measured): number => square(sigma / Math.max(THINNEST_M, value));

/** Bases where both are seen, else tops. */
const heights = (a: CorrelatedUnit, b: CorrelatedUnit): [Measured, Measured] =>
  a.isBaseSeen && b.isBaseSeen ? [a.base_m, b.base_m] : [a.top_m, b.top_m];

/**
 * Normal in their difference, second less first: of one layer around `rise` with `within` (a variance, given that of pairs
 * at random), else as pairs at random are.
 */
function differenceScore(
  pairs: readonly [Measured, Measured][],
  within: (spread: number) => number,
): (pair: readonly [Measured, Measured], rise?: number) => number {
  const usual = meanOf(pairs.map(([a, b]) => b.value - a.value));
  const spread = meanOf(pairs.map(([a, b]) => square(b.value - a.value - usual)));
  return ([a, b], rise = 0) => {
    const own = square(a.sigma) + square(b.sigma) + within(spread);
    const difference = b.value - a.value;
    if (!(own > 0 && spread > own)) return 0;
    return (
      logNormalDensity(difference, rise, Math.sqrt(own)) -
      logNormalDensity(difference, usual, Math.sqrt(spread))
    );
  };
}

const meanOf = (values: readonly number[]): number =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
