/** Beds that took no time and layers of known sediment: against the same hole said otherwise. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, log, quantiles, randomStream, square } from '@stillstand/science/base';
import { type AgeDepth, type AgeDepthInput, ageDepth, ageDepthDefaults, type DatedHorizon } from './index.ts';

const settings = { ...ageDepthDefaults, sections: 16, draws: 200 };
const of = (...depths: number[]): Float64Array => Float64Array.from(depths);
const date = (id: string, depth_m: Float64Array, mean: number, sd: number): DatedHorizon => ({
  id,
  depth_m,
  age: {
    from_cal_bp: mean - 6 * sd,
    density: Float64Array.from({ length: 12 * sd + 1 }, (_, i) => exp(-0.5 * square((i - 6 * sd) / sd))),
  },
});
/** Depths in eighths of a metre, so that a metre more or less is exact. */
const plain: AgeDepthInput = {
  horizons: [
    date('upper', of(0.5, 0.625), 600, 50),
    date('middle', of(1.5, 1.75), 1900, 60),
    date('lower', of(3, 3.125), 3300, 70),
  ],
  surface: { age_cal_bp: -60, sd_yr: 1 },
  breaks: [{ id: 'contact', depth_m: of(2, 2.25) }],
  bottom_m: 4,
};
function run(input: AgeDepthInput, own = settings): AgeDepth {
  const result = ageDepth(input, own, randomStream(8));
  assert(result.kind === 'age_depth');
  return result;
}
const lower = (depth_m: Float64Array, from_m: number, by_m: number): Float64Array =>
  depth_m.map((d) => (d >= from_m ? d + by_m : d));

test('a hole with a bed of a metre has the ages of the hole without it, draw by draw (seed 8)', () => {
  const bed = { id: 'storm', top_m: of(1, 1.25), bottom_m: of(2, 2.25) };
  const with_bed = run({
    ...plain,
    horizons: plain.horizons.map((h) => ({ ...h, depth_m: lower(h.depth_m, 1.25, 1) })),
    breaks: plain.breaks.map((b) => ({ ...b, depth_m: lower(b.depth_m, 1.25, 1) })),
    bottom_m: 5,
    beds: [bed],
  });
  const without = run(plain);
  for (const depth of [0, 0.25, 0.875]) assert.deepEqual(with_bed.agesAt(depth), without.agesAt(depth));
  for (const depth of [1.375, 2.5, 4]) assert.deepEqual(with_bed.agesAt(depth + 1), without.agesAt(depth));
  assert.deepEqual(
    with_bed.clocks.map(({ age_cal_bp }) => age_cal_bp),
    without.clocks.map(({ age_cal_bp }) => age_cal_bp),
  );
  assert.deepEqual(with_bed.law, without.law);
  // Top, inside and base are of one age, in every state of the hole.
  const top = with_bed.agesAt(bed.top_m);
  assert.deepEqual(with_bed.agesAt(of(1.5, 1.5)), top);
  assert.deepEqual(with_bed.agesAt(bed.bottom_m), top);
  assert.deepEqual(
    with_bed.beds.map(({ id }) => id),
    ['storm'],
  );
  assert(Math.abs(with_bed.beds[0]!.age_cal_bp.median - quantiles(top, [0.5])[0]!) < 1e-9);
  assert(with_bed.depth_m.includes(1.125) && with_bed.depth_m.includes(2.125));
  assert.equal(with_bed.depth_m.at(-1), 5);
  assert(with_bed.age_cal_bp.median.every(Number.isFinite));
});

test('a date in a bed is one of its horizon, and a gap at its top lies above it, one at its base below', () => {
  const bed = { id: 'storm', top_m: of(1, 1.25), bottom_m: of(2, 2.25) };
  const dated = { ...plain, horizons: [...plain.horizons, date('in it', of(1.5, 2), 1700, 60)], beds: [bed] };
  const gap = (depth_m: Float64Array): AgeDepth => run({ ...dated, breaks: [{ id: 'contact', depth_m }] });
  const above = gap(bed.top_m);
  const below = gap(bed.bottom_m);
  for (const [result, isBelow] of [
    [above, true],
    [below, false],
  ] as const) {
    const top = result.agesAt(bed.top_m);
    const inside = result.agesAt(of(1.5, 2));
    const base = result.agesAt(bed.bottom_m);
    assert.deepEqual(inside, base);
    assert(inside.every((age, k) => (isBelow ? age > top[k]! : age === top[k]!)));
    assert(
      Math.abs(result.clocks[3]!.age_cal_bp.mean - inside.reduce((a, b) => a + b) / inside.length) < 1e-6,
    );
  }
});

