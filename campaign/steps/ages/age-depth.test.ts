/** Ages between the dates of a hole: only where asked for, from the hole's own dates, samples and contacts. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { quantiles } from '@stillstand/science/base';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';
import { doLongJob, holesOfAges } from '../long-jobs.ts';
import type { LongJob } from '../runner/step.ts';

/** An exposure of steady 1 mm/yr, dated at four depths, with a sample between that nobody dated. */
function computed(
  age_depth: string,
  ages = [1000, 2000, 3000, 4000],
  later?: LongJob[],
  said: Record<string, number> = {},
) {
  const sample = (label: string, depth: number): Cells => ({
    sample: label,
    hole: 'A',
    basis: 'in_situ',
    top: `${depth} m`,
    bottom: `${depth + 0.01} m`,
  });
  const tables: Record<string, Cells[]> = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    holes: [{ hole: 'A', method: 'exposure', reference_elevation_m: '2', reference_datum: 'MSL' }],
    samples: [...ages.map((age, i) => sample(`A${i + 1}`, age / 1000 - 0.005)), sample('between', 2.495)],
    determinations: ages.map((age, i) => ({
      lab_code: `L${i + 1}`,
      sample: `A${i + 1}`,
      method: 'luminescence',
      value: String(said[`L${i + 1}`] ?? age),
      error: '60',
    })),
    settings: [{ name: 'age_depth', value: age_depth }],
  };
  const { campaign, problems } = campaignOf('ages', tables);
  return computeCampaign(campaign, { curves: {} }, problems, { withCurve: true, later, memo: new Map() });
}

test('an undated sample has the age of its depth, wider than its neighbours’', () => {
  const { results, trace } = computed('A');
  const [model] = results.histories;
  assert.ok(model !== undefined);
  const between = model.samples.find((s) => s.sample === 'between')!.age_cal_bp;
  // 1 mm/yr: 2.5 m is 2,500 years, known to the errors of the dates beside it and what may lie between.
  assert.ok(Math.abs(between.median - 2500) < 120, `${between.median}`);
  const width = (r: { lower95: number; upper95: number }): number => r.upper95 - r.lower95;
  assert.ok(width(between) > width(model.clocks[1]!.age_cal_bp));
  for (const { outlier_probability } of model.clocks) assert.ok(outlier_probability < 0.2);
  const { draws, samples } = model;
  const at = samples.findIndex((s) => s.sample === 'between');
  const drawn = draws.age_cal_bp.filter((_, i) => i % samples.length === at);
  assert.ok(drawn.length >= 500 && drawn.length <= 1000, `${drawn.length} joint draws`);
  assert.ok(Math.abs(quantiles(drawn, [0.5])[0]! - between.median) < 40);
  const node = trace.node(trace.find(traceId.hole('A').ageDepth));
  assert.ok(
    node.parts.includes(traceId.date('L1')) && node.parts.includes(traceId.sample('between').elevation),
  );
});

test('nothing is modelled unasked; a wrong label and too few dates are named', () => {
  assert.deepEqual(computed('').results.histories, []);
  const wrong = computed('B; A', [1000, 2000]).results;
  assert.deepEqual(wrong.histories, []);
  assert.deepEqual(
    wrong.problems.filter((p) => p.code.startsWith('age-depth')).map((p) => [p.code, p.found]),
    [
      ['age-depth-no-hole', 'B'],
      ['age-depth-too-few', 'A with 2 dates in use'],
    ],
  );
});

test('left for later, the ages of a hole are a job that says how far it is and can be given up', () => {
  const later: LongJob[] = [];
  computed('A', [1000, 2000, 3000, 4000], later);
  assert.deepEqual(later.map(holesOfAges), [['A']]);
  const shares: number[] = [];
  const stop = new Error('no longer wanted');
  assert.throws(
    () =>
      doLongJob(later[0]!, (done, of) => {
        shares.push(done / of);
        if (shares.length === 3) throw stop;
      }),
    stop,
  );
  assert.ok(shares.every((share) => share >= 0 && share <= 1));
});

test('three dates of eight that contradict the others: each is named, and that they disagree', () => {
  const { results } = computed('A', [1000, 2000, 3000, 4000, 5000, 6000, 7000, 8000], undefined, {
    L2: 6500,
    L4: 9500,
    L7: 3000,
  });
  const codes = results.problems.filter(({ table }) => table === 'determinations');
  assert.deepEqual(
    codes.filter(({ code }) => code === 'date-outlier').map(({ label }) => label),
    ['L2', 'L4', 'L7'],
  );
  assert.deepEqual(
    codes.filter(({ code }) => code === 'dates-disagree').map(({ found }) => found),
    ['3 of 8 dates of A more likely out of place than not'],
  );
});
