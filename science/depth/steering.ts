/** One spell at one level as the filter draws it: how layers follow each other where it is known what lies ahead. */
import { log, square } from '@stillstand/science/base';
import { ROUGH } from './by-passing.ts';
import type { Spell } from './cells.ts';
import type { Reading } from './reading.ts';

export interface Steered {
  /** Layer k = before[k]·(layer k − 1) + ahead[k]·pull + sd[k]·noise. */
  before: Float64Array;
  ahead: Float64Array;
  sd: Float64Array;
  weight: number;
  /** Precision of all layers of the spell moved together. */
  precision: number;
  /** The mean of the layers as expected: above·mean_above + pull·mean_ahead, of itself and as read ± √variance. */
  mean_above: number;
  mean_ahead: number;
  own_variance: number;
  variance: number;
  /** What layers within the spell flatten the logistic of their mean by. */
  flatten: number;
  /** What the weight of a draw lacks of this level, logarithm. */
  constant: number;
}

/** One spell at one level, from what lies ahead of it to what lies ahead of the spell above, without its reading. */
export function steer(spell: Spell, weightAtEnd: number) {
  const n = spell.cells;
  const before = new Float64Array(n);
  const ahead = new Float64Array(n);
  const sd = new Float64Array(n);
  // what lies ahead carried up the cells: weight, share of the pull, and its log density for a pull of 0 and of 1
  let weight = weightAtEnd;
  let share = 1;
  let flat = 0;
  let curved = 0;
  for (let k = n - 1; k >= 0; k--) {
    const follow = k === 0 ? spell.enter : spell.follow;
    const variance = k === 0 ? spell.enter_variance : spell.follow_variance;
    const held = 1 / (1 + variance * weight);
    before[k] = follow * held;
    ahead[k] = variance * held * share;
    sd[k] = Math.sqrt(variance * held);
    flat += 0.5 * log(held);
    curved += 0.5 * variance * held * share * share;
    weight *= follow * follow * held;
    share *= follow * held;
  }
  // mean of the layers: how it hangs on the cell above and on the pull, and its variance
  let mean_above = 0;
  let mean_ahead = 0;
  let above = 1;
  let pulled = 0;
  let own = 0;
  let shared = 0;
  let own_variance = 0;
  for (let k = 0; k < n; k++) {
    const a = before[k]!;
    above *= a;
    pulled = a * pulled + ahead[k]!;
    mean_above += above / n;
    mean_ahead += pulled / n;
    shared = a * (shared + own);
    own = a * a * own + square(sd[k]!);
    own_variance += (own + 2 * shared) / (n * n);
  }
  return { before, ahead, sd, weight, share, flat, curved, mean_above, mean_ahead, own_variance };
}

/** What layers within a spell flatten the logistic of their mean by (MacKay 1992, Neural Comput. 4:720–736). */
function flattening(spell: Spell, own_variance: number, layer_sd: number): number {
  const within = Math.max(0, spell.variance - own_variance) * square(layer_sd);
  return Math.sqrt(1 + (Math.PI / 8) * within);
}

/** The same with its reading. */
export function meet(
  spell: Spell,
  { weight: before_weight, share, flat: before_flat, curved, ...drawn }: ReturnType<typeof steer>,
  weightAtEnd: number,
  layer_sd: number,
  read: Reading | null,
) {
  let weight = before_weight;
  let flat = before_flat;
  let logit = 0;
  let variance = 1;
  let gained = 0;
  let spread = 0;
  let constant = 0;
  const flatten = flattening(spell, drawn.own_variance, layer_sd);
  const slips = ((spell.cells - 1) * square(1 - spell.follow)) / spell.follow_variance;
  const precision = 1 / spell.enter_variance + slips + weightAtEnd;
  if (read !== null) {
    const { recovery, sigma } = read;
    logit = flatten * log(recovery / (1 - recovery));
    const error = (flatten * sigma) / (recovery * (1 - recovery));
    variance = drawn.own_variance + (error * error + ROUGH) / square(layer_sd);
    gained = drawn.mean_above / variance;
    weight += drawn.mean_above * gained;
    // the density of the logit, less what the flattening stretches it by
    spread = 0.5 * log((variance * square(layer_sd)) / square(flatten));
    flat -= spread;
    constant = spread + 0.5 * log(precision);
  }
  const steered: Steered = { ...drawn, weight: weightAtEnd, precision, variance, flatten, constant };
  return [steered, { weight, share, flat, curved, gained, spread, logit }] as const;
}
