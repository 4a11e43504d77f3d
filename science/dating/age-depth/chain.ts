/** One chain over the histories of a hole and its states. docs/methods/age-depth.md. */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { logLikelihood } from './date-likelihood.ts';
import { bareAge, gapsAbove, type History, tell } from './history.ts';
import type { Hole } from './hole.ts';
import { drawMean, logPriorOfLaw, logSections, memory } from './law.ts';
import type { DatedHorizon } from './model.ts';
import { type Move, movesOf, tryMove, tuned } from './moves.ts';
import { startHistory } from './start.ts';
import { type Stretching, stretch, stretching } from './stretch.ts';

export interface Chain {
  history: History;
  stream: RandomStream;
  moves: readonly Move[];
  steps: Float64Array;
  stretching: Stretching;
  stretchStep: number;
  /** In the warm-up: sweeps so far. Steps are fixed afterwards. */
  tuning: number | null;
}

const STEPS_OF_LAW = 3;
const STRETCHES = 2;
/** Sd of a step of ln s and ln L: about their spread given a history of some fifty sections. */
const STEP_OF_LAW = 0.25;
/** States of the hole looked at in a sweep, the present one among them. */
const STATES = 8;

export function startChain(hole: Hole, ages: readonly DatedHorizon['age'][], stream: RandomStream): Chain {
  const history = startHistory(hole, ages, stream);
  const moves = movesOf(history);
  return {
    history,
    stream,
    moves,
    steps: new Float64Array(moves.length).fill(0.3),
    stretching: stretching(hole),
    stretchStep: 0.3,
    tuning: 0,
  };
}

export function sweep(chain: Chain): void {
  const { history, stream, moves, steps, tuning } = chain;
  for (let k = 0; k < moves.length; k++) {
    const wasMade = tryMove(history, moves[k]!, steps[k]!, stream);
    if (tuning !== null) steps[k] = tuned(steps[k]!, wasMade, tuning);
  }
  if (tuning !== null) chain.tuning = tuning + 1;
  drawLawOf(history, stream);
  for (let k = 0; k < STRETCHES; k++) {
    const wasMade = stretch(history, chain.stretching, chain.stretchStep, stream);
    if (tuning !== null) chain.stretchStep = tuned(chain.stretchStep, wasMade, tuning);
  }
  drawState(history, stream);
  // Sums made by many small changes are made anew.
  tell(history);
}

/** μ, s and L given the sections, which stay: no age moves. μ exactly, s and L by random walk. */
function drawLawOf(h: History, stream: RandomStream): void {
  const { u, law } = h;
  const { settings, isCut, section_m } = h.hole;
  law.mean = drawMean(u, isCut, h.variation, h.memory, settings, stream);
  let density =
    logSections(u, isCut, law.mean, h.variation, h.memory) +
    logPriorOfLaw(settings, law.log_variation, law.log_persistence);
  for (let k = 0; k < STEPS_OF_LAW; k++) {
    const log_variation = law.log_variation + STEP_OF_LAW * stream.normal();
    const log_persistence = law.log_persistence + STEP_OF_LAW * stream.normal();
    const variation = exp(log_variation);
    const m = memory(section_m, exp(log_persistence));
    const proposed =
      logSections(u, isCut, law.mean, variation, m) + logPriorOfLaw(settings, log_variation, log_persistence);
    if (log(stream.uniform()) < proposed - density) {
      density = proposed;
      law.log_variation = log_variation;
      law.log_persistence = log_persistence;
      h.variation = variation;
      h.memory = m;
    }
  }
}

/** The state of the hole given the history: chosen by likelihood among the present one and a few others. */
function drawState(h: History, stream: RandomStream): void {
  const { hole, level } = h;
  if (hole.states === 1) return;
  // Gumbel's way of choosing by weight: the largest of the logarithms, each with noise of its own.
  let peak = -log(stream.exponential());
  for (let i = 0; i < level.length; i++) peak += level[i]!;
  let chosen = h.state;
  for (let k = 1; k < STATES; k++) {
    const other = stream.integer(hole.states);
    let noisy = -log(stream.exponential());
    for (let i = 0; i < level.length; i++)
      noisy += logLikelihood(hole.dates[i]!, bareAge(h, i, other) + gapsAbove(h, i, other));
    if (noisy > peak) {
      peak = noisy;
      chosen = other;
    }
  }
  h.state = chosen;
}
