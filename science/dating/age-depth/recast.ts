/**
 * The law of accumulation, μ, s and L, drawn again with the ages of a run of horizons. Two dates side by side may be out of place
 * where accumulation is even, and in place where it varies much about another mean: then all of these change at once.
 *
 * A history is parted in the times of blocks and a rest (`recasting.ts`). The rest and times by lot, as they are before any
 * date is read, make what is new in μ and in each section, in sds of its own: normal numbers, whatever s and L are. These
 * are kept while s and L change, and are parted again; so neither is held by the history that it rules. The run's ages are then
 * chosen among so many by their rough density (`rough.ts`), and as many are weighed in the former law (multiple-try Metropolis:
 * Liu, Liang & Wong 2000, J. Am. Stat. Assoc. 95:121–134). The exact density decides, where the rough one has not refused.
 */
import { exp, log, logAdd, type RandomStream } from '@stillstand/science/base';
import { logProposal, propose } from './candidates.ts';
import { type History, renew, tell } from './history.ts';
import { logPriorOfLaw, memory, rebuild } from './law.ts';
import { meanBent, partHistory, type Recasting } from './recasting.ts';
import { costOf, logRoot, logScale, solveRoot } from './rough.ts';
import { type Bends, presentAges, type Run, subRun, wholeRun } from './run.ts';
import { bendToChosen, logGapHere, logGapThere, roughly } from './run-bent.ts';
import { type Saved, save, takeBack } from './saved.ts';

/** Ages tried for each horizon of the run, by either law. */
const AMONG = 3;
/** Sds of a step of ln s and of ln L: from where accumulation is nearly even to where it is not. */
const STEP_OF_VARIATION = 0.9;
const STEP_OF_PERSISTENCE = 0.7;

/** Draws for `count` horizons from place `start` on in the order of depth, and for the law; returns whether they are others. */
export function recast(
  h: History,
  recasting: Recasting,
  room: Bends,
  aside: Saved,
  start: number,
  count: number,
  stream: RandomStream,
): boolean {
  const { hole, law, u } = h;
  const { whole, least } = recasting;
  const { bending, rough } = whole;
  const { settings } = hole;
  const all = wholeRun(h, whole, stream);
  presentAges(h, whole, all);
  const run = subRun(whole, all, room, start, count, stream);
  save(h, aside);
  const back = (): false => {
    takeBack(h, aside);
    return false;
  };

  const volumeHere = partHistory(h, recasting, all);
  if (!(volumeHere > -Infinity)) return back();
  room.metres.set(whole.metres.subarray(start, start + count + 1));
  room.age.set(whole.age.subarray(start, start + count));
  const roughHere = roughly(h, whole, all);
  if (!(roughHere > -Infinity)) return back();
  const meanHere = law.mean;
  // Candidates know of no μ but that of the least costly bend: the same from either history.
  law.mean = meanBent(meanHere, hole, recasting, least);
  const present = roughHere - logProposal(h, room, run);
  const tries = count * AMONG;
  const ofHere =
    logAdd(present, tryAges(h, whole, room, all, run, tries - 1, stream).sum) +
    logScale(rough, bending) +
    logPriorOfLaw(settings, law.log_variation, law.log_persistence);
  let gain =
    volumeHere -
    logRoot(rough, bending) +
    costOf(rough, bending, least) +
    roughHere +
    logScale(rough, bending) -
    logGapHere(h, all);
  for (const level of h.level) gain -= level;

  changeLaw(h, recasting, meanHere, stream);
  if (!(partHistory(h, recasting, all) > -Infinity)) return back();
  const meanThere = law.mean;
  law.mean = meanBent(meanThere, hole, recasting, least);
  const { sum, chosen: roughThere } = tryAges(h, whole, room, all, run, tries, stream);
  const ofThere =
    sum + logScale(rough, bending) + logPriorOfLaw(settings, law.log_variation, law.log_persistence);
  if (!(ofThere >= ofHere || stream.uniform() < exp(ofThere - ofHere))) return back();

  const volumeThere = bendToChosen(h, whole, all);
  if (!(volumeThere > -Infinity)) return back();
  const { c, added, blocks } = bending;
  law.mean = meanBent(meanThere, hole, recasting, c);
  for (let k = 0; k < blocks; k++) least[k] = c[k]! - least[k]!;
  gain +=
    logRoot(rough, bending) -
    costOf(rough, bending, least) -
    volumeThere -
    roughThere -
    logScale(rough, bending) +
    logGapThere(h, whole, all);
  for (let j = 0; j < u.length; j++) u[j] = u[j]! + added[j]!;
  h.ground_cal_bp = whole.ground_cal_bp;
  if (all.gap >= 0) h.gap_yr[all.gap] = whole.gap_yr;
  tell(h);
  for (const level of h.level) gain += level;
  if (!(gain >= 0 || stream.uniform() < exp(gain))) return back();
  return true;
}

/** Tries so many ages for a run, the others as they are in `whole.age`: log of the sum of their weights, and the rough density of one chosen by weight, which is left in `whole.chosen`; −∞ for none. */
function tryAges(
  h: History,
  whole: Bends,
  room: Bends,
  all: Run,
  run: Run,
  tries: number,
  stream: RandomStream,
): { sum: number; chosen: number } {
  const { start, count } = run;
  let sum = -Infinity;
  let peak = -Infinity;
  let chosen = -Infinity;
  for (let m = 0; m < tries; m++) {
    propose(h, room, run, stream);
    for (let k = 0; k < count; k++) whole.age[start + k] = room.age[k]!;
    const noise = -log(stream.exponential());
    const value = roughly(h, whole, all);
    if (!(value > -Infinity)) continue;
    const weight = value - logProposal(h, room, run);
    sum = logAdd(sum, weight);
    if (!(weight + noise > peak)) continue;
    peak = weight + noise;
    chosen = value;
    whole.chosen.set(whole.age);
  }
  return { sum, chosen };
}

/** Times by lot instead of those of the history, parted about `mean`, then s and L by a step, what is new in them being kept. */
function changeLaw(h: History, recasting: Recasting, mean: number, stream: RandomStream): void {
  const { hole, law, u } = h;
  const { whole, least, lot } = recasting;
  const { bending, rough } = whole;
  const { sections, isCut } = hole;
  for (let k = 0; k < bending.blocks; k++) lot[k] = stream.normal();
  solveRoot(rough, bending, lot);
  for (let k = 0; k < bending.blocks; k++) {
    lot[k] = lot[k]! + least[k]!;
    for (let j = 0; j < sections; j++) u[j] = u[j]! + lot[k]! * bending.b[k * sections + j]!;
  }
  law.mean = meanBent(mean, hole, recasting, lot);
  renew(h, 0, sections);
  law.log_variation += STEP_OF_VARIATION * stream.normal();
  law.log_persistence += STEP_OF_PERSISTENCE * stream.normal();
  h.variation = exp(law.log_variation);
  const spare = h.memory;
  h.memory = memory(hole, exp(law.log_persistence), h.spare);
  h.spare = spare;
  rebuild(u, isCut, law.mean, h.variation, h.memory, h.fresh);
  tell(h);
}
