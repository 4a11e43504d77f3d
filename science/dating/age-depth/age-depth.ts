/** Age against depth in one hole: chains run until they agree, and summarised. docs/methods/age-depth.md. */
import {
  inProcess,
  type OnProgress,
  type Quantity,
  type RandomStream,
  runChains,
  unsettled,
  type Work,
} from '@stillstand/science/base';
import { makeHole } from './hole.ts';
import type { AgeDepth, AgeDepthInput, NotEnough } from './model.ts';
import { unsettledHistories } from './modes.ts';
import { reported } from './reported.ts';
import { ageDepthSampler } from './sampler.ts';
import { type AgeDepthSettings, demandSettings } from './settings.ts';
import { summariseAgeDepth } from './summarise.ts';

/** Sweeps before any is kept, and between draws at first; shares of the draws the chains are asked at; then up to 16
 * times the sweeps. */
export const PLAN = { warm_up: 200, thin: 3, asked_at: [0.6, 0.8, 1], doublings: 6 };

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
  onProgress?: OnProgress,
): AgeDepth | NotEnough {
  return inProcess(ageDepthWork(input, settings, stream), onProgress);
}

/** The same as work for a crew. */
export function* ageDepthWork(
  input: AgeDepthInput,
  settings: AgeDepthSettings,
  stream: RandomStream,
): Work<AgeDepth | NotEnough> {
  const run = yield* workWithDraws(input, settings, stream);
  return run.kind === 'not_enough' ? run : run.result;
}

interface WithDraws {
  kind: 'run';
  result: AgeDepth;
  quantities: readonly Quantity[];
}

/** The same with the draws of every reported number, by chain, under the name the remarks give it: for simulations. */
export const ageDepthWithDraws = (
  input: AgeDepthInput,
  settings: AgeDepthSettings,
  stream: RandomStream,
): WithDraws | NotEnough => inProcess(workWithDraws(input, settings, stream));

function* workWithDraws(
  input: AgeDepthInput,
  settings: AgeDepthSettings,
  stream: RandomStream,
): Work<WithDraws | NotEnough> {
  demandSettings(settings);
  const hole = makeHole(input, settings);
  if ('kind' in hole) return hole;
  const { draws, kept, sweeps, all } = yield* runChains(
    ageDepthSampler,
    hole,
    {
      ...PLAN,
      chains: settings.chains,
      draws: settings.draws,
      report: (draws, kept) => ({
        ...reported(hole, draws, kept),
        histories: () => unsettledHistories(hole, draws, kept),
      }),
      unsettled: ({ all, histories }, last) => unsettled(all, last) ?? histories(),
    },
    stream.split('age against depth'),
  );
  return {
    kind: 'run',
    result: summariseAgeDepth(hole, draws, kept, sweeps, all),
    quantities: all.all,
  };
}
