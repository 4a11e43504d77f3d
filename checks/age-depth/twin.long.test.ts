/** A small hole against its slow twin, number by number. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, mean, randomStream, summarize } from '@stillstand/science/base';
import {
  type AgeDepthInput,
  type AgeDepthSettings,
  ageDepthDefaults,
  ageDepthWithDraws,
} from '@stillstand/science/dating';
import { weighed, weightedHistories } from './weighted-histories.ts';

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

test('histories drawn from the prior and weighted by the dates: means, sds, dates out of place (seed 3)', (t) => {
  const twin = weightedHistories(few, settings, 1_000_000, 3);
  const run = ageDepthWithDraws(few, settings, randomStream(3));
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
  const bottom = result.agesAt(3);
  assert.equal(bottom.length, result.diagnostics.chains * result.diagnostics.draws);
  assert(
    Math.abs(mean(bottom) - result.age_cal_bp.mean.at(-1)!) < 1e-6,
    'the lowest depth of the grid, asked for',
  );
});
