/** One chain over the histories of holes whose dates share errors, and these errors. docs/methods/age-depth.md. */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { sweep } from '../chain.ts';
import { tuned } from '../moves.ts';
import { depthsIn, endWarmUpOfWalk, type HoleToWalk, startWalk } from '../walk.ts';
import {
  giveSharedDates,
  holesIn,
  logOfSharedDates,
  nothingGiven,
  type SharedDate,
  type SharingWalk,
  shiftHoles,
  unshiftHoles,
} from './shared-dates.ts';

/** Holes ready, in one chain. */
export interface HolesReady {
  holes: readonly { hole: string; model: HoleToWalk; shared: readonly SharedDate[] }[];
  /** Names of the errors. */
  groups: readonly string[];
  /** Largest 1 sigma of each, yr (of a reservoir 14C yr). */
  sigma_yr: Float64Array;
}

export interface ChainTogether {
  walks: readonly SharingWalk[];
  groups: readonly string[];
  /** By group: the walks it is in, the error in its sds, the step of a shift of it. */
  of: readonly (readonly SharingWalk[])[];
  error: Float64Array;
  sigma_yr: Float64Array;
  step: Float64Array;
  stream: RandomStream;
  /** In the warm-up: sweeps so far. */
  tuning: number | null;
}

/** Steps of an error a sweep, in its sds, the ages as they are. */
const STAYING = [1, 0.4, 0.16, 0.4];
/** Steps with all ages of its holes shifted: as tuned, and from one end of what is likely to the other. */
const SHIFTED = 4;
const FAR = 2;

/** Each error and each hole is drawn by itself, so that chains start as far apart as they may. */
export function startTogether({ holes, groups, sigma_yr }: HolesReady, stream: RandomStream): ChainTogether {
  const walks = holes.map(
    ({ hole, model, shared }): SharingWalk => ({
      walk: startWalk(model, depthsIn(model, []), stream.split('history').split(hole)),
      shared,
      given: nothingGiven(shared),
    }),
  );
  const own = stream.split('errors');
  const error = Float64Array.from(groups, () => own.normal());
  giveSharedDates(walks, groups, error);
  return {
    walks,
    groups,
    of: groups.map((group) => holesIn(walks, group)),
    error,
    sigma_yr,
    step: new Float64Array(groups.length).fill(0.5),
    stream: own,
    tuning: 0,
  };
}

export function sweepTogether(chain: ChainTogether): void {
  const { walks, groups, error, of } = chain;
  for (const { walk } of walks) sweep(walk.chain);
  for (let g = 0; g < groups.length; g++) {
    stepStaying(chain, g);
    for (let k = 0; k < SHIFTED; k++) {
      const wasMade = stepShifted(chain, g, chain.step[g]!);
      if (chain.tuning !== null) chain.step[g] = tuned(chain.step[g]!, wasMade, chain.tuning);
    }
    stepShifted(chain, g, FAR);
    // A hole may have dates of another error too, which then move with it.
    giveSharedDates(of[g]!, groups, error);
  }
  if (chain.tuning !== null) chain.tuning++;
}

/** The ages stay. */
function stepStaying({ of, groups, error, stream }: ChainTogether, g: number): void {
  const logOf = (shift: number): number => logOfSharedDates(of[g]!, groups[g]!, shift) - 0.5 * shift * shift;
  let here = logOf(error[g]!);
  for (const length of STAYING) {
    const shift = error[g]! + length * stream.normal();
    const there = logOf(shift);
    if (!(log(stream.uniform()) < there - here)) continue;
    error[g] = shift;
    here = there;
  }
}

/** The ages of its holes move by as many years as the error; returns whether they did. */
function stepShifted({ of, groups, error, stream }: ChainTogether, g: number, step: number): boolean {
  const before = error[g]!;
  const after = before + step * stream.normal();
  const gain = shiftHoles(of[g]!, groups[g]!, before, after) + 0.5 * (before * before - after * after);
  if (gain >= 0 || stream.uniform() < exp(gain)) {
    error[g] = after;
    return true;
  }
  unshiftHoles(of[g]!);
  return false;
}

export function endWarmUpTogether(chain: ChainTogether): void {
  chain.tuning = null;
  for (const { walk } of chain.walks) endWarmUpOfWalk(walk);
}
