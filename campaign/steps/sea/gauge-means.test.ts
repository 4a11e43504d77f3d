/** Annual means of a gauge, from the table of the campaign to the curve, its trace and its problems. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { gaugesOf, traceId } from '@stillstand/campaign/results';
import { randomStream } from '@stillstand/science/base';
import { type Computation, computeCampaign } from '../compute.ts';

type Cells = Record<string, string>;

const AGES = [500, 1500, 2500, 3500];
const stream = randomStream(3);
/** 3 mm/yr over 60 years, about 1.5 m above the zero of the gauge. */
const MEANS: Cells[] = Array.from({ length: 60 }, (_, i) => ({
  gauge: 'Pier',
  year: String(1951 + i),
  level_m: (1.5 + 0.003 * i + 0.02 * stream.normal()).toFixed(4),
}));
const TABLES: Record<string, Cells[]> = {
  datums: [
    { datum: 'MSL', kind: 'mean_sea_level' },
    { datum: 'Old', kind: 'local' },
  ],
  datum_shifts: [{ from: 'Old', to: 'MSL', shift_m: '-0.4', sigma_m: '0.03' }],
  sites: [{ site: 'S' }, { site: 'Far' }],
  tide_levels: ['MHW', 'HAT'].map((level, i) => ({
    site: 'S',
    level,
    datum: 'MSL',
    elevation_m: String(0.6 + 0.4 * i),
    sigma_m: '0.05',
  })),
  holes: [
    {
      hole: 'A',
      site: 'S',
      method: 'exposure',
      reference_elevation_m: '3',
      reference_datum: 'Old',
      reference_sigma_m: '0.02',
    },
  ],
  samples: AGES.map((age, i) => ({
    sample: `A${i}`,
    hole: 'A',
    basis: 'in_situ',
    top: `${2 + age / 1000} m`,
    bottom: `${2 + age / 1000} m`,
  })),
  determinations: AGES.map((age, i) => ({
    lab_code: `L${i}`,
    sample: `A${i}`,
    method: 'luminescence',
    value: String(age),
    error: '60',
    reference_year: '1950',
  })),
  points: AGES.map((_, i) => ({
    point: `P${i}`,
    sample: `A${i}`,
    kind: 'index',
    lower: 'MHW',
    upper: 'HAT',
  })),
  gauges: [{ gauge: 'Pier', site: 'S', datum: 'Old', zero_m: '-1.2', sigma_m: '0.02' }],
  settings: [
    { name: 'chains', value: '2' },
    { name: 'draws', value: '100' },
  ],
};

function computed(tables: Record<string, Cells[]> = {}, withCurve = false): Computation {
  let document = newDocument('gauge');
  for (const [table, rows] of Object.entries({ ...TABLES, gauge_means: MEANS, ...tables }))
    document = withRows(document, table, rows);
  const { campaign, problems } = parseCampaign(document);
  return computeCampaign(campaign, { curves: {} }, problems, { withCurve });
}
const blocksOf = ({ curveInput }: Computation) =>
  curveInput!.points.filter((point) => point.of_gauge === true);
const said = ({ results }: Computation): string[][] =>
  results.problems
    .filter(({ table }) => table === 'gauges' || table === 'gauge_means')
    .map(({ code, label }) => [code, label ?? '']);

