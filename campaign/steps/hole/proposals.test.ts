/** Proposals between neighbouring holes, what a person decided, horizons by name, and correlations that cannot be so. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';
import type { Memo } from '../runner/runner.ts';

/** Sediment and base, m below ground. */
type Units = readonly (readonly [sediment: string, base_m: number])[];
const COLUMN: Units = [
  ['sand', 1],
  ['clay', 2.6],
  ['peat', 2.9],
  ['silt', 4.4],
  ['peat', 4.6],
  ['gravel', 5.5],
];

interface Given {
  holes?: Record<string, Units>;
  correlations?: Cells[];
  /** Age, cal BP, of a sample 2 cm thick around a depth in a hole. */
  dates?: readonly (readonly [hole: string, depth_m: number, cal_bp: number, more?: Cells])[];
  settings?: Cells[];
  measurements?: Cells[];
}

function tablesOf(given: Given) {
  const { holes = { H1: COLUMN, H2: COLUMN }, correlations = [], dates = [], settings = [] } = given;
  return {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    settings: [{ name: 'datum', value: 'MSL' }, ...settings],
    sites: [{ site: 'S', name: 'Site' }],
    holes: Object.keys(holes).map((hole, i) => ({
      hole,
      site: 'S',
      method: 'hand',
      latitude_deg: '50',
      longitude_deg: String(5 + 0.0005 * i),
    })),
    units: Object.entries(holes).flatMap(([hole, units]) =>
      units.map(([sediment, base], i) => ({
        row_id: `${hole}-${i + 1}`,
        hole,
        unit: String(i + 1),
        depth_basis: 'in_situ',
        top: `${units[i - 1]?.[1] ?? 0} m`,
        bottom: `${base} m`,
        sediment,
      })),
    ),
    samples: dates.map(([hole, depth], i) => ({
      sample: `S${i}`,
      hole,
      depth_basis: 'in_situ',
      top: `${depth - 0.01} m`,
      bottom: `${depth + 0.01} m`,
      material: 'peat',
    })),
    determinations: dates.map(([, , cal_bp, more = {}], i) => ({
      lab_code: `L-${i}`,
      sample: `S${i}`,
      method: 'luminescence',
      value: String(cal_bp),
      error: '50',
      ...more,
    })),
    correlations: correlations.map((cells, i) => ({ row_id: `k${i}`, ...cells })),
    measurements: given.measurements ?? [],
  };
}

function computed(given: Given, memo: Memo | null = null) {
  const { campaign, problems } = campaignOf('proposed', tablesOf(given));
  const { results } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false, memo });
  return {
    results,
    proposed: results.correlation_proposals.map(
      ({ hole_a, unit_a, hole_b, unit_b }) => `${hole_a} ${unit_a} ${hole_b} ${unit_b}`,
    ),
    said: results.problems
      .filter(({ table }) => table === 'correlations')
      .map(({ severity, code, row_id, found }) => `${severity} ${code} ${row_id} ${found}`),
  };
}

const tie = (unit_a: number, unit_b: number, more: Cells = {}): Cells => ({
  hole_a: 'H1',
  unit_a: `H1-${unit_a}`,
  hole_b: 'H2',
  unit_b: `H2-${unit_b}`,
  ...more,
});

test('two columns alike are proposed base by base; the base that no hole reached is not', () => {
  const { results, proposed, said } = computed({});
  assert.deepEqual(
    proposed,
    [1, 2, 3, 4, 5].map((i) => `H1 ${i} H2 ${i}`),
  );
  assert.ok(results.correlation_proposals.every(({ margin, is_clear }) => margin >= 2 && is_clear));
  // Never stored, and no part of what people correlated.
  assert.deepEqual([results.correlations, said], [[], []]);
});

