/** A small hole against its slow twin, number by number. */
import assert from 'node:assert/strict';
import { type TestContext, test } from 'node:test';
import { exp, mean, randomStream, summarize } from '@stillstand/science/base';
import {
  type AgeDepthInput,
  type AgeDepthSettings,
  ageDepthDefaults,
  ageDepthWithDraws,
} from '@stillstand/science/dating';
import { type SaidByGround, weighed, weightedHistories } from './weighted-histories.ts';

/** Even within whole years, so that the twin can look it up. */
function density(mean: number, sd: number): { from_cal_bp: number; density: Float64Array } {
  const from_cal_bp = Math.floor(mean - 5 * sd);
  const years = Math.ceil(10 * sd);
  return {
    from_cal_bp,
    density: Float64Array.from({ length: years }, (_, i) => exp(-0.5 * ((from_cal_bp + i - mean) / sd) ** 2)),
  };
}

/** Three sections, four states of the hole, a break, two dates that agree and one that does not. */
const settings: AgeDepthSettings = { ...ageDepthDefaults, sections: 3, draws: 40_000 };
const few: AgeDepthInput = {
  horizons: [
    { id: 'top', depth_m: Float64Array.of(0.5, 0.7, 0.6, 0.9), age: density(700, 250) },
    { id: 'middle', depth_m: Float64Array.of(1.2, 1.5, 1.3, 1.4), age: density(4500, 200) },
    { id: 'low', depth_m: Float64Array.of(2.4, 2.6, 2.2, 2.7), age: density(3500, 400) },
  ],
  surface: { age_cal_bp: 0, sd_yr: 50 },
  breaks: [{ id: 'contact', depth_m: Float64Array.of(1, 1.1, 0.9, 1.2) }],
  bottom_m: 3,
};

test('histories drawn from the prior and weighted by the dates: means, sds, dates out of place (seed 3)', (t) =>
  against(t, few));

test('the same with a ground of unknown age', (t) =>
  against(t, { ...few, surface: null }, undefined, {
    ...settings,
    age_range_cal_bp: { youngest: -80, oldest: 3000 },
  }));

test('the same with a bed that took no time and two layers of known sediment', (t) => {
  // A bed of half a metre, whose top the states of the hole put elsewhere; it has a date in it.
  const tops = [1.6, 1.7, 1.55, 1.65];
  const by = (d: Float64Array, below: number): Float64Array =>
    d.map((x, k) => (x > tops[k]! ? x + below : x));
  const inBed = { id: 'in bed', depth_m: Float64Array.of(1.8, 1.9, 1.7, 2), age: density(3300, 300) };
  const layer = (top: number[], bottom: number[], usual_mm_yr: number) => ({
    top_m: Float64Array.from(top),
    bottom_m: Float64Array.from(bottom),
    usual_mm_yr,
  });
  const layers = [layer([0, 0, 0, 0], [0.9, 1.1, 0.8, 1], 0.4), layer([2.4, 2.5, 2.3, 2.4], [9, 9, 9, 9], 4)];
  const input: AgeDepthInput = {
    ...few,
    horizons: [...few.horizons.map((h) => ({ ...h, depth_m: by(h.depth_m, 0.5) })), inBed],
    bottom_m: 3.5,
    beds: [
      { id: 'storm', top_m: Float64Array.from(tops), bottom_m: Float64Array.from(tops, (d) => d + 0.5) },
    ],
    layers,
  };
  const depth_m = (d: number, k: number): number => d - Math.min(0.5, Math.max(0, d - tops[k]!));
  // Straight sums over many depths of every section and state.
  const parts = 20_000;
  const offset = [0, 1, 2].map((j) => {
    let sum = 0;
    for (let k = 0; k < 4; k++)
      for (let p = 0; p < parts; p++) {
        const at = j + (p + 0.5) / parts;
        const here = layers.find((l) => at > depth_m(l.top_m[k]!, k) && at < depth_m(l.bottom_m[k]!, k));
        if (here !== undefined) sum += Math.log(settings.accumulation_mm_yr / here.usual_mm_yr);
      }
    return sum / (4 * parts);
  });
  against(t, input, { depth_m, bottom_m: 3, offset });
});

function against(
  t: TestContext,
  input: AgeDepthInput,
  ground?: SaidByGround,
  believed: AgeDepthSettings = settings,
): void {
  const twin = weightedHistories(input, believed, 1_000_000, 3, ground);
  const run = ageDepthWithDraws(input, believed, randomStream(3));
  assert(run.kind === 'run');
  const { result } = run;
  const ours = new Map(run.quantities.map(({ name, chains }) => [name, chains]));
  const compare = (name: string, of: (x: number) => number, how: string) => {
    const here = summarize(ours.get(name)!.map((c) => c.map(of)));
    const there = weighed(twin.weight, twin.values.get(name)!.map(of));
    const off = Math.abs(here.mean - there.mean) / Math.sqrt(here.mcse ** 2 + there.error ** 2);
    const ratio = here.sd / there.sd;
    t.diagnostic(`${name}${how}: means ${off.toFixed(2)} errors apart, sds as ${ratio.toFixed(3)}`);
    return { name: `${name}${how}`, off, ratio };
  };
  const isAge = (name: string) => name.startsWith('age');
  const compared = [...twin.values.keys()].flatMap((name) => [
    // Logarithms, because the tails are long; of ages from 1000 years after 1950 CE on.
    compare(name, (x) => Math.log(isAge(name) ? 1000 + x : x), ', logarithm'),
    ...(isAge(name) ? [compare(name, (x) => x, '')] : []),
  ]);
  const named = result.clocks.map(({ id, outlier_probability }) => ({
    id,
    outlier_probability,
    there: twin.outOfPlace.get(id)!,
  }));
  for (const h of named)
    t.diagnostic(`${h.id} out of place: ${h.outlier_probability.toFixed(3)}, ${h.there.toFixed(3)}`);

  assert(result.diagnostics.converged, result.diagnostics.remarks.join('\n'));
  for (const { name, off, ratio } of compared) {
    // Four standard errors of both together: twelve means fail once in a thousand seeds. Sds within 6 %, as first written;
    // of 4,000 draws that of the age at 3 m, whose tail is long, is uncertain by 7 %, of these by 2 or 3.
    assert(off < 4, `${name}: means ${off} errors apart`);
    assert(Math.abs(ratio - 1) < 0.06, `${name}: sds as ${ratio}`);
  }
  for (const h of named)
    assert(
      Math.abs(h.outlier_probability - h.there) < 0.03,
      `${h.id} out of place: ${h.outlier_probability}, ${h.there}`,
    );
  const bottom = result.agesAt(input.bottom_m);
  assert.equal(bottom.length, result.diagnostics.chains * result.diagnostics.draws);
  assert(
    Math.abs(mean(bottom) - result.age_cal_bp.mean.at(-1)!) < 1e-6,
    'the lowest depth of the grid, asked for',
  );
}
