/**
 * One reservoir offset shared by all dates of a set, on a calibration curve that winds: the error may have peaks far apart,
 * and the chains must find all of them and agree. Four seas, 15 and 30 points, outliers in the model, offset ± 100 14C yr.
 * Set before measuring: every set converges; 0.85 of the levels are held, as in `fixed-truths`: 0.95 less a tenth, of 16 sets
 * 2 sigma (0.2 between sets) where the seas are no draws from the prior. Seed 92; the moves were made with seed 91. The gate
 * takes one set of each, `STILLSTAND_SETS=2` the 16, at the same bounds: of 8 sets 0.85 is 1.4 sigma, so closer, never wider.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { randomStream } from '@stillstand/science/base';
import { type CurvePoint, computeCurve } from '@stillstand/science/curve';
import { plain, SEAS, settings } from './known-seas.ts';

const OFFSET_SD_YR = 100;
const SETS = Number(process.env['STILLSTAND_SETS'] ?? 1);
const seas = { ...SEAS, 'a rise of 8 mm/yr': (ka: number) => -8 * ka };

test(`an offset shared by all dates, ${SETS} sets of 15 and 30 points on four seas, seed 92`, async (t) => {
  const curve = await loadCurve('intcal20');
  let sets = 0;
  let converged = 0;
  let held = 0;
  for (const [name, level] of Object.entries(seas))
    for (const n of [15, 30])
      for (let set = 0; set < SETS; set++) {
        const stream = randomStream(92).split(name).split(n).split(set);
        const shared = OFFSET_SD_YR * stream.normal();
        const points = Array.from({ length: n }, (_, i): CurvePoint => {
          const age = Math.round(400 + 7400 * stream.uniform());
          const at = age - curve.from_cal_bp;
          const error_yr = 25 + 35 * stream.uniform();
          const sigma_m = 0.15 + 0.2 * stream.uniform();
          const c14_age =
            curve.c14_age[at]! + shared + Math.hypot(error_yr, curve.sigma_yr[at]!) * stream.normal();
          return {
            ...plain(`P${i}`, level(age / 1000) + sigma_m * stream.normal(), sigma_m),
            age: {
              kind: 'radiocarbon',
              c14_age,
              error_yr,
              curve,
              offset_yr: 0,
              offset_sd_yr: OFFSET_SD_YR,
              delta_r_group: 'shells',
            },
          };
        });
        const age_range_cal_bp = { youngest: -80, oldest: 20_000 };
        const found = computeCurve(points, { ...settings, age_range_cal_bp, chains: 4, seed: set });
        sets++;
        if (found.diagnostics.converged) converged++;
        else t.diagnostic(`${name}, ${n} points: ${found.diagnostics.remarks.join(' ')}`);
        const within = settings.ages_cal_bp.filter((age, k) => {
          const truth = level(age / 1000);
          return truth >= found.level_m.lower95[k]! && truth <= found.level_m.upper95[k]!;
        });
        held += within.length / settings.ages_cal_bp.length;
      }
  t.diagnostic(`${converged} of ${sets} sets converged; levels held ${(held / sets).toFixed(3)}`);
  assert.equal(converged, sets);
  assert.ok(held / sets > 0.85, `${held / sets}`);
});