test('each hole meets the next along the section; one without units is passed over, another site is apart', () => {
  const holes = { H1: COLUMN, H2: [] as Units, H3: COLUMN };
  assert.ok(computed({ holes }).proposed.every((words) => /^H1 \d H3 \d$/.test(words)));
  assert.deepEqual(computed({ holes: { H1: COLUMN } }).proposed, []);
  const { campaign, problems } = campaignOf('apart', {
    ...tablesOf({}),
    sites: ['S', 'T'].map((site) => ({ site, name: site })),
    holes: ['S', 'T'].map((site, i) => ({ hole: `H${i + 1}`, site, method: 'hand' })),
  });
  const { results } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  assert.deepEqual(results.correlation_proposals, []);
});

test('what is accepted is proposed no more and is not crossed; what is refused is not proposed', () => {
  const accepted = computed({ correlations: [tie(3, 3, { status: 'accepted' })] });
  assert.deepEqual(
    accepted.proposed,
    [1, 2, 4, 5].map((i) => `H1 ${i} H2 ${i}`),
  );
  // Typed the other way round it is the same.
  const mirrored = computed({
    correlations: [{ hole_a: 'H2', unit_a: 'H2-3', hole_b: 'H1', unit_b: 'H1-3' }],
  });
  assert.deepEqual(mirrored.proposed, accepted.proposed);
  const across = computed({ correlations: [tie(3, 5)] });
  assert.ok(!across.proposed.some((words) => /^H1 [45]|H2 [345]$/.test(words)), across.proposed.join());
  const refused = computed({ correlations: [tie(3, 3, { status: 'refused' })] });
  assert.deepEqual(
    refused.proposed,
    [1, 2, 4, 5].map((i) => `H1 ${i} H2 ${i}`),
  );
  assert.deepEqual([refused.results.correlations, refused.said], [[], []]);
});

test('a decision recomputes its two holes alone', () => {
  const holes = { H1: COLUMN, H2: COLUMN, H3: COLUMN };
  const memo: Memo = new Map();
  computed({ holes }, memo);
  const before = new Set(memo.keys());
  computed({ holes, correlations: [tie(1, 1)] }, memo);
  assert.equal([...memo.keys()].filter((key) => !before.has(key)).length, 1);
  // Warm as cold.
  const [warm, cold] = [memo, null].map((kept) => computed({ holes, correlations: [tie(1, 1)] }, kept));
  assert.deepEqual(warm!.results.correlation_proposals, cold!.results.correlation_proposals);
});

test('ages above one contact and below the other forbid a proposal, rejected and limiting ones as they apply', () => {
  const dates = (more: Cells = {}): NonNullable<Given['dates']> => [
    ['H1', 2.8, 8000, more],
    ['H2', 3, 6000],
  ];
  assert.ok(!computed({ dates: dates() }).proposed.includes('H1 3 H2 3'));
  for (const more of [{ status: 'rejected', reason: 'roots' }, { age_role: 'maximum' }] as Cells[])
    assert.ok(computed({ dates: dates(more) }).proposed.includes('H1 3 H2 3'), JSON.stringify(more));
});

test('a correlation of contacts that cannot be of one age is named, and drawn', () => {
  const { said, results } = computed({
    correlations: [tie(3, 3)],
    dates: [
      ['H1', 2.8, 8000],
      ['H2', 3, 6000],
    ],
  });
  assert.deepEqual(said, ['warning correlation-ages k0 H1 before 7,900, H2 after 6,099 cal BP']);
  assert.equal(results.correlations.length, 1);
});

test('correlations that cross are named once each, and nothing is proposed between the two holes', () => {
  const { said, proposed, results } = computed({
    correlations: [tie(1, 3), tie(3, 1), tie(2, 2), tie(5, 5)],
  });
  assert.deepEqual(said, [
    'warning correlations-cross k1 H1 3 to H2 1 crosses H1 1 to H2 3',
    'warning correlations-cross k2 H1 2 to H2 2 crosses H1 1 to H2 3 and 1 more',
  ]);
  assert.deepEqual([proposed, results.correlations.length], [[], 4]);
});

test('one contact accepted and refused counts as accepted, and is named', () => {
  const { said, results } = computed({ correlations: [tie(3, 3), tie(3, 3, { status: 'refused' })] });
  assert.deepEqual(said, ['warning correlation-both-ways k1 refused here, accepted in another row']);
  assert.equal(results.correlations.length, 1);
});

