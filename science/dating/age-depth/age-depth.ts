/** Age against depth in one hole: chains run until they agree, and summarised. docs/methods/age-depth.md. */
import type { RandomStream } from '@stillstand/science/base';
import { endWarmUp, startChain, sweep } from './chain.ts';
import { type Draws, emptyDraws, halveDraws, keepDraw } from './draws.ts';
import { makeHole } from './hole.ts';
import type { AgeDepth, AgeDepthInput, NotEnough } from './model.ts';
import { type Quantity, reported, unsettled } from './reported.ts';
import { type AgeDepthSettings, demandSettings } from './settings.ts';
import { summariseAgeDepth } from './summarise.ts';

/** Sweeps of each chain before any is kept. */
const WARM_UP = 200;
/** Sweeps between draws at first; the chains are asked whether they agree at these shares of the draws, and when they are
 * full and do not, every second draw is dropped and they go on with twice the sweeps between draws, so many times. */
const THIN = 3;
const ASKED_AT = [0.6, 0.8, 1];
const DOUBLINGS = 4;

/**
 * Ages (cal BP) and accumulation (mm/yr) down a hole from dated horizons whose depths and ages are uncertain.
 *
 * Pure and seeded by `stream`, of which nothing is drawn (it is split). Horizons whose density has no mass are left out.
 * @throws RangeError for settings that are none, depths that are no numbers or not as many everywhere.
 */
export function ageDepth(
  input: AgeDepthInput,
  settings: AgeDepthSettings,
  stream: RandomStream,
): AgeDepth | NotEnough {
  const run = ageDepthWithDraws(input, settings, stream);
  return run.kind === 'not_enough' ? run : run.result;
}

/** The same with the draws of every reported number, by chain, under the name the remarks give it: for simulations. */
export function ageDepthWithDraws(
  input: AgeDepthInput,
  settings: AgeDepthSettings,
  stream: RandomStream,
): { kind: 'run'; result: AgeDepth; quantities: readonly Quantity[] } | NotEnough {
  demandSettings(settings);
  const hole = makeHole(input, settings);
  if ('kind' in hole) return hole;
  const chains = Array.from({ length: settings.chains }, (_, c) =>
    startChain(hole, stream.split('age against depth').split(c)),
  );
  const draws: Draws[] = chains.map(() => emptyDraws(hole, settings.draws));
  for (const chain of chains) {
    for (let k = 0; k < WARM_UP; k++) sweep(chain);
    endWarmUp(chain);
  }

  let sweeps = WARM_UP;
  let kept = 0;
  let thin = THIN;
  let last: string | null = null;
  for (let doubling = 0; ; doubling++) {
    for (const share of ASKED_AT) {
      const to = Math.ceil(share * settings.draws);
      if (to <= kept) continue;
      for (const [c, chain] of chains.entries()) {
        for (let k = kept; k < to; k++) {
          for (let s = 0; s < thin; s++) sweep(chain);
          keepDraw(chain, draws[c]!, k);
        }
      }
      sweeps += thin * (to - kept);
      kept = to;
      const all = reported(hole, draws, kept);
      last = unsettled(all, last);
      if (last === null || (doubling === DOUBLINGS && kept === settings.draws)) {
        return {
          kind: 'run',
          result: summariseAgeDepth(hole, draws, kept, sweeps, all),
          quantities: all.all,
        };
      }
    }
    for (const d of draws) halveDraws(d);
    kept = settings.draws >> 1;
    thin *= 2;
  }
}
