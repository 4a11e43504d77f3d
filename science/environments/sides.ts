/** On which side of an edge a hole was, and when it changed: by draw, from what its layers say. */
import type { RandomStream } from '@stillstand/science/base';
import { type AgedColumn, baseOf, drawsOf, thatTookTime, topOf } from './column.ts';

/** Whether an environment is on the inner side of the edge, e.g. land; null where that is not known. */
export type SideOf = (environment: string | null) => boolean | null;

export interface Sides {
  /** From the oldest on: the side a hole came to, and draw by draw when, cal BP. */
  changes: readonly { toInner: boolean; age_cal_bp: Float64Array }[];
  /** Side before the first of them; null where nothing is known of the hole. */
  first: boolean | null;
  /** Draw by draw: the side is known from here (older) to there, cal BP; ∞ where it always was. */
  from_cal_bp: Float64Array;
  to_cal_bp: Float64Array;
}

/**
 * What stands in a lowest layer of the inner side stood there before too: land is land until it is covered. Between two
 * layers of one side nothing else is taken to have been; between two of different sides it changed at an even age of the
 * time that no layer with a known side is of.
 */
export function sidesOf(column: AgedColumn, isInner: SideOf, stream: RandomStream): Sides {
  const draws = drawsOf(column);
  const known = thatTookTime(column)
    .flatMap((layer) => {
      const inner = isInner(layer.environment);
      return inner === null ? [] : [{ layer, inner }];
    })
    .reverse();
  const [lowest] = known;
  if (lowest === undefined) {
    const never = new Float64Array(draws);
    return { changes: [], first: null, from_cal_bp: never, to_cal_bp: never };
  }
  const random = stream.split(column.hole);
  const changes = known.slice(1).flatMap(({ layer, inner }, n) => {
    const below = known[n]!;
    if (below.inner === inner) return [];
    const [old, young] = [topOf(below.layer), baseOf(layer)];
    const age_cal_bp = Float64Array.from(old, (age, k) => {
      const gap = age - young[k]!;
      return gap > 0 ? age - gap * random.uniform() : age;
    });
    return [{ toInner: inner, age_cal_bp }];
  });
  return {
    changes,
    first: lowest.inner,
    from_cal_bp: lowest.inner ? new Float64Array(draws).fill(Infinity) : baseOf(lowest.layer),
    to_cal_bp: topOf(known.at(-1)!.layer),
  };
}

/** At an age in draw k; null where it is not known. */
export function sideAt(
  { changes, first, from_cal_bp, to_cal_bp }: Sides,
  k: number,
  age_cal_bp: number,
): boolean | null {
  if (first === null || age_cal_bp >= from_cal_bp[k]! || age_cal_bp < to_cal_bp[k]!) return null;
  let side = first;
  for (const change of changes) if (age_cal_bp < change.age_cal_bp[k]!) side = change.toInner;
  return side;
}
