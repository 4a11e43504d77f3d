import type { RandomStream } from './random.ts';

/**
 * How one chain starts, goes on and is kept: plain functions. `Problem`, `Draws`, `Question` and `Answer` are plain data
 * (they cross threads), `Chain` may be anything (it stays on its own).
 */
export interface Sampler<Problem, Chain, Draws extends object, Question = never, Answer = never> {
  /** Its name in errors, and the name a thread finds it by. */
  readonly name: string;
  /** A chain begun, from the priors or from where another was; all of its chance comes from `stream`. */
  start(problem: Problem, stream: RandomStream, c: number): Chain;
  sweep(chain: Chain): void;
  /** After sweep `k` (1 … `of`) of the warm-up. */
  learn?(chain: Chain, k: number, of: number): void;
  /** From here on nothing is tuned: what follows is a Markov chain. */
  endWarmUp(chain: Chain): void;
  /** Empty columns of so many draws. */
  room(problem: Problem, draws: number): Draws;
  /** Stores the chain as draw number `at`, and says so; false turns it away: the chain is swept on and asked again, and
   * hears how often that was so. */
  keep(chain: Chain, draws: Draws, at: number, turnedAway: number): boolean;
  /** Of a chain as it is at the end of a run; `swept` hears of each sweep that takes. */
  answer?(chain: Chain, question: Question, swept: () => void): Answer;
}
