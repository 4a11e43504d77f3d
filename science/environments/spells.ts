/** What stood at a hole, one spell after another from the youngest down, each with its probability against age. */
import { median } from '@stillstand/science/base';
import { type AgedColumn, type AgedLayer, baseOf, drawsOf, thatTookTime, topOf } from './column.ts';

export interface Spell {
  /**
   * `environment`: layers of one environment, one upon the other. Where no layer is of a time: `since`, after the
   * uppermost layer; `missing`, between two layers that meet, because what was laid down was removed, or nothing was;
   * `unseen`, between two layers with a gap in the core; `before`, older than the lowest layer.
   */
  kind: 'environment' | 'since' | 'missing' | 'unseen' | 'before';
  environment: string | null;
  /** Layers it is made from, from the top down; none where no layer is of the time. */
  layers: readonly string[];
  /** Draw by draw, cal BP; −∞ and ∞ where it has no end. */
  ended_cal_bp: Float64Array;
  began_cal_bp: Float64Array;
  /** Of each age asked for; those of one age add to one. */
  probability: Float64Array;
}

/** A gap of less time in every draw is none, yr. */
const NO_TIME_YR = 0.5;

/** None for a hole of beds alone that were laid down at once. */
export function spells(column: AgedColumn, ages_cal_bp: readonly number[]): Spell[] {
  const draws = drawsOf(column);
  const layers = thatTookTime(column);
  if (layers.length === 0) return [];
  const always = (value: number) => new Float64Array(draws).fill(value);
  const spell = (
    kind: Spell['kind'],
    of: readonly AgedLayer[],
    ended_cal_bp: Float64Array,
    began_cal_bp: Float64Array,
  ): Spell => ({
    kind,
    environment: of[0]?.environment ?? null,
    layers: of.map(({ id }) => id),
    ended_cal_bp,
    began_cal_bp,
    probability: Float64Array.from(ages_cal_bp, (age) => share(ended_cal_bp, began_cal_bp, age)),
  });
  const made = [spell('since', [], always(-Infinity), topOf(layers[0]!))];
  for (const [n, run] of runsOf(layers).entries()) {
    const [top, base] = [topOf(run[0]!), baseOf(run.at(-1)!)];
    const above = made.at(-1)!.began_cal_bp;
    if (n > 0 && isGap(above, top))
      made.push(spell(isSeen(column, run[0]!) ? 'missing' : 'unseen', [], above, top));
    made.push(spell('environment', run, n > 0 && !isGap(above, top) ? above : top, base));
  }
  made.push(spell('before', [], made.at(-1)!.began_cal_bp, always(Infinity)));
  return made;
}

/** Neighbours of one environment without time between them. What is not said of one is not said of the next either. */
function runsOf(layers: readonly AgedLayer[]): AgedLayer[][] {
  const runs: AgedLayer[][] = [];
  for (const layer of layers) {
    const above = runs.at(-1)?.at(-1);
    const goesOn =
      above !== undefined && above.environment === layer.environment && !isGap(baseOf(above), topOf(layer));
    if (goesOn) runs.at(-1)!.push(layer);
    else runs.push([layer]);
  }
  return runs;
}

/** A gap in the core of less is none, m. */
const NO_CORE_M = 0.005;

/** Whether the core has everything between this layer and the next above that took time. */
function isSeen({ layers }: AgedColumn, below: AgedLayer): boolean {
  let gap_m = 0;
  for (let i = layers.indexOf(below); i > 0; i--) {
    const [top, base] = [layers[i]!.levels[0]!.depth_m, layers[i - 1]!.levels.at(-1)!.depth_m];
    gap_m += median(top.map((depth, k) => depth - base[k]!));
    if (!layers[i - 1]!.isAtOnce) break;
  }
  return gap_m < NO_CORE_M;
}

const isGap = (above: Float64Array, below: Float64Array): boolean =>
  above.some((age, k) => below[k]! - age > NO_TIME_YR);

function share(ended: Float64Array, began: Float64Array, age: number): number {
  let count = 0;
  for (let k = 0; k < ended.length; k++) if (ended[k]! <= age && age < began[k]!) count += 1;
  return count / ended.length;
}
