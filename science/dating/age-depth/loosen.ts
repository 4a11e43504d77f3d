/**
 * The ages of a run of horizons and s drawn again together, where the whole law cannot be (`recast.ts`). Where accumulation is nearly even two dates are out of place, where
 * it varies much they are in place: neither the ages alone nor s alone leads from one to the other (`bend.ts`, `stretch.ts`).
 *
 * What is new in each section of the run, in its sds, is kept while s changes, and elsewhere the shape of the history between
 * horizons goes along (`stretch.ts`); then the history of the run bends for other ages. Along
 * the bends, which are the same lines there for any s, so many ages are tried in the new s, and as many in the old one, by
 * the rough density (`rough.ts`; multiple-try Metropolis: Liu, Liang & Wong 2000, J. Am. Stat. Assoc. 95:121–134), so that
 * s is chosen by all ages that the run may have. The exact density then decides.
 */
import { exp, log, logAdd, type RandomStream } from '@stillstand/science/base';
import { logProposal, propose } from './candidates.ts';
import { type History, tell } from './history.ts';
import { logPriorOfLaw, logSections } from './law.ts';
import { type Bends, presentAges, runOf } from './run.ts';
import { bendToChosen, logGapHere, readyRun, roughly } from './run-bent.ts';
import { type Saved, save, takeBack } from './saved.ts';
import { cutAtHorizons, reshape, type Stretching } from './stretch.ts';

/** Ages tried for each horizon, in either s. */
const AMONG = 4;
/** Sd of a step of ln s: from where accumulation is nearly even to where it is not. */
const STEP = 0.7;

/** Draws for `count` horizons from place `start` on in the order of depth, and for s; returns whether they are others. */
export function loosen(
  h: History,
  room: Bends,
  aside: Saved,
  { isEdge, before }: Stretching,
  start: number,
  count: number,
  stream: RandomStream,
): boolean {
  const { hole, law, u } = h;
  const { bending, age, chosen } = room;
  const { sections, isCut, settings } = hole;
  const run = runOf(h, room, start, count, stream);
  const { from, to } = run;
  const volume = readyRun(h, room, run);
  if (!(volume > -Infinity)) return false;
  const { blocks, added } = bending;

  const tries = count * AMONG;
  presentAges(h, room, run);
  const roughHere = roughly(h, room, run);
  if (!(roughHere > -Infinity)) return false;
  let ofHere = roughHere - logProposal(h, room, run);
  for (let m = 1; m < tries; m++) {
    propose(h, room, run, stream);
    const value = roughly(h, room, run);
    if (value > -Infinity) ofHere = logAdd(ofHere, value - logProposal(h, room, run));
  }
  const inside = to - from;
  let gain =
    volume -
    blocks * law.log_variation +
    roughHere -
    ofHere -
    logPriorOfLaw(settings, law.log_variation, law.log_persistence) -
    logSections(u, isCut, law.mean, h.variation, h.memory) -
    inside * law.log_variation -
    h.ofProfiles -
    logGapHere(h, run);
  for (let i = 0; i < h.level.length; i++) gain -= h.level[i]!;

  save(h, aside);
  const step = STEP * stream.normal();
  const wider = exp(step);
  law.log_variation += step;
  h.variation = exp(law.log_variation);
  const { coefficient, sd, newSd } = h.memory;
  // Elsewhere the shape goes along and the ages stay.
  before.set(u);
  cutAtHorizons(h, isEdge);
  isEdge[from] = 1;
  isEdge[to] = 1;
  for (let part = 0; part < sections; ) {
    let end = part + 1;
    while (isEdge[end] === 0) end++;
    if (end <= from || part >= to) gain += reshape(h, before, part, end, wider, h.memory, h.memory);
    part = end;
  }
  let above = from > 0 ? u[from - 1]! - law.mean : 0;
  for (let j = from; j < to; j++) {
    const isNew = j === 0 || isCut[j] === 1;
    const scale = h.variation * h.fresh[j]!;
    above = isNew ? scale * sd[j]! : coefficient[j]! * above + scale * newSd[j]!;
    u[j] = law.mean + above;
  }
  tell(h);
  const back = (): false => {
    takeBack(h, aside);
    return false;
  };
  // The times as they are in the new s are no ages of the old one: nothing of them is used but their bends.
  if (!(readyRun(h, room, run) > -Infinity)) return back();
  let ofThere = -Infinity;
  let peak = -Infinity;
  let roughThere = -Infinity;
  for (let m = 0; m < tries; m++) {
    propose(h, room, run, stream);
    const noise = -log(stream.exponential());
    const value = roughly(h, room, run);
    if (!(value > -Infinity)) continue;
    const weight = value - logProposal(h, room, run);
    ofThere = logAdd(ofThere, weight);
    if (!(weight + noise > peak)) continue;
    peak = weight + noise;
    roughThere = value;
    chosen.set(age);
  }
  if (!(ofThere > -Infinity)) return back();
  const volumeThere = bendToChosen(h, room, run);
  if (!(volumeThere > -Infinity)) return back();
  h.ground_cal_bp = room.ground_cal_bp;
  if (run.gap >= 0) h.gap_yr[run.gap] = room.gap_yr;
  for (let j = from; j < to; j++) u[j] = u[j]! + added[j]!;
  tell(h);
  gain +=
    ofThere -
    roughThere -
    (volumeThere - blocks * law.log_variation) +
    logPriorOfLaw(settings, law.log_variation, law.log_persistence) +
    logSections(u, isCut, law.mean, h.variation, h.memory) +
    inside * law.log_variation +
    h.ofProfiles +
    logGapHere(h, run);
  for (let i = 0; i < h.level.length; i++) gain += h.level[i]!;
  if (!(gain >= 0 || stream.uniform() < exp(gain))) return back();
  return true;
}
