/**
 * The level above which a gridded density holds a given mass. Sorting every value would cost more than making them.
 * A sparse sample of the values tells about where the level is; one pass over all then proves it: what lies above that
 * neighbourhood is summed, what lies in it is listed and sorted. Where the neighbourhood missed, it is narrowed down by
 * counting into bands instead, which always ends.
 */

const BANDS = 128;
const bandMass = new Float64Array(BANDS);
const bandCount = new Int32Array(BANDS);
/** Values that one insertion sort may have to order. */
const FEW = 96;
const few = new Float64Array(FEW);
/** One value in so many is sampled, and bands so far from the sampled level are still its neighbourhood. */
const STRIDE = 5;
const NEIGHBOURS = 2;

/**
 * The largest level such that values ≥ level in density[from … to − 1] sum to at least `target`; 0 where even all of
 * them do not. Values are ≥ 0.
 */
export function highestDensityLevel(density: Float64Array, from: number, to: number, target: number): number {
  const level = sampledLevel(density, from, to, target);
  return level > 0 ? level : bandedLevel(density, from, to, target);
}

/** The level if it lies where the sample says, else 0. */
function sampledLevel(density: Float64Array, from: number, to: number, target: number): number {
  if (to - from < 10 * STRIDE) return 0;
  const start = from + (STRIDE >> 1);
  let peak = 0;
  for (let i = start; i < to; i += STRIDE) peak = Math.max(peak, density[i]!);
  // Values between samples may be higher: the top band holds them.
  const scale = BANDS / peak;
  if (!(scale < Infinity)) return 0;
  bandMass.fill(0);
  for (let i = start; i < to; i += STRIDE) {
    const d = density[i]!;
    bandMass[Math.min(BANDS - 1, (d * scale) | 0)]! += d;
  }
  let band = BANDS;
  let mass = 0;
  while (band > 0 && mass * STRIDE < target) mass += bandMass[--band]!;
  const low = (band - NEIGHBOURS) / scale;
  const high = band + NEIGHBOURS >= BANDS - 1 ? Infinity : (band + 1 + NEIGHBOURS) / scale;
  let inside = 0;
  let n = 0;
  for (let i = from; i < to; i++) {
    const d = density[i]!;
    if (d >= high) inside += d;
    else if (d >= low) {
      if (n === FEW) return 0;
      few[n++] = d;
    }
  }
  return inside < target ? levelAmong(n, inside, target) : 0;
}

/** Sorts few[0 … n − 1] downwards and gives the value that brings `inside` to the target; 0 where none does. */
function levelAmong(n: number, inside: number, target: number): number {
  for (let i = 1; i < n; i++) {
    const value = few[i]!;
    let k = i;
    while (k > 0 && few[k - 1]! < value) {
      few[k] = few[k - 1]!;
      k--;
    }
    few[k] = value;
  }
  let sum = inside;
  for (let k = 0; k < n; k++) {
    sum += few[k]!;
    if (sum >= target) return few[k]!;
  }
  return 0;
}

function bandedLevel(density: Float64Array, from: number, to: number, target: number): number {
  let peak = 0;
  for (let i = from; i < to; i++) peak = Math.max(peak, density[i]!);
  // Values in [low, high) are undecided; those from `high` on are inside and hold `inside`.
  let low = 0;
  let high = peak * (1 + 1e-12);
  let inside = 0;
  for (;;) {
    const scale = BANDS / (high - low);
    bandMass.fill(0);
    bandCount.fill(0);
    for (let i = from; i < to; i++) {
      const d = density[i]!;
      if (d >= low && d < high) {
        const band = Math.min(BANDS - 1, ((d - low) * scale) | 0);
        bandMass[band]! += d;
        bandCount[band]! += 1;
      }
    }
    let band = BANDS - 1;
    while (band >= 0 && inside + bandMass[band]! < target) inside += bandMass[band--]!;
    if (band < 0) return 0;
    if (bandCount[band]! <= FEW) {
      // The same expression decides what is in the band as decided the count.
      let n = 0;
      for (let i = from; i < to; i++) {
        const d = density[i]!;
        if (d >= low && d < high && Math.min(BANDS - 1, ((d - low) * scale) | 0) === band) few[n++] = d;
      }
      return levelAmong(n, inside, target) || few[n - 1]!;
    }
    const bandLow = low + band / scale;
    const bandHigh = low + (band + 1) / scale;
    if (!(bandHigh - bandLow > 1e-13 * bandHigh)) return bandLow; // one value many times over
    low = bandLow;
    high = bandHigh;
    inside = massFrom(density, from, to, high);
  }
}

function massFrom(density: Float64Array, from: number, to: number, level: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) if (density[i]! >= level) sum += density[i]!;
  return sum;
}
