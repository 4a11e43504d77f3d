/** One chain over the histories of a hole and its states. docs/methods/age-depth.md. */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { drawAges } from './bend.ts';
import { type Depths, depthsOf, drawDepths } from './depths.ts';
import { type Doubt, doubtOf, drawDoubtful, endSeeing, see } from './doubt.ts';
import { type History, tell } from './history.ts';
import type { Hole } from './hole.ts';
import { drawMean, logPriorOfLaw, logSectionsOfAnyMean, memory } from './law.ts';
import { loosen } from './loosen.ts';
import { type Move, movesOf, tryMove, tuned } from './moves.ts';
import { type Reach, reachesOf, reachFor } from './reach.ts';
import { recast } from './recast.ts';
import { type Recasting, recastingOf } from './recasting.ts';
import { AT_ONCE, type Bends, bendsOf, rankOf } from './run.ts';
import { roomToSave, type Saved } from './saved.ts';
import { madeWithSay, type Say } from './say.ts';
import { startHistory } from './start.ts';
import { drawState, guideBy, type States, statesOf } from './states.ts';
import { type Stretching, stretch, stretching } from './stretch.ts';

export interface Chain {
  history: History;
  stream: RandomStream;
  moves: readonly Move[];
  steps: Float64Array;
  reaches: Reach[];
  bends: Bends;
  aside: Saved;
  recasting: Recasting | null;
  depths: Depths | null;
  states: States;
  /** How often a sweep draws the state of the hole, and in the warm-up the share of these draws that change it. */
  stateDraws: number;
  changes: number;
  /** Of the boundaries, for the guide. */
  ages: Float64Array;
  stretching: Stretching;
  stretchStep: number;
  doubt: Doubt;
  /** In the warm-up: sweeps so far. Steps are fixed afterwards. */
  tuning: number | null;
}

const STEPS_OF_LAW = 6;
const STRETCHES = 8;
/** Runs whose law is drawn with them. */
const RECASTS = 2;
/** Where that cannot be: so many runs bend at an s that stays for one whose s is drawn with it. */
const BENDS_A_LOOSENING = 4;
const DEPTH_DRAWS = 1;
/** Sd of a step of ln s and ln L: about their spread given a history of some fifty sections. */
const STEP_OF_LAW = 0.25;
/** The guide of that walk is made of the ages since the last of these sweeps of the warm-up. */
const GUIDED_AT = [20, 60, 120, 200];

export function startChain(hole: Hole, stream: RandomStream): Chain {
  const history = startHistory(hole, stream);
  const moves = movesOf(history);
  const states = statesOf(hole);
  guideBy(states, hole, history.top_cal_bp);
  return {
    history,
    stream,
    moves,
    steps: new Float64Array(moves.length).fill(0.3),
    reaches: reachesOf(hole),
    bends: bendsOf(hole),
    aside: roomToSave(history),
    recasting: recastingOf(hole),
    depths: depthsOf(hole),
    states,
    stateDraws: 3,
    changes: 0,
    ages: history.top_cal_bp.slice(),
    stretching: stretching(hole),
    stretchStep: 0.3,
    doubt: doubtOf(hole),
    tuning: 0,
  };
}

/** `say`: of what else the ages depend on; each change that the dates accept is asked of it, and taken back where it refuses. */
export function sweep(chain: Chain, say: Say | null = null): void {
  const { history, stream, moves, steps, tuning, states, reaches, depths } = chain;
  const made = (change: () => boolean): boolean =>
    say === null ? change() : madeWithSay(history, say, change);
  for (let k = 0; k < moves.length; k++) {
    const wasMade = made(() => tryMove(history, moves[k]!, steps[k]!, stream));
    if (tuning !== null) steps[k] = tuned(steps[k]!, wasMade, tuning);
  }
  for (let i = 0; i < reaches.length; i++) made(() => reachFor(history, i, reaches[i]!, stream));
  for (let k = 0; k < chain.doubt.runs; k++) made(() => bendRun(chain));
  const { recasting } = chain;
  if (recasting !== null) for (let k = 0; k < RECASTS; k++) made(() => recastRun(chain, recasting));
  else for (let k = 0; k < chain.doubt.runs; k += BENDS_A_LOOSENING) made(() => loosenRun(chain));
  drawLawOf(history, stream);
  for (let k = 0; k < STRETCHES; k++) {
    const wasMade = made(() => stretch(history, chain.stretching, chain.stretchStep, stream));
    if (tuning !== null) chain.stretchStep = tuned(chain.stretchStep, wasMade, tuning);
  }
  let changed = 0;
  for (let k = 0; k < chain.stateDraws; k++) if (made(() => drawState(history, states, stream))) changed++;
  if (depths !== null) for (let k = 0; k < DEPTH_DRAWS; k++) made(() => drawDepths(history, depths, stream));
  // Sums made by many small changes are made anew.
  tell(history);
  if (tuning !== null) {
    chain.tuning = tuning + 1;
    learn(chain, tuning + 1);
    see(chain.doubt, history);
    chain.changes += (changed / chain.stateDraws - chain.changes) / Math.min(tuning + 1, 50);
  }
}

