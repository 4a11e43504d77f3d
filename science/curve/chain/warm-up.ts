/** The first sweeps of a chain: it finds the posterior, tunes its steps and learns which limits to hold. */
import { drawHeight } from '../problem/height.ts';
import type { Path } from '../process/path.ts';
import { learnPath } from './anywhere.ts';
import type { Chain } from './chain.ts';
import { drawWholePath, hold, pressing, watchLimits } from './loose-limits.ts';
import { release } from './release.ts';

/** Limits are watched from the end of the first stage on, and taken into the chain at the end of each later one. */
const STAGES = 6;
/** Every so many sweeps. */
const WATCHED = 3;
/** In the second half of the warm-up the chain learns from a path every so many sweeps where outliers may lie. */
const SEEN = 3;

/** After so many paths turned away one after another the loose limits are held after all. */
export const PATIENCE = 40;

/** After sweep `k` of the warm-up (1 … `of`): how the sea lies, how the loose limits fare, and which to hold. `whole`: room for a path. */
export function learnLimits(chain: Chain, whole: Path, k: number, of: number): void {
  const { limits, problem, anywhere } = chain;
  if (anywhere.learning !== null && 2 * k > of && k % SEEN === 0) {
    drawPathOf(chain, anywhere.learning.path);
    learnPath(anywhere);
  }
  const stage = Math.max(1, Math.floor(of / STAGES));
  const ends = k % stage === 0;
  if (k <= stage || limits.points.length === 0 || !(ends || k % WATCHED === 0)) return;
  drawPathOf(chain, whole);
  watchLimits(limits, problem, whole, chain.shift_m);
  if (ends) holdLimits(chain, pressing(limits), whole);
}

/** A draw of the path at all nodes and reported ages given the state of the chain. */
export function drawPathOf(chain: Chain, into: Path): void {
  drawWholePath(chain.limits, into, chain.o.variance_m2, chain.rates, chain.stream);
}

/** Takes limits into the chain, each with a latent height near the path it has just drawn. */
export function holdLimits(chain: Chain, held: readonly number[], drawn: Path): void {
  const { limits, problem, o, stream } = chain;
  for (const i of held) {
    const expected = drawn.levelAtNode_m[i]! + chain.shift_m[i]!;
    const { height_m } = problem.points[i]!;
    chain.latent_m[i] = drawHeight(problem.kind[i]!, height_m, 0, expected, o.variance_m2[i]!, stream);
  }
  hold(limits, o, held);
  chain.release = release(problem, o, limits.isLoose);
}
