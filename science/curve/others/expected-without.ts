/** What a chain that goes on without a point expects of it. */
import type { Chain } from '../chain/chain.ts';
import { letPass } from '../chain/loose-limits.ts';
import { sweep } from '../chain/sweep.ts';
import { drawPathOf, holdLimits, PATIENCE } from '../chain/warm-up.ts';
import { path } from '../process/path.ts';
import { chainWithout } from './chain-without.ts';
import { type Expected, keepExpectedOf, noneExpected, others } from './leave-one-out.ts';

/** Without a point: sweeps of each chain before it is asked, and how often it is asked, a sweep apart. */
const WARM_UP = 25;
export const ASKED = 40;
export const SWEEPS_WITHOUT = WARM_UP + ASKED;

/** A chain gone on from where it stands, on a stream of its own, without the height of a point. */
export function expectedWithout(i: number, chain: Chain, swept: () => void): Expected {
  const { problem } = chain;
  const without = chainWithout(chain, i, chain.stream.split('without').split(i));
  const room = others(without);
  const expected = noneExpected(problem, ASKED);
  const drawn = path(problem.nodes, new Float64Array(0));
  for (let k = 0; k < WARM_UP; k++) {
    sweep(without);
    swept();
  }
  for (let k = 0; k < ASKED; k++) {
    for (let turnedAway = 0; ; turnedAway++) {
      sweep(without);
      drawPathOf(without, drawn);
      if (letPass(without.limits, problem, drawn, without.shift_m, without.stream)) break;
      if (turnedAway === PATIENCE) holdLimits(without, without.limits.points, drawn);
    }
    swept();
    keepExpectedOf(i, without, drawn, room, expected, k);
  }
  return expected;
}
