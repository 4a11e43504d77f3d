/**
 * ρ₀ and ℓ after the soundings. Few different pairs may be left among the draws; but given what entered in each cell the
 * probability of every pair is known, and its mean over draws is smoother than a count of theirs (Rao–Blackwell; Casella
 * & Robert 1996, Biometrika 83:81–94).
 */
import { exp, log, square } from '@stillstand/science/base';
import type { Ground } from './cells.ts';
import type { Filtered } from './filter.ts';
import type { DepthModel } from './model.ts';
import { PAIRS, type Pairs } from './pairs.ts';

/** Draws asked, evenly among all. */
const ASKED = 60;
/** Local recovery of a draw is not taken nearer to 0 or 1 than this: entered lengths are kept to a micrometre. */
const LEAST = 1e-5;

export function shorteningAfter(
  ground: Ground,
  pairs: Pairs,
  { entered }: Filtered,
  draws: number,
): NonNullable<DepthModel['shortening']> {
  const { edges } = ground;
  const cells = edges.length - 1;
  // layers = logit − mean of the pair have precision Q: (logit − mean)ᵀQ(logit − mean) without what no pair changes
  const own = new Float64Array(PAIRS);
  const product = new Float64Array(cells);
  for (let p = 0; p < PAIRS; p++) {
    const mean = pairs.logit.subarray(p * cells, (p + 1) * cells);
    weigh(ground, mean, product);
    for (let k = 0; k < cells; k++) own[p] = own[p]! + 0.5 * mean[k]! * product[k]!;
  }
  const logit = new Float64Array(cells);
  const density = new Float64Array(PAIRS);
  const probability = new Float64Array(PAIRS);
  const asked = Math.min(ASKED, draws);
  for (let a = 0; a < asked; a++) {
    const row = Math.floor((a * draws) / asked) * (cells + 1);
    for (let k = 0; k < cells; k++) {
      const rho = (entered[row + k + 1]! - entered[row + k]!) / (edges[k + 1]! - edges[k]!);
      const within = Math.max(LEAST, Math.min(1 - LEAST, rho));
      logit[k] = log(within / (1 - within));
    }
    weigh(ground, logit, product);
    let most = Number.NEGATIVE_INFINITY;
    for (let p = 0; p < PAIRS; p++) {
      let sum = -own[p]!;
      for (let k = 0; k < cells; k++) sum += pairs.logit[p * cells + k]! * product[k]!;
      density[p] = sum;
      if (sum > most) most = sum;
    }
    let total = 0;
    for (let p = 0; p < PAIRS; p++) {
      density[p] = exp(density[p]! - most);
      total += density[p]!;
    }
    for (let p = 0; p < PAIRS; p++) probability[p] = probability[p]! + density[p]! / (total * asked);
  }
  return {
    recovery_at_ground: summary(pairs.recovery, probability),
    length_m: summary(pairs.length, probability),
  };
}

/** Q·x into `out`, Q the precision of the layers of all cells. */
function weigh(ground: Ground, x: Float64Array, out: Float64Array): void {
  out.fill(0);
  for (const { spell } of ground.stands) {
    if (spell === null) continue;
    for (let k = spell.first; k < spell.first + spell.cells; k++) {
      const first = k === spell.first;
      const follow = first ? spell.enter : spell.follow;
      const before = k === 0 ? 0 : x[k - 1]!;
      const slip = (x[k]! - follow * before) / (first ? spell.enter_variance : spell.follow_variance);
      out[k] = out[k]! + slip;
      if (k > 0) out[k - 1] = out[k - 1]! - follow * slip;
    }
  }
}

/** Of values with probabilities, which are no draws: quantiles straight between the middles of their steps (of even
 * probabilities type 5 of Hyndman & Fan 1996, Am. Stat. 50:361–365). */
function summary(values: Float64Array, probability: Float64Array) {
  let value = 0;
  for (let p = 0; p < values.length; p++) value += probability[p]! * values[p]!;
  let variance = 0;
  for (let p = 0; p < values.length; p++) variance += probability[p]! * square(values[p]! - value);
  const order = Array.from(values.keys()).sort((a, b) => values[a]! - values[b]!);
  const quantile = (share: number): number => {
    let below = 0;
    let last = order[0]!;
    let at = 0;
    for (const p of order) {
      const middle = below + probability[p]! / 2;
      if (middle >= share) {
        const t = middle > at ? (share - at) / (middle - at) : 1;
        return p === last ? values[p]! : values[last]! + t * (values[p]! - values[last]!);
      }
      at = middle;
      below += probability[p]!;
      last = p;
    }
    return values[last]!;
  };
  return { value, sigma: Math.sqrt(variance), lower95: quantile(0.025), upper95: quantile(0.975) };
}
