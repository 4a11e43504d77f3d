/**
 * A computation by chains as a list of orders: what each chain is to do next, one order after another, the replies of all
 * chains before the next. Whoever runs it decides where the chains are swept: here (`inProcess`) or by a crew on other
 * threads (`withCrew`). A chain's reply depends on its number and its orders alone, never on who shares its thread, so
 * the bytes are the same either way.
 */
import { halve } from '../summaries/columns.ts';
import { type StreamKey, streamOf } from './random.ts';
import type { Sampler } from './sampler.ts';

/** Asks orders, gets the reply of each chain to each order, ends with a result. */
export type Work<Result> = Generator<Order, Result, readonly Reply[]>;

export type AnySampler = Sampler<unknown, unknown, object, unknown, unknown>;

/** One task for each of some chains. A `start` ends the chains there were: a crew is at one run at a time. */
export interface Order {
  readonly sampler: AnySampler;
  readonly chains: number;
  readonly task: Task;
  /** Sweeps of all chains together still to come, as now planned, this task's included. */
  readonly ahead: number;
}

/** Plain data, so that it can be sent to another thread. */
export type Task =
  | { kind: 'start'; problem: unknown; key: StreamKey; warm_up: number; draws: number }
  /** Draws `from` to `to` − 1, `thin` sweeps apart; with `halved` every second of those kept is dropped first. */
  | { kind: 'keep'; from: number; to: number; thin: number; halved: boolean }
  | { kind: 'ask'; question: unknown };

export interface Reply {
  /** Of the chain so far, warm-up included. */
  sweeps: number;
  /** All columns of draws after `keep`, the answer after `ask`, null after `start`. */
  value: unknown;
}

/** A chain where it is swept. */
export interface Swept {
  chain: unknown;
  draws: object;
  sweeps: number;
}

/** Draws turned away one after another before a chain is given up. */
const MOST_TURNED_AWAY = 10_000;

/** What a sampler threw, and which chain of it. Chains are counted from 1 in the words, from 0 in `chain`. */
export class ChainError extends Error {
  readonly chain: number;
  readonly sweeps: number;
  constructor(sampler: string, chain: number, sweeps: number, cause: unknown) {
    super(
      `chain ${chain + 1} of ${sampler} failed after ${sweeps} sweeps: ${cause instanceof Error ? cause.message : String(cause)}`,
      { cause },
    );
    this.name = 'ChainError';
    this.chain = chain;
    this.sweeps = sweeps;
  }
}

/**
 * Has chain `c` do a task; `swept` hears of each sweep, and what it throws is passed on as it is.
 * @throws ChainError for what the sampler throws
 */
export function carryOut(
  chains: Map<number, Swept>,
  sampler: AnySampler,
  task: Task,
  c: number,
  swept: () => void,
): Reply {
  const self: Swept = task.kind === 'start' ? { chain: null, draws: {}, sweeps: 0 } : chains.get(c)!;
  let givenUp: { reason: unknown } | null = null;
  const count = (): void => {
    self.sweeps++;
    try {
      swept();
    } catch (reason) {
      givenUp = { reason };
      throw reason;
    }
  };
  try {
    switch (task.kind) {
      case 'start':
        warmUp(self, sampler, task, c, count);
        chains.set(c, self);
        return { sweeps: self.sweeps, value: null };
      case 'keep':
        if (task.halved) halve(self.draws);
        keepDraws(self, sampler, task, count);
        return { sweeps: self.sweeps, value: self.draws };
      case 'ask': {
        if (sampler.answer === undefined) throw new Error('it answers no questions');
        const value = sampler.answer(self.chain, task.question, count);
        return { sweeps: self.sweeps, value };
      }
    }
  } catch (cause) {
    // A refusal to go on is the caller's, not the chain's.
    if (givenUp !== null) throw (givenUp as { reason: unknown }).reason;
    throw new ChainError(sampler.name, c, self.sweeps, cause);
  }
}