/** Ages of a run of neighbouring horizons. */
function bendRun(chain: Chain): boolean {
  const { history, bends, stream, doubt } = chain;
  const { start, count } = drawRun(chain);
  return drawAges(history, bends, start, count, doubt.ages, stream);
}

/** The same, and μ, s and L with them. */
function recastRun(chain: Chain, recasting: Recasting): boolean {
  const { history, bends, aside, stream } = chain;
  const { start, count } = drawRun(chain);
  return recast(history, recasting, bends, aside, start, count, stream);
}

/** The same, and s alone with them. */
function loosenRun(chain: Chain): boolean {
  const { history, bends, aside, stretching, stream } = chain;
  const { start, count } = drawRun(chain);
  return loosen(history, bends, aside, stretching, start, count, stream);
}

/** Which horizons: rather those in doubt. */
function drawRun({ history, bends, stream, doubt }: Chain): { start: number; count: number } {
  const n = history.hole.dates.length;
  const count = Math.min(n, 1 + stream.integer(AT_ONCE));
  const rank = rankOf(history, bends, drawDoubtful(doubt, stream));
  return { start: Math.max(0, Math.min(n - count, rank - stream.integer(count))), count };
}

/** Mean ages since the last time the guide was made. */
function learn({ history, states, ages }: Chain, swept: number): void {
  const since = GUIDED_AT.findLast((at) => at < swept) ?? 0;
  for (let j = 0; j < ages.length; j++) {
    const mean = swept === since + 1 ? 0 : ages[j]!;
    ages[j] = mean + (history.top_cal_bp[j]! - mean) / (swept - since);
  }
  if (GUIDED_AT.includes(swept)) guideBy(states, history.hole, ages);
}

/** μ, s and L given the sections, which stay: no age moves. μ exactly, s and L by random walk. */
function drawLawOf(h: History, stream: RandomStream): void {
  const { u, law } = h;
  const { settings, isCut } = h.hole;
  let density =
    logSectionsOfAnyMean(u, isCut, h.variation, h.memory, settings) +
    logPriorOfLaw(settings, law.log_variation, law.log_persistence);
  for (let k = 0; k < STEPS_OF_LAW; k++) {
    const by = stream.uniform() < 0.3 ? 3 * STEP_OF_LAW : STEP_OF_LAW;
    const log_variation = law.log_variation + by * stream.normal();
    const log_persistence = law.log_persistence + by * stream.normal();
    const variation = exp(log_variation);
    const m = memory(h.hole, exp(log_persistence), h.spare);
    const proposed =
      logSectionsOfAnyMean(u, isCut, variation, m, settings) +
      logPriorOfLaw(settings, log_variation, log_persistence);
    if (log(stream.uniform()) < proposed - density) {
      density = proposed;
      law.log_variation = log_variation;
      law.log_persistence = log_persistence;
      h.variation = variation;
      h.spare = h.memory;
      h.memory = m;
    }
  }
  law.mean = drawMean(u, isCut, h.variation, h.memory, settings, stream);
}

/** The steps and the guide stay as they are from here on; the state is drawn the more often the less it will change. */
export function endWarmUp(chain: Chain): void {
  if (chain.tuning === null) return;
  endSeeing(chain.doubt, Math.max(1, chain.tuning));
  chain.tuning = null;
  chain.stateDraws = Math.min(8, Math.max(1, Math.round(0.5 / Math.max(0.01, chain.changes))));
}
