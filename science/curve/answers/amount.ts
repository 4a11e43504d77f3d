/** What draws say of a number, or of whether something happened, with the Monte-Carlo error of both. */
import { mcseMean, mean, quantileSorted, square, standardDeviation } from '@stillstand/science/base';

export interface Amount {
  median: number;
  /** Ends of the central 95 %. */
  lower95: number;
  upper95: number;
  mean: number;
  sd: number;
  /** Monte-Carlo standard error of the mean. */
  mcse: number;
  /** Effective draws it is made from: (sd/mcse)². */
  effective_draws: number;
}

export interface Chance {
  /** Share of the draws. */
  p: number;
  /** Its Monte-Carlo standard error; 0 where all draws agree, which is no certainty: see `effective_draws`. */
  mcse: number;
  effective_draws: number;
}

/** Of fewer effective draws the 2.5 % quantile would be the outermost draw itself: nothing is said. */
export const FEWEST_DRAWS = 40;

/** One number a draw, chain after chain. */
export function amountOf(values: Float64Array, chains: number): Amount {
  return summary(values, values, chains);
}

/**
 * Of those draws alone in which it happened: NaN where it did not. Null where fewer than 40 effective draws show
 * it. The error is that of a ratio of means, by its first-order expansion (Cochran 1977, Sampling Techniques, eq. 6.4;
 * from memory), so that it holds for chains that go in and out of what is asked.
 */
export function amountWhere(values: Float64Array, chains: number): Amount | null {
  const shown = values.filter((x) => !Number.isNaN(x));
  if (shown.length < FEWEST_DRAWS) return null;
  const centre = mean(shown);
  const share = shown.length / values.length;
  const parts = values.map((x) => (Number.isNaN(x) ? 0 : (x - centre) / share));
  const amount = summary(shown, parts, chains);
  return amount.effective_draws < FEWEST_DRAWS ? null : amount;
}

function summary(shown: Float64Array, parts: Float64Array, chains: number): Amount {
  const sorted = Float64Array.from(shown).sort();
  const sd = standardDeviation(shown);
  const mcse = errorOfMean(parts, chains);
  return {
    median: quantileSorted(sorted, 0.5),
    lower95: quantileSorted(sorted, 0.025),
    upper95: quantileSorted(sorted, 0.975),
    mean: mean(shown),
    sd,
    mcse,
    effective_draws: mcse > 0 ? square(sd / mcse) : shown.length,
  };
}

/** Of something that happened in some of the draws: `happened` says in which. */
export function chanceOf(draws: number, chains: number, happened: (draw: number) => boolean): Chance {
  const values = Float64Array.from({ length: draws }, (_, d) => (happened(d) ? 1 : 0));
  const p = mean(values);
  const mcse = errorOfMean(values, chains);
  return { p, mcse, effective_draws: mcse > 0 ? (p * (1 - p)) / square(mcse) : values.length };
}

/** Draws of each chain, one chain after another in `values`. */
function errorOfMean(values: Float64Array, chains: number): number {
  const each = values.length / chains;
  const found = mcseMean(Array.from({ length: chains }, (_, c) => values.subarray(c * each, (c + 1) * each)));
  // Fewer than four draws of a chain: as if each were by itself.
  return Number.isNaN(found) ? standardDeviation(values) / Math.sqrt(values.length) : found;
}
