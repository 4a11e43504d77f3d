/** One chain over the histories of a hole and its states. docs/methods/age-depth.md. */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { AT_ONCE, type Bends, bendsOf, drawAges } from './bend.ts';
import { type History, tell } from './history.ts';
import { outOfPlaceAt } from './date-likelihood.ts';
import { type Depths, depthsOf, drawDepths } from './depths.ts';
import type { Hole } from './hole.ts';
import { drawMean, logPriorOfLaw, logSectionsOfAnyMean, memory } from './law.ts';
import { type Move, movesOf, tryMove, tuned } from './moves.ts';
import { type Reach, reachesOf, reachFor } from './reach.ts';
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
  depths: Depths | null;
  states: States;
  /** How often a sweep draws the state of the hole, and in the warm-up the share of these draws that change it. */
  stateDraws: number;
  changes: number;
  /** Of the boundaries, for the guide. */
  ages: Float64Array;
  stretching: Stretching;
  stretchStep: number;
  /** By horizon, in all 1: how often it is redrawn. In the warm-up: how far it was from being surely in place or out of it. */
  doubt: Float64Array;
  doubts: Float64Array;
  runs: number;
  wasOut: number[];
  /** In the warm-up: sweeps so far. Steps are fixed afterwards. */
  tuning: number | null;
}

const STEPS_OF_LAW = 3;
const STRETCHES = 4;
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
    depths: depthsOf(hole),
    states,
    stateDraws: 3,
    changes: 0,
    ages: history.top_cal_bp.slice(),
    stretching: stretching(hole),
    stretchStep: 0.3,
    doubt: new Float64Array(hole.dates.length).fill(1 / hole.dates.length),
    doubts: new Float64Array(hole.dates.length),
    runs: 4,
    wasOut: [],
    tuning: 0,
  };
}

export const DEP = { yes: 0, no: 0 };
export const STAT = { yes: [0, 0, 0, 0, 0], no: [0, 0, 0, 0, 0] };
export function sweep(chain: Chain): void {
  const { history, stream, moves, steps, tuning, states, reaches } = chain;
  for (let k = 0; k < moves.length; k++) {
    const wasMade = tryMove(history, moves[k]!, steps[k]!, stream);
    if (tuning !== null) steps[k] = tuned(steps[k]!, wasMade, tuning);
  }
  if (process.env['REACH'] !== 'no') for (let i = 0; i < reaches.length; i++) reachFor(history, i, reaches[i]!, stream);
  bendRuns(chain);
  drawLawOf(history, stream);
  for (let k = 0; k < STRETCHES; k++) {
    const wasMade = stretch(history, chain.stretching, chain.stretchStep, stream);
    if (tuning !== null) chain.stretchStep = tuned(chain.stretchStep, wasMade, tuning);
  }
  let changed = 0;
  for (let k = 0; k < chain.stateDraws; k++) if (drawState(history, states, stream)) changed++;
  if (chain.depths !== null && process.env['DEPTHS'] !== 'no') for (let k = 0; k < 2; k++) if (drawDepths(history, chain.depths, stream)) DEP.yes++; else DEP.no++;
  // Sums made by many small changes are made anew.
  tell(history);
  if (tuning !== null) {
    chain.tuning = tuning + 1;
    learn(chain, tuning + 1);
    for (let i = 0; i < chain.doubts.length; i++) {
      const out = outOfPlaceAt(history.hole.dates[i]!, history.bare_cal_bp[i]! + history.gaps_yr[i]!);
      chain.doubts[i] = chain.doubts[i]! + (out * (1 - out) + 0.25 * Math.abs(out - (chain.wasOut[i] ?? out))) / 200;
      chain.wasOut[i] = out;
    }
    chain.changes += (changed / chain.stateDraws - chain.changes) / Math.min(tuning + 1, 50);
  }
}

/** Runs of neighbouring horizons, the more and the rather those that may be in place and out of it. */
function bendRuns({ history, bends, stream, doubt, runs }: Chain): void {
  const n = history.hole.dates.length;
  const first = history.state * n;
  for (let k = 0; k < runs; k++) {
    const count = Math.min(n, 1 + stream.integer(AT_ONCE));
    let lot = stream.uniform();
    let i = 0;
    while (i < n - 1 && lot >= doubt[i]!) lot -= doubt[i++]!;
    let rank = 0;
    while (bends.order[first + rank] !== i) rank++;
    const start = Math.max(0, Math.min(n - count, rank - stream.integer(count)));
    if (drawAges(history, bends, start, count, stream)) STAT.yes[count - 1]!++;
    else STAT.no[count - 1]!++;
  }
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
  const { settings, isCut, section_m } = h.hole;
  let density =
    logSectionsOfAnyMean(u, isCut, h.variation, h.memory, settings) +
    logPriorOfLaw(settings, law.log_variation, law.log_persistence);
  for (let k = 0; k < STEPS_OF_LAW; k++) {
    const by = stream.uniform() < 0.3 ? 3 * STEP_OF_LAW : STEP_OF_LAW;
    const log_variation = law.log_variation + by * stream.normal();
    const log_persistence = law.log_persistence + by * stream.normal();
    const variation = exp(log_variation);
    const m = memory(section_m, exp(log_persistence));
    const proposed =
      logSectionsOfAnyMean(u, isCut, variation, m, settings) + logPriorOfLaw(settings, log_variation, log_persistence);
    if (log(stream.uniform()) < proposed - density) {
      density = proposed;
      law.log_variation = log_variation;
      law.log_persistence = log_persistence;
      h.variation = variation;
      h.memory = m;
    }
  }
  law.mean = drawMean(u, isCut, h.variation, h.memory, settings, stream);
}

/** The steps and the guide stay as they are from here on; the state is drawn the more often the less it will change. */
export function endWarmUp(chain: Chain): void {
  chain.tuning = null;
  let sum = 0;
  for (const d of chain.doubts) sum += d + 0.002;
  const n = chain.doubts.length;
  for (let i = 0; i < n; i++) chain.doubt[i] = 0.3 / n + (0.7 * (chain.doubts[i]! + 0.002)) / sum;
  chain.runs = Number(process.env['RUNS'] ?? 2 + Math.min(6, Math.round(20 * sum)));
  if (process.env['SAY']) console.log('runs', chain.runs, sum, [...chain.doubt].map((d) => d.toFixed(2)).join(' '));
  chain.stateDraws = Math.min(8, Math.max(1, Math.round(0.5 / Math.max(0.01, chain.changes))));
}
