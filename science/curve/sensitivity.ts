/** What the interval rates would be with the prior of the rate's standard deviation halved and doubled. */
import { exp } from '@stillstand/science/base';
import { computeCurve } from './compute-curve.ts';
import type { CurvePoint, CurveResult, CurveSettings } from './model.ts';

/** The draws stand for another prior where their weights are worth at least this share of them. */
const WORTH = 0.3;

type How = 'reweighted' | 'recomputed';

/**
 * The result with `prior_halved_mm_yr` and `prior_doubled_mm_yr` filled, and how each came about. The half-normal prior of
 * σ with scale S becomes one of scale kS by weighing each draw with exp(−σ²(k⁻² − 1)/2S²), where the effective number of
 * weights, (Σw)²/Σw², is at least 0.3 of the draws and both ends of every interval are reported ages; else the curve is
 * computed again with that prior and the same seed. `onProgress` as for `computeCurve`, once for each computation.
 */
export function curveSensitivity(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  result: CurveResult,
  onProgress?: (done: number, of: number) => void,
): { result: CurveResult; halved: How; doubled: How } {
  const halved = withPrior(0.5, points, settings, result, onProgress);
  const doubled = withPrior(2, points, settings, result, onProgress);
  return {
    result: {
      ...result,
      intervals: result.intervals.map((interval, k) => ({
        ...interval,
        prior_halved_mm_yr: halved.means[k]!,
        prior_doubled_mm_yr: doubled.means[k]!,
      })),
    },
    halved: halved.how,
    doubled: doubled.how,
  };
}

function withPrior(
  factor: number,
  points: readonly CurvePoint[],
  settings: CurveSettings,
  result: CurveResult,
  onProgress?: (done: number, of: number) => void,
): { means: number[]; how: How } {
  const weighted = settings.intervals.map((interval) => rateUnderPrior(factor, result, interval));
  if (weighted.every((mean) => mean !== null)) return { means: weighted, how: 'reweighted' };
  const { priors } = settings;
  const rate_sd_scale_mm_yr = factor * priors.rate_sd_scale_mm_yr;
  const again = computeCurve(points, { ...settings, priors: { ...priors, rate_sd_scale_mm_yr } }, onProgress);
  return { means: again.intervals.map((i) => i.rate_mm_yr.mean), how: 'recomputed' };
}

/**
 * The mean rate over one interval (mm/yr) with the prior of σ `factor` times as wide, from the draws by weight; null where
 * an end is not a reported age or the draws do not carry so far.
 */
export function rateUnderPrior(
  factor: number,
  { settings, draws }: CurveResult,
  { older_cal_bp, younger_cal_bp }: { older_cal_bp: number; younger_cal_bp: number },
): number | null {
  const ages = settings.ages_cal_bp;
  const older = ages.indexOf(older_cal_bp);
  const younger = ages.indexOf(younger_cal_bp);
  if (older < 0 || younger < 0) return null;
  const { rate_sd_mm_yr, level_m } = draws;
  const scale = settings.priors.rate_sd_scale_mm_yr;
  const steepness = (factor ** -2 - 1) / (2 * scale * scale);
  const exponent = rate_sd_mm_yr.map((sd) => -steepness * sd * sd);
  const largest = exponent.reduce((most, x) => Math.max(most, x), -Infinity);
  const weight = exponent.map((x) => exp(x - largest));
  const sum = weight.reduce((total, w) => total + w, 0);
  const squares = weight.reduce((total, w) => total + w * w, 0);
  if (!((sum * sum) / squares >= WORTH * weight.length)) return null;
  let rise = 0;
  weight.forEach((w, d) => {
    rise += w * (level_m[d * ages.length + younger]! - level_m[d * ages.length + older]!);
  });
  return (1000 * rise) / sum / (older_cal_bp - younger_cal_bp);
}
