import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { type AgeDepthInput, ageDepth, ageDepthDefaults } from './index.ts';

/** Even within whole years, so that a twin can look it up. */
function density(mean: number, sd: number): { from_cal_bp: number; density: Float64Array } {
  const from_cal_bp = Math.floor(mean - 5 * sd);
  const years = Math.ceil(10 * sd);
  return {
    from_cal_bp,
    density: Float64Array.from({ length: years }, (_, i) =>
      Math.exp(-0.5 * ((from_cal_bp + i - mean) / sd) ** 2),
    ),
  };
}

const at = (depth: number): Float64Array => Float64Array.of(depth);
const plain: AgeDepthInput = {
  horizons: [
    { id: 'a', depth_m: at(1), age: density(1000, 40) },
    { id: 'b', depth_m: at(2), age: density(1900, 40) },
    { id: 'wrong', depth_m: at(2.5), age: density(6000, 40) },
    { id: 'c', depth_m: at(3), age: density(3100, 40) },
  ],
  surface: { age_cal_bp: -60, sd_yr: 0 },
  breaks: [],
  bottom_m: 4,
};

test('a date that cannot be is named, ages grow downward, the same seed gives the same numbers, seed 4', (t) => {
  const result = ageDepth(plain, ageDepthDefaults, randomStream(4));
  assert(result.kind === 'age_depth' && result.diagnostics.converged);
  const out = result.clocks.map((h) => h.outlier_probability);
  t.diagnostic(`out of place: ${out.map((p) => p.toFixed(3)).join(' ')}`);
  // 2,500 yr too old between neighbours within 40 yr: named beyond doubt, and its neighbours not.
  assert(out[2]! > 0.95 && Math.max(out[0]!, out[1]!, out[3]!) < 0.1, out.join(' '));
  assert.equal(result.age_cal_bp.median[0], -60);
  const [above, below] = [result.agesAt(1.2), result.agesAt(1.21)];
  assert(above.every((t, k) => t < below[k]!));
  assert.deepEqual(result.agesAt(-0.1), result.agesAt(0));
  assert(result.agesAt(4.01).every(Number.isNaN));
  const again = ageDepth(plain, ageDepthDefaults, randomStream(4));
  assert(again.kind === 'age_depth');
  assert.deepEqual(again.agesAt(1.2), above);
});

test('too little is an answer, depths that do not belong together an error', () => {
  const one = { ...plain, horizons: plain.horizons.slice(0, 1) };
  const lone = ageDepth({ ...one, surface: null }, ageDepthDefaults, randomStream(1));
  assert.equal(lone.kind, 'not_enough');
  assert.equal(ageDepth({ ...one, horizons: [] }, ageDepthDefaults, randomStream(1)).kind, 'not_enough');
  assert.equal(ageDepth(one, ageDepthDefaults, randomStream(1)).kind, 'age_depth');
  const two = { ...plain.horizons[1]!, depth_m: Float64Array.of(2, 2.1) };
  const wrong = { ...plain, horizons: [plain.horizons[0]!, two] };
  assert.throws(() => ageDepth(wrong, ageDepthDefaults, randomStream(1)), RangeError);
});
