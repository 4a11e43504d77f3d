/** The same points under several models of the rate, ranked by how well each foretells the points. */
import { inProcess, type OnProgress, type Work } from '@stillstand/science/base';
import { curveWork } from './compute-curve.ts';
import { rankCurves } from './others/compare.ts';
import type { CurvePoint } from './problem/model.ts';
import { SMOOTH_RATE } from './problem/settings.ts';
import type { RatesCompared } from './result/rates-compared.ts';
import type { CurveResult, CurveSettings, RateModel } from './result/result.ts';

/** 1 sd of a jump where the settings have none, m; scale of a mean that slowed, mm/yr per ka. Common practice, no source. */
const JUMP_SD_M = 2;
const SLOWING_MM_YR_KA = 0.5;
/** A model that does not suit the points at all makes outliers of them and is slow to settle: it is given up sooner. */
const DOUBLINGS = 3;

/**
 * The models that are compared: constant; stepwise with one to four changes, and with one that jumps; smooth, with a mean that
 * slowed, and with up to two breaks that may jump. Then that of the settings, where it is none of these.
 */
export function ratesToCompare({ rate_model: asked }: Pick<CurveSettings, 'rate_model'>): RateModel[] {
  const { changes_from_cal_bp, changes_to_cal_bp } = asked;
  const base: RateModel = { ...SMOOTH_RATE, changes_from_cal_bp, changes_to_cal_bp };
  const jump_sd_m = asked.jump_sd_m > 0 ? asked.jump_sd_m : JUMP_SD_M;
  const slowing_mm_yr_ka = asked.slowing_mm_yr_ka > 0 ? asked.slowing_mm_yr_ka : SLOWING_MM_YR_KA;
  const models: RateModel[] = [
    { ...base, kind: 'constant' },
    ...[1, 2, 3, 4].map((changes): RateModel => ({ ...base, kind: 'stepwise', changes })),
    { ...base, kind: 'stepwise', changes: 1, jump_sd_m },
    base,
    { ...base, slowing_mm_yr_ka },
    { ...base, changes: 2, jump_sd_m },
  ];
  return models.some((model) => isSameRate(model, asked)) ? models : [...models, asked];
}

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
    const curve = yield* curveWork(points, { ...settings, rate_model }, DOUBLINGS);
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
