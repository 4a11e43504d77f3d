/** Environments through time of two exposures of steady 1 mm/yr, one of them drowned a thousand years later. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';
import type { Memo } from '../runner/runner.ts';

/** Word for the middle layer of A, and settings besides; `memo` for a computation after another; years missing at the base of A’s first layer. */
function computed(
  middle: string,
  settings: Record<string, string> = {},
  memo: Memo = new Map(),
  missing_yr = 0,
) {
  const hole = (name: string, longitude_deg: string): Cells => ({
    hole: name,
    method: 'exposure',
    site: 'S',
    latitude_deg: '-46.4',
    longitude_deg,
    reference_elevation_m: '2',
    reference_datum: 'MSL',
  });
  const depths = [0.5, 1.5, 2.5, 3.5];
  const isMissing = (at: string, depth: number): boolean => missing_yr > 0 && at === 'A' && depth === 1;
  const unit = (at: string, label: string, top: number, base: number, environment: string): Cells => ({
    row_id: `${at}-${label}`,
    hole: at,
    unit: label,
    basis: 'in_situ',
    top: `${top} m`,
    bottom: `${base} m`,
    sediment: 'silt',
    environment,
    contact_below: isMissing(at, base) ? 'erosional' : 'sharp',
  });
  const { campaign, problems } = campaignOf('environments', {
    sites: [{ site: 'S', name: 'S', latitude_deg: '-46.4', longitude_deg: '-121.3' }],
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    // 0.002° of longitude at 46.4° S is 154 m.
    holes: [hole('A', '-121.300'), hole('B', '-121.298')],
    units: [
      unit('A', '1', 0, 1, 'lagoon'),
      unit('A', '2', 1, 2, middle),
      unit('A', '3', 2, 4, 'land surface'),
      unit('B', '1', 0, 1, 'High  marsh'),
      unit('B', '2', 1, 3, 'Land surface'),
      unit('B', '3', 3, 4, 'not known'),
    ],
    samples: ['A', 'B'].flatMap((at) =>
      depths.map((depth) => ({
        sample: `${at} ${depth}`,
        hole: at,
        basis: 'in_situ',
        top: `${depth - 0.005} m`,
        bottom: `${depth + 0.005} m`,
      })),
    ),
    determinations: ['A', 'B'].flatMap((at) =>
      depths.map((depth) => ({
        lab_code: `${at}-${depth}`,
        sample: `${at} ${depth}`,
        method: 'luminescence',
        value: String(1000 * depth + (at === 'A' && depth > 1 ? missing_yr : 0)),
        error: '40',
      })),
    ),
    settings: Object.entries({ age_depth: 'A; B', ...settings }).map(([name, value]) => ({ name, value })),
  });
  const { results, trace, count } = computeCampaign(campaign, { curves: {} }, problems, {
    withCurve: true,
    memo,
  });
  return { results, trace, count };
}

const about = ({ results }: ReturnType<typeof computed>) =>
  results.problems
    .filter(({ code }) => /^(environment-|edge-)/.test(code) || code === 'unusable-setting')
    .map(({ code, label, found }) => [code, label, found]);

