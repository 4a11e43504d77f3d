/**
 * A look at the curve while its points are being changed: a few sweeps, gone on from where the chains of the last look
 * stood, run once, whether they agree or not. To be seen, never to be reported.
 */
import { inProcess, type OnProgress, type Work } from '@stillstand/science/base';
import type { ChainState } from './chain/chain-state.ts';
import { runCurve } from './chain/curve-sampler.ts';
import type { CurvePoint } from './problem/model.ts';
import { makeProblem } from './problem/problem.ts';
import { demandSettings } from './problem/settings.ts';
import type { CurveResult, CurveSettings } from './result/result.ts';
import { summariseCurve } from './result/summarise-curve.ts';

/** Where the chains of a look stand: plain data, to be handed to the next look at these or other points. */
export interface CurveState {
  chains: readonly ChainState[];
}

/** Sweeps of each chain before any is kept; kept draws of each. */
export interface CurvePreview {
  chains: number;
  warm_up: number;
  draws: number;
}

/**
 * A provisional curve and where its chains stand. Points and shared errors that `state` knows begin there, where what is
 * known of them now allows it; others from their priors. Pure: the same points, settings, look and state give the same
 * numbers. Never `converged`. `onProgress` may throw to give the look up.
 * @throws RangeError as `computeCurve`.
 */
export function previewCurve(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  { chains, warm_up, draws }: CurvePreview,
  state: CurveState | null,
  onProgress?: OnProgress,
): { curve: CurveResult; state: CurveState } {
  const asked = { ...settings, chains, draws };
  demandSettings(asked);
  const problem = makeProblem(points, asked);
  return inProcess(work(), onProgress);

  function* work(): Work<{ curve: CurveResult; state: CurveState }> {
    const run = yield* runCurve(problem, {
      warm_up,
      asked_at: [1],
      doublings: 0,
      unsettled: () => null,
      expected: 0,
      from: state?.chains ?? [],
    });
    const curve = summariseCurve(problem, run, null);
    const { remarks } = curve.diagnostics;
    const diagnostics = {
      ...curve.diagnostics,
      converged: false,
      remarks: [`A look of ${chains * draws} draws: provisional.`, ...remarks],
    };
    return { curve: { ...curve, diagnostics }, state: { chains: yield* run.states() } };
  }
}
