/** Rings of a tree in a hole: dated together, once for their sample, and what does not fit is named. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { before, test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { loadCurve } from '@stillstand/published/curves';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';
import type { Published } from './dates.ts';

let published: Published;
before(async () => {
  published = { curves: { intcal20: await loadCurve('intcal20') } };
});

/** Ring before the last, 14C age, 1 sigma (Meadows et al. 2023; figures in checks/sequence/data). */
const RINGS = readFileSync(new URL('../../../checks/sequence/data/rings.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(',').map(Number) as [number, number, number])
  .reverse();

const rings = (): Cells[] =>
  RINGS.map(([ring, age, error]) => ({
    lab_code: `R${-ring}`,
    sample: 'stump',
    method: 'radiocarbon',
    value: String(age),
    error: String(error),
    calibration_curve: 'intcal20',
  }));

const members = (): Cells[] =>
  RINGS.map(([ring]) => ({ sequence: 'log', determination: `R${-ring}`, offset_yr: String(ring + 66) }));

function computed(determinations: Cells[], sequences: Cells[], points: Cells[] = []) {
  const tables: Record<string, Cells[]> = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    samples: ['stump', 'other'].map((sample) => ({ sample, depth_basis: 'elevation', elevation_m: '0' })),
    determinations,
    sequences,
    points,
  };
  const { campaign, problems } = campaignOf('sequences', tables);
  const { results, trace } = computeCampaign(campaign, published, problems, { withCurve: false });
  const said = results.problems
    .filter(({ table }) => table === 'sequences')
    .map((p) => `${p.code}: ${p.found}`);
  return { results, trace, said };
}

test('14 rings give one year: the felling of 835 CE, 53 years after the last of them', () => {
  const { results, trace, said } = computed(rings(), members());
  const last = results.dates.find(({ lab_code }) => lab_code === 'R53')!;
  const first = results.dates.find(({ lab_code }) => lab_code === 'R66')!;
  assert.equal(Math.round(last.median_cal_bp), 1950 - 835 + 53);
  assert.equal(Math.round(first.median_cal_bp), 1950 - 835 + 66);
  assert.ok(last.sd_yr < 2);
  assert.equal(last.sequence, 'log');
  // Chi-square 25.0 with 13 degrees fails at 5 %: computed apart, p 0.023. R59 is 66 yr from the curve at its year, with
  // √(18² + 10²) = 21 yr: 3.2 sd, p 0.0014, below 0.05/14.
  assert.deepEqual(said, [
    'sequence-member-disagrees: R59: 1117 ± 18; by the others 1183',
    'sequence-disagrees: chi-square 25.0 with 13 degrees of freedom, p 0.023',
  ]);
  const node = trace.node(trace.find(traceId.date('R53')));
  assert.deepEqual(node.parts, [traceId.sequence('log')]);
  assert.ok(trace.node(trace.find(traceId.dateAlone('R53'))).sigma! > 20);
});

test('rings of one sample do not contradict each other, and a point takes the youngest', () => {
  const point = { point: 'P', sample: 'stump', kind: 'terrestrial', lower: 'MSL' };
  const { results } = computed(rings(), members(), [point]);
  assert.deepEqual(
    results.problems.filter(({ code }) => code === 'dates-of-one-sample-differ'),
    [],
  );
});

test('a ring out of place is named with what the others expect; a count the other way round is asked about', () => {
  const wrong = rings().map((row) => (row['lab_code'] === 'R60' ? { ...row, value: '1478' } : row));
  const named = computed(wrong, members()).said.find((s) => s.startsWith('sequence-member-disagrees'));
  assert.match(named!, /R60: 1478 ± 18; by the others 11[5-9]\d|R60: 1478 ± 18; by the others 12[0-4]\d/);
  const turned = members().map((row) => ({ ...row, offset_yr: String(-Number(row['offset_yr'])) }));
  const { said } = computed(rings(), turned.slice(-2));
  assert.ok(said.includes('sequence-gap-negative: -13'), said.join('; '));
});

test('what cannot be matched is named, and its dates stay as they are alone', () => {
  const alone = computed(rings(), []).results.dates.map(({ median_cal_bp }) => median_cal_bp);
  const only = computed(rings(), [
    members()[0]!,
    { ...members()[1]!, block_yr: '2.5' },
    { ...members()[0]!, offset_yr: '1' },
  ]);
  assert.deepEqual(only.said.sort(), [
    'sequence-block-not-whole: 2.5',
    'sequence-member-twice: R66, already in log',
    'sequence-too-short: log: 1 of 3 members usable',
  ]);
  assert.deepEqual(
    only.results.dates.map(({ median_cal_bp }) => median_cal_bp),
    alone,
  );
  const rejected = rings().map((row, i) => (i === 0 ? { ...row, status: 'rejected', reason: 'root' } : row));
  const { said, results } = computed(rejected, members());
  assert.ok(said.includes('sequence-member-unusable: R66, rejected'));
  assert.equal(results.dates.length, RINGS.length);
});

test('members in two samples are used as if each were known on its own, which is said', () => {
  const spread = rings().map((row, i) => (i < 3 ? { ...row, sample: 'other' } : row));
  assert.ok(computed(spread, members()).said.includes('sequence-in-several-samples: log: R64, R53'));
});
