/** Spans of time as one: first and last age, and the longest time without a break. */

/** Of spans [younger, older] in any order, cal BP; of none, nothing lasted. */
export function joined(spans: readonly (readonly [young: number, old: number])[]) {
  let [from, to, unbroken] = [0, Number.NEGATIVE_INFINITY, 0];
  for (const [young, old] of [...spans].sort(([a], [b]) => a - b)) {
    if (young > to) [from, to] = [young, old];
    to = Math.max(to, old);
    unbroken = Math.max(unbroken, to - from);
  }
  const ended = Math.min(Number.POSITIVE_INFINITY, ...spans.map(([young]) => young));
  return { unbroken, began: to, ended };
}
