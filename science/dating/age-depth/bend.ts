/**
 * The ages of one or a few neighbouring dated horizons drawn again, the history about them bending for it (`bending.ts`): the
 * way of dates from in place to out of it and back, and of several that contradict each other from the one reading to the
 * other. A history that only scales (`moves.ts`) breaks at the horizons, which accumulation that persists forbids; here it
 * gives way as far up and down as it would by itself.
 *
 * The horizons part the ground between two section boundaries, whose ages stay, into blocks. Candidates are drawn from one
 * horizon down to the next, of the date's own years that are left or from anywhere before the end; one of them or the ages
 * as they are is chosen by weight (iterated sampling-importance resampling: Andrieu, Lee & Vihola 2018, Bernoulli
 * 24:842–872), which leaves the density as it is. Where an end is open or a gap free (`run.ts`) its block is left out.
 */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { datesBent, profilesBent } from './bent.ts';
import { logProposal, propose } from './candidates.ts';
import { type History, tell } from './history.ts';
import { type Bends, presentAges, runOf } from './run.ts';
import { bendToChosen, logGapHere, logGapThere, readyRun, roughly } from './run-bent.ts';

/** Draws for `count` horizons from place `start` on in the order of depth, for each among so many ages; returns whether they are others. */
export function drawAges(
  h: History,
  room: Bends,
  start: number,
  count: number,
  among: number,
  stream: RandomStream,
): boolean {
  const { hole, top_cal_bp } = h;
  const { bending, age, rough, chosen } = room;
  const run = runOf(h, room, start, count, stream);
  const { from, to } = run;
  const volume = readyRun(h, room, run);
  if (!(volume > -Infinity)) return false;
  const { blocks, c, along, added, most } = bending;

  // By the rough density, from the ages as they are.
  presentAges(h, room, run);
  chosen.set(age);
  const roughHere = roughly(h, room, run);
  if (!(roughHere > -Infinity)) return false;
  let roughThere = roughHere;
  let isChosen = false;
  let peak = roughHere - logProposal(h, room, run) - log(stream.exponential());
  for (let m = 0; m < count * among; m++) {
    propose(h, room, run, stream);
    const noise = -log(stream.exponential());
    const value = roughly(h, room, run);
    if (!(value > -Infinity)) continue;
    const weight = noise + value - logProposal(h, room, run);
    if (!(weight > peak)) continue;
    peak = weight;
    isChosen = true;
    roughThere = value;
    chosen.set(age);
  }
  if (!isChosen) return false;

  // The exact density decides.
  const volumeThere = bendToChosen(h, room, run);
  if (!(volumeThere > -Infinity)) return false;
  const top = run.opensUp ? room.ground_cal_bp : top_cal_bp[from]!;
  const { gap } = run;
  const longer = gap < 0 ? 0 : room.gap_yr - h.gap_yr[gap]!;
  let gain =
    volume -
    volumeThere +
    roughHere -
    roughThere +
    datesBent(h, bending, h.state, top, gap, longer) +
    logGapThere(h, room, run) -
    logGapHere(h, run);
  const place = h.state * hole.dates.length;
  for (let i = 0; i < h.level.length; i++) {
    const j = hole.section[place + i]!;
    if (j >= from && (run.opensDown || j < to)) gain -= h.level[i]!;
  }
  gain += profilesBent(h, bending) - h.ofProfiles;
  for (let k = 0; k < blocks; k++) {
    gain -= c[k]! * along[k]!;
    for (let l = 0; l < blocks; l++) gain -= 0.5 * c[k]! * c[l]! * rough.curvature[k * most + l]!;
  }
  if (!(gain >= 0 || stream.uniform() < exp(gain))) return false;
  for (let j = from; j < to; j++) h.u[j] = h.u[j]! + added[j]!;
  h.ground_cal_bp = room.ground_cal_bp;
  if (gap >= 0) h.gap_yr[gap] = room.gap_yr;
  tell(h);
  return true;
}
