/**
 * The chain the filters walk: heights at ages, from the youngest to the oldest. Besides one node for each point it holds
 * the prior of the level at 1950 CE (0 ± level_sd at age 0) and, where there is one, the tie: with a flat level at the
 * first node these two are exactly a normal prior on the level, whatever the ages.
 */
export interface Observations {
  /** Number of nodes, those not walked included. */
  count: number;
  age_ka: Float64Array;
  /** Height of the node as the state of its hole has it, the mean rate's trend taken off, shared errors not: z + μ·t. */
  raw_m: Float64Array;
  /** The same with shared errors at their current values taken off. */
  height_m: Float64Array;
  variance_m2: Float64Array;
  /** Node at each position of the walk, ages ascending. A node that is left out has no say. */
  order: Int32Array;
  /** Position of each node walked. */
  place: Int32Array;
  /** Number of shared errors. */
  groups: number;
  /** Loading (m) of shared error g on node i at `g·count + i`. */
  loading_m: Float64Array;
}

/** Insertion sort: the order hardly changes between calls. */
export function sortByAge(o: Observations): void {
  const { order, age_ka } = o;
  for (let k = 1; k < order.length; k++) {
    const node = order[k]!;
    const age = age_ka[node]!;
    let to = k;
    while (to > 0 && age_ka[order[to - 1]!]! > age) {
      order[to] = order[to - 1]!;
      to--;
    }
    order[to] = node;
  }
  for (let k = 0; k < order.length; k++) o.place[order[k]!] = k;
}
