/**
 * The whole curve beside a general engine for Bayesian models, JAGS (Plummer 2003, Proc. DSC; in Debian), one chain on one
 * core, the same points and the same model in `general-engine.bug`: effective draws a second, warm-up counted on both sides,
 * of what settles last among σ, ℓ and the ages; and how far their means lie apart, which checks both.
 */
import { join } from 'node:path';
import { essBulk, mean, standardDeviation } from '@stillstand/science/base';
import { type CurvePoint, computeCurve, DEFAULT_CURVE_SETTINGS } from '@stillstand/science/curve';
import {
  type BesideGeneralEngine,
  beside,
  inGeneralEngine,
  isGeneralEngineThere,
  numbersInR,
} from '../general-engine.ts';
import { risingSea } from './index.ts';

export interface GeneralEngineBench extends BesideGeneralEngine {
  points: number;
}

/** Draws of the general engine, after as many to warm up as the first number says. */
const SIZES = [
  { points: 20, warmUp: 300, draws: 1000 },
  { points: 50, warmUp: 200, draws: 400 },
] as const;

/** Null where the engine is not installed. */
export function benchGeneralEngine(): GeneralEngineBench[] | null {
  if (!isGeneralEngineThere()) return null;
  return SIZES.map(({ points: n, warmUp, draws }) => {
    const points = risingSea(n);
    const settings = { ...DEFAULT_CURVE_SETTINGS, outliers: null, depth_order: false, burial_percent: null };
    // The first warms the engine up.
    computeCurve(points, settings);
    const started = performance.now();
    const curve = computeCurve(points, settings);
    const seconds = (performance.now() - started) / 1000;
    const ours = [curve.rate_sd_mm_yr, curve.length_ka!, ...curve.points.map((point) => point.age_cal_bp)];
    const theirs = general(points, warmUp, draws);
    const least = Math.min(...ours.map(({ ess_bulk }) => ess_bulk));
    const theirEss = theirs.draws.map((each) => essBulk([each]));
    const theirLeast = Math.min(...theirEss);
    const apart = ours.map(({ mean: own, sd, ess_bulk }, k) => {
      const each = theirs.draws[k]!;
      const error = Math.hypot(sd / Math.sqrt(ess_bulk), standardDeviation(each) / Math.sqrt(theirEss[k]!));
      return Math.abs(own - mean(each)) / error;
    });
    return {
      points: n,
      ...beside({ seconds, least }, { seconds: theirs.seconds, least: theirLeast }, Math.max(...apart)),
    };
  });
}

/** Draws of σ (mm/yr), ℓ (ka) and the ages (cal BP), and how long all of it took. */
function general(
  points: readonly CurvePoint[],
  warmUp: number,
  draws: number,
): { draws: Float64Array[]; seconds: number } {
  const { priors } = DEFAULT_CURVE_SETTINGS;
  const column = (of: (point: CurvePoint) => number): string => numbersInR(points.map(of));
  const age = (point: CurvePoint): { mean: number; sd: number } =>
    point.age.kind === 'normal'
      ? { mean: point.age.mean_cal_bp / 1000, sd: point.age.sd_yr / 1000 }
      : { mean: Number.NaN, sd: Number.NaN };
  const { drawsOf, seconds } = inGeneralEngine({
    model: join(import.meta.dirname, 'general-engine.bug'),
    data: {
      n: points.length,
      t: column((point) => age(point).mean),
      t_sd: column((point) => age(point).sd),
      y: column((point) => point.height_m),
      s: column((point) => point.sigma_m),
      level_sd: priors.level_sd_m,
      rate_sd_scale: priors.rate_sd_scale_mm_yr,
      length_median: priors.length_median_ka,
      length_log_sd: priors.length_log_sd,
    },
    start: { age: column((point) => age(point).mean), sigma: 2, log_length: 0.7 },
    monitored: ['sigma', 'length', 'age'],
    warmUp,
    draws,
  });
  const ages = points.map((_, i) => drawsOf(`age[${i + 1}]`).map((ka) => 1000 * ka));
  return { draws: [drawsOf('sigma'), drawsOf('length'), ...ages], seconds };
}