function warmUp(
  self: Swept,
  sampler: AnySampler,
  { problem, key, warm_up, draws }: Task & { kind: 'start' },
  c: number,
  count: () => void,
): void {
  self.draws = sampler.room(problem, draws);
  self.chain = sampler.start(problem, streamOf(key).split(c), c);
  for (let k = 1; k <= warm_up; k++) {
    sampler.sweep(self.chain);
    count();
    sampler.learn?.(self.chain, k, warm_up);
  }
  sampler.endWarmUp(self.chain);
}

function keepDraws(
  { chain, draws }: Swept,
  sampler: AnySampler,
  { from, to, thin }: Task & { kind: 'keep' },
  count: () => void,
): void {
  for (let k = from; k < to; k++) {
    for (let turnedAway = 0; ; turnedAway++) {
      if (turnedAway > MOST_TURNED_AWAY)
        throw new Error(`draw ${k + 1} was turned away ${turnedAway} times one after another`);
      for (let s = 0; s < thin; s++) {
        sampler.sweep(chain);
        count();
      }
      if (sampler.keep(chain, draws, k, turnedAway)) break;
    }
  }
}

/** Hears of sweeps done of those planned. `done` never falls; the plan grows while chains disagree and shrinks where they
 * agree early; the last call is of all. It may throw to give the computation up. */
export type OnProgress = (done: number, of: number) => void;

/** Sweeps between reports of progress: a fraction of a second. */
export const REPORTED_EVERY = 20;

interface Tally {
  plan(ahead: number): void;
  swept(sweeps: number): void;
  end(): void;
}

function tally(onProgress: OnProgress | undefined): Tally {
  let done = 0;
  let of = 0;
  let reported = 0;
  return {
    plan: (ahead) => {
      of = done + ahead;
    },
    swept: (sweeps) => {
      done += sweeps;
      if (done - reported < REPORTED_EVERY) return;
      reported = done;
      onProgress?.(done, Math.max(of, done));
    },
    end: () => {
      if (reported < done || done < of) onProgress?.(done, done);
    },
  };
}

/**
 * All chains in this thread, one after another.
 * @throws ChainError for what a sampler throws; what `onProgress` throws
 */
export function inProcess<Result>(work: Work<Result>, onProgress?: OnProgress): Result {
  const progress = tally(onProgress);
  const one = (): void => progress.swept(1);
  const here = new Map<number, Swept>();
  let next = work.next();
  while (next.done !== true) {
    const { sampler, chains, task, ahead } = next.value;
    progress.plan(ahead);
    next = work.next(Array.from({ length: chains }, (_, c) => carryOut(here, sampler, task, c, one)));
  }
  progress.end();
  return next.value;
}

/** Threads that sweep chains. At one computation at a time. */
export interface Crew {
  /** The reply of each chain, by its number; `swept` hears of sweeps as they are done, and may throw to give up. */
  perform(order: Order, swept: (sweeps: number) => void): Promise<readonly Reply[]>;
  /** Ends all threads; resolves when nothing is left running. What is being performed rejects. */
  dismiss(): Promise<void>;
}

const atWork = new WeakSet<Crew>();

/**
 * The same result, bit for bit, by a crew. Where it does not end well the crew is dismissed: nothing is left running.
 * @throws as `inProcess`; Error where the crew is at another computation
 */
export async function withCrew<Result>(
  work: Work<Result>,
  crew: Crew,
  onProgress?: OnProgress,
): Promise<Result> {
  if (atWork.has(crew)) throw new Error('the crew is at another computation');
  atWork.add(crew);
  const progress = tally(onProgress);
  try {
    let next = work.next();
    while (next.done !== true) {
      progress.plan(next.value.ahead);
      next = work.next(await crew.perform(next.value, progress.swept));
    }
    progress.end();
    return next.value;
  } catch (error) {
    await crew.dismiss();
    throw error;
  } finally {
    atWork.delete(crew);
  }
}