test('beds that overlap count once, in any order; one upside down counts as none; nothing but a bed is not enough', () => {
  const bed = (top: number, bottom: number) => ({
    id: 'flood',
    top_m: of(top, top),
    bottom_m: of(bottom, bottom),
  });
  const deeper = { ...plain, breaks: [], bottom_m: 5 };
  const one = run({ ...deeper, beds: [bed(1, 2)] });
  const pieces = run({ ...deeper, beds: [bed(1.5, 2), bed(1, 1.75), bed(3, 2.5)] });
  assert.deepEqual(pieces.agesAt(3.5), one.agesAt(3.5));
  assert.equal(pieces.beds.length, 1);
  const all = ageDepth({ ...deeper, beds: [bed(-1, 6)] }, settings, randomStream(8));
  assert.equal(all.kind, 'not_enough');
  assert.equal(
    ageDepth({ ...deeper, horizons: [], beds: [bed(1, 2)] }, settings, randomStream(8)).kind,
    'not_enough',
  );
  assert.match(all.reason, /beds laid down at once from the ground to the bottom/);
});

test('a hole all of one sediment has the ages of one whose usual accumulation is that (seed 8)', (t) => {
  const layer = { top_m: of(0, 0), bottom_m: of(5, 5), usual_mm_yr: 4 };
  // One date, so that the prior is most of what is said below it.
  const few = { ...plain, horizons: plain.horizons.slice(0, 1), breaks: [] };
  const own = { ...settings, draws: 1000 };
  const layered = run({ ...few, layers: [layer] }, own);
  const usual = run(few, { ...own, accumulation_mm_yr: 4 });
  for (const depth of [0.25, 1, 2, 4]) {
    const [a, b] = [layered, usual].map((each) =>
      quantiles(
        each.agesAt(depth).map((x) => log(x + 100)),
        [0.025, 0.16, 0.5, 0.84, 0.975],
      ),
    );
    const sd = (b![3]! - b![1]!) / 2;
    t.diagnostic(
      `${depth} m: medians ${((a![2]! - b![2]!) / sd).toFixed(3)} sd apart, 95 % as ${((a![4]! - a![0]!) / (b![4]! - b![0]!)).toFixed(3)}`,
    );
    // 400 effective draws or more: the difference of two medians to 0.09 sd, widths to a tenth. Three of these.
    assert(Math.abs(a![2]! - b![2]!) < 0.27 * sd, `${depth} m: ${a![2]}, ${b![2]}`);
    assert(Math.abs(log((a![4]! - a![0]!) / (b![4]! - b![0]!))) < 0.27, `${depth} m`);
  }
  const ratio = layered.law.accumulation_mm_yr.median / usual.law.accumulation_mm_yr.median;
  assert(Math.abs(log(ratio)) < 0.3, `${ratio}`);
});

test('depths and usual rates that are none, and a bed on a profile, are errors', () => {
  const refused = (more: Partial<AgeDepthInput>, why: RegExp): void => {
    assert.throws(() => ageDepth({ ...plain, ...more }, settings, randomStream(1)), why);
  };
  refused({ beds: [{ id: 'B', top_m: of(1), bottom_m: of(2, 2) }] }, /1 depths of B; expected 2/);
  refused({ beds: [{ id: 'B', top_m: of(1, 1), bottom_m: of(2, Number.NaN) }] }, /a depth of B is NaN/);
  refused({ layers: [{ top_m: of(0, 0), bottom_m: of(1, 1), usual_mm_yr: 0 }] }, /a layer of 0 mm\/yr/);
  refused(
    {
      breaks: [],
      beds: [{ id: 'B', top_m: of(0.1, 0.3), bottom_m: of(0.2, 0.4) }],
      profiles: [{ id: 'profile', ends_m: of(0, 0.25), logLikelihood: () => 0 }],
    },
    /B lies among the depths of profile/,
  );
});
