/** What the mean rates over the intervals would be under other priors, without outliers, and without some of the points. */
import { inProcess, type OnProgress, summaryOf, type Work } from '@stillstand/science/base';
import { runCurve } from '../chain/curve-sampler.ts';
import { curveWork } from '../compute-curve.ts';
import type { CurvePoint } from '../problem/model.ts';
import { isBuried, makeProblem } from '../problem/problem.ts';
import { demandSettings } from '../problem/settings.ts';
import type { Reported } from './reported.ts';
import type { CurveResult, CurveSettings } from './result.ts';

/** Rates computed again need no more than a Monte-Carlo error of this share of their sd, and this R-hat. */
const ERROR = 0.1;
const RHAT = 1.05;
const AGAIN = {
  warm_up: 200,
  draws: 400,
  asked_at: [0.375, 0.5, 0.75, 1],
  doublings: 3,
  expected: 0,
  unsettled: ({ interval }: Reported): string | null =>
    interval.find((q) => !isExactEnough(summaryOf(q)))?.name ?? null,
};

/**
 * The curve with all that can be said of its interval rates: under the prior of σ halved and doubled where its own draws
 * did not carry so far, with every date and height taken as given, and without the points named in `intercalated`. What has to be computed again is computed to a
 * Monte-Carlo error of a tenth of the rate's sd; it stays null where that is not reached, and without points where nothing
 * is left out or no point remains.
 */
export function* curveWithSensitivity(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  intercalated: ReadonlySet<string>,
): Work<CurveResult> {
  return yield* curveSensitivity(points, settings, yield* curveWork(points, settings), intercalated);
}

/** The same of a curve that is known. */
export function* curveSensitivity(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  result: CurveResult,
  intercalated: ReadonlySet<string>,
): Work<CurveResult> {
  const { priors, intervals } = settings;
  const none = intervals.map(() => null);
  const underPrior = function* (
    factor: number,
    known: readonly (number | null)[],
  ): Work<readonly (number | null)[]> {
    if (known.every((rate) => rate !== null)) return known;
    const rate_sd_scale_mm_yr = factor * priors.rate_sd_scale_mm_yr;
    return yield* ratesAgain(points, { ...settings, priors: { ...priors, rate_sd_scale_mm_yr } });
  };
  const halved = yield* underPrior(
    0.5,
    result.intervals.map((i) => i.prior_halved_mm_yr),
  );
  const doubled = yield* underPrior(
    2,
    result.intervals.map((i) => i.prior_doubled_mm_yr),
  );
  const asGiven =
    settings.outliers === null ? none : yield* ratesAgain(points, { ...settings, outliers: null });
  const isLowered = settings.burial_percent !== null && points.some(isBuried);
  const unburied = isLowered ? yield* ratesAgain(points, { ...settings, burial_percent: null }) : none;
  const firm = points.filter((p) => !intercalated.has(p.id));
  const some = firm.length > 0 && firm.length < points.length;
  const without = some ? yield* ratesAgain(firm, settings) : none;
  return {
    ...result,
    intervals: result.intervals.map((interval, k) => ({
      ...interval,
      prior_halved_mm_yr: halved[k]!,
      prior_doubled_mm_yr: doubled[k]!,
      no_outliers_mm_yr: asGiven[k]!,
      no_burial_mm_yr: unburied[k]!,
      without_intercalated_mm_yr: without[k]!,
    })),
  };
}

/** Mean rates over the intervals alone, mm/yr; null for those whose error is too large. */
export const meanRates = (
  points: readonly CurvePoint[],
  settings: CurveSettings,
  onProgress?: OnProgress,
): (number | null)[] => inProcess(ratesAgain(points, settings), onProgress);

function* ratesAgain(points: readonly CurvePoint[], settings: CurveSettings): Work<(number | null)[]> {
  demandSettings(settings);
  const { draws, ...plan } = AGAIN;
  const problem = makeProblem(points, { ...settings, ages_cal_bp: [], draws });
  const { all } = yield* runCurve(problem, plan);
  return all.interval.map(summaryOf).map((s) => (isExactEnough(s) ? s.mean : null));
}

function isExactEnough({ mcse, sd, rhat }: { mcse: number; sd: number; rhat: number }): boolean {
  return mcse <= ERROR * sd && rhat < RHAT;
}
