/**
 * A history parted, by the bends of the whole hole (`bending.ts`), in the times of the blocks between its dated horizons and a
 * rest, μ in it, which know nothing of each other before any date is read: of all bends for a time, the least costly one.
 */
import { square } from '@stillstand/science/base';
import { bendBetween, logVolume, makeBends } from './bending.ts';
import type { History } from './history.ts';
import type { Hole } from './hole.ts';
import { priorMean } from './law.ts';
import { roughBy } from './rough.ts';
import { type Bends, bendsOf, type Run } from './run.ts';
import { blocksOf } from './run-bent.ts';

/** Equations for more horizons take too long. */
const MOST = 16;

/** Room to work in. */
export interface Recasting {
  /** That of a run of all horizons. */
  whole: Bends;
  /** By block whose time is asked: its metres; c of the bend that costs least; c of times by lot. */
  metres: Float64Array;
  least: Float64Array;
  lot: Float64Array;
}

/** Null where there are too many horizons, or a profile, which says too much of the ages for another law to be met by chance. */
export function recastingOf(hole: Hole): Recasting | null {
  const { length: n } = hole.dates;
  if (n > MOST || hole.profiles.length > 0) return null;
  const of = (): Float64Array => new Float64Array(n + 1);
  return { whole: bendsOf(hole, n), metres: of(), least: of(), lot: of() };
}

/** Bends of the blocks of a run of all horizons, and rough densities by them; log |∂T/∂c| as the history is, NaN where there is none. */
export function partHistory(h: History, { whole, metres, least }: Recasting, all: Run): number {
  const { hole, u } = h;
  const { bending, rough } = whole;
  const { sections, settings } = hole;
  const { w, b, along } = bending;
  const mean = priorMean(settings);
  const spread = square(settings.accumulation_log_sd);
  bendBetween(h, bending, 0, sections);
  blocksOf(h, whole, all);
  makeBends(bending, sections);
  for (let k = 0; k < bending.blocks; k++) {
    let sum = 0;
    let slope = 0;
    for (let j = 0; j < sections; j++) {
      sum += w[k * sections + j]!;
      slope += w[k * sections + j]! * (u[j]! - mean);
    }
    metres[k] = sum;
    along[k] = slope;
    // μ goes along, and all sections with it.
    for (let j = 0; j < sections; j++) b[k * sections + j] = b[k * sections + j]! + spread * sum;
  }
  const volume = logVolume(h, bending);
  if (!(volume > -Infinity && roughBy(h, bending, rough))) return Number.NaN;
  least.set(bending.c.subarray(0, bending.blocks));
  return volume;
}

/** μ where the history is bent by c. */
export function meanBent(
  mean: number,
  { settings }: Hole,
  { whole, metres }: Recasting,
  c: Float64Array,
): number {
  const spread = square(settings.accumulation_log_sd);
  let sum = mean;
  for (let k = 0; k < whole.bending.blocks; k++) sum += c[k]! * spread * metres[k]!;
  return sum;
}