test('blocks of years stand on the campaign datum, with the errors of zero and datum shift that they share', () => {
  const whole = computed();
  assert.deepEqual(said(whole), []);
  const blocks = blocksOf(whole);
  assert.deepEqual(
    blocks.map(({ id, age }) => [id, age]),
    [
      ['Pier 1951–1970', { kind: 'normal', mean_cal_bp: -10.5, sd_yr: 0 }],
      ['Pier 1971–1990', { kind: 'normal', mean_cal_bp: -30.5, sd_yr: 0 }],
      ['Pier 1991–2010', { kind: 'normal', mean_cal_bp: -50.5, sd_yr: 0 }],
    ],
  );
  const mean = MEANS.slice(0, 20).reduce((sum, { level_m }) => sum + Number(level_m), 0) / 20;
  assert.ok(Math.abs(blocks[0]!.height_m - (mean - 1.2 - 0.4)) < 1e-9);
  for (const { shared } of blocks)
    assert.deepEqual(shared, [
      { group: 'gauge:Pier', sigma_m: 0.02 },
      { group: 'datum:Old-MSL', sigma_m: 0.03 },
    ]);
  // The points of the hole share the same shift.
  const point = whole.curveInput!.points.find(({ id }) => id === 'P0')!;
  assert.ok(point.shared.some(({ group }) => group === 'datum:Old-MSL'));
  const [gauge] = gaugesOf(whole.results);
  assert.ok(Math.abs(gauge!.zero_elevation_m! + 1.6) < 1e-12);
  assert.deepEqual(
    gauge!.blocks.map(({ years, point: label }) => [years, label]),
    blocks.map(({ id }) => [20, id]),
  );
  assert.deepEqual(whole.curveInput!.settings.intervals.at(-1), { older_cal_bp: -1, younger_cal_bp: -60 });
});

test('a zero that nothing relates, or without sigma: said, and what is used', () => {
  const free = computed({ gauges: [{ gauge: 'Pier', site: 'S' }] });
  assert.deepEqual(said(free), [['gauge-zero-not-stated', 'Pier']]);
  const shared = blocksOf(free).map((block) => block.shared);
  assert.deepEqual(shared[0], [{ group: 'gauge:Pier', sigma_m: 10 }]);
  assert.ok(Math.abs(blocksOf(free).reduce((sum, { height_m }) => sum + height_m, 0)) < 1e-9);
  assert.equal(gaugesOf(free.results)[0]!.zero_elevation_m, null);
  const lost = computed({
    datum_shifts: [],
    gauges: [{ gauge: 'Pier', site: 'S', datum: 'Old', zero_m: '0' }],
  });
  assert.ok(said(lost).some(([code]) => code === 'no-datum-shift'));
  const unsure = computed({ gauges: [{ gauge: 'Pier', site: 'S', datum: 'MSL', zero_m: '-1.6' }] });
  assert.deepEqual(said(unsure), [['gauge-zero-without-sigma', 'Pier']]);
  assert.deepEqual(blocksOf(unsure)[0]!.shared, [{ group: 'gauge:Pier', sigma_m: 0.05 }]);
});

test('a gauge of another site joins no curve of this one; one without a site does', () => {
  assert.equal(blocksOf(computed({ gauges: [{ ...TABLES['gauges']![0]!, site: 'Far' }] })).length, 0);
  assert.equal(blocksOf(computed({ gauges: [{ ...TABLES['gauges']![0]!, site: '' }] })).length, 3);
});

test('what is wrong with the means is named at its row', () => {
  const inMm = MEANS.map((row) => ({ ...row, level_m: String(Math.round(1000 * Number(row['level_m']))) }));
  const millimetres = computed({ gauge_means: inMm });
  assert.deepEqual(said(millimetres), [['gauge-not-metres', '1951 at Pier']]);
  assert.equal(blocksOf(millimetres).length, 0);
  const empty = MEANS.map((row, i) => (i === 30 ? { ...row, level_m: '' } : row));
  assert.deepEqual(said(computed({ gauge_means: empty })), [['gauge-gaps', '1982 at Pier']]);
});

test('the curve takes them; its numbers lead to the years', () => {
  const { results, trace } = computed({}, true);
  const { curve } = results.curves[0]!;
  const century = curve!.intervals.at(-1)!.rate_mm_yr;
  assert.ok(century.lower95 < 3 && century.upper95 > 3, JSON.stringify(century));
  const gauge = traceId.gaugeMeans('Pier');
  for (const set of [traceId.pointsUsed, traceId.pointsByInfluence])
    assert.ok(trace.node(trace.find(set)).parts.includes(gauge));
  const parts = trace.node(trace.find(gauge)).parts;
  assert.equal(parts.filter((id) => id.startsWith('gauge_means/')).length, 60);
  assert.equal(parts.filter((id) => id.startsWith('gauges/')).length, 1);
  assert.ok(trace.find(traceId.point('Pier 1951–1970').residual) !== -1);
});
