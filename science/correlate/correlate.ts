/** The ties between the units of two holes that explain both best, each with how much worse the best without it is. */
import { align, type AlignmentScores, type Span } from './align.ts';
import { type CorrelatedColumn, type CorrelatedUnit, yearsApart } from './column.ts';
import { pairScores, type ScoreParts, total } from './score.ts';
import { type CorrelationSettings, correlationDefaults } from './settings.ts';

/** A unit of each hole, by their places in the columns. */
export type Pair = readonly [a: number, b: number];

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
  if (crossing.length > 0) return { ties: [], crossing };
  const parts = pairScores(a, b, distance_m, settings);
  const scores = scoresOf(a, b, parts, forbidden, settings);
  const ties = blocks(fixed, a.units.length, b.units.length).flatMap(([of_a, of_b]) => {
    const { pairs, score } = align(of_a, of_b, scores);
    return pairs.map(({ a: i, b: j, without }): ProposedTie => {
      // Both are the same sums in another order: what rounding leaves below 0 is 0.
      const margin = Math.max(0, score - without.score);
      return {
        a: i,
        b: j,
        margin,
        isClear: margin >= settings.clear_margin,
        otherwise: { of_a: without.of_a, of_b: without.of_b },
        parts: parts(i, j),
        areBasesSeen: a.units[i]!.isBaseSeen && b.units[j]!.isBaseSeen,
      };
    });
  });
  return { ties, crossing };
}

/** Scores of a pair and of a unit alone, what is forbidden and what ages forbid left out. */
export function scoresOf(
  a: CorrelatedColumn,
  b: CorrelatedColumn,
  parts: (i: number, j: number) => ScoreParts,
  forbidden: readonly Pair[],
  settings: CorrelationSettings,
): AlignmentScores {
  const isForbidden = (i: number, j: number): boolean =>
    forbidden.some(([k, l]) => k === i && l === j) ||
    yearsApart(a.units[i]!.base_age, b.units[j]!.base_age) > settings.years_apart;
  const table = a.units.map((_, i) =>
    b.units.map((_, j) => (isForbidden(i, j) ? -Infinity : total(parts(i, j)))),
  );
  const [endOfA, endOfB] = [endOf(a), endOf(b)];
  return {
    pair: (i, j) => table[i]![j]!,
    alone_a: (i) => settings.missing * reached(a.units[i]!, endOfB),
    alone_b: (j) => settings.missing * reached(b.units[j]!, endOfA),
  };
}

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
