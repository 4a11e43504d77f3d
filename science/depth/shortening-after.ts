/**
 * The worlds after the soundings. Few different ones may be left among the draws; but given the layers of a draw the
 * probability of every world is known, and its mean over draws is smoother than a count of theirs (Rao–Blackwell; Casella
 * & Robert 1996, Biometrika 83:81–94).
 */
import { exp, log, square } from '@stillstand/science/base';
import type { Ground } from './cells.ts';
import type { Filtered } from './filter.ts';
import type { LookAhead } from './look-ahead.ts';
import type { Shortening, Value } from './model.ts';
import { LEVELS, MEANS, type Worlds } from './worlds.ts';

/** Draws asked, evenly among all. */
const ASKED = 30;
/** A mean so many times less probable than the most probable one, as the look-ahead has it, is not asked about. */
const ODDS = 300;

export function shorteningAfter(
  ground: Ground,
  worlds: Worlds,
  { cumulative }: LookAhead,
  { logit, world }: Filtered,
  draws: number,
): Omit<Shortening, 'by_passed_m'> {
  const cells = ground.edges.length - 1;
  const asked = Math.min(ASKED, draws);
  const alive = aliveOf(cumulative);
  const { levels } = worlds;
  // layers = logit − mean have precision Q/sd²: (logit − mean)ᵀQ(logit − mean), Q that of layers of sd 1
  const weighed = new Float64Array(alive.length * cells);
  const own = new Float64Array(alive.length);
  for (let a = 0; a < alive.length; a++) {
    const m = alive[a]!;
    const product = weighed.subarray(a * cells, (a + 1) * cells);
    weigh(ground, worlds.logit.subarray(m * cells, (m + 1) * cells), product);
    for (let k = 0; k < cells; k++) own[a] = own[a]! + worlds.logit[m * cells + k]! * product[k]!;
  }
  const precision = Float64Array.from(levels, ({ layer_sd }) => 1 / square(layer_sd));
  const wide = Float64Array.from(levels, ({ layer_sd }) => -cells * log(layer_sd));
  const x = new Float64Array(cells);
  const product = new Float64Array(cells);
  const density = new Float64Array(alive.length * LEVELS);
  const ofMean = new Float64Array(alive.length);
  const ofLevel = new Float64Array(LEVELS);
  for (let turn = 0; turn < asked; turn++) {
    const draw = Math.floor((turn * draws) / asked);
    for (let k = 0; k < cells; k++) x[k] = logit[draw * cells + k]!;
    weigh(ground, x, product);
    let square_x = 0;
    for (let k = 0; k < cells; k++) square_x += x[k]! * product[k]!;
    // whether ground is by-passed stays as it is in the draw
    const first = (world[draw]! % LEVELS) & 1;
    let most = Number.NEGATIVE_INFINITY;
    for (let a = 0; a < alive.length; a++) {
      let cross = 0;
      for (let k = 0; k < cells; k++) cross += x[k]! * weighed[a * cells + k]!;
      for (let l = first; l < LEVELS; l += 2) {
        const d = (cross - 0.5 * (square_x + own[a]!)) * precision[l]! + wide[l]!;
        density[a * LEVELS + l] = d;
        if (d > most) most = d;
      }
    }
    let total = 0;
    for (let a = 0; a < alive.length; a++) {
      for (let l = first; l < LEVELS; l += 2) {
        const over = density[a * LEVELS + l]! - most;
        const chance = over > -14 ? exp(over) : 0;
        density[a * LEVELS + l] = chance;
        total += chance;
      }
    }
    for (let a = 0; a < alive.length; a++) {
      for (let l = first; l < LEVELS; l += 2) {
        const chance = density[a * LEVELS + l]! / (total * asked);
        ofMean[a] = ofMean[a]! + chance;
        ofLevel[l] = ofLevel[l]! + chance;
      }
    }
  }
  const of = (values: Float64Array): Value =>
    summary(
      Float64Array.from(alive, (m) => values[m]!),
      ofMean,
    );
  let friction = 0;
  for (let a = 0; a < alive.length; a++) if (worlds.friction[alive[a]!]! > 0) friction += ofMean[a]!;
  return {
    recovery_at_ground: of(worlds.recovery),
    length_m: of(worlds.length),
    recovery_at_depth: of(worlds.deep),
    layer_sd: summary(
      Float64Array.from(levels, ({ layer_sd }) => layer_sd),
      ofLevel,
    ),
    friction: { probability: friction, per_m: of(worlds.friction) },
  };
}

/** Means that any level makes probable. */
function aliveOf(cumulative: Float64Array): Int32Array {
  const share = (m: number): number =>
    cumulative[(m + 1) * LEVELS - 1]! - (m === 0 ? 0 : cumulative[m * LEVELS - 1]!);
  let most = 0;
  for (let m = 0; m < MEANS; m++) most = Math.max(most, share(m));
  const alive: number[] = [];
  for (let m = 0; m < MEANS; m++) if (share(m) * ODDS > most) alive.push(m);
  return Int32Array.from(alive);
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
function summary(values: Float64Array, probability: Float64Array): Value {
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
