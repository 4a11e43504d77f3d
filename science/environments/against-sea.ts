/** Whether the ground kept up with the sea while an environment stood. */
import type { AgedColumn, AgedLayer } from './column.ts';
import type { Spell } from './spells.ts';

/** Joint draws of a sea-level curve. */
export interface SeaDraws {
  /** Rising, two or more. */
  ages_cal_bp: Float64Array;
  /** [draw × ages], m. */
  level_m: Float64Array;
}

/** Draw by draw; not a number where the curve does not reach, or the spell took no time. */
export interface AgainstSea {
  /** Height of the surface above mean sea level as the spell began and ended, m, as its layers lie now. */
  began_m: Float64Array;
  ended_m: Float64Array;
  /** Mean over the spell, mm/yr. */
  accretion_mm_yr: Float64Array;
  rise_mm_yr: Float64Array;
}

/**
 * Ages and curve are two computations, and draws of one go with any draws of the other: what errors they share is not
 * taken off, so that bands are rather too wide than too narrow.
 */
export function againstSea(
  column: AgedColumn,
  { layers, ended_cal_bp, began_cal_bp }: Spell,
  sea: SeaDraws,
): AgainstSea {
  const of = (id: string): AgedLayer => column.layers.find((layer) => layer.id === id)!;
  const top = of(layers[0]!).levels[0]!.depth_m;
  const base = of(layers.at(-1)!).levels.at(-1)!.depth_m;
  const draws = column.ground_m.length;
  const made: AgainstSea = {
    began_m: new Float64Array(draws),
    ended_m: new Float64Array(draws),
    accretion_mm_yr: new Float64Array(draws),
    rise_mm_yr: new Float64Array(draws),
  };
  for (let k = 0; k < draws; k++) {
    const [before, after] = [
      levelAt(sea, k, draws, began_cal_bp[k]!),
      levelAt(sea, k, draws, ended_cal_bp[k]!),
    ];
    const years = began_cal_bp[k]! - ended_cal_bp[k]!;
    made.began_m[k] = column.ground_m[k]! - base[k]! - before;
    made.ended_m[k] = column.ground_m[k]! - top[k]! - after;
    const perYear = years > 0 ? 1000 / years : Number.NaN;
    made.accretion_mm_yr[k] = (base[k]! - top[k]!) * perYear;
    made.rise_mm_yr[k] = (after - before) * perYear;
  }
  return made;
}

/** A curve may begin at 1950 CE where a hole begins today: so much younger its first level stands for what is not in it, yr. */
const HELD_YR = 100;

/**
 * Of the draw that goes with draw k of `draws`: straight between the ages of the curve, and its youngest level for what is
 * younger by less than a century. Not a number beyond.
 */
export function levelAt(
  { ages_cal_bp, level_m }: SeaDraws,
  k: number,
  draws: number,
  age_cal_bp: number,
): number {
  const n = ages_cal_bp.length;
  const row = Math.floor((k * (level_m.length / n)) / draws);
  const youngest = ages_cal_bp[0]!;
  if (!(age_cal_bp >= youngest - HELD_YR && age_cal_bp <= ages_cal_bp[n - 1]!)) return Number.NaN;
  if (age_cal_bp <= youngest) return level_m[row * n]!;
  let after = 1;
  while (ages_cal_bp[after]! < age_cal_bp) after += 1;
  const [from, to] = [ages_cal_bp[after - 1]!, ages_cal_bp[after]!];
  const part = (age_cal_bp - from) / (to - from);
  const at = (i: number): number => level_m[row * n + i]!;
  return at(after - 1) + part * (at(after) - at(after - 1));
}
