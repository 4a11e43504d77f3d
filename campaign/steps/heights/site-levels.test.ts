/** Tide levels computed from a gauge, against the accepted datums of a station; what comes first, and the trace. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import { predict } from '@stillstand/science/tide';
import { STATIONS } from '../../../checks/tides/stations.ts';
import { computeCampaign } from '../compute.ts';
import { type Cells, documentOf, THREE_LEVELS } from '../sea/fixtures/three-levels.ts';

const [{ tide: boston, published }] = STATIONS as [(typeof STATIONS)[number]];
/** Station zero lies 2.660 m below mean sea level. */
const MSL_M = published['MSL']!;
const constituents: Cells[] = [
  ...boston.constants.map(({ constituent, amplitude_m, phase_deg }) => ({
    gauge: 'Quay',
    constituent,
    amplitude_m: String(amplitude_m),
    phase_deg: String(phase_deg),
  })),
  { gauge: 'Quay', constituent: 'Z0', amplitude_m: String(MSL_M), phase_deg: '0', amplitude_sigma_m: '0.01' },
];
const gauges: Cells[] = [{ gauge: 'Quay', site: 'A', datum: 'CD', zero_elevation_m: '0.1', sigma_m: '0.02' }];
/** Station zero is 0.1 m above CD, and CD 2.760 m below MSL: zero at −2.660 m. */
const shifts = {
  datums: [
    { datum: 'MSL', kind: 'mean_sea_level', epoch_from: '1983', epoch_to: '2001' },
    { datum: 'CD', kind: 'local' },
  ],
  datum_shifts: [{ from: 'CD', to: 'MSL', shift_m: String(-MSL_M - 0.1), sigma_m: '0.03' }],
};
const reduction = (cells: Cells = {}): Cells[] => [
  { site: 'A', gauge: 'Quay', method: 'constants', ...cells },
];

function computed(tables: Readonly<Record<string, readonly Cells[]>>) {
  const { campaign, problems } = parseCampaign(
    documentOf('levels', { ...THREE_LEVELS, ...shifts, gauges, constituents, ...tables }),
  );
  return computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
}
const levelsOf = ({ results }: ReturnType<typeof computed>) =>
  new Map(results.tides.find(({ site }) => site === 'A')?.levels.map((level) => [level.level, level]));
const said = ({ results }: ReturnType<typeof computed>, table: string) =>
  results.problems.filter((p) => p.table === table).map(({ code, severity }) => [code, severity]);

test('constants of a station give its accepted datums of 1983–2001 on the campaign datum, with their errors', () => {
  const levels = levelsOf(computed({ tide_levels: [], tide_reductions: reduction() }));
  for (const level of ['MHHW', 'MHW', 'MTL', 'DTL', 'MLW', 'MLLW', 'HAT', 'LAT', 'MSL']) {
    const { elevation_m, sigma_m, basis, gauge } = levels.get(level)!;
    const tolerance = level === 'HAT' || level === 'LAT' ? 0.02 : 0.04;
    assert.ok(Math.abs(elevation_m - (published[level]! - MSL_M)) < tolerance, `${level} ${elevation_m}`);
    assert.deepEqual([basis, gauge], ['constants', 'Quay']);
    // Method 0.04 (0.02 of HAT and LAT), zero 0.02, shift 0.03, Z0 0.01; constants without an error.
    const method = level === 'HAT' || level === 'LAT' ? 0.02 : 0.04;
    assert.ok(Math.abs(sigma_m! - Math.sqrt(method ** 2 + 0.02 ** 2 + 0.03 ** 2 + 0.01 ** 2)) < 1e-9);
  }
  // MHWS by the convention: 1.371 + 0.208 above the mean.
  assert.ok(Math.abs(levels.get('MHWS')!.elevation_m - 1.579) < 1e-9);
});

