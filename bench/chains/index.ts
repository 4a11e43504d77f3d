/**
 * What a crew of threads gains for a curve: whole computations in this thread and by 1, 2 and 4 threads of Node, in the
 * same run, and how much of the one thread's time goes to chains, which is all that threads can share.
 */
import { availableParallelism } from 'node:os';
import { inProcess, type Work, withCrew } from '@stillstand/science/base';
import { curveWithSensitivity, DEFAULT_CURVE_SETTINGS } from '@stillstand/science/curve';
import { nodeCrew } from '../../checks/chains/node-crew.ts';
import { risingSea } from '../curve/index.ts';

export interface ChainsBench {
  points: number;
  processors: number;
  /** One thread, s; the least of the repeats. */
  seconds: number;
  /** Share of it that four chains took: 1 − the share of setting up, asking and summing up. */
  share_of_chains: number;
  /** Time by so many threads ÷ time by none, threads ready; the least of the repeats each. */
  by_1: number;
  by_2: number;
  by_4: number;
  /** Until four threads have answered for the first time, s. */
  ready_seconds: number;
}

export async function benchChains(points = 60, repeats = 3): Promise<ChainsBench> {
  const sea = risingSea(points);
  const settings = {
    ...DEFAULT_CURVE_SETTINGS,
    ages_cal_bp: Array.from({ length: 79 }, (_, k) => 100 * k),
    intervals: [{ older_cal_bp: 7000, younger_cal_bp: 2000 }],
  };
  const work = (): Work<unknown> => curveWithSensitivity(sea, settings, new Set());
  const here = await least(repeats, () => inProcess(work()));
  let ready_seconds = 0;
  const by = async (threads: number): Promise<number> => {
    const begin = performance.now();
    const { crew } = nodeCrew(threads);
    await withCrew(curveWithSensitivity(sea.slice(0, 3), { ...settings, ages_cal_bp: [] }, new Set()), crew);
    ready_seconds = (performance.now() - begin) / 1000;
    const seconds = await least(repeats, () => withCrew(work(), crew));
    await crew.dismiss();
    return seconds / here;
  };
  const by_1 = await by(1);
  const by_2 = await by(2);
  const by_4 = await by(4);
  return {
    points,
    processors: availableParallelism(),
    seconds: here,
    share_of_chains: shareOfChains(work()),
    by_1,
    by_2,
    by_4,
    ready_seconds,
  };
}

/** The first warms the engine up. */
async function least(repeats: number, run: () => unknown): Promise<number> {
  let seconds = Infinity;
  for (let k = 0; k <= repeats; k++) {
    const begin = performance.now();
    await run();
    if (k > 0) seconds = Math.min(seconds, (performance.now() - begin) / 1000);
  }
  return seconds;
}

/** The generator runs between orders, the chains during them. */
function shareOfChains<Result>(work: Work<Result>): number {
  const begin = performance.now();
  let between = 0;
  const watched = (function* (): Work<Result> {
    let from = performance.now();
    let next = work.next();
    while (next.done !== true) {
      between += performance.now() - from;
      const replies = yield next.value;
      from = performance.now();
      next = work.next(replies);
    }
    between += performance.now() - from;
    return next.value;
  })();
  inProcess(watched);
  return 1 - between / (performance.now() - begin);
}
