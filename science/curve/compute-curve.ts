/** The smooth curve: chains run until they agree, and summarised. docs/methods/curve.md. */
import { fromOthers } from './from-others.ts';
import type { CurvePoint } from './model.ts';
import { makeProblem } from './problem.ts';
import { quantitiesOf, unsettled } from './reported.ts';
import type { CurveResult, CurveSettings } from './result.ts';
import { runChains, TOLD_EVERY } from './run-chains.ts';
import { demandSettings } from './settings.ts';
import { summariseCurve } from './summarise-curve.ts';

/** Half of the draws, three quarters, all; then up to 32 times the sweeps. */
const REPORTED = { warm_up: 300, asked_at: [0.5, 0.75, 1], doublings: 5, expected: 100 };

/**
 * Level (m) and rate (mm/yr) through time from index and limiting points with uncertain ages.
 *
 * Pure and seeded: the same points and settings give the same numbers. Points that cannot be used (`unusablePoints`) are
 * left out and named in the remarks. `onProgress` hears of sweeps done of those planned; the plan grows while the chains
 * disagree, up to 32-fold. It may throw to give the computation up.
 * @throws RangeError where settings are no settings (no chain, fewer than 8 draws, a prior scale of 0).
 */
export function computeCurve(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  onProgress?: (done: number, of: number) => void,
): CurveResult {
  return curveWithDraws(points, settings, onProgress).result;
}

/** The same with the draws of every reported number, by chain, under the name the remarks give it: for simulations. */
export function curveWithDraws(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  onProgress?: (done: number, of: number) => void,
): { result: CurveResult; quantities: { name: string; chains: Float64Array[] }[] } {
  demandSettings(settings);
  const problem = makeProblem(points, settings);
  const run = runChains(problem, { ...REPORTED, draws: settings.draws, unsettled }, onProgress);
  let done = 0;
  const others = fromOthers(run, (of) => {
    done += 1;
    if (done % TOLD_EVERY === 0 || done === of) onProgress?.(run.done + done, run.done + of);
  });
  return { result: summariseCurve(problem, run, others), quantities: quantitiesOf(run.all) };
}
