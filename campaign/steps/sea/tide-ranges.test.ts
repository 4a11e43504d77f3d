/** The tidal range of the time of each point, from the table of the campaign to the curve's input. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { type TraceId, traceId } from '@stillstand/campaign/results';
import { type Computation, computeCampaign } from '../compute.ts';

type Cells = Record<string, string>;

const hole = (name: string, site: string): Cells => ({
  hole: name,
  site,
  method: 'exposure',
  reference_elevation_m: '2',
  reference_datum: 'MSL',
  reference_sigma_m: '0.02',
});
const sample = (name: string, of: string, top: string): Cells => ({
  sample: name,
  hole: of,
  basis: 'in_situ',
  top: `${top} m`,
  bottom: `${top} m`,
});
const date = (name: string, value: string, error = '100'): Cells => ({
  lab_code: `L-${name}`,
  sample: name,
  method: 'luminescence',
  value,
  error,
  reference_year: '1950',
});
const meaning = (name: string, kind: string, lower: string, upper: string): Cells => ({
  point: `P-${name}`,
  sample: name,
  kind,
  lower,
  upper,
});
const TABLES: Record<string, Cells[]> = {
  datums: [{ datum: 'MSL', kind: 'mean_sea_level', epoch_from: '1993', epoch_to: '2011' }],
  sites: [{ site: 'S' }, { site: 'Far' }],
  tide_levels: ['S', 'Far'].flatMap((site) => [
    { site, level: 'MHW', datum: 'MSL', elevation_m: '1.1', sigma_m: '0.05' },
    { site, level: 'HAT', datum: 'MSL', elevation_m: '1.6', sigma_m: '0.05' },
    { site, level: 'MSL', datum: 'MSL', elevation_m: '0.1', sigma_m: '0.03' },
    { site, level: 'MLW', datum: 'MSL', elevation_m: '-0.9', sigma_m: '0.05' },
  ]),
  holes: [hole('A', 'S'), hole('B', 'Far')],
  samples: [sample('A1', 'A', '5'), sample('A2', 'A', '8'), sample('B1', 'B', '5')],
  determinations: [date('A1', '4000'), date('A2', '6000'), date('B1', '4000')],
  points: [
    meaning('A1', 'index', 'MHW', 'HAT'),
    meaning('A2', 'marine', '', 'MLW'),
    meaning('B1', 'index', 'MHW', 'HAT'),
  ],
};
const row = (age_cal_bp: string, factor: string, factor_sigma: string, of: Cells = {}): Cells => ({
  age_cal_bp,
  factor,
  factor_sigma,
  source: 'a model',
  ...of,
});
const RANGES = [row('0', '1', '0'), row('8000', '1.8', '0.16')];

function computed(tide_ranges: Cells[], tables: Record<string, Cells[]> = {}): Computation {
  let document = newDocument('ranges');
  const all = { ...TABLES, tide_ranges, ...tables };
  for (const [table, rows] of Object.entries(all)) document = withRows(document, table, rows);
  const { campaign, problems } = parseCampaign(document);
  return computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
}
const pointOf = ({ results }: Computation, label: string) =>
  results.points.find(({ point }) => point === label)!;
const codes = ({ results }: Computation): string[] =>
  results.problems.filter(({ table }) => table === 'tide_ranges').map(({ code }) => code);

test('levels of a point are those of its time, its error shared by all of the table, its rows in the trace', () => {
  const whole = computed(RANGES, { settings: [{ name: 'curve_sites', value: 'all' }] });
  assert.deepEqual(codes(whole), []);
  const [index, marine] = [pointOf(whole, 'P-A1'), pointOf(whole, 'P-A2')];
  // 4000 cal BP: 1.4. MHW 0.1 + 1.4 × 1.0, HAT 0.1 + 1.4 × 1.5.
  assert.ok(Math.abs(index.reference_water_level_m - (1.5 + 2.2) / 2) < 1e-9);
  assert.ok(Math.abs(index.indicative_range_m! - 0.7) < 1e-9);
  assert.ok(Math.abs(index.rsl_m - (2 - 5 - 1.85)) < 1e-9);
  // 6000 cal BP: 1.6. MLW 0.1 − 1.6 × 1.0.
  assert.ok(Math.abs(marine.reference_water_level_m + 1.5) < 1e-9);
  assert.ok(Math.abs(index.tidal_range!.factor - 1.4) < 1e-9);
  assert.ok(Math.abs(index.tidal_range!.factor_sigma - 0.08) < 1e-9);
  // ± 100 yr at 1e-4 a year.
  assert.ok(Math.abs(index.tidal_range!.age_sigma - 0.01) < 2e-4);
  const shared = new Map(
    whole.curveInput!.points.map(({ id, shared: of }) => [
      id,
      of.find(({ group }) => group === 'tide_range:')?.sigma_m ?? 0,
    ]),
  );
  assert.ok(Math.abs(shared.get('P-A1')! - 1.25 * 0.08) < 1e-9);
  assert.ok(Math.abs(shared.get('P-A2')! + 1.0 * 0.12) < 1e-9, 'below the mean it acts the other way round');
  assert.ok(Math.abs(shared.get('P-B1')! - 1.25 * 0.08) < 1e-9, 'one table, one error, for all its sites');
  const parts = index.components.map(({ component, shared_group }) => [component, shared_group]);
  assert.ok(parts.some(([name, group]) => name === 'tidal_range' && group === 'tide_range:'));
  assert.ok(parts.some(([name, group]) => name === 'tidal_range_age' && group === null));
  const { trace } = whole;
  const isBelow = (top: TraceId, wanted: TraceId): boolean =>
    top === wanted || trace.node(trace.find(top)).parts.some((part) => isBelow(part, wanted));
  const named = traceId.point('P-A1');
  assert.ok(isBelow(named.rsl, named.tidalRange));
  const rows = trace.ids().filter((id) => id.startsWith('tide_ranges/'));
  assert.equal(rows.length, 2);
  for (const each of rows) assert.ok(isBelow(named.tidalRange, each));
  assert.ok(isBelow(named.tidalRange, traceId.date('L-A1')));
  assert.ok(isBelow(named.referenceWaterLevel, traceId.tide('S', 'MSL')));
});

test('today’s range everywhere gives the same numbers to the last bit', () => {
  const today = computed([]);
  const same = computed([row('0', '1', '0'), row('9000', '1', '0')]);
  const plain = ({ results }: Computation) => results.points.map(({ tidal_range: _, ...point }) => point);
  assert.deepEqual(plain(same), plain(today));
  assert.deepEqual(same.curveInput!.points, today.curveInput!.points);
  assert.equal(pointOf(today, 'P-A1').tidal_range, null);
});

test('a site’s own rows go before those for all sites', () => {
  const whole = computed([
    ...RANGES,
    row('0', '1', '0', { site: 'Far' }),
    row('8000', '0.6', '0.1', { site: 'Far' }),
  ]);
  assert.ok(Math.abs(pointOf(whole, 'P-B1').tidal_range!.factor - 0.8) < 1e-9);
  assert.ok(Math.abs(pointOf(whole, 'P-A1').tidal_range!.factor - 1.4) < 1e-9);
});

test('a sample without a date takes today’s range, and it is said', () => {
  const dated = [date('A2', '6000'), date('B1', '4000')];
  const whole = computed(RANGES, { determinations: dated });
  const [undated] = whole.results.undated;
  assert.ok(Math.abs(undated!.rsl_m - (2 - 5 - 1.35)) < 1e-9);
  const said = whole.results.problems.find(
    ({ code, label }) => code === 'point-without-date' && label === 'P-A1',
  )!;
  assert.match(said.fix, /no tidal range of its time is known/);
  const without = computed([], { determinations: dated });
  assert.doesNotMatch(
    without.results.problems.find(({ code }) => code === 'point-without-date')!.fix,
    /tidal range/,
  );
});

test('what is wrong with the table is named, and what is used until then', () => {
  assert.deepEqual(
    codes(computed([row('8000', '1.8', '0.16'), row('0', '1', '0'), row('9000', '2', '0.2')])),
    ['tide-range-out-of-order'],
  );
  const twice = computed([...RANGES, row('8000', '1.2', '0.16')]);
  assert.deepEqual(codes(twice), ['tide-range-same-age']);
  assert.ok(Math.abs(pointOf(twice, 'P-A1').tidal_range!.factor - 1.4) < 1e-9, 'the first is used');
  const ka = computed([row('0', '1', '0'), row('8', '1.8', '0.16')]);
  assert.deepEqual(codes(ka), ['tide-range-ages-in-ka']);
  assert.equal(pointOf(ka, 'P-A1').tidal_range, null);
  // A range of 3.2 m today is no factor; a factor that is 1 within its error is one.
  const metres = computed([row('0', '3.2', '0.1'), row('8000', '4.8', '0.2')]);
  assert.deepEqual(codes(metres), ['tide-range-not-of-today']);
  assert.equal(pointOf(metres, 'P-A1').tidal_range, null);
  assert.deepEqual(codes(computed([row('50', '1.25', '0.1'), row('9000', '2', '0.2')])), []);
  for (const bad of [row('8000', '0', '0.1'), row('8000', '-1.2', '0.1'), row('8000', '120', '0.1')]) {
    const whole = computed([RANGES[0]!, bad]);
    const [found] = whole.results.problems.filter(({ table }) => table === 'tide_ranges');
    assert.equal(found!.severity, 'error');
    assert.equal(found!.column, 'factor');
  }
  const unsure = computed([RANGES[0]!, row('8000', '1.8', '')]);
  const [missing] = unsure.results.problems.filter(({ table }) => table === 'tide_ranges');
  assert.deepEqual([missing!.severity, missing!.column], ['error', 'factor_sigma']);
});

test('points beyond the table take its nearest end, and it is said which', () => {
  const whole = computed([row('0', '1', '0'), row('5000', '1.5', '0.1')]);
  const said = whole.results.problems.find(({ code }) => code === 'tide-range-beyond-table')!;
  assert.equal(said.severity, 'warning');
  assert.equal(said.found, 'P-A2 at 6000');
  assert.ok(Math.abs(pointOf(whole, 'P-A2').tidal_range!.factor - 1.5) < 1e-9);
});

test('where no mean level of the tide is stated, nothing is scaled', () => {
  const tables = {
    datums: [{ datum: 'Local', kind: 'local' }],
    tide_levels: TABLES['tide_levels']!.filter(({ level }) => level !== 'MSL').map((level) => ({
      ...level,
      datum: 'Local',
    })),
    holes: TABLES['holes']!.map((each) => ({ ...each, reference_datum: 'Local' })),
  };
  const whole = computed(RANGES, tables);
  assert.deepEqual(codes(whole), ['tide-range-without-mean']);
  assert.equal(pointOf(whole, 'P-A1').tidal_range, null);
  assert.ok(Math.abs(pointOf(whole, 'P-A1').reference_water_level_m - 1.35) < 1e-9);
});