test('a point uses them, and its trace reaches constants, zero and datum shift of the gauge', () => {
  const { results, trace } = computed({ tide_levels: [], tide_reductions: reduction() });
  const [point] = results.points;
  const levels = new Map(results.tides[0]!.levels.map((level) => [level.level, level.elevation_m]));
  assert.ok(Math.abs(point!.reference_water_level_m - (levels.get('MHW')! + levels.get('HAT')!) / 2) < 1e-12);
  const below = new Set<string>();
  const walk = (node: number): void => {
    const { row } = trace.node(node);
    if (row !== null) below.add(`${row.table}/${row.row_id}`);
    for (const part of trace.parts(node)) walk(part);
  };
  walk(trace.find(traceId.point(point!.point).rsl));
  for (const row of ['tide_reductions/tide_reductions0', 'gauges/gauges0', 'datum_shifts/datum_shifts0'])
    assert.ok(below.has(row), row);
  assert.equal([...below].filter((row) => row.startsWith('constituents/')).length, constituents.length);
  assert.equal(trace.node(trace.find(traceId.gaugeZero('Quay'))).value, -MSL_M);
});

test('a level that is entered comes first, which is said; far from the computed one it is a warning', () => {
  const entered = (level: string, elevation_m: string): Cells => ({
    site: 'A',
    level,
    datum: 'MSL',
    elevation_m,
    sigma_m: '0.02',
  });
  const of = computed({
    tide_levels: [entered('MHW', '1.42'), entered('HAT', '3.17')],
    tide_reductions: reduction(),
  });
  const levels = levelsOf(of);
  assert.deepEqual([levels.get('MHW')!.elevation_m, levels.get('MHW')!.basis], [1.42, 'stated']);
  assert.ok(Math.abs(levels.get('MHW')!.computed_m! - 1.411) < 0.04);
  assert.equal(levels.get('MLW')!.basis, 'constants');
  assert.deepEqual(said(of, 'tide_levels'), [
    ['tide-level-differs', 'warning'],
    ['tide-level-stated', 'note'],
  ]);
  const far = of.results.problems.find(({ code }) => code === 'tide-level-differs')!;
  assert.match(
    far.found,
    /^HAT at \+3\.17 m, as entered; \+2\.1\d m ±0\.08 m \(2σ\) by the constants of Quay$/,
  );
  // A typed level below a computed one is out of order.
  const wrong = computed({ tide_levels: [entered('MHW', '-1.42')], tide_reductions: reduction() });
  assert.match(
    wrong.results.problems.find(({ code }) => code === 'tide-levels-out-of-order')!.found,
    /^MHW at −1\.42 m, below MHWN at 1\.163 m$/,
  );
});

/** Hours of the tide at the station, with offset, above the zero of the gauge. */
const readings = (days: number, off_m = 0): Cells[] => {
  const time_ms = Float64Array.from(
    { length: days * 24 + 1 },
    (_, i) => Date.UTC(2020, 3, 1) + i * 3_600_000,
  );
  const height_m = predict({ ...boston, mean_m: MSL_M + off_m }, time_ms);
  return [...time_ms].map((time, i) => ({
    gauge: 'Quay',
    seq: String(i + 1),
    time: new Date(time).toISOString().replace('.000', ''),
    height_m: height_m[i]!.toFixed(3),
  }));
};

test('means of a gauge’s readings between two days, within their errors of the accepted datums', () => {
  const first = { ...readings(1)[0]!, height_m: '9.9', time: '2020-02-01T00:00:00Z', seq: '0' };
  const of = computed({
    tide_levels: [],
    gauge_readings: [first, ...readings(70)],
    tide_reductions: reduction({ method: 'means', from: '2020-04-01', to: '2020-05-31' }),
  });
  const levels = levelsOf(of);
  assert.deepEqual([...levels.keys()], ['MHHW', 'MHW', 'MTL', 'DTL', 'MSL', 'MLW', 'MLLW']);
  for (const [level, { elevation_m, sigma_m, basis }] of levels) {
    assert.ok(Math.abs(elevation_m - (published[level]! - MSL_M)) < 2 * sigma_m!, level);
    assert.equal(basis, 'means');
  }
  const node = of.trace.node(of.trace.find(traceId.tide('A', 'MHW')));
  assert.equal(node.how, 'mean of 61 days of readings of Quay');
  // HAT is no mean: its points say so.
  assert.ok(said(of, 'points').every(([code]) => code === 'point-tide-level-missing'));
  // Both rows: HAT of the constants, MHW of the readings, which are asked for first.
  const both = levelsOf(
    computed({
      tide_levels: [],
      gauge_readings: readings(70),
      tide_reductions: [...reduction({ method: 'means' }), ...reduction()],
    }),
  );
  assert.deepEqual([both.get('MHW')!.basis, both.get('HAT')!.basis], ['means', 'constants']);
});

