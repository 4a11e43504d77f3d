/** The way of an edge along a line of holes, such as that of the land: where it was at each age, draw by draw. */
import type { RandomStream } from '@stillstand/science/base';
import { type AgedColumn, drawsOf } from './column.ts';
import { type SideOf, type Sides, sideAt, sidesOf } from './sides.ts';

/** When the edge passed a hole. */
export interface Passage {
  hole: string;
  along_m: number;
  /** Whether the hole came to the inner side of the edge, or to the outer one. */
  toInner: boolean;
  /** Draw by draw. */
  age_cal_bp: Float64Array;
}

export interface Edge {
  /** Hole at the end of the line that is the inner side for longer. */
  innermost: string;
  passages: readonly Passage[];
  /**
   * Of each age, draw by draw, m along the line. ∞ where even the innermost hole is outside, −∞ where all holes are
   * inside, whichever way the line runs; not a number where a hole does not say its side.
   */
  along_m: readonly Float64Array[];
}

/**
 * How much is known of how evenly an edge goes from one hole to the next: its way is a bridge of gamma increments whose
 * shapes add to this. 2 makes it even between the holes at half of the time: nothing is taken as known but that it did not
 * turn back on the way. Ours.
 */
const EVENNESS = 2;

/**
 * Where the innermost holes, one after another, are inside and the next is not, the edge lies between those two. From the
 * age at which it passed one of them to that at which it passed the other it went on without turning back; where it came
 * back to the hole it came from, or the age of its coming or leaving is not known, it lies anywhere between them. All
 * columns have as many draws and lie in the order of the line; ages of the answer are those asked for. Null for fewer than
 * two holes of a known side. Draws from `stream` are split by hole.
 */
export function edgeAlong(
  columns: readonly AgedColumn[],
  isInner: SideOf,
  ages_cal_bp: readonly number[],
  stream: RandomStream,
): Edge | null {
  const holes = columns
    .map((column) => ({ column, sides: sidesOf(column, isInner, stream.split('sides')) }))
    .filter(({ sides }) => sides.first !== null);
  if (holes.length < 2) return null;
  const draws = drawsOf(holes[0]!.column);
  const inside = ({ sides }: (typeof holes)[number]): number => shareInside(sides, draws, ages_cal_bp);
  const inward = inside(holes[0]!) > inside(holes.at(-1)!) ? holes : [...holes].reverse();
  const along_m = ages_cal_bp.map(() => new Float64Array(draws));
  const way = stream.split('way');
  const oldFirst = ages_cal_bp.map((age, i) => ({ age, i })).sort((a, b) => b.age - a.age);
  for (let k = 0; k < draws; k++) walk(inward, k, oldFirst, way, along_m);
  return { innermost: inward[0]!.column.hole, passages: passagesOf(holes), along_m };
}

interface Hole {
  column: AgedColumn;
  sides: Sides;
}

/** From the oldest on; none of a hole that does not say its side. */
const passagesOf = (holes: readonly Hole[]): Passage[] =>
  holes.flatMap(({ column: { hole, along_m }, sides }) =>
    sides.changes.map(({ toInner, age_cal_bp }) => ({ hole, along_m, toInner, age_cal_bp })),
  );

function shareInside(sides: Sides, draws: number, ages: readonly number[]): number {
  let [inside, known] = [0, 0];
  for (const age of ages)
    for (let k = 0; k < draws; k++) {
      const side = sideAt(sides, k, age);
      if (side === null) continue;
      known += 1;
      if (side) inside += 1;
    }
  return known === 0 ? 0 : inside / known;
}

/** Hole before which the edge lies, counted from the innermost: 0 and as many as there are beyond them; null: not known. */
function gapAt(holes: readonly Hole[], k: number, age: number): number | null {
  for (const [i, { sides }] of holes.entries()) {
    const side = sideAt(sides, k, age);
    if (side === null) return null;
    if (!side) return i;
  }
  return holes.length;
}

interface Stay {
  gap: number | null;
  older_cal_bp: number;
  younger_cal_bp: number;
}

/** One draw: the gaps the edge was in, one after another, and its way through each. */
function walk(
  holes: readonly Hole[],
  k: number,
  oldFirst: readonly { age: number; i: number }[],
  way: RandomStream,
  along_m: readonly Float64Array[],
): void {
  const stays = staysOf(holes, k);
  let next = 0;
  for (const [n, stay] of stays.entries()) {
    const within: { age: number; i: number }[] = [];
    while (next < oldFirst.length && oldFirst[next]!.age >= stay.younger_cal_bp)
      within.push(oldFirst[next++]!);
    if (within.length === 0) continue;
    const put = (i: number, value: number): void => {
      along_m[i]![k] = value;
    };
    const { gap } = stay;
    if (gap === null) for (const { i } of within) put(i, Number.NaN);
    else if (gap === 0) for (const { i } of within) put(i, Infinity);
    else if (gap === holes.length) for (const { i } of within) put(i, -Infinity);
    else {
      const [inner, outer] = [holes[gap - 1]!.column.along_m, holes[gap]!.column.along_m];
      const shares = sharesOf(stay, stays[n - 1]?.gap ?? null, stays[n + 1]?.gap ?? null, within, way);
      for (const [m, { i }] of within.entries()) put(i, inner + shares[m]! * (outer - inner));
    }
  }
}

/** From the oldest on; they follow each other, from ∞ to −∞. */
function staysOf(holes: readonly Hole[], k: number): Stay[] {
  const turns = [
    ...new Set(
      holes.flatMap(({ sides: { changes, from_cal_bp, to_cal_bp } }) => [
        from_cal_bp[k]!,
        to_cal_bp[k]!,
        ...changes.map(({ age_cal_bp }) => age_cal_bp[k]!),
      ]),
    ),
  ]
    .filter(Number.isFinite)
    .sort((a, b) => b - a);
  const stays: Stay[] = [];
  for (const [n, younger_cal_bp] of [...turns, -Infinity].entries()) {
    const older_cal_bp = turns[n - 1] ?? Infinity;
    const middle =
      older_cal_bp === Infinity
        ? younger_cal_bp + 1
        : younger_cal_bp === -Infinity
          ? older_cal_bp - 1
          : (older_cal_bp + younger_cal_bp) / 2;
    const gap = gapAt(holes, k, middle);
    const before = stays.at(-1);
    if (before !== undefined && before.gap === gap) before.younger_cal_bp = younger_cal_bp;
    else stays.push({ gap, older_cal_bp, younger_cal_bp });
  }
  return stays;
}

/** Shares of the way from the inner hole of the gap to the outer one, at ages from the oldest on. */
function sharesOf(
  { gap, older_cal_bp, younger_cal_bp }: Stay,
  before: number | null,
  after: number | null,
  within: readonly { age: number }[],
  way: RandomStream,
): number[] {
  const goesThrough = before !== null && after !== null && before < gap! !== after < gap!;
  if (!goesThrough) {
    const anywhere = way.uniform();
    return within.map(() => anywhere);
  }
  const perYear = EVENNESS / (older_cal_bp - younger_cal_bp);
  const step = (from: number, to: number): number => (from > to ? way.gamma((from - to) * perYear) : 0);
  let [at, sum] = [older_cal_bp, 0];
  const sums = within.map(({ age }) => {
    sum += step(at, age);
    at = age;
    return sum;
  });
  const whole = sum + step(at, younger_cal_bp);
  // Came from inside: outward.
  return sums.map((each) => {
    const gone = whole > 0 ? each / whole : 0.5;
    return before! < gap! ? gone : 1 - gone;
  });
}
