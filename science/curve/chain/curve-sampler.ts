/** The chains of a curve as the engine sweeps them: the warm-up, what is kept, and what a chain may be asked at its end. */
import {
  type Plan,
  type Run,
  randomStream,
  runChains,
  type Sampler,
  type Work,
} from '@stillstand/science/base';
import { endWarmUpOfWalks } from '../histories/walks.ts';
import { expectedWithout } from '../others/expected-without.ts';
import { type Expected, keepExpected, type Others, others } from '../others/leave-one-out.ts';
import type { Problem } from '../problem/problem.ts';
import { type Path, path } from '../process/path.ts';
import { type Reported, reported } from '../result/reported.ts';
import { fixPlaces } from './anywhere.ts';
import { type Chain, startChain } from './chain.ts';
import { type ChainState, goOnFrom, stateOf } from './chain-state.ts';
import { type Draws, emptyDraws, keepDraw, type Reports, reports } from './draws.ts';
import { keepOneBreak, type OneBreak, oneBreak } from './one-break.ts';
import { sweep } from './sweep.ts';
import { holdLimits, learnLimits, PATIENCE } from './warm-up.ts';

export interface CurveProblem {
  problem: Problem;
  /** Where chains stood before, to go on from in turn; started from the priors where there is none. */
  from: readonly ChainState[];
  /** Every so many draws a chain is asked what its other points expect of each; null for at none. */
  askedEvery: number | null;
}

/** A chain, and room for what it is asked. */
interface Walk {
  chain: Chain;
  reports: Reports;
  /** For paths of the warm-up. */
  whole: Path;
  askedEvery: number | null;
  others: Others | null;
  oneBreak: OneBreak | null;
}

/** Where a chain stands, to go on from with other points; or what is expected of some points by chains without each. */
type Question = { of: 'state' } | { of: 'points'; without: readonly number[] };
type Answer = ChainState | Expected[];

export const curveSampler: Sampler<CurveProblem, Walk, Draws, Question, Answer> = {
  name: 'curve',
  start({ problem, from, askedEvery }, stream, c) {
    const chain = startChain(problem, stream);
    if (from.length > 0) goOnFrom(chain, from[c % from.length]!);
    return {
      chain,
      reports: reports(problem),
      whole: path(problem.nodes, new Float64Array(0)),
      askedEvery,
      others: askedEvery === null ? null : others(chain),
      oneBreak: askedEvery === null ? null : oneBreak(problem, chain.rates),
    };
  },
  sweep: ({ chain }) => sweep(chain),
  learn: ({ chain, whole }, k, of) => learnLimits(chain, whole, k, of),
  endWarmUp: ({ chain }) => {
    chain.adapting = false;
    endWarmUpOfWalks(chain.walks);
    fixPlaces(chain.problem, chain.anywhere, chain.shift_m);
  },
  room: ({ problem, askedEvery }, draws) =>
    emptyDraws(problem, draws, askedEvery === null ? 0 : Math.floor(draws / askedEvery)),
  keep({ chain, reports, askedEvery, others, oneBreak }, draws, at, turnedAway) {
    if (!keepDraw(chain, reports, draws, at)) {
      if (turnedAway === PATIENCE) holdLimits(chain, chain.limits.points, reports.path);
      return false;
    }
    if (askedEvery === null || (at + 1) % askedEvery !== 0) return true;
    const asked = (at + 1) / askedEvery - 1;
    if (others !== null) keepExpected(chain, reports.path, others, draws.expected, asked);
    if (oneBreak !== null) keepOneBreak(chain, oneBreak, draws.one_break, asked);
    return true;
  },
  answer: ({ chain }, question, swept) =>
    question.of === 'state' ? stateOf(chain) : question.without.map((i) => expectedWithout(i, chain, swept)),
};

export interface CurvePlan
  extends Pick<Plan<Draws, Reported>, 'warm_up' | 'asked_at' | 'doublings' | 'unsettled'> {
  from?: readonly ChainState[];
  /** At about so many draws of each chain it is asked what the others expect of each point; 0 for at none. */
  expected: number;
}

export interface CurveRun extends Omit<Run<Draws, Reported>, 'ask'> {
  /** Kept columns of what is expected of each point. */
  expected: number;
  /** Where each chain stands. */
  states(): Work<ChainState[]>;
  /** What is expected of some points by chains without each: by chain, in the order asked. `sweeps`: of all together. */
  without(points: readonly number[], sweeps: number): Work<Expected[][]>;
}

/** Chains and draws as the settings have them, and their seed. */
export function* runCurve(problem: Problem, { from = [], expected, ...plan }: CurvePlan): Work<CurveRun> {
  const { chains, draws, seed } = problem.settings;
  const askedEvery = expected === 0 ? null : Math.max(1, Math.floor(draws / expected));
  const { ask, ...run } = yield* runChains(
    curveSampler,
    { problem, from, askedEvery },
    { ...plan, chains, draws, thin: 1, report: (kept, count) => reported(problem, kept, count) },
    randomStream(seed).split('curve'),
  );
  return {
    ...run,
    expected: askedEvery === null ? 0 : Math.floor(run.kept / askedEvery),
    *states() {
      return (yield* ask({ of: 'state' }, 0)) as ChainState[];
    },
    *without(points, sweeps) {
      return (yield* ask({ of: 'points', without: points }, sweeps)) as Expected[][];
    },
  };
}
