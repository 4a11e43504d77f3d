/**
 * Histories apart from each other that the dates leave possible, such as where a few contradict each other and either may be
 * right. Draws are parted by the age of the one dated horizon that parts them best (Otsu 1979, IEEE Trans. Syst. Man Cybern.
 * 9:62–66), where few draws lie between the two parts.
 */
import { mcseMean, mean, quantiles, square } from '@stillstand/science/base';
import type { Draws } from './draws.ts';
import type { Hole } from './hole.ts';
import type { Mode } from './result.ts';

/** Share of the draws that the smaller part has at least. */
const LEAST = 0.1;
/** Between the parts lies at least this much of the variance (normal ages: 0.64, even ones: 0.75). */
const APART = 0.8;
/** Of the way from the middle of one part to the middle of the other, the emptiest tenth holds at most this much of what it would, were they even. */
const EMPTY = 0.35;
const TENTHS = 10;
/** Ages of the two parts differ where their means lie so many of the sds within them apart. */
const FAR = 2;

interface Parting {
  horizon: number;
  /** Ages up to here are of the younger part. */
  at_cal_bp: number;
  apart: number;
}

/** Draws of all chains, one chain after the other, in two parts. */
interface Parted {
  /** 1 for a draw of the younger part. */
  isYounger: Float64Array;
  /** The dates of the younger part, and of the older one. */
  both: readonly [Mode['clocks'], Mode['clocks']];
}

type Pool = (pick: (d: Draws) => Float64Array) => Float64Array;

const poolOf =
  (draws: readonly Draws[], kept: number): Pool =>
  (pick) => {
    const all = new Float64Array(draws.length * kept);
    draws.forEach((d, c) => {
      all.set(pick(d).subarray(0, kept), c * kept);
    });
    return all;
  };

const partOf = (column: Float64Array, isYounger: Float64Array, part: number): Float64Array =>
  column.filter((_, k) => isYounger[k] === part);

/** Null where the draws are of one history. */
function parted(hole: Hole, pool: Pool): Parted | null {
  const ages = hole.horizons.map((_, i) => pool((d) => d.horizon_cal_bp[i]!));
  const out = hole.horizons.map((_, i) => pool((d) => d.outOfPlace[i]!));
  const partings = ages
    .map(partedBy)
    .filter((p) => p !== null)
    .sort((a, b) => b.apart - a.apart);
  for (const { horizon, at_cal_bp } of partings) {
    const isYounger = ages[horizon]!.map((age) => (age <= at_cal_bp ? 1 : 0));
    const clocks = (part: number): Mode['clocks'] =>
      hole.horizons.map(({ id }, i) => ({
        id,
        age_cal_bp: mean(partOf(ages[i]!, isYounger, part)),
        outlier_probability: mean(partOf(out[i]!, isYounger, part)),
      }));
    const both = [clocks(1), clocks(0)] as const;
    const moved = ages.filter((age, i) => {
      const of = (k: number): number => both[isYounger[k] === 1 ? 0 : 1][i]!.age_cal_bp;
      const within = Math.sqrt(mean(age.map((x, k) => square(x - of(k)))));
      return Math.abs(both[0][i]!.age_cal_bp - both[1][i]!.age_cal_bp) > FAR * within;
    });
    // One date alone, read in another part of its calibrated age, is in the band.
    if (datesApart(both).length > 0 || moved.length > 1) return { isYounger, both };
  }
  return null;
}

/** Two, the likelier first; none where the draws are not parted. */
export function modesOf(hole: Hole, draws: readonly Draws[], kept: number): Mode[] {
  const pool = poolOf(draws, kept);
  const parts = parted(hole, pool);
  if (parts === null) return [];
  const { isYounger, both } = parts;
  const modes = [1, 0].map((part, m): Mode => {
    const bands = Array.from(hole.grid.depth_m, (_, j) =>
      quantiles(
        partOf(
          pool((d) => d.age_cal_bp[j]!),
          isYounger,
          part,
        ),
        [0.025, 0.5, 0.975],
      ),
    );
    return {
      probability: mean(isYounger.map((p) => (p === part ? 1 : 0))),
      age_cal_bp: {
        median: Float64Array.from(bands, (q) => q[1]!),
        lower95: Float64Array.from(bands, (q) => q[0]!),
        upper95: Float64Array.from(bands, (q) => q[2]!),
      },
      clocks: both[m]!,
    };
  });
  return modes.sort((a, b) => b.probability - a.probability);
}

/** Promised of the probability of a history, and a third of it: three Monte-Carlo errors are within. */
const WITHIN = 0.05;
const ERROR = WITHIN / 3;

/** Names the probability of two histories where it is not known well enough; null where it is, or there is one history. */
export function unsettledHistories(hole: Hole, draws: readonly Draws[], kept: number): string | null {
  const parts = parted(hole, poolOf(draws, kept));
  if (parts === null) return null;
  const chains = draws.map((_, c) => parts.isYounger.subarray(c * kept, (c + 1) * kept));
  return mcseMean(chains) <= ERROR ? null : 'probability of two histories';
}

/** Where the ages of a horizon part best; null where they are of one piece. */
function partedBy(ages: Float64Array, horizon: number): Parting | null {
  const sorted = ages.toSorted();
  const n = sorted.length;
  let sum = 0;
  let squares = 0;
  const centre = mean(sorted);
  for (const x of sorted) squares += (x - centre) * (x - centre);
  let best = 0;
  let at = -1;
  for (let k = 0; k < n - 1; k++) {
    sum += sorted[k]! - centre;
    const share = (k + 1) / n;
    if (share < LEAST || share > 1 - LEAST) continue;
    // w₀w₁(m₁ − m₀)², with the sums about the mean of all.
    const between = (sum * sum) / (n * (k + 1) * (1 - share));
    if (between > best) {
      best = between;
      at = k;
    }
  }
  const apart = (best * n) / squares;
  if (at < 0 || !(apart >= APART)) return null;
  const low = sorted[(at + 1) >> 1]!;
  const high = sorted[(at + 1 + n) >> 1]!;
  const tenths = new Float64Array(TENTHS);
  for (const x of sorted) {
    if (!(x >= low && x < high)) continue;
    const k = Math.floor((TENTHS * (x - low)) / (high - low));
    tenths[Math.min(TENTHS - 1, k)]!++;
  }
  let least = Infinity;
  let emptiest = 0;
  for (let k = 0; k < TENTHS; k++) {
    if (tenths[k]! >= least) continue;
    least = tenths[k]!;
    emptiest = k;
  }
  if (least > (EMPTY * n) / 2 / TENTHS) return null;
  return { horizon, at_cal_bp: low + ((emptiest + 0.5) / TENTHS) * (high - low), apart };
}

/** The dates that part two histories: out of place in the one, in place in the other. */
export function datesApart([one, other]: readonly Mode['clocks'][]): string[] {
  if (one === undefined || other === undefined) return [];
  return one
    .filter((clock, i) => Math.abs(clock.outlier_probability - other[i]!.outlier_probability) > 0.5)
    .map(({ id }) => id);
}
