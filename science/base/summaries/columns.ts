/** Columns of kept draws: objects of `Float64Array`s and lists of them, nested as the sampler likes. */

/** Keeps every second draw, in the first half of each column: the chain goes on with twice the sweeps between draws. */
export function halve(columns: object): void {
  if (columns instanceof Float64Array) {
    for (let k = 0; 2 * k + 1 < columns.length; k++) columns[k] = columns[2 * k + 1]!;
    return;
  }
  for (const column of Object.values(columns) as object[]) halve(column);
}

/** One chain after another. */
export function pooled(chains: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(chains.reduce((sum, c) => sum + c.length, 0));
  let at = 0;
  for (const c of chains) {
    all.set(c, at);
    at += c.length;
  }
  return all;
}
