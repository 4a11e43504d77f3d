/**
 * What the soundings still to come say, roughly, of the layers at the end of a spell: it steers the filter and is divided
 * out of its weights again. The logit of what entered in a spell is taken as a reading, with a normal error, of the mean
 * of its layers; then all is linear and normal, and runs upwards in one pass for every world. Layers are of sd 1 here; a
 * contrast multiplies them.
 */
import { exp, log, square } from '@stillstand/science/base';
import type { Ways } from './by-passing.ts';
import type { Ground, Spell } from './cells.ts';
import type { ReadingErrors } from './errors.ts';
import { gainsOf, LEAST, NONE, type Read, readingOf, readOver } from './reading.ts';
import { meet, type Steered, steer } from './steering.ts';
import { LEVELS, MEANS, WORLDS, type Worlds } from './worlds.ts';

/** A spell as the filter draws it. */
export interface Course {
  spell: Spell;
  /** By level. */
  by: Steered[];
  /** By world: what lies ahead says e^(−weight·g²/2 + pull·g) of the last layer, g. */
  pull: Float64Array;
  /** By world: the mean of the layers as read, and how much better by-passing explains the reading, logarithm. */
  found: Float64Array;
  bonus: Float64Array;
  /** By level: how much better it is read if by-passed ground reaches down to it. */
  onto: Float64Array;
}

export interface LookAhead {
  /** One for each spell, in order. */
  courses: Course[];
  /** Probability of the worlds after the soundings, roughly; cumulative. */
  cumulative: Float64Array;
}

export function lookAhead(
  ground: Ground,
  errors: ReadingErrors,
  worlds: Worlds,
  ways: readonly (Ways | null)[],
): LookAhead {
  const cells = ground.edges.length - 1;
  const { levels } = worlds;
  const courses: Course[] = [];
  const weight = new Float64Array(LEVELS);
  let pull = new Float64Array(WORLDS);
  const likelihood = Float64Array.from({ length: WORLDS }, (_, w) =>
    log(Math.max(LEAST, levels[w % LEVELS]!.probability)),
  );
  const mean = new Float64Array(MEANS);
  let number = ways.length;
  for (let j = ground.stands.length - 1; j >= 0; j--) {
    const { spell, from, to } = ground.stands[j]!;
    if (spell === null) continue;
    const passing = ways[--number]!;
    const read = to > from ? readingOf(ground, errors, spell, from) : null;
    const gains = read === null || passing === null ? NONE : gainsOf(read, passing, spell);
    for (let m = 0; m < MEANS; m++) {
      let sum = 0;
      const base = m * cells + spell.first;
      for (let k = 0; k < spell.cells; k++) sum += worlds.logit[base + k]!;
      mean[m] = sum / spell.cells;
    }
    const found = new Float64Array(WORLDS);
    const bonus = new Float64Array(WORLDS);
    const next = new Float64Array(WORLDS);
    const onto = new Float64Array(LEVELS).fill(1);
    const by = levels.map(({ layer_sd, by_passing }, l) => {
      const drawn = steer(spell, weight[l]!);
      const [steered, { weight: upwards, share, flat, curved, gained, logit, spread }] = meet(
        spell,
        drawn,
        weight[l]!,
        layer_sd,
        read,
      );
      weight[l] = upwards;
      const { mean_ahead, variance } = steered;
      let passed: Read | null = null;
      if (read !== null) {
        let low = Number.POSITIVE_INFINITY;
        let high = Number.NEGATIVE_INFINITY;
        for (let m = 0; m < MEANS; m++) {
          const expected = mean[m]! + layer_sd * mean_ahead * pull[m * LEVELS + l]!;
          low = Math.min(low, expected);
          high = Math.max(high, expected);
        }
        passed = readOver(read, by_passing ? gains : NONE, steered, layer_sd, low, high);
      }
      let weighed = 0;
      let better = 0;
      for (let m = 0; m < MEANS; m++) {
        const w = m * LEVELS + l;
        const p = pull[w]!;
        let sum = flat + curved * square(p);
        next[w] = share * p;
        if (read !== null) {
          found[w] = (logit - mean[m]!) / layer_sd;
          let off = found[w]! - mean_ahead * p;
          if (passed !== null) {
            // with by-passing the reading says less of the layers: it draws them so much less from where they are expected
            const at = ((mean[m]! + layer_sd * mean_ahead * p - passed.low) / passed.step) * 0.999999;
            const i = Math.floor(at);
            const t = at - i;
            const density = passed.density[i]! * (1 - t) + passed.density[i + 1]! * t;
            off *= passed.kept[i]! * (1 - t) + passed.kept[i + 1]! * t;
            found[w] = mean_ahead * p + off;
            bonus[w] = density + spread + (0.5 * off * off) / variance;
            sum += bonus[w]!;
            const chance = passed.chance[i]! * (1 - t) + passed.chance[i + 1]! * t;
            weighed += chance;
            better += chance * (passed.onto[i]! * (1 - t) + passed.onto[i + 1]! * t);
          }
          next[w] = next[w]! + gained * off;
          sum -= (0.5 * off * off) / variance;
        }
        likelihood[w] = likelihood[w]! + sum;
      }
      if (weighed > 0 && by_passing) onto[l] = Math.max(0.01, Math.min(100, better / weighed));
      return steered;
    });
    courses.push({ spell, by, pull, found, bonus, onto });
    pull = next;
  }
  const most = likelihood.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const cumulative = new Float64Array(WORLDS);
  let sum = 0;
  for (let w = 0; w < WORLDS; w++) {
    const over = likelihood[w]! - most;
    if (over > -40) sum += exp(over);
    cumulative[w] = sum;
  }
  for (let w = 0; w < WORLDS; w++) cumulative[w] = cumulative[w]! / sum;
  return { courses: courses.reverse(), cumulative };
}
