/**
 * How long an environment stood along a line, each number by one hole. Holes are not joined draw by draw: of several that had it
 * at about the same time joined draws take the earliest beginning and the latest end there is by error, and close the
 * breaks between; their 95 % held 0.68 to 0.80 of simulated coasts.
 */
import { median, quantiles } from '@stillstand/science/base';
import { type AgedColumn, baseOf, drawsOf, thatTookTime, topOf } from './column.ts';

/** Draws of one hole. */
interface OfOneHole {
  hole: string;
  draws: Float64Array;
}

export interface Stood {
  /** Of the hole that had it first, and of the one that had it last, cal BP. */
  began: OfOneHole;
  ended: OfOneHole;
  /** Longest time without a break, of the hole that had it longest, yr. Elsewhere it may have stood longer. */
  unbroken: OfOneHole;
  /** It stood for at least so long with the probability asked for, yr: by the hole whose layers say the most. */
  at_least_yr: number;
}

/** Null where none of the holes has it in a layer that took time. */
export function stood(
  columns: readonly AgedColumn[],
  environment: string,
  probability: number,
): Stood | null {
  const each = columns.flatMap((column) => stoodInHole(column, environment));
  if (each.length === 0) return null;
  const mostOf = (of: (in_hole: InHole) => Float64Array, sign: 1 | -1): OfOneHole => {
    const most = each.reduce((a, b) => (sign * median(of(b)) > sign * median(of(a)) ? b : a));
    return { hole: most.hole, draws: of(most) };
  };
  return {
    began: mostOf(({ began_cal_bp }) => began_cal_bp, 1),
    ended: mostOf(({ ended_cal_bp }) => ended_cal_bp, -1),
    unbroken: mostOf(({ unbroken_yr }) => unbroken_yr, 1),
    at_least_yr: Math.max(...each.map(({ unbroken_yr }) => quantiles(unbroken_yr, [1 - probability])[0]!)),
  };
}

interface InHole {
  hole: string;
  began_cal_bp: Float64Array;
  ended_cal_bp: Float64Array;
  unbroken_yr: Float64Array;
}

/** Draw by draw; none where the hole has no layer of it. */
function stoodInHole(column: AgedColumn, environment: string): InHole[] {
  const layers = thatTookTime(column).filter((layer) => layer.environment === environment);
  const [first, last] = [layers.at(-1), layers[0]];
  if (first === undefined || last === undefined) return [];
  const unbroken_yr = new Float64Array(drawsOf(column));
  for (let k = 0; k < unbroken_yr.length; k++) {
    let [from, to] = [topOf(last)[k]!, baseOf(last)[k]!];
    for (const layer of layers) {
      // From the top down, so that no layer begins before the one above it.
      if (topOf(layer)[k]! > to) from = topOf(layer)[k]!;
      to = baseOf(layer)[k]!;
      unbroken_yr[k] = Math.max(unbroken_yr[k]!, to - from);
    }
  }
  return [{ hole: column.hole, began_cal_bp: baseOf(first), ended_cal_bp: topOf(last), unbroken_yr }];
}
