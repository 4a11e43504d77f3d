/** The smooth curve: chains run until they agree, and summarised. docs/methods/curve.md. */
import { inProcess, type OnProgress, type Quantity, unsettled, type Work } from '@stillstand/science/base';
import { type CurvePlan, runCurve } from './chain/curve-sampler.ts';
import { fromOthers } from './others/from-others.ts';
import type { CurvePoint } from './problem/model.ts';
import { makeProblem } from './problem/problem.ts';
import { demandSettings } from './problem/settings.ts';
import { quantitiesOf, type Reported } from './result/reported.ts';
import type { CurveResult, CurveSettings } from './result/result.ts';
import { summariseCurve } from './result/summarise-curve.ts';

/** Half of the draws, three quarters, all; then up to 32 times the sweeps. */
export const REPORTED: CurvePlan = {
  warm_up: 300,
  asked_at: [0.5, 0.75, 1],
  doublings: 5,
  expected: 100,
  unsettled: (all: Reported, last: string | null) => unsettled(quantitiesOf(all), last),
};

/**
 * Level (m) and rate (mm/yr) through time from index and limiting points with uncertain ages.
 *
 * Pure and seeded: the same points and settings give the same numbers. Points that cannot be used (`unusablePoints`) are
 * left out and named in the remarks. `onProgress` hears of sweeps done of those planned; the plan grows while the chains
 * disagree, up to 32-fold. It may throw to give the computation up.
 * @throws RangeError where settings are no settings (no chain, fewer than 8 draws, a prior scale of 0).
 */
export const computeCurve = (
  points: readonly CurvePoint[],
  settings: CurveSettings,
  onProgress?: OnProgress,
): CurveResult => inProcess(curveWork(points, settings), onProgress);

/** The same as work for a crew. */
export function* curveWork(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  plan: CurvePlan = REPORTED,
): Work<CurveResult> {
  return (yield* workWithDraws(points, settings, plan)).result;
}

interface WithDraws {
  result: CurveResult;
  quantities: Quantity[];
}

/** The same with the draws of every reported number, by chain, under the name the remarks give it: for simulations. */
export const curveWithDraws = (
  points: readonly CurvePoint[],
  settings: CurveSettings,
  onProgress?: OnProgress,
): WithDraws => inProcess(workWithDraws(points, settings), onProgress);

function* workWithDraws(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  plan: CurvePlan = REPORTED,
): Work<WithDraws> {
  demandSettings(settings);
  const problem = makeProblem(points, settings);
  const run = yield* runCurve(problem, plan);
  const others = yield* fromOthers(problem, run);
  return { result: summariseCurve(problem, run, others), quantities: quantitiesOf(run.all) };
}
