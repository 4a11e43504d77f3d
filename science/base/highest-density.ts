/**
 * The level above which a gridded density holds a given mass. Sorting every value would cost more than making them:
 * values are counted into bands instead, and only the band the level falls in is looked into again.
 */

const BANDS = 128;
const bandMass = new Float64Array(BANDS);
const bandCount = new Int32Array(BANDS);
const FEW = 24;
const few = new Float64Array(FEW);

/**
 * The largest level such that values ≥ level in density[from … to − 1] sum to at least `target`; 0 where even all of
 * them do not. Values are ≥ 0 and `peak` is their largest.
 */
export function highestDensityLevel(
  density: Float64Array,
  from: number,
  to: number,
  peak: number,
  target: number,
): number {
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
        let band = ((d - low) * scale) | 0;
        if (band >= BANDS) band = BANDS - 1;
        bandMass[band]! += d;
        bandCount[band]! += 1;
      }
    }
    let band = BANDS - 1;
    while (band >= 0 && inside + bandMass[band]! < target) {
      inside += bandMass[band]!;
      band--;
    }
    if (band < 0) return 0;
    // The same expression decides what is in the band as decided the count.
    const count = bandCount[band]!;
    const bandLow = low + band / scale;
    const bandHigh = low + (band + 1) / scale;
    if (count <= FEW) {
      let n = 0;
      for (let i = from; i < to; i++) {
        const d = density[i]!;
        if (d >= low && d < high) {
          let place = ((d - low) * scale) | 0;
          if (place >= BANDS) place = BANDS - 1;
          if (place === band) n = insertDescending(few, n, d);
        }
      }
      let level = 0;
      for (let k = 0; k < n; k++) {
        level = few[k]!;
        inside += level;
        if (inside >= target) break;
      }
      return level;
    }
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

function insertDescending(list: Float64Array, n: number, value: number): number {
  let k = n;
  while (k > 0 && list[k - 1]! < value) {
    list[k] = list[k - 1]!;
    k--;
  }
  list[k] = value;
  return n + 1;
}
