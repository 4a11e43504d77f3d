/**
 * The law of accumulation, μ, s and L, drawn again with the ages of a run of horizons. Two dates side by side may be out of place
 * where accumulation is even, and in place where it varies much about another mean: then all of these change at once.
 *
 * By the bends of the whole hole (`bending.ts`), μ going along, a history is parted in the times of the blocks between horizons
 * and a rest, which know nothing of each other before any date is read. The rest and times drawn from the prior make what is new
 * in μ and in each section, in sds of its own: normal numbers, whatever s and L are. These are kept while s and L
 * change, and are parted again; so neither is held by the history that it rules. The run's ages are then chosen among so many by
 * their rough density (`rough.ts`), and as many are weighed in the former law (multiple-try Metropolis: Liu, Liang & Wong 2000,
 * J. Am. Stat. Assoc. 95:121–134). The exact density decides.
 */
import { exp, log, logAdd, type RandomStream, square } from '@stillstand/science/base';
import { bendBetween, logVolume, makeBends } from './bending.ts';
import { logProposal, propose } from './candidates.ts';
import { type History, renew, tell } from './history.ts';
import type { Hole } from './hole.ts';
import { logPriorOfLaw, memory, priorMean, rebuild } from './law.ts';
import { costOf, logRoot, logScale, roughBy, solveRoot } from './rough.ts';
import {
  type Bends,
  bendsOf,
  bendToChosen,
  blocksOf,
  logGapHere,
  logGapThere,
  presentAges,
  type Run,
  roughly,
  subRun,
  wholeRun,
} from './run.ts';
import { type Saved, save, takeBack } from './saved.ts';

/** Equations for more horizons take too long. */
const MOST = 16;
/** Ages tried for each horizon of the run, by either law. */
const AMONG = 3;
/** Sds of a step of ln s and of ln L: from where accumulation is nearly even to where it is not. */
const STEP_OF_VARIATION = 0.9;
const STEP_OF_PERSISTENCE = 0.7;

/** Room to work in: that of a run of all horizons. */
export interface Recasting {
  whole: Bends;
  /** By block whose time is asked: its metres; and by how much the times drawn are off in c. */
  metres: Float64Array;
  off: Float64Array;
}

/** Null where there are too many horizons, or a profile, which says too much of the ages for another law to be met by chance. */
export function recastingOf(hole: Hole): Recasting | null {
  const { length: n } = hole.dates;
  if (n > MOST || hole.profiles.length > 0) return null;
  return { whole: bendsOf(hole, n), metres: new Float64Array(n + 1), off: new Float64Array(n + 1) };
}

