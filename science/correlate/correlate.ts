/** The ties between the units of two holes that explain both best, each with how much worse the best without it is. */
import { square } from '@stillstand/science/base';
import { type AlignmentScores, align, type Pair, type Span } from './align.ts';
import { type CorrelatedColumn, type CorrelatedUnit, yearsApart } from './column.ts';
import { pairScores, type ScoreParts } from './score.ts';
import { type CorrelationSettings, correlationDefaults } from './settings.ts';

export interface ProposedTie {
  a: number;
  b: number;
  /**
   * Natural logarithm by which the best alignment is better than the best one without this tie, ≥ 0. The tie would be so
   * many e-folds more probable than not, were everything assumed true.
   */
  margin: number;
  isClear: boolean;
  /** Where the best one without it puts the two: null for no layer in the other hole. */
  otherwise: { of_a: number | null; of_b: number | null };
  parts: ScoreParts;
  /** Whether both holes go below the contact: only then are their bases known to be one. */
  areBasesSeen: boolean;
}

export interface Correlated {
  /** Down both columns; those that were fixed are not among them. */
  ties: readonly ProposedTie[];
  /** Fixed ties that cross another of them: while there are any, nothing is proposed. */
  crossing: readonly (readonly [Pair, Pair])[];
}

export interface CorrelateInput {
  a: CorrelatedColumn;
  b: CorrelatedColumn;
  /** m; null where it is not known. */
  distance_m: number | null;
  /** Ties a person has accepted: they stay, and what is proposed crosses none of them. */
  fixed?: readonly Pair[];
  /** Ties a person has refused. */
  forbidden?: readonly Pair[];
}

export function correlate(
  { a, b, distance_m, fixed = [], forbidden = [] }: CorrelateInput,
  settings: CorrelationSettings = correlationDefaults,
): Correlated {
  const crossing = crossings(fixed);
  if (crossing.length > 0 || a.units.length * b.units.length > MOST_PAIRS) return { ties: [], crossing };
  const { steady, elevation } = pairScores(a, b, distance_m, settings);
  const table = openPairs(a, b, forbidden, settings, (i, j) => {
    const { sediment, thickness, properties } = steady(i, j);
    return sediment + thickness + properties;
  });
  const spans = blocks(fixed, a.units.length, b.units.length);
  /** Every rise of one hole's contacts over the other's, what lies between fixed ties aligned under each. */
  const tried = rises(a, b, distance_m, settings).map(({ rise_m, prior }) => {
    const scores = scoresOf(a, b, (i, j) => table[i]![j]! + elevation(i, j, rise_m), settings);
    const aligned = spans.map(([of_a, of_b]) => align(of_a, of_b, scores));
    const ofFixed = fixed.reduce((sum, [i, j]) => sum + elevation(i, j, rise_m), 0);
    const score = aligned.reduce((sum, block) => sum + block.score, prior + ofFixed);
    return { rise_m, aligned, score };
  });
  const best = tried.reduce((one, other) => (other.score > one.score ? other : one));
  const ties = spans.flatMap((_, block) =>
    best.aligned[block]!.pairs.map(([i, j]): ProposedTie => {
      const others = tried.map(({ aligned, score }) => {
        const without = aligned[block]!.without(i, j);
        return { score: score - aligned[block]!.score + without.score, pairs: without.pairs };
      });
      const second = others.reduce((one, other) => (other.score > one.score ? other : one));
      const pairs = second.pairs();
      // Both are the same sums in another order: what rounding leaves below 0 is 0.
      const margin = Math.max(0, best.score - second.score);
      return {
        a: i,
        b: j,
        margin,
        isClear: margin >= settings.clear_margin,
        otherwise: {
          of_a: pairs.find(([k]) => k === i)?.[1] ?? null,
          of_b: pairs.find(([, l]) => l === j)?.[0] ?? null,
        },
        parts: { ...steady(i, j), elevation: elevation(i, j, best.rise_m) },
        areBasesSeen: a.units[i]!.isBaseSeen && b.units[j]!.isBaseSeen,
      };
    }),
  );
  return { ties, crossing };
}

