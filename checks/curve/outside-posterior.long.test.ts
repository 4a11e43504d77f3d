/**
 * The smooth curve against posteriors of the same model and priors computed outside the product (data/README.md): every
 * level, rate, latent age and hyperparameter. Seed 5; 32,000 draws a set, so that our own Monte-Carlo error stays near a
 * hundredth of a posterior sd.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { computeCurve, DEFAULT_CURVE_SETTINGS } from '@stillstand/science/curve';
import { referenceSet } from './reference-sets.ts';

/**
 * Of a mean, in outside posterior sds; of an sd, relative. As first written, for a quarter fewer draws; seven of our own
 * Monte-Carlo errors, which are 0.011 at 8,900 effective draws.
 */
const MEAN = 0.08;
const SD = 0.08;

for (const name of ['normal_n20', 'normal_n50', 'radiocarbon_a']) {
  test(`posterior of ${name} agrees with the outside one (seed 5)`, async (t) => {
    const { points, posterior } = await referenceSet(name);
    const ages = posterior.filter((v) => v.quantity === 'level_m').map((v) => Number(v.at));
    assert.equal(ages.length, 50);
    const result = computeCurve(points, {
      ...DEFAULT_CURVE_SETTINGS,
      outliers: null,
      ages_cal_bp: ages,
      intervals: [],
      age_range_cal_bp: { youngest: 0, oldest: 12_000 },
      seed: 5,
      draws: 16_000,
    });
    assert.deepEqual(result.diagnostics.remarks, []);
    const find = (quantity: string, at: string): { mean: number; sd: number } => {
      const k = ages.indexOf(Number(at));
      switch (quantity) {
        case 'level_m':
          return { mean: result.level_m.mean[k]!, sd: result.level_m.sd[k]! };
        case 'rate_mm_yr':
          return { mean: result.rate_mm_yr.mean[k]!, sd: result.rate_mm_yr.sd[k]! };
        case 'level_at_0_m':
          return { mean: result.level_m.mean[0]!, sd: result.level_m.sd[0]! };
        case 'sigma_mm_yr':
          return result.rate_sd_mm_yr;
        case 'length_ka':
          return result.length_ka!;
        default: {
          const age = result.points.find((p) => p.id === at)!.age_cal_bp;
          return { mean: age.mean / 1000, sd: age.sd / 1000 };
        }
      }
    };
    let worstMean = 0;
    let worstSd = 0;
    for (const v of posterior) {
      const ours = find(v.quantity, v.at);
      const mean = Math.abs(ours.mean - v.mean) / v.sd;
      const sd = Math.abs(ours.sd / v.sd - 1);
      worstMean = Math.max(worstMean, mean);
      worstSd = Math.max(worstSd, sd);
      assert.ok(mean < MEAN, `mean of ${v.quantity} ${v.at}: ${ours.mean}, outside ${v.mean} ± ${v.sd}`);
      assert.ok(sd < SD, `sd of ${v.quantity} ${v.at}: ${ours.sd}, outside ${v.sd}`);
    }
    assert.equal(posterior.length, 103 + points.length);
    t.diagnostic(
      `${posterior.length} quantities: means within ${worstMean.toFixed(3)} sd, sds within ${(100 * worstSd).toFixed(1)} %; ` +
        `least effective draws ${Math.round(result.diagnostics.ess_bulk_min)}`,
    );
  });
}
