/** The number of sections is no part of the model. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, randomStream, summarize } from '@stillstand/science/base';
import { type AgeDepth, type AgeDepthInput, ageDepth, ageDepthDefaults } from '@stillstand/science/dating';

function dated(id: string, depth_m: number, mean: number): AgeDepthInput['horizons'][number] {
  const from_cal_bp = mean - 200;
  const density = Float64Array.from({ length: 400 }, (_, i) => exp(-0.5 * ((i - 200) / 40) ** 2));
  return { id, depth_m: Float64Array.of(depth_m), age: { from_cal_bp, density } };
}

const hole: AgeDepthInput = {
  horizons: [dated('a', 1, 1000), dated('b', 2, 1900), dated('wrong', 2.5, 6000), dated('c', 3, 3100)],
  surface: { age_cal_bp: -60, sd_yr: 0 },
  breaks: [],
  bottom_m: 4,
};

test('20 and 60 sections: medians and widths of the ages at four depths (seed 5)', (t) => {
  const [coarse, fine] = [20, 60].map((sections) => {
    const result = ageDepth(hole, { ...ageDepthDefaults, sections }, randomStream(5));
    assert(result.kind === 'age_depth');
    return result;
  }) as [AgeDepth, AgeDepth];
  const found = [0.5, 1.5, 2.25, 3.8].map((depth_m) => {
    const [a, b] = [summarize([coarse.agesAt(depth_m)]), summarize([fine.agesAt(depth_m)])];
    const shift = (a.median - b.median) / b.sd;
    const wide68 = (a.upper68 - a.lower68) / (b.upper68 - b.lower68);
    const wide95 = (a.upper95 - a.lower95) / (b.upper95 - b.lower95);
    t.diagnostic(
      `${depth_m} m: medians ${shift.toFixed(2)} sd apart, 68 % as ${wide68.toFixed(3)}, 95 % as ${wide95.toFixed(3)}`,
    );
    return { depth_m, shift, wide68, wide95 };
  });
  // As first written. A median of 400 effective draws is known to 0.06 sd, the difference of two to 0.09.
  for (const { depth_m, shift, wide68, wide95 } of found) {
    assert(Math.abs(shift) < 0.2, `${depth_m} m: medians ${shift} sd apart`);
    assert(wide68 > 0.85 && wide68 < 1.18, `${depth_m} m: 68 % as ${wide68}`);
    assert(wide95 > 0.85 && wide95 < 1.18, `${depth_m} m: 95 % as ${wide95}`);
  }
});
