/** The same points under several models of the rate, ranked by how well each foretells the points. */
import { inProcess, type OnProgress, summaryOf, type Work } from '@stillstand/science/base';
import type { CurvePlan } from './chain/curve-sampler.ts';
import { curveWork, REPORTED } from './compute-curve.ts';
import { rankCurves } from './others/compare.ts';
import type { CurvePoint } from './problem/model.ts';
import { SMOOTH_RATE } from './problem/settings.ts';
import type { RatesCompared } from './result/rates-compared.ts';
import { quantitiesOf, type Reported } from './result/reported.ts';
import type { CurveResult, CurveSettings, RateModel } from './result/result.ts';

/** 1 sd of a jump where the settings have none, m; scale of a mean that slowed, mm/yr per ka. Common practice, no source. */
const JUMP_SD_M = 2;
const SLOWING_MM_YR_KA = 0.5;
/**
 * Scores need less than what is reported, and a model that does not suit the points at all makes outliers of them and is slow
 * to settle: it is given up sooner.
 */
const RHAT = 1.05;
const EFFECTIVE = 100;
const PLAN: CurvePlan = { ...REPORTED, doublings: 1, unsettled: (all) => unsettledForScores(all) };
const unsettledForScores = (all: Reported): string | null =>
  quantitiesOf(all).find((quantity) => {
    const { rhat, ess_bulk } = summaryOf(quantity);
    return !(rhat < RHAT && ess_bulk >= EFFECTIVE);
  })?.name ?? null;

/**
 * Models of the rate to choose from: constant; stepwise with one to four changes, and with one or two that jump; smooth, with a
 * mean that slowed, and with up to two breaks that may jump. Then that of the settings, where it is none of these.
 */
export function ratesToChoose({ rate_model: asked }: Pick<CurveSettings, 'rate_model'>): RateModel[] {
  const { base, jump_sd_m, slowing_mm_yr_ka } = usual(asked);
  const stepwise = (changes: number, jump = 0): RateModel => ({
    ...base,
    kind: 'stepwise',
    changes,
    jump_sd_m: jump,
  });
  return withOwn(asked, [
    base,
    { ...base, slowing_mm_yr_ka },
    { ...base, changes: 2, jump_sd_m },
    ...[1, 2, 3, 4].map((changes) => stepwise(changes)),
    ...[1, 2].map((changes) => stepwise(changes, jump_sd_m)),
    { ...base, kind: 'constant' },
  ]);
}

/** Those that are compared: of the stepwise ones with one change, with one that jumps, and with two. */
export function ratesToCompare(settings: Pick<CurveSettings, 'rate_model'>): RateModel[] {
  const isCompared = ({ kind, changes, jump_sd_m }: RateModel): boolean =>
    kind !== 'stepwise' || changes === 1 || (changes === 2 && jump_sd_m === 0);
  return withOwn(settings.rate_model, ratesToChoose(settings).filter(isCompared));
}

/** The settings, whichever of the models that are compared anyway they have: so a comparison outlives the choice of one. */
export function settingsToCompare(settings: CurveSettings): CurveSettings {
  const { base } = usual(settings.rate_model);
  const plain = { ...settings, rate_model: base };
  return ratesToCompare(plain).some((model) => isSameRate(model, settings.rate_model)) ? plain : settings;
}

function usual(asked: RateModel): { base: RateModel; jump_sd_m: number; slowing_mm_yr_ka: number } {
  const { changes_from_cal_bp, changes_to_cal_bp } = asked;
  return {
    base: { ...SMOOTH_RATE, changes_from_cal_bp, changes_to_cal_bp },
    jump_sd_m: asked.jump_sd_m > 0 ? asked.jump_sd_m : JUMP_SD_M,
    slowing_mm_yr_ka: asked.slowing_mm_yr_ka > 0 ? asked.slowing_mm_yr_ka : SLOWING_MM_YR_KA,
  };
}

const withOwn = (own: RateModel, models: RateModel[]): RateModel[] =>
  models.some((model) => isSameRate(model, own)) ? models : [...models, own];

/** Whether two models of the rate are one. */
export const isSameRate = (a: RateModel, b: RateModel): boolean =>
  a.kind === b.kind &&
  a.changes === b.changes &&
  (a.changes === 0 || a.jump_sd_m === b.jump_sd_m) &&
  a.slowing_mm_yr_ka === b.slowing_mm_yr_ka;

/** Each model's curve, as work for a crew; then their ranks. Where there are no points, none. */
export function* compareRatesWork(
  points: readonly CurvePoint[],
  settings: CurveSettings,
): Work<RatesCompared> {
  const curves: { name: string; model: RateModel; curve: CurveResult }[] = [];
  for (const [k, rate_model] of ratesToCompare(settings).entries()) {
    const found = yield* curveWork(points, { ...settings, rate_model }, PLAN);
    const { rhat_max, ess_bulk_min } = found.diagnostics;
    const converged = rhat_max < RHAT && ess_bulk_min >= EFFECTIVE;
    const curve = { ...found, diagnostics: { ...found.diagnostics, converged } };
    curves.push({ name: String(k), model: rate_model, curve });
  }
  if (curves[0]!.curve.points.length === 0) return [];
  return rankCurves(curves).map(({ name, score, score_mcse, behind }) => {
    const { model, curve } = curves[Number(name)]!;
    return {
      rate_model: model,
      converged: curve.diagnostics.converged,
      score,
      score_mcse,
      behind: behind?.difference ?? null,
      behind_se: behind?.difference_se ?? null,
      undecided: behind?.because ?? null,
      rate_mm_yr: curve.intervals[0]?.rate_mm_yr ?? null,
    };
  });
}

/** The same at once. */
export const compareRates = (
  points: readonly CurvePoint[],
  settings: CurveSettings,
  onProgress?: OnProgress,
): RatesCompared => inProcess(compareRatesWork(points, settings), onProgress);