test('what cannot be computed says what is missing, and leaves the rest', () => {
  const short = computed({
    tide_levels: [],
    gauge_readings: readings(7),
    tide_reductions: reduction({ method: 'means' }),
  });
  assert.deepEqual(said(short, 'tide_reductions'), [['tide-reduction-too-short', 'error']]);
  assert.match(
    short.results.problems.find(({ code }) => code === 'tide-reduction-too-short')!.found,
    /^169 readings of Quay, 7\.0 days/,
  );
  const none = computed({ constituents: [], tide_reductions: reduction() });
  assert.deepEqual(said(none, 'tide_reductions'), [['tide-reduction-without-constants', 'error']]);
  assert.equal(levelsOf(none).get('MHW')!.elevation_m, 0.8);
  const lost = computed({ datum_shifts: [], tide_levels: [], tide_reductions: reduction() });
  assert.deepEqual(said(lost, 'gauges'), [['no-datum-shift', 'warning']]);
  assert.deepEqual(lost.results.tides, []);
  const unknown = computed({
    constituents: [...constituents, { ...constituents[0]!, constituent: 'XYZ' }],
    tide_levels: [],
    tide_reductions: reduction(),
  });
  assert.deepEqual(said(unknown, 'tide_reductions'), [['tide-constants-unknown', 'note']]);
});

test('of a gauge that two rows ask for, what is wrong with its zero is said once', () => {
  const of = computed({
    gauges: [{ ...gauges[0]!, sigma_m: '' }],
    gauge_readings: readings(40),
    tide_levels: [],
    tide_reductions: [...reduction({ method: 'means' }), ...reduction()],
  });
  assert.deepEqual(said(of, 'gauges'), [['gauge-zero-without-sigma', 'warning']]);
});

test('an entered mean level without its sigma counts with the usual one, which is said', () => {
  const MSL: Cells = { site: 'A', level: 'MSL', datum: 'MSL', elevation_m: '0' };
  const of = computed({
    constituents: constituents.slice(0, -1),
    tide_levels: [MSL],
    tide_reductions: reduction(),
  });
  // 0.04 of the method, 0.05 of the mean level.
  assert.ok(Math.abs(levelsOf(of).get('MHW')!.sigma_m! - Math.sqrt(0.04 ** 2 + 0.05 ** 2)) < 1e-9);
  assert.deepEqual(said(of, 'tide_reductions'), [['tide-reduction-mean-without-sigma', 'warning']]);
});

test('entered levels of two datums are held against each other to the rounding of the shift', () => {
  // −1.9 lifts 1.3 to −0.6: 1.3 − 1.9 is −0.5999999999999999 in a computer, above −0.6.
  const orderOf = (MHHW_m: string) =>
    said(
      computed({
        datum_shifts: [{ from: 'CD', to: 'MSL', shift_m: '-1.9', sigma_m: '0.03' }],
        tide_levels: [
          { site: 'A', level: 'MHW', datum: 'CD', elevation_m: '1.3', sigma_m: '0.02' },
          { site: 'A', level: 'MHHW', datum: 'MSL', elevation_m: MHHW_m, sigma_m: '0.02' },
        ],
      }),
      'tide_levels',
    );
  assert.deepEqual(orderOf('-0.6'), []);
  assert.deepEqual(orderOf('-0.61'), [['tide-levels-out-of-order', 'warning']]);
});
