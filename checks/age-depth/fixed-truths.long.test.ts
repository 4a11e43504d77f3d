/**
 * Holes that are no draws from the prior: accumulation that is even, that rises sevenfold at once, and that swings; eight
 * radiocarbon dates of 30 yr, of which one is 800 yr too old and in every second hole another 600 yr too young; depths with
 * a common and a separate error. Ages at 19 depths without a date, and the naming of the dates out of place. Seed 51.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { quantiles, randomStream } from '@stillstand/science/base';
import { ageDepth, ageDepthDefaults, calibrate, type DatedHorizon } from '@stillstand/science/dating';

const HOLES = 8;
const STATES = 100;
const BOTTOM_M = 6;

const truths: { name: string; age_cal_bp: (depth_m: number) => number; least: number }[] = [
  { name: 'even, 1.2 mm/yr', age_cal_bp: (d) => -60 + d / 0.0012, least: 0.93 },
  {
    name: '0.4 mm/yr, above 2.5 m 2.8 mm/yr',
    age_cal_bp: (d) => -60 + Math.min(d, 2.5) / 0.0028 + Math.max(0, d - 2.5) / 0.0004,
    least: 0.9,
  },
  {
    name: 'swinging between 0.6 and 2.4 mm/yr over 3 m',
    age_cal_bp: (d) => -60 + 1042 * d - 625 * (1.5 / Math.PI) * Math.sin((Math.PI * d) / 1.5),
    least: 0.9,
  },
];

for (const truth of truths) {
  test(`${truth.name}: ${HOLES} holes with dates out of place, seed 51`, async (t) => {
    const curve = await loadCurve('intcal20');
    let held = 0;
    let asked = 0;
    let width = 0;
    let converged = 0;
    const named = { bad: 0, bads: 0, good: 0, goods: 0 };
    for (let hole = 0; hole < HOLES; hole++) {
      const stream = randomStream(51).split(truth.name).split(hole);
      const shift = Float64Array.from({ length: STATES }, () => 0.04 * stream.normal());
      const state = stream.integer(STATES);
      const wrong = [stream.integer(8), hole % 2 === 0 ? -1 : stream.integer(8)];
      const horizons = Array.from({ length: 8 }, (_, i): DatedHorizon => {
        const depth = (BOTTOM_M * (i + 0.2 + 0.6 * stream.uniform())) / 8;
        const depth_m = shift.map((s) => depth + s + 0.02 * stream.normal());
        let year = Math.round(truth.age_cal_bp(depth_m[state]!));
        if (i === wrong[0]) year += 800;
        else if (i === wrong[1]) year = Math.max(0, year - 600);
        const at = Math.max(0, year) - curve.from_cal_bp;
        const spread = Math.hypot(30, curve.sigma_yr[at]!);
        const c14_age = curve.c14_age[at]! + spread * stream.normal();
        const age = calibrate({ c14_age, error_yr: 30, offset_yr: 0, offset_sd_yr: 0 }, curve);
        assert(age.kind === 'calibrated', JSON.stringify(age));
        return { id: `D${i}`, depth_m, age };
      });
      const result = ageDepth(
        { horizons, surface: { age_cal_bp: -60, sd_yr: 2 }, breaks: [], bottom_m: BOTTOM_M },
        ageDepthDefaults,
        stream.split('run'),
      );
      assert(result.kind === 'age_depth');
      if (result.diagnostics.converged) converged++;
      for (let k = 1; k <= 19; k++) {
        const depth_m = 0.3 * k;
        const [low, high] = quantiles(result.agesAt(depth_m), [0.025, 0.975]) as [number, number];
        const is = truth.age_cal_bp(depth_m);
        asked++;
        width += high - low;
        if (is >= low && is <= high) held++;
      }
      result.horizons.forEach(({ out_of_place }, i) => {
        const isWrong = wrong.includes(i);
        if (isWrong) named.bads++;
        else named.goods++;
        if (out_of_place > 0.5) named[isWrong ? 'bad' : 'good']++;
      });
    }
    t.diagnostic(
      `95 % hold ${(held / asked).toFixed(3)}, mean width ${(width / asked).toFixed(0)} yr; converged ${converged} of ${HOLES}`,
    );
    t.diagnostic(
      `named: ${named.bad} of ${named.bads} out of place, ${named.good} of ${named.goods} in place`,
    );
    assert(held / asked > truth.least - 0.05, `${held} of ${asked}`);
  });
}
