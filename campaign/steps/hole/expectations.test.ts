/** What holes that go on are expected to meet, and what is said where something else came up. Invented. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

type Units = readonly (readonly [sediment: string, base_m: number])[];
const WHOLE: Units = [
  ['sand', 1],
  ['clay', 2.6],
  ['peat', 2.9],
  ['silt', 4.4],
  ['gravel', 5.5],
];

function found(
  state: string,
  units: Units,
  { correlations = [], hole = {} }: { correlations?: Cells[]; hole?: Cells } = {},
) {
  const holes: [string, Units][] = [
    ['H1', WHOLE],
    ['H2', units],
    ['H3', WHOLE],
  ];
  const { campaign, problems } = campaignOf('coast', {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    settings: [{ name: 'datum', value: 'MSL' }],
    sites: [{ site: 'S', name: 'Site' }],
    holes: holes.map(([name], i) => ({
      hole: name,
      site: 'S',
      method: 'hand',
      state: name === 'H2' ? state : 'finished',
      latitude_deg: '50',
      longitude_deg: String(5 + 0.0005 * i),
      reference_point: 'peg',
      reference_elevation_m: '2',
      reference_sigma_m: '0.02',
      reference_datum: 'MSL',
      ...(name === 'H2' ? hole : {}),
    })),
    units: holes.flatMap(([name, of]) =>
      of.map(([sediment, base], i) => ({
        row_id: `${name}-${i + 1}`,
        hole: name,
        unit: String(i + 1),
        depth_basis: 'in_situ',
        top: `${of[i - 1]?.[1] ?? 0} m`,
        bottom: `${base} m`,
        sediment,
        environment: sediment === 'peat' ? 'marsh' : '',
      })),
    ),
    correlations,
  });
  const { results } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  return {
    expectation: results.expectations.find((each) => each.hole === 'H2'),
    problems: results.problems.filter(
      ({ code }) => code === 'not-as-expected' || code === 'expected-not-met',
    ),
    results,
  };
}

const tie = (n: number): Cells => ({
  row_id: `T${n}`,
  hole_a: 'H1',
  unit_a: String(n),
  hole_b: 'H3',
  unit_b: String(n),
  confidence: 'certain',
  ...(n === 3 ? { horizon: 'lower peat' } : {}),
});
const correlations = [1, 2, 3, 4].map(tie);

test('an open hole between two alike: what is not described yet, in order, with its horizon and environment', () => {
  const { expectation, problems } = found(
    'open',
    [
      ['sand', 1],
      ['clay', 1.5],
    ],
    { correlations },
  );
  assert.ok(expectation);
  assert.deepEqual(expectation.asked.map(({ hole }) => hole).sort(), ['H1', 'H3']);
  assert.equal(expectation.ties, 4);
  const below = expectation.contacts.filter(({ met }) => met === null);
  assert.deepEqual(
    below.map(({ sediment, environment, horizon }) => [sediment, environment, horizon]),
    [
      ['clay', null, null],
      ['peat', 'marsh', 'lower peat'],
      ['silt', null, null],
    ],
  );
  for (const [i, wanted] of [-0.6, -0.9, -2.4].entries()) {
    const { elevation_m, present, with_95_m } = below[i]!;
    assert.ok(elevation_m.lower95 < wanted && elevation_m.upper95 > wanted, `${i}`);
    assert.ok(with_95_m < elevation_m.median && present > 0.8);
  }
  assert.deepEqual(problems, []);
});

test('a planned hole without a levelled ground is told elevations; one that is finished nothing', () => {
  const planned = found('planned', [], { correlations, hole: { reference_elevation_m: '' } });
  assert.equal(planned.expectation?.ground_m, null);
  assert.equal(planned.expectation?.contacts.length, 4);
  assert.equal(found('finished', [['sand', 1]], { correlations }).expectation, undefined);
  assert.equal(found('open', [], { correlations, hole: { latitude_deg: '' } }).expectation, undefined);
});

test('a contact met far from where it is expected is a warning of its layer, with where it was expected', () => {
  const { problems, expectation } = found(
    'open',
    [
      ['sand', 4.5],
      ['clay', 5],
    ],
    {
      correlations: [...correlations, { ...tie(1), row_id: 'own', hole_b: 'H2' }],
    },
  );
  const [first] = problems.filter(({ code }) => code === 'not-as-expected');
  assert.equal(first?.row_id, 'H2-1');
  assert.match(first.found, /−2\.50 m/);
  assert.match(first.expected, /\(95 %\), as the base of H[13], unit 1/);
  assert.ok(expectation!.contacts[0]!.met!.improbable < 0.02);
});

test('a layer that should have come up by now is said, and less is expected of it', () => {
  const { problems, expectation } = found(
    'open',
    [
      ['gravel', 12],
      ['gravel', 16],
    ],
    { correlations },
  );
  const missed = problems.filter(({ code }) => code === 'expected-not-met');
  assert.equal(missed.length, 4);
  assert.ok(missed.every(({ row_id, severity }) => row_id !== null && severity === 'note'));
  assert.match(missed[2]!.found, /no base of peat down to −14\.00 m/);
  assert.ok(expectation!.contacts.every(({ present, met }) => met !== null || present < 0.2));
});

test('nothing that is expected is a layer of the hole', () => {
  const { results } = found('open', [['sand', 1]], { correlations });
  assert.equal(results.holes.find(({ hole }) => hole === 'H2')!.units.length, 1);
});

test('layers that nobody has correlated yet are followed across the hole by clear proposals', () => {
  const whole = found('planned', []).expectation!;
  const begun = found('open', [
    ['sand', 1],
    ['clay', 1.5],
  ]).expectation!;
  assert.deepEqual([whole.ties, begun.ties], [0, 0]);
  assert.ok(whole.proposed_ties >= 2 && begun.proposed_ties >= whole.proposed_ties);
  // One of both holes, not one of each.
  for (const { contacts } of [whole, begun])
    assert.ok(contacts.find(({ sediment }) => sediment === 'peat')!.units.length === 2);
});
