/** Stated ages against the doses, rates and ratios of their samples. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

function computed(determination: Cells, ...measurements: Cells[]) {
  const tables: Record<string, Cells[]> = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    samples: [{ sample: 'A', basis: 'elevation', elevation_m: '-1', elevation_datum: 'MSL' }],
    determinations: [
      { lab_code: 'L1', sample: 'A', method: 'luminescence', reference_year: '2020', ...determination },
    ],
    measurements: measurements.map((cells) => ({ sample: 'A', ...cells })),
  };
  const { campaign, problems } = campaignOf('measured', tables);
  const { results, trace } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  const at = trace.find(traceId.measuredAge('L1'));
  return {
    node: at === -1 ? null : trace.node(at),
    parts: at === -1 ? 0 : trace.parts(at).length,
    age: results.dates[0]?.median_cal_bp,
    problems: results.problems
      .filter((p) => p.table === 'determinations')
      .map((p) => `${p.severity} ${p.code} ${p.column}: ${p.found}; ${p.expected}`),
  };
}

const DOSE = { property: 'Equivalent dose', value: '75', sigma: '4', unit: 'Gy' };
const RATE = { property: 'dose rate', value: '2.83', sigma: '0.14', unit: 'Gy/ka' };

test('an age that follows from dose and rate is left alone, and its arithmetic is in the trace', () => {
  const { problems, node, parts, age } = computed({ value: '26500', error: '1900' }, DOSE, RATE);
  assert.deepEqual(problems, []);
  // 75/2.83 = 26.502 ka, √((4/75)² + (0.14/2.83)²) = 7.275 %.
  assert.ok(Math.abs(Number(node!.value) - 26_501.8) < 0.1 && Math.abs(node!.sigma! - 1928) < 1);
  assert.equal(parts, 2);
  assert.equal(age, 26_500 - 70);
});

test('a slip of the pen, and an error too small, are named; the age stays the laboratory’s', () => {
  const slip = computed({ value: '62500', error: '1900' }, DOSE, RATE);
  assert.match(slip.problems[0]!, /^warning age-not-as-measured value: 62500 ± 1900; about 26502 ± 1928 yr/);
  assert.equal(slip.age, 62_430);
  const small = computed({ value: '26500', error: '190' }, DOSE, RATE);
  assert.match(small.problems[0]!, /^warning age-not-as-measured error: .*about 1928 yr or more/);
});

test('what cannot be compared is said: half of it, two of one, another unit, a dose without an error', () => {
  const stated = { value: '26500', error: '1900' };
  assert.deepEqual(computed(stated).problems, []);
  assert.match(computed(stated, DOSE).problems[0]!, /^note age-not-compared .*0 × dose rate/);
  assert.match(
    computed(stated, DOSE, { ...DOSE, value: '76' }, RATE).problems[0]!,
    /^note .*2 × equivalent dose/,
  );
  assert.match(computed(stated, { ...DOSE, unit: 's' }, RATE).problems[0]!, /^note .*dose in s; Gy/);
  assert.match(
    computed(stated, { ...DOSE, sigma: '' }, RATE).problems[0]!,
    /^warning age-not-as-measured value: measured of A: 75 ± 0 Gy; an error above 0/,
  );
});

test('activity ratios give a uranium-series age, and ratios out of physics are named', () => {
  const ratio = (property: string, value: string, sigma: string): Cells => ({ property, value, sigma });
  const stated = { method: 'u_series', value: '128170', error: '280' };
  const of = (thorium: string) =>
    computed(stated, ratio('230Th/238U', thorium, '0.0007'), ratio('234U/238U', '1.1186', '0.00075'));
  assert.deepEqual(of('0.7867').problems, []);
  assert.ok(Math.abs(Number(of('0.7867').node!.value) - 128_170) < 20);
  assert.match(of('1.7867').problems[0]!, /^warning age-not-as-measured .*closed system/);
});
