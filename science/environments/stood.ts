/** How long an environment stood along a line: in one hole or another, without a break. */
import { type AgedColumn, baseOf, drawsOf, thatTookTime, topOf } from './column.ts';

/** Draw by draw. */
export interface Stood {
  /** First and last age at which any hole had it, cal BP. */
  began_cal_bp: Float64Array;
  ended_cal_bp: Float64Array;
  /** Longest time in which at every moment one hole or another had it, yr. Between holes it may have stood longer. */
  unbroken_yr: Float64Array;
}

/** Null where none of the holes has it in a layer that took time. All columns have as many draws. */
export function stood(columns: readonly AgedColumn[], environment: string): Stood | null {
  const layers = columns.flatMap(thatTookTime).filter((layer) => layer.environment === environment);
  if (layers.length === 0) return null;
  const draws = drawsOf(columns[0]!);
  const made: Stood = {
    began_cal_bp: new Float64Array(draws),
    ended_cal_bp: new Float64Array(draws),
    unbroken_yr: new Float64Array(draws),
  };
  for (let k = 0; k < draws; k++) {
    const spans = layers
      .map((layer) => [topOf(layer)[k]!, baseOf(layer)[k]!] as const)
      .sort(([a], [b]) => a - b);
    made.ended_cal_bp[k] = spans[0]![0];
    let [from, to] = spans[0]!;
    let longest = 0;
    for (const [young, old] of spans) {
      if (young > to) [from, to] = [young, old];
      to = Math.max(to, old);
      longest = Math.max(longest, to - from);
    }
    // The last span to begin again reaches the oldest age of all.
    made.began_cal_bp[k] = to;
    made.unbroken_yr[k] = longest;
  }
  return made;
}
