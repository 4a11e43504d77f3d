/** Chains run one after another and watched until they agree: a rule that counts sweeps, never seconds. */
import { randomStream } from '@stillstand/science/base';
import { type Chain, startChain, sweep } from './chain.ts';
import { type ChainState, goOnFrom } from './chain-state.ts';
import { type Draws, emptyDraws, halveDraws, keepDraw, reports } from './draws.ts';
import { keepExpected, others } from './leave-one-out.ts';
import type { Problem } from './problem.ts';
import { type Reported, reported } from './reported.ts';
import { holdLimits, warmUp } from './warm-up.ts';

export interface Plan {
  /** Sweeps of each chain before any is kept. */
  warm_up: number;
  /** Most draws kept of each chain. */
  draws: number;
  /** Where chains stood before, to go on from in turn; started from the priors where there is none. */
  from?: readonly ChainState[];
  /** The chains are asked whether they agree at these shares of the draws, */
  asked_at: readonly number[];
  /** and when they are full and do not, every second draw is dropped and the chains go on with twice the sweeps between
   * draws (one at first), so many times. */
  doublings: number;
  /** Name of a number that has not settled, null where all have; given the last one that had not. */
  unsettled: (all: Reported, last: string | null) => string | null;
  /** At about so many draws of each chain it is asked what the others expect of each point; 0 for at none. */
  expected: number;
}

export interface Run {
  chains: Chain[];
  draws: Draws[];
  /** Kept draws of each chain. */
  kept: number;
  /** Of the longest chain, warm-up included. */
  sweeps: number;
  /** Of all chains together. */
  done: number;
  /** Kept columns of what is expected of each point. */
  expected: number;
  /** Everything reported, of the kept draws. */
  all: Reported;
}

/** After so many paths turned away one after another the loose limits are held after all. */
export const PATIENCE = 40;
/** Sweeps between tellings of progress: a fraction of a second. */
export const TOLD_EVERY = 20;

/** `onProgress` hears of sweeps done of those planned; the plan grows while the chains disagree. */
export function runChains(
  problem: Problem,
  plan: Plan,
  onProgress: ((done: number, of: number) => void) | undefined,
): Run {
  const { settings } = problem;
  const r = reports(problem);
  const stream = randomStream(settings.seed).split('curve');
  const chains = Array.from({ length: settings.chains }, (_, c) => startChain(problem, stream.split(c)));
  const { from = [] } = plan;
  for (const [c, chain] of chains.entries()) {
    if (from.length > 0) goOnFrom(chain, from[c % from.length]!);
  }
  const every = plan.expected === 0 ? Infinity : Math.max(1, Math.floor(plan.draws / plan.expected));
  const draws = chains.map(() => emptyDraws(problem, plan.draws, Math.floor(plan.draws / every)));
  const rooms = plan.expected === 0 ? [] : chains.map(others);

  let planned = settings.chains * (plan.warm_up + plan.draws);
  let done = 0;
  const count = (): void => {
    done += 1;
    if (done % TOLD_EVERY === 0) onProgress?.(done, Math.max(planned, done));
  };
  for (const chain of chains) warmUp(chain, plan.warm_up, count);

  let kept = 0;
  let thin = 1;
  const keepUpTo = (to: number): void => {
    planned = Math.max(planned, done + settings.chains * thin * (to - kept));
    chains.forEach((chain, c) => {
      for (let k = kept; k < to; k++) {
        for (let turnedAway = 0; ; turnedAway++) {
          for (let s = 0; s < thin; s++) {
            sweep(chain);
            count();
          }
          if (keepDraw(chain, r, draws[c]!, k)) break;
          if (turnedAway === PATIENCE) holdLimits(chain, chain.limits.points, r.path);
        }
        if ((k + 1) % every === 0)
          keepExpected(chain, r.path, rooms[c]!, draws[c]!.expected, (k + 1) / every - 1);
      }
    });
    kept = to;
  };
  let last: string | null = null;
  for (let doubling = 0; ; doubling++) {
    for (const share of plan.asked_at) {
      const to = Math.ceil(share * plan.draws);
      if (to <= kept) continue;
      keepUpTo(to);
      const all = reported(problem, draws, kept);
      last = plan.unsettled(all, last);
      if (last === null || (doubling === plan.doublings && kept === plan.draws)) {
        if (done % TOLD_EVERY !== 0 || done < planned) onProgress?.(done, done);
        const sweeps = Math.max(...chains.map((chain) => chain.sweeps));
        return { chains, draws, kept, sweeps, done, expected: Math.floor(kept / every), all };
      }
    }
    for (const d of draws) halveDraws(d);
    kept = plan.draws >> 1;
    thin *= 2;
  }
}