/** The score of every pair; −∞ where a person or the ages forbid it. */
function openPairs(
  a: CorrelatedColumn,
  b: CorrelatedColumn,
  forbidden: readonly Pair[],
  { years_per_m }: CorrelationSettings,
  score: (i: number, j: number) => number,
): number[][] {
  const refused = new Set(forbidden.map(([i, j]) => `${i} ${j}`));
  const contact = ({ hasElevations }: CorrelatedColumn, { base_age, base_m }: CorrelatedUnit) => ({
    age: base_age,
    elevation_m: hasElevations ? base_m.value : null,
  });
  return a.units.map((one, i) =>
    b.units.map((other, j) =>
      refused.has(`${i} ${j}`) || yearsApart(contact(a, one), contact(b, other), years_per_m) > 0
        ? -Infinity
        : score(i, j),
    ),
  );
}

function scoresOf(
  a: CorrelatedColumn,
  b: CorrelatedColumn,
  pair: AlignmentScores['pair'],
  { missing }: CorrelationSettings,
): AlignmentScores {
  const table = a.units.map((_, i) => b.units.map((_, j) => pair(i, j)));
  const [endOfA, endOfB] = [endOf(a), endOf(b)];
  return {
    pair: (i, j) => table[i]![j]!,
    alone_a: (i) => missing * reached(a.units[i]!, endOfB),
    alone_b: (j) => missing * reached(b.units[j]!, endOfA),
  };
}

/** Of the standard deviation of a rise, on each side; and of the relief of single contacts, from one rise tried to the next. */
const REACH = 3;
const STEP = 0.5;

/** Rises to be tried, each with the logarithm of how probable it is against none. */
function rises(
  a: CorrelatedColumn,
  b: CorrelatedColumn,
  distance_m: number | null,
  { dip, distance_m: usual_m, relief_m }: CorrelationSettings,
): { rise_m: number; prior: number }[] {
  const sd = dip * (distance_m ?? usual_m);
  if (!(sd > 0) || !a.hasElevations || !b.hasElevations) return [{ rise_m: 0, prior: 0 }];
  const room = Math.floor(MOST_PAIRS / Math.max(1, a.units.length * b.units.length) / 2);
  const steps = Math.min(MOST_STEPS, room, Math.ceil((REACH * sd) / (STEP * relief_m)));
  return Array.from({ length: 2 * steps + 1 }, (_, k) => {
    const share = steps === 0 ? 0 : (REACH * (k - steps)) / steps;
    return { rise_m: share * sd, prior: -0.5 * square(share) };
  });
}
/** Of holes far apart no more rises are tried, and of columns with very many units fewer. */
const MOST_STEPS = 40;
/** Pairs of units, over all rises together; columns with more of them (1,700 units each) are not compared. */
const MOST_PAIRS = 3e6;

const endOf = ({ units }: CorrelatedColumn): number =>
  units.length === 0 ? Infinity : Math.min(...units.map(({ base_m }) => base_m.value));

/** Share of a unit above the end of the other hole: what lies below it is not missing there, it was not reached. */
function reached({ top_m, base_m }: CorrelatedUnit, end_m: number): number {
  const thickness = top_m.value - base_m.value;
  if (!(thickness > 0)) return base_m.value >= end_m ? 1 : 0;
  return Math.min(1, Math.max(0, (top_m.value - end_m) / thickness));
}

/** Every two ties of which one lies higher in one hole and lower in the other. */
export function crossings(ties: readonly Pair[]): (readonly [Pair, Pair])[] {
  return ties.flatMap((one, i) =>
    ties
      .slice(i + 1)
      .flatMap((other): (readonly [Pair, Pair])[] =>
        (one[0] - other[0]) * (one[1] - other[1]) < 0 ? [[one, other]] : [],
      ),
  );
}

/** What lies between fixed ties, from the top down. */
function blocks(fixed: readonly Pair[], ofA: number, ofB: number): (readonly [Span, Span])[] {
  const sorted = [...fixed].sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  const ends = [[-1, -1] as Pair, ...sorted, [ofA, ofB] as Pair];
  return ends.slice(1).map(([a, b], i) => [
    { from: ends[i]![0] + 1, to: Math.max(ends[i]![0] + 1, a) },
    { from: ends[i]![1] + 1, to: Math.max(ends[i]![1] + 1, b) },
  ]);
}
