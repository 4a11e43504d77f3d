/** The smooth curve: chains run until they agree, and summarised. docs/methods/curve.md. */
import type { CurvePoint, CurveResult, CurveSettings } from './model.ts';
import { makeProblem } from './problem.ts';
import { quantitiesOf, unsettled } from './reported.ts';
import { runChains } from './run-chains.ts';
import { demandSettings } from './settings.ts';
import { summariseCurve } from './summarise-curve.ts';

/** Half of the draws, three quarters, all; then up to 32 times the sweeps. */
const REPORTED = { warm_up: 300, asked_at: [0.5, 0.75, 1], doublings: 5 };

/** A first look at a curve: few sweeps, run once, whether the chains agree or not. Never to be reported. */
interface FirstLook {
  warm_up: number;
}

/**
 * Level (m) and rate (mm/yr) through time from index and limiting points with uncertain ages.
 *
 * Pure and seeded: the same points and settings give the same numbers. Points that cannot be used (`unusablePoints`) are
 * left out and named in the remarks. `onProgress` hears of sweeps done of those planned; the plan grows while the chains
 * disagree, up to 32-fold. It may throw to give the computation up. `firstLook` warms up shorter and never goes on.
 * @throws RangeError where settings are no settings (no chain, fewer than 8 draws, a prior scale of 0).
 */
export function computeCurve(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  onProgress?: (done: number, of: number) => void,
  firstLook: FirstLook | null = null,
): CurveResult {
  return curveWithDraws(points, settings, onProgress, firstLook).result;
}

/** The same with the draws of every reported number, by chain, under the name the remarks give it: for simulations. */
export function curveWithDraws(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  onProgress?: (done: number, of: number) => void,
  firstLook: FirstLook | null = null,
): { result: CurveResult; quantities: { name: string; chains: Float64Array[] }[] } {
  demandSettings(settings);
  const problem = makeProblem(points, settings);
  const stages = firstLook === null ? REPORTED : { ...firstLook, asked_at: [1], doublings: 0 };
  const run = runChains(problem, { ...stages, draws: settings.draws, unsettled }, onProgress);
  return { result: summariseCurve(problem, run), quantities: quantitiesOf(run.all) };
}
