/**
 * Quantiles of draws: one rule for all rooms. With x₁ ≤ … ≤ xₙ, the quantile p lies at p(n + 1), linear between its
 * neighbours and never beyond the outermost: type 6 of Hyndman & Fan 1996, Am. Stat. 50:361–365 (`method="weibull"` of
 * numpy). Between two such quantiles lies, on average, exactly the share of what is to come that they say; of the 400 draws
 * of a depth model, type 7 would leave half a hundredth too much outside its 95 %.
 */

/** Of ascending numbers, p within 0–1. NaN for none. */
export function quantileSorted(sorted: Float64Array, p: number): number {
  const place = placeOf(sorted.length, p);
  const below = Math.floor(place);
  const low = sorted[below] ?? NaN;
  return between(low, sorted[below + 1] ?? low, place - below);
}

/** Counted from 0. */
const placeOf = (n: number, p: number): number => Math.max(0, Math.min(n - 1, p * (n + 1) - 1));

const between = (low: number, high: number, share: number): number =>
  low === high ? low : low + (high - low) * share;

/** Of unordered numbers, in the order asked for; NaN counts as the largest. */
export function quantiles(x: ArrayLike<number>, ps: readonly number[]): number[] {
  const sorted = Float64Array.from(x).sort();
  return ps.map((p) => quantileSorted(sorted, p));
}

/** NaN for none. */
export const median = (x: ArrayLike<number>): number => quantiles(x, [0.5])[0]!;

/**
 * By selection, several times as fast as sorting them all: the order of `draws` is changed.
 * @param draws without NaN
 * @param ps within 0–1, rising
 */
export function quantilesBySelection(draws: Float64Array, ps: readonly number[]): number[] {
  const n = draws.length;
  let from = 0;
  return ps.map((p) => {
    const place = placeOf(n, p);
    const below = Math.floor(place);
    select(draws, below, from);
    from = below;
    const low = draws[below] ?? NaN;
    if (place === below) return low;
    // The next in order is the least of those above.
    let next = draws[below + 1]!;
    for (let i = below + 2; i < n; i++) if (draws[i]! < next) next = draws[i]!;
    return between(low, next, place - below);
  });
}

/** Puts the k-th smallest of `a` from `low` on at place k, the smaller before it (Hoare 1961, Commun. ACM 4:321). */
function select(a: Float64Array, k: number, low: number): void {
  let high = a.length - 1;
  while (high > low) {
    const pivot = a[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (a[i]! < pivot) i++;
      while (a[j]! > pivot) j--;
      if (i > j) break;
      const swap = a[i]!;
      a[i++] = a[j]!;
      a[j--] = swap;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else return;
  }
}
