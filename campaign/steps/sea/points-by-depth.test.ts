/** Points whose ages come from all clocks of their hole: which do, what waits for what, and what is said of it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';
import { doLongJob } from '../long-jobs.ts';
import type { Memo } from '../runner/runner.ts';
import type { LongJob } from '../runner/step.ts';

const AGES = [1000, 2000, 3000, 4000];

/** An exposure of steady 1 mm/yr, dated at four depths; a sample between that nobody dated. */
function campaign(points: readonly Cells[], ages = AGES) {
  const sample = (label: string, depth: number): Cells => ({
    sample: label,
    hole: 'A',
    basis: 'in_situ',
    top: `${depth - 0.005} m`,
    bottom: `${depth + 0.005} m`,
  });
  return campaignOf('by depth', {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level', epoch_from: '1993', epoch_to: '2011' }],
    sites: [{ site: 'S' }],
    tide_levels: [
      { site: 'S', level: 'MHW', datum: 'MSL', elevation_m: '0.6', sigma_m: '0.05' },
      { site: 'S', level: 'HAT', datum: 'MSL', elevation_m: '1.0', sigma_m: '0.05' },
    ],
    holes: [
      {
        hole: 'A',
        site: 'S',
        method: 'exposure',
        reference_elevation_m: '1',
        reference_datum: 'MSL',
        reference_sigma_m: '0.02',
      },
    ],
    samples: [...ages.map((age, i) => sample(`A${i + 1}`, age / 1000)), sample('between', 2.5)],
    determinations: ages.map((age, i) => ({
      lab_code: `L${i + 1}`,
      sample: `A${i + 1}`,
      method: 'luminescence',
      value: String(age),
      error: '60',
    })),
    points: points.map((point) => ({ kind: 'index', lower: 'MHW', upper: 'HAT', ...point })),
    settings: [{ name: 'draws', value: '100' }],
  });
}

const dated: readonly Cells[] = AGES.map((_, i) => ({ point: `P${i + 1}`, sample: `A${i + 1}` }));
const between: Cells = { point: 'PB', sample: 'between', age_from: 'age_depth' };

test('one point that asks brings its hole, and the curve waits for the ages of the hole', () => {
  const { campaign: read, problems } = campaign([...dated, between]);
  const memo: Memo = new Map();
  const round = () => {
    const later: LongJob[] = [];
    const found = computeCampaign(read, { curves: {} }, problems, { withCurve: true, memo, later });
    return { ...found, later };
  };
  const first = round();
  assert.deepEqual(
    first.later.map(({ step }) => step),
    ['age against depth'],
  );
  const codes = first.results.problems.map(({ code }) => code);
  for (const code of ['point-without-date', 'point-age-not-from-depth', 'no-curve'])
    assert.ok(!codes.includes(code), `${code} while it is being computed`);
  assert.deepEqual(
    first.results.points.map(({ point }) => point),
    ['P1', 'P2', 'P3', 'P4'],
  );
  for (const job of first.later) memo.set(job.key, doLongJob(job));

  const second = round();
  assert.deepEqual(
    second.later.map(({ step }) => step),
    ['curve'],
  );
  assert.deepEqual(
    second.results.points.map(({ point, by_depth, lab_code }) => [point, by_depth, lab_code]),
    [
      ['P1', true, 'L1'],
      ['P2', true, 'L2'],
      ['P3', true, 'L3'],
      ['P4', true, 'L4'],
      ['PB', true, 'between by depth'],
    ],
  );
  assert.deepEqual(
    second.results.problems
      .filter(({ code }) => code === 'point-age-with-its-hole')
      .map(({ label, severity, expected }) => [label, severity, expected]),
    ['P1', 'P2', 'P3', 'P4'].map((point) => [point, 'note', 'age_depth, as of PB in A']),
  );
  // The depth is a state of the hole: its error is no longer one of the height.
  const points = second.curveInput!.points;
  assert.ok(points.every(({ age, older_below }) => age.kind === 'of_hole' && older_below === undefined));
  const groups = points.flatMap(({ shared }) => shared.map(({ group }) => group));
  assert.ok(groups.length > 0 && groups.every((group) => !group.startsWith('depth:')), groups.join());
  for (const job of second.later) memo.set(job.key, doLongJob(job));

  const third = round();
  assert.deepEqual(third.later, []);
  const curve = third.results.curves[0]!.curve!;
  const middle = curve.points.find(({ id }) => id === 'PB')!;
  assert.ok(Math.abs(middle.age_cal_bp.mean - 2500) < 120, `${middle.age_cal_bp.mean}`);
  const node = third.trace.node(third.trace.find(traceId.point('PB').rsl));
  assert.ok(node.parts.includes(traceId.date('between by depth')), node.parts.join());
});

test('where a hole has no ages against depth its points say what is missing, and keep their dates', () => {
  const computed = (points: readonly Cells[], ages: number[]) => {
    const { campaign: read, problems } = campaign(points, ages);
    return computeCampaign(read, { curves: {} }, problems, { withCurve: true }).results;
  };
  const few = computed([{ ...dated[0]!, age_from: 'age_depth' }, between], [1000, 2000]);
  assert.deepEqual(
    few.problems
      .filter(({ code }) => code === 'point-age-not-from-depth' || code === 'point-without-date')
      .map(({ code, label, expected }) => [code, label, expected]),
    [
      ['point-age-not-from-depth', 'P1', 'at least 3 dates in use in A; it has 2'],
      ['point-without-date', 'PB', 'at least 3 dates in use in A; it has 2'],
    ],
  );
  assert.deepEqual(
    few.points.map(({ point, by_depth }) => [point, by_depth]),
    [['P1', false]],
  );
  // A rejected point asks for nothing.
  const rejected = computed([...dated, { ...between, status: 'rejected', reason: 'washed in' }], AGES);
  assert.deepEqual(rejected.histories, []);
  assert.ok(rejected.points.every(({ by_depth }) => !by_depth));
});