/** Draws for `count` horizons from place `start` on in the order of depth, and for the law; returns whether they are others. */
export function recast(
  h: History,
  { whole, metres, off }: Recasting,
  room: Bends,
  aside: Saved,
  start: number,
  count: number,
  stream: RandomStream,
): boolean {
  const { hole, law, u } = h;
  const { bending, rough } = whole;
  const { sections, settings, isCut } = hole;
  const { c, b } = bending;
  const all = wholeRun(h, whole, stream);
  presentAges(h, whole, all);
  const run = subRun(whole, all, room, start, count, stream);
  const tries = count * AMONG;
  save(h, aside);
  const back = (): false => {
    takeBack(h, aside);
    return false;
  };

  const here = partBy(h, whole, metres, all);
  if (!(here > -Infinity)) return back();
  room.metres.set(whole.metres.subarray(start, start + count + 1));
  const { blocks } = bending;
  // c of the least costly bend; the candidates know of no other μ than its.
  const least = c.slice(0, blocks);
  const meanHere = law.mean;
  const spread = square(settings.accumulation_log_sd);
  const meanAt = (mean: number, by: Float64Array): number => {
    let sum = mean;
    for (let k = 0; k < blocks; k++) sum += by[k]! * spread * metres[k]!;
    return sum;
  };
  law.mean = meanAt(meanHere, least);
  const value = (): number => {
    whole.age.set(room.age.subarray(0, count), start);
    return roughly(h, whole, all);
  };
  for (let k = 0; k < count; k++) room.age[k] = whole.age[start + k]!;
  const roughHere = value();
  if (!(roughHere > -Infinity)) return back();
  let ofHere = roughHere - logProposal(h, room, run);
  for (let m = 1; m < tries; m++) {
    propose(h, room, run, stream);
    const other = value();
    if (other > -Infinity) ofHere = logAdd(ofHere, other - logProposal(h, room, run));
  }
  const ofLaw =
    logPriorOfLaw(settings, law.log_variation, law.log_persistence) + logScale(rough, bending) + ofHere;
  let gain =
    here -
    logRoot(rough, bending) +
    logScale(rough, bending) +
    costOf(rough, bending, least) +
    roughHere -
    logGapHere(h, all);
  for (const level of h.level) gain -= level;

  // Times by the prior in place of these.
  for (let k = 0; k < blocks; k++) off[k] = stream.normal();
  solveRoot(rough, bending, off);
  for (let k = 0; k < blocks; k++) {
    off[k] = off[k]! + least[k]!;
    for (let j = 0; j < sections; j++) u[j] = u[j]! + off[k]! * b[k * sections + j]!;
  }
  law.mean = meanAt(meanHere, off);
  renew(h, 0, sections);
  law.log_variation += STEP_OF_VARIATION * stream.normal();
  law.log_persistence += STEP_OF_PERSISTENCE * stream.normal();
  h.variation = exp(law.log_variation);
  const old = h.memory;
  h.memory = memory(hole, exp(law.log_persistence), h.spare);
  h.spare = old;
  rebuild(u, isCut, law.mean, h.variation, h.memory, h.fresh);
  tell(h);

  if (!(partBy(h, whole, metres, all) > -Infinity)) return back();
  least.set(c.subarray(0, blocks));
  const meanThere = law.mean;
  law.mean = meanAt(meanThere, least);
  let ofThere = -Infinity;
  let peak = -Infinity;
  let roughThere = -Infinity;
  for (let m = 0; m < tries; m++) {
    propose(h, room, run, stream);
    const noise = -log(stream.exponential());
    const other = value();
    if (!(other > -Infinity)) continue;
    const weight = other - logProposal(h, room, run);
    ofThere = logAdd(ofThere, weight);
    if (!(weight + noise > peak)) continue;
    peak = weight + noise;
    roughThere = other;
    whole.chosen.set(whole.age);
  }
  const first =
    logPriorOfLaw(settings, law.log_variation, law.log_persistence) +
    logScale(rough, bending) +
    ofThere -
    ofLaw;
  if (!(first >= 0 || stream.uniform() < exp(first))) return back();
  const there = bendToChosen(h, whole, all);
  if (!(there > -Infinity)) return back();
  law.mean = meanAt(meanThere, c);
  for (let k = 0; k < blocks; k++) least[k] = c[k]! - least[k]!;
  gain +=
    logRoot(rough, bending) -
    logScale(rough, bending) -
    costOf(rough, bending, least) -
    there -
    roughThere +
    logGapThere(h, whole, all);
  for (let j = 0; j < sections; j++) u[j] = u[j]! + bending.added[j]!;
  h.ground_cal_bp = whole.ground_cal_bp;
  if (all.gap >= 0) h.gap_yr[all.gap] = whole.gap_yr;
  tell(h);
  for (const level of h.level) gain += level;
  if (!(gain >= 0 || stream.uniform() < exp(gain))) return back();
  return true;
}

/**
 * Bends of the blocks with μ going along, and the rough density about the least costly one, whose c it leaves; log |∂T/∂c| of
 * the history as it is, NaN where there is none.
 */
function partBy(h: History, room: Bends, metres: Float64Array, all: Run): number {
  const { hole, u } = h;
  const { bending, rough } = room;
  const { sections, settings } = hole;
  const { w, b, along } = bending;
  const mean = priorMean(settings);
  const spread = square(settings.accumulation_log_sd);
  bendBetween(h, bending, 0, sections);
  blocksOf(h, room, all);
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
    for (let j = 0; j < sections; j++) b[k * sections + j] = b[k * sections + j]! + spread * sum;
  }
  const volume = logVolume(h, bending);
  return volume > -Infinity && roughBy(h, bending, rough) ? volume : Number.NaN;
}