test('what stood where: spells in order, when each began, the edge between the holes, the line at its ages', () => {
  const memo: Memo = new Map();
  const first = computed('high marsh', { section_ages: '1500; 500' }, memo);
  const { environments, lines_through_time } = first.results;
  assert.deepEqual(
    environments.map(({ hole, spells }) => [
      hole,
      spells.map(({ kind, environment }) => environment ?? kind),
    ]),
    [
      ['A', ['since', 'lagoon', 'high marsh', 'land surface', 'before']],
      // Capitals and blanks make no other word; what is said not to be known says nothing.
      ['B', ['since', 'high marsh', 'land surface', 'environment', 'before']],
    ],
  );
  const [a] = environments as [(typeof environments)[number]];
  // 1 mm/yr: the marsh began when its base, at 2 m, was laid.
  const { began_cal_bp, ended_cal_bp, units, against_sea } = a.spells[2]!;
  for (const [range, age] of [
    [began_cal_bp!, 2000],
    [ended_cal_bp!, 1000],
  ] as const)
    assert.ok(range.lower95 < age && age < range.upper95 && range.upper95 - range.lower95 < 700);
  assert.deepEqual(
    units.map(({ unit }) => unit),
    ['2'],
  );
  assert.equal(against_sea, null);
  for (let i = 0; i < a.ages_cal_bp.length; i++) {
    const sum = a.spells.reduce((s, { probability }) => s + probability[i]!, 0);
    assert.ok(Math.abs(sum - 1) < 1e-9, `${a.ages_cal_bp[i]}: ${sum}`);
  }
  const at = a.ages_cal_bp.indexOf(1500);
  assert.ok(Math.abs(a.surface.median[at]! - 0.5) < 0.2, 'ground at 2 m, 1.5 m of it later');

  const [line] = lines_through_time as [(typeof lines_through_time)[number]];
  assert.equal(line.edge!.innermost, 'B');
  assert.deepEqual(
    line.edge!.passages.map(({ hole, came }) => [hole, came]),
    [
      ['A', 'outside'],
      ['B', 'outside'],
    ],
  );
  const n = line.edge!.ages_cal_bp.indexOf(1500);
  const { median, lower95, upper95, between } = line.edge!;
  // Half of the time between: on average half of the way of 154 m, and anywhere on it.
  assert.ok(between[n]! > 0.95 && Math.abs(median[n]! - 77) < 25 && lower95[n]! < 20 && upper95[n]! > 134);
  assert.deepEqual(
    line.past_sections.map(({ age_cal_bp, holes }) => [
      age_cal_bp,
      holes.map(({ environment }) => environment),
    ]),
    [
      [1500, ['high marsh', 'land surface']],
      [500, ['lagoon', 'high marsh']],
    ],
  );
  const marsh = line.stood.find(({ environment }) => environment === 'high marsh')!;
  assert.deepEqual(marsh.holes, ['A', 'B']);
  // In A for 1,000 years, then in B for as long: whether there was a break between them is not known.
  assert.deepEqual([marsh.began_in, marsh.ended_in], ['A', 'B']);
  assert.ok(marsh.at_least_yr > 700 && marsh.at_least_yr < 1000 && marsh.unbroken_yr.upper95 < 1500);
  assert.deepEqual(about(first), []);
  const { parts } = first.trace.node(first.trace.find(traceId.environments('A')));
  assert.ok(parts.includes(traceId.hole('A').ageDepth) && parts.some((part) => part.startsWith('units/')));

  // Another word for a layer does not move its age: no chain runs again.
  const again = computed('low marsh', { section_ages: '1500; 500' }, memo);
  assert.deepEqual(again.results.histories, first.results.histories);
  assert.ok(again.count.computed <= 4, `${again.count.computed} steps computed again`);
  assert.equal(again.results.environments[0]!.spells[2]!.environment, 'low marsh');
});

test('a layer without a word, an edge of nothing, ages that are none: each is named, the rest is there', () => {
  const memo: Memo = new Map();
  const unsaid = computed('', { edge_inside: 'dune; land surface', section_ages: '1500; old' }, memo);
  assert.deepEqual(about(unsaid), [
    ['unusable-setting', 'section_ages', '1500; old'],
    ['environment-not-said', 'A, 2', '1 of 3 layers of A without one'],
    ['edge-not-met', 'edge_inside', 'dune'],
  ]);
  const [line] = unsaid.results.lines_through_time;
  assert.deepEqual(
    line!.past_sections.map(({ age_cal_bp }) => age_cal_bp),
    [1500],
  );
  assert.equal(line!.past_sections[0]!.holes[0]!.environment, null);
  // Thousands with their comma are no decimals, and blanks make no other word.
  const written = computed('high marsh', { section_ages: '1,500', edge_inside: 'Land   surface' }, memo);
  assert.deepEqual(about(written), []);
  assert.deepEqual(
    written.results.lines_through_time[0]!.past_sections.map(({ age_cal_bp }) => age_cal_bp),
    [1500],
  );
  const none = computed('high marsh', { edge_inside: 'dune' }, memo);
  assert.deepEqual(about(none), [['edge-not-met', 'edge_inside', 'dune']]);
  assert.ok(none.results.lines_through_time[0]!.edge!.inside_of_all.some((share) => share > 0.9));
  const nothing = computed('high marsh', { age_depth: '' }, memo);
  assert.deepEqual([nothing.results.environments, nothing.results.lines_through_time], [[], []]);
});

test('time missing at an erosional contact is said, and is of no layer', () => {
  const { results } = computed('high marsh', { section_ages: '2000' }, new Map(), 3000);
  const [a] = results.environments;
  assert.deepEqual(
    a!.spells.map(({ kind, environment }) => environment ?? kind),
    ['since', 'lagoon', 'missing', 'high marsh', 'land surface', 'before'],
  );
  const { began_cal_bp, ended_cal_bp, years } = a!.spells[2]!;
  assert.ok(Math.abs(ended_cal_bp!.median - 1000) < 400 && Math.abs(began_cal_bp!.median - 4000) < 400);
  assert.ok(years!.lower95 > 1000);
  // The contact, at 1 m of a ground at 2 m, is the least that the surface had.
  const at = results.lines_through_time[0]!.past_sections[0]!.holes.find(({ hole }) => hole === 'A')!;
  assert.equal(at.kind, 'missing');
  assert.ok(at.surface_m === null && Math.abs(at.drawn_m! - 1) < 0.02);
});
