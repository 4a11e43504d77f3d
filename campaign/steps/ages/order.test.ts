/** Points whose age comes from the dates above and below, or from an event; what lacks is named. */
import assert from 'node:assert/strict';
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

function computed(determinations: Cells[], points: Cells[]) {
  const sample = (label: string, depth: number): Cells => ({
    sample: label,
    hole: 'A',
    basis: 'in_situ',
    top: `${depth} m`,
    bottom: `${depth + 0.01} m`,
  });
  const tables: Record<string, Cells[]> = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    sites: [{ site: 'S', name: 'S' }],
    tide_levels: [{ site: 'S', level: 'MHW', elevation_m: '0.8', sigma_m: '0.05' }],
    holes: [{ hole: 'A', site: 'S', method: 'exposure', reference_elevation_m: '2', reference_datum: 'MSL' }],
    samples: [sample('top', 1), sample('mid', 1.5), sample('low', 2), sample('bottom', 3)],
    determinations,
    points: points.map((cells) => ({ kind: 'terrestrial', lower: 'MHW', ...cells })),
  };
  const { campaign, problems } = campaignOf('order', tables);
  return computeCampaign(campaign, published, problems, { withCurve: false });
}

const calendar = (lab_code: string, sample: string, value: number): Cells => ({
  lab_code,
  sample,
  method: 'luminescence',
  value: String(value),
  error: '20',
});
const carbon = (lab_code: string, sample: string, value: number, cells: Cells = {}): Cells => ({
  lab_code,
  sample,
  method: 'radiocarbon',
  value: String(value),
  error: '25',
  calibration_curve: 'intcal20',
  event_group: 'flood',
  ...cells,
});

test('a sample between two dates is of any year between them', () => {
  const dates = [calendar('L1', 'top', 1000), calendar('L2', 'low', 2000), calendar('L3', 'bottom', 5000)];
  const points = ['P', 'Q'].map((point) => ({ point, sample: 'mid', age_from: 'between' }));
  const { results, trace } = computed(dates, points);
  const [point, twin] = results.points;
  assert.equal(point!.lab_code, 'L1 to L2');
  assert.ok(Math.abs(point!.age.median_cal_bp - 1500) < 1);
  // 95.4 % of a level stretch of 1,000 years, wherever the shortest set lies.
  assert.ok(point!.age.older95_cal_bp - point!.age.younger95_cal_bp > 930);
  assert.deepEqual(twin!.age, point!.age);
  assert.deepEqual(trace.node(trace.find(traceId.date('L1 to L2'))).parts, [
    traceId.date('L1'),
    traceId.date('L2'),
  ]);
});

test('without a date on either side, or with the two out of order, the point says what it lacks', () => {
  const lacking = (dates: Cells[]): string | undefined =>
    computed(dates, [{ point: 'P', sample: 'mid', age_from: 'between' }]).results.problems.find(
      ({ code }) => code === 'point-without-date',
    )?.expected;
  assert.equal(
    lacking([calendar('L1', 'top', 1000)]),
    'a date in use on either side of it in A: there is none below',
  );
  assert.match(
    lacking([calendar('L1', 'top', 3000), calendar('L2', 'low', 2000)])!,
    /^L2 to be older than L1: /,
  );
});

test('two things of one event give it one age; those that differ are named', () => {
  const point = { point: 'P', sample: 'low', age_from: 'event' };
  const { results } = computed([carbon('C1', 'low', 3000), carbon('C2', 'bottom', 3020)], [point]);
  const alone = results.dates.find(({ lab_code }) => lab_code === 'C1')!;
  const [of] = results.points;
  assert.equal(of!.lab_code, 'flood');
  assert.ok(Math.abs(of!.age.median_cal_bp - alone.median_cal_bp) < 40);
  const said = (dates: Cells[]): string[] =>
    computed(dates, [point])
      .results.problems.filter(({ code }) => /^event|point-without-date/.test(code))
      .map(({ code, found }) => `${code} ${found}`);
  assert.deepEqual(said([carbon('C1', 'low', 3000), carbon('C2', 'bottom', 3020)]), []);
  const [differ] = said([carbon('C1', 'low', 3000), carbon('C2', 'bottom', 3300)]);
  assert.match(differ!, /^event-disagrees flood: chi-square/);
  assert.deepEqual(said([carbon('C1', 'low', 3000)]), [
    'event-too-short flood: 1 usable date',
    'point-without-date low',
  ]);
});
