/**
 * The units of two columns put side by side by dynamic programming: the best of all ways to pair them in order, each
 * unit with one of the other hole or with none, a layer missing there (Smith & Waterman 1980, J. Geology 88:451–457,
 * from memory); and for each pair of it the best way without that pair.
 */

/** Scores of what is put side by side: higher is better; `pair` is −∞ where a pair is forbidden. */
export interface AlignmentScores {
  pair: (a: number, b: number) => number;
  /** Of a unit with no partner, ≤ 0. */
  alone_a: (a: number) => number;
  alone_b: (b: number) => number;
}

/** Places of two units that are paired. */
export type Pair = readonly [a: number, b: number];

/** A way to put two columns side by side; pairs in order down both. */
interface Way {
  score: number;
  pairs: readonly Pair[];
}

export interface Alignment extends Way {
  /** The score of the best way in which these two are not a pair, and that way. */
  without: (a: number, b: number) => { score: number; pairs: () => readonly Pair[] };
}

/** Places in a column from `from` to before `to`. */
export interface Span {
  from: number;
  to: number;
}

/** From a place between units, i above in one and j in the other, on to the next. */
type Step = 'pair' | 'a' | 'b';
const STEPS: readonly Step[] = ['pair', 'a', 'b'];
const DOWN = { pair: [1, 1], a: [1, 0], b: [0, 1] } as const;

/** Of several ways equally good, the one that pairs as early as it can from the top down. */
export function align(a: Span, b: Span, scores: AlignmentScores): Alignment {
  const [rows, columns] = [Math.max(0, a.to - a.from), Math.max(0, b.to - b.from)];
  const width = columns + 1;
  const isPlace = (i: number, j: number): boolean => i >= 0 && j >= 0 && i <= rows && j <= columns;
  /** Of a step that starts at (i, j) and ends within the columns. */
  const scoreOf = (step: Step, i: number, j: number): number =>
    step === 'pair'
      ? scores.pair(a.from + i, b.from + j)
      : step === 'a'
        ? scores.alone_a(a.from + i)
        : scores.alone_b(b.from + j);

  /** The best of all that lies above and below each place. */
  const above = new Float64Array((rows + 1) * width).fill(-Infinity);
  const below = new Float64Array((rows + 1) * width).fill(-Infinity);
  above[0] = 0;
  below[rows * width + columns] = 0;
  for (let i = 0; i <= rows; i++)
    for (let j = 0; j <= columns; j++)
      for (const step of STEPS) {
        const [k, l] = [i + DOWN[step][0], j + DOWN[step][1]];
        if (!isPlace(k, l)) continue;
        above[k * width + l] = Math.max(above[k * width + l]!, above[i * width + j]! + scoreOf(step, i, j));
      }
  for (let i = rows; i >= 0; i--)
    for (let j = columns; j >= 0; j--)
      for (const step of STEPS) {
        const [k, l] = [i + DOWN[step][0], j + DOWN[step][1]];
        if (!isPlace(k, l)) continue;
        below[i * width + j] = Math.max(below[i * width + j]!, below[k * width + l]! + scoreOf(step, i, j));
      }

  /** Pairs of the best way up from, and down from, a place. */
  const pairsAbove = (i: number, j: number): Pair[] => {
    const pairs: Pair[] = [];
    while (i > 0 || j > 0) {
      const step = STEPS.find((each) => {
        const [k, l] = [i - DOWN[each][0], j - DOWN[each][1]];
        return isPlace(k, l) && above[k * width + l]! + scoreOf(each, k, l) === above[i * width + j];
      })!;
      [i, j] = [i - DOWN[step][0], j - DOWN[step][1]];
      if (step === 'pair') pairs.push([a.from + i, b.from + j]);
    }
    return pairs.reverse();
  };
  const pairsBelow = (i: number, j: number): Pair[] => {
    const pairs: Pair[] = [];
    while (i < rows || j < columns) {
      const step = STEPS.find((each) => {
        const [k, l] = [i + DOWN[each][0], j + DOWN[each][1]];
        return isPlace(k, l) && below[k * width + l]! + scoreOf(each, i, j) === below[i * width + j];
      })!;
      if (step === 'pair') pairs.push([a.from + i, b.from + j]);
      [i, j] = [i + DOWN[step][0], j + DOWN[step][1]];
    }
    return pairs;
  };

  /**
   * Every way crosses the line between places with i + j up to `sum` and those beyond in exactly one step; the pair is
   * one of these steps, and the best way without it is the best through any of the others.
   */
  const without: Alignment['without'] = (of_a, of_b) => {
    const [row, column] = [of_a - a.from, of_b - b.from];
    const sum = row + column;
    let best = { score: -Infinity, step: 'a' as Step, i: 0, j: 0 };
    const consider = (step: Step, i: number, j: number): void => {
      const [k, l] = [i + DOWN[step][0], j + DOWN[step][1]];
      if (!isPlace(i, j) || !isPlace(k, l) || (step === 'pair' && i === row && j === column)) return;
      const score = above[i * width + j]! + scoreOf(step, i, j) + below[k * width + l]!;
      if (score > best.score) best = { score, step, i, j };
    };
    for (let i = Math.max(0, sum - columns); i <= Math.min(rows, sum); i++) {
      for (const step of STEPS) consider(step, i, sum - i);
      consider('pair', i - 1, sum - i);
    }
    const { score, step, i, j } = best;
    return {
      score,
      pairs: () => [
        ...pairsAbove(i, j),
        ...(step === 'pair' ? [[a.from + i, b.from + j] as const] : []),
        ...pairsBelow(i + DOWN[step][0], j + DOWN[step][1]),
      ],
    };
  };

  return { score: below[0]!, pairs: pairsBelow(0, 0), without };
}