test('a horizon is what is tied together under one name, with its place in each hole', () => {
  const holes = { H1: COLUMN, H2: COLUMN, H3: COLUMN };
  const { results, said } = computed({
    holes,
    correlations: [
      tie(3, 3, { horizon: 'Upper  peat' }),
      { hole_a: 'H2', unit_a: 'H2-3', hole_b: 'H3', unit_b: 'H3-3' },
      tie(5, 5),
    ],
  });
  assert.deepEqual(said, []);
  assert.deepEqual(
    results.horizons.map(({ horizon, contacts }) => [
      horizon,
      contacts.map(({ hole, unit, depth_m }) => [hole, unit, depth_m.value]),
    ]),
    [
      [
        'Upper peat',
        [
          ['H1', '3', 2.9],
          ['H2', '3', 2.9],
          ['H3', '3', 2.9],
        ],
      ],
    ],
  );
  assert.deepEqual(
    results.correlations.map(({ horizon }) => horizon),
    ['Upper peat', null, null],
  );
});

test('a horizon of two names, and a name at two contacts of a hole, are named', () => {
  const two = computed({
    holes: { H1: COLUMN, H2: COLUMN, H3: COLUMN },
    correlations: [
      tie(3, 3, { horizon: 'upper peat' }),
      { hole_a: 'H2', unit_a: 'H2-3', hole_b: 'H3', unit_b: 'H3-3', horizon: 'second peat' },
    ],
  });
  assert.deepEqual(two.said, ['warning horizon-two-names k1 second peat, tied to upper peat']);
  assert.deepEqual(
    two.results.horizons.map(({ horizon }) => horizon),
    ['upper peat'],
  );
  const twice = computed({
    correlations: [tie(3, 3, { horizon: 'peat' }), tie(5, 5, { horizon: 'Peat' })],
  });
  assert.deepEqual(twice.said, ['warning horizon-twice-in-hole k1 peat at two contacts of H1, H2']);
  // A layer split in the other hole has two contacts there: no matter as long as nobody names it.
  assert.deepEqual(computed({ correlations: [tie(3, 3), tie(3, 4)] }).said, []);
});

test('a measured property tells alike beds apart where a setting asks for it', () => {
  const sand = (of: number): Units => Array.from({ length: of }, (_, i) => ['sand', i + 1] as const);
  const value = (hole: string, depth: number, loss: number): Cells => ({
    hole,
    depth_basis: 'in_situ',
    top: `${depth} m`,
    bottom: `${depth + 0.02} m`,
    property: 'loss on ignition',
    value: String(loss),
    sigma: '1',
    unit: '%',
  });
  const given = {
    holes: { H1: sand(4), H2: sand(4) },
    measurements: [
      ...[5, 30, 60, 90].map((loss, i) => value('H1', i + 0.5, loss)),
      ...[30, 60, 90, 5].map((loss, i) => value('H2', i + 0.5, loss)),
    ],
  };
  const asked = computed({ ...given, settings: [{ name: 'correlation_by', value: 'Loss on ignition' }] });
  assert.ok(asked.results.correlation_proposals.some(({ measured }) => measured > 0.8));
  assert.ok(
    asked.proposed.includes('H1 2 H2 1') && asked.proposed.includes('H1 3 H2 2'),
    asked.proposed.join(),
  );
  assert.ok(computed(given).results.correlation_proposals.every(({ measured }) => measured === 0));
});

test('a property that nothing was measured of is named', () => {
  const { results } = computed({ settings: [{ name: 'correlation_by', value: 'ages; colour' }] });
  assert.deepEqual(
    results.problems.filter(({ table }) => table === 'settings').map(({ code, found }) => [code, found]),
    [['correlation-by-nothing', 'colour']],
  );
});

test('the stated margin parts what is clear from what is doubtful', () => {
  const of = (value: string) =>
    computed({ settings: [{ name: 'correlation_margin', value }] }).results.correlation_proposals;
  assert.ok(of('100').every(({ is_clear }) => !is_clear));
  assert.ok(of('0').every(({ is_clear }) => is_clear));
});
