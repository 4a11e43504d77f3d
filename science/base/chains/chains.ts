/**
 * One engine for all Markov chains: several chains are warmed up, kept draw by draw and asked at fixed draw counts
 * whether they agree; where they are full and do not, every second draw is dropped and they go on with twice the sweeps
 * between draws. A rule that counts sweeps, never seconds. docs/methods/chains.md.
 *
 * Chain c has `split(c)` of the random stream and knows nothing of the others; draws are merged by c. So the result is
 * the same bytes wherever the chains are swept (`work.ts`).
 */
import type { RandomStream } from './random.ts';
import type { Sampler } from './sampler.ts';
import type { Order, Task, Work } from './work.ts';

/** How long, and when to ask. */
interface Rule {
  chains: number;
  /** Sweeps of each chain before any is kept. */
  warm_up: number;
  /** Most draws kept of each chain, and sweeps between them at first. */
  draws: number;
  thin: number;
  /** Shares of the draws, rising to 1, at which the chains are asked whether they agree. */
  asked_at: readonly number[];
  /** How often the sweeps between draws are doubled at most. */
  doublings: number;
}

export interface Plan<Draws, Reported> extends Rule {
  /** Everything to be reported, of the first `kept` draws of each chain. */
  report(draws: readonly Draws[], kept: number): Reported;
  /** Name of a number that has not settled, null where all have; hears of the last one that had not. */
  unsettled(reported: Reported, last: string | null): string | null;
}

export interface Run<Draws, Reported, Question = never, Answer = never> {
  draws: readonly Draws[];
  /** Kept draws of each chain. */
  kept: number;
  /** Of the longest chain, warm-up included. */
  sweeps: number;
  /** Everything reported, of the kept draws. */
  all: Reported;
  /** The answer of each chain, which about `ahead` sweeps of all chains together will take. */
  ask(question: Question, ahead: number): Work<Answer[]>;
}

/**
 * @param stream of which nothing is drawn: it is split
 * @throws RangeError for a plan that is none
 */
export function* runChains<Problem, Chain, Draws extends object, Reported, Question, Answer>(
  sampler: Sampler<Problem, Chain, Draws, Question, Answer>,
  problem: Problem,
  plan: Plan<Draws, Reported>,
  stream: RandomStream,
): Work<Run<Draws, Reported, Question, Answer>> {
  demandPlan(plan);
  const { chains, warm_up, draws: most, asked_at, doublings } = plan;
  const order = (task: Task, ahead: number): Order => ({ sampler, chains, task, ahead });
  yield order(
    { kind: 'start', problem, key: stream.key, warm_up, draws: most },
    chains * (warm_up + plan.thin * most),
  );
  let kept = 0;
  let thin = plan.thin;
  let last: string | null = null;
  for (let doubling = 0; ; doubling++) {
    let halved = doubling > 0;
    for (const share of asked_at) {
      const to = Math.ceil(share * most);
      if (to <= kept) continue;
      const ahead = chains * thin * (most - kept);
      const replies = yield order({ kind: 'keep', from: kept, to, thin, halved }, ahead);
      halved = false;
      kept = to;
      const draws = replies.map(({ value }) => value as Draws);
      const all = plan.report(draws, kept);
      last = plan.unsettled(all, last);
      if (last !== null && !(doubling === doublings && kept === most)) continue;
      return {
        draws,
        kept,
        sweeps: Math.max(...replies.map(({ sweeps }) => sweeps)),
        all,
        *ask(question, sweeps) {
          const answers = yield order({ kind: 'ask', question }, sweeps);
          return answers.map(({ value }) => value as Answer);
        },
      };
    }
    kept = most >> 1;
    thin *= 2;
  }
}

function demandPlan({ chains, warm_up, draws, thin, asked_at, doublings }: Rule): void {
  for (const [name, value, least] of [
    ['chains', chains, 1],
    ['warm_up', warm_up, 0],
    ['draws', draws, 2],
    ['thin', thin, 1],
    ['doublings', doublings, 0],
  ] as const) {
    if (!(Number.isInteger(value) && value >= least))
      throw new RangeError(`runChains: ${name} = ${value}; expected a whole number of ${least} or more`);
  }
  if (!asked_at.every((share, k) => share > (asked_at[k - 1] ?? 0)) || asked_at.at(-1) !== 1)
    throw new RangeError(`runChains: asked at ${asked_at.join(', ')}; expected shares rising to 1`);
}
