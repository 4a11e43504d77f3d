/** Section lines of a campaign: what is drawn, and what cannot be says where, what, and what to do. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

/** 1° of longitude on the equator of WGS 84 is 111 319.49 m (equatorial radius × π / 180). */
const METRES_TO_DEGREES = 1 / 111_319.49;
const hole = (label: string, east_m: number, ground_m: number, north_m = 0): Cells => ({
  hole: label,
  method: 'exposure',
  latitude_deg: (north_m * METRES_TO_DEGREES).toFixed(9),
  longitude_deg: (east_m * METRES_TO_DEGREES).toFixed(9),
  reference_elevation_m: String(ground_m),
  reference_elevation_sigma_m: '0.02',
  reference_datum: 'MSL',
});
const unit = (of: string, label: string, top: string, bottom: string, sediment: string): Cells => ({
  hole: of,
  unit: label,
  depth_basis: 'in_situ',
  top: `${top} m`,
  bottom: `${bottom} m`,
  sediment,
});
const TABLES: Record<string, Cells[]> = {
  datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
  settings: [{ name: 'datum', value: 'MSL' }],
  holes: [hole('H1', 0, 2), hole('H2', 100, 1), hole('H3', 250, 1.5), hole('near', 150, 1.2, 12)],
  units: [
    unit('H1', '1', '0', '2', 'sand'),
    unit('H1', '2', '2', '3', 'peat'),
    unit('H2', '1', '0', '1', 'sand'),
    unit('H2', '2', '1', '2', 'peat'),
    unit('H3', '1', '0', '2', 'mud'),
    unit('near', '1', '0', '2', 'mud'),
  ],
  correlations: [
    {
      row_id: 'k1',
      hole_a: 'H1',
      unit_a: '1',
      hole_b: 'H2',
      unit_b: '1',
      horizon: 'sand',
      confidence: 'certain',
    },
  ],
};

function computed(tables: Record<string, Cells[]>) {
  const { campaign, problems } = campaignOf('sections', { ...TABLES, ...tables });
  const { results, trace } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  return {
    trace,
    problems: results.problems,
    sections: results.sections,
    said: results.problems
      .filter(({ table }) => table.startsWith('section_'))
      .map(({ code, severity, column, found }) => [severity, code, column, found].join(' · ')),
  };
}

const LINE = { row_id: 'l1', line: 'A', holes: 'H1; H2; H3' };
const near = (a: number, b: number, within: number): boolean => Math.abs(a - b) < within;

test('without a row one line goes through all holes', () => {
  const { sections, said } = computed({});
  assert.deepEqual(said, []);
  assert.equal(sections.length, 1);
  const [{ line, distances, holes, bodies }] = sections as [(typeof sections)[0]];
  assert.deepEqual([line, distances], [null, 'measured']);
  assert.deepEqual(
    holes.map((each) => each.hole),
    ['H1', 'H2', 'near', 'H3'],
  );
  assert.ok(bodies.length > 0);
});

test('a line goes through its holes in their order, metres from the first; each has its bodies and contacts', () => {
  const { sections, said } = computed({ section_lines: [LINE, { line: 'B', holes: 'H3;H1' }] });
  assert.deepEqual(said, []);
  assert.deepEqual(
    sections.map(({ line }) => line),
    ['A', 'B'],
  );
  const [a, b] = sections as [(typeof sections)[0], (typeof sections)[0]];
  assert.ok(near(a.holes[1]!.along_m, 100, 0.01) && near(a.holes[2]!.along_m, 250, 0.01));
  assert.ok(near(b.length_m, 250, 0.01));
  const tied = a.contacts.find(({ tie }) => tie === 'k1')!;
  assert.deepEqual([tied.unit_a, tied.unit_b, tied.horizon, tied.confidence], ['1', '1', 'sand', 'certain']);
  const sand = a.bodies.find(({ units }) => units.length === 2)!;
  assert.deepEqual(
    sand.units.map(({ hole: of, unit: label }) => `${of} ${label}`),
    ['H1 1', 'H2 1'],
  );
});

test('other holes within the stated distance are set on the line, with how far they are off', () => {
  const holesOf = (within_m: string) =>
    computed({ section_lines: [{ ...LINE, within_m }] }).sections[0]!.holes.map((each) => [
      each.hole,
      Math.round(each.along_m),
      each.offset_m === null ? null : Math.round(each.offset_m),
    ]);
  assert.deepEqual(holesOf('11'), [
    ['H1', 0, 0],
    ['H2', 100, 0],
    ['H3', 250, 0],
  ]);
  // North of a line that runs east is to its left. 12 m at the equator are 11.9 m north (flattening).
  assert.deepEqual(holesOf('13')[2], ['near', 150, -12]);
});

test('holes that cannot be on a line are named, and the line goes through the others', () => {
  const { sections, said } = computed({
    holes: [...TABLES['holes']!, { hole: 'raw', method: 'exposure' }],
    section_lines: [
      { line: 'A', holes: 'H1; H9; H2; H1; raw' },
      { line: 'B', holes: 'H3' },
      { line: 'C', holes: ';' },
    ],
  });
  assert.deepEqual(said, [
    'warning · section-hole-unknown · holes · H9',
    'warning · section-hole-twice · holes · H1',
    'warning · section-hole-not-levelled · holes · raw',
    'warning · section-line-of-one-hole · holes · H3',
    'warning · section-line-empty · holes · ;',
  ]);
  assert.deepEqual(
    sections.map(({ line, holes }) => [line, holes.length]),
    [
      ['A', 2],
      ['B', 1],
    ],
  );
});

test('a line that crosses itself, holes at one place, and a hole of unknown position', () => {
  const square = [hole('a', 0, 1), hole('b', 100, 1, 100), hole('c', 100, 1), hole('d', 0, 1, 100)];
  const crossing = computed({
    holes: square,
    units: [],
    correlations: [],
    section_lines: [{ line: 'X', holes: 'a;b;c;d' }],
  });
  assert.deepEqual(crossing.said, ['warning · section-line-crosses-itself · holes · a to b crosses c to d']);
  assert.equal(crossing.sections[0]!.holes.length, 4);
  const same = computed({
    holes: [hole('a', 0, 1), hole('b', 0, 1)],
    units: [],
    correlations: [],
    section_lines: [{ line: 'X', holes: 'a;b' }],
  });
  assert.deepEqual(same.said, [
    'warning · section-holes-at-one-place · holes · a and b at one place along the line',
  ]);
  const [first, ...others] = TABLES['holes']!;
  const unknown = computed({
    holes: [{ ...first!, latitude_deg: '', longitude_deg: '' }, ...others],
    section_lines: [LINE],
    section_profile: [{ line: 'A', distance_m: '0', elevation_m: '2' }],
  });
  assert.deepEqual(unknown.said, [
    'warning · section-hole-without-place · holes · H1',
    'warning · section-profile-without-distances · distance_m · a profile of a line with a hole of unknown position',
  ]);
  assert.equal(unknown.sections[0]!.distances, 'unknown');
  assert.deepEqual(
    unknown.sections[0]!.holes.map(({ along_m }) => along_m),
    [0, 100, 200],
  );
});

test('a profile that misses a hole, is too short, or has two heights at one distance is said, and bent to the holes', () => {
  const { sections, said } = computed({
    section_lines: [LINE],
    section_profile: [
      ['100', '1.5'],
      ['50', '1.6'],
      ['50', '1.8'],
      ['0', '2.03'],
    ].map(([distance_m, elevation_m]) => ({ line: 'A', distance_m: distance_m!, elevation_m: elevation_m! })),
  });
  assert.deepEqual(said, [
    'warning · section-profile-twice · distance_m · 1.60 and 1.80 m at 50.00 m',
    'warning · section-profile-short · distance_m · ground from 0.00 to 100.00 m',
    'warning · section-profile-misses-hole · elevation_m · 0.50 m above the ground of H2 at 100.00 m',
  ]);
  const { ground, is_profiled } = sections[0]!;
  assert.equal(is_profiled, true);
  const at = (x: number) => ground.find(({ along_m }) => near(along_m, x, 0.01))!.elevation_m;
  assert.ok(near(at(100), 1, 1e-9) && near(at(250), 1.5, 1e-9));
  // 1.7 m at half way between a misfit of 0.03 and one of 0.5 m.
  assert.ok(near(at(50), 1.7 - (0.03 + 0.5) / 2, 1e-3), String(at(50)));
});

test('rows about contacts: by horizon or by unit; what they are not about is said', () => {
  const rows = (cells: Cells[]) =>
    computed({
      section_lines: [LINE],
      section_boundaries: cells.map((each, i) => ({ row_id: `b${i}`, line: 'A', ...each })),
    });
  const { sections, said } = rows([
    { horizon: 'Sand', hole_a: 'H2', hole_b: 'H1', lift_m: '0.2' },
    { horizon: '2', hole_a: 'H1', hole_b: 'H2', ending: 'pinch_out', at_fraction: '0.3' },
    { horizon: 'nothing', hole_a: 'H1' },
    { horizon: '1', hole_a: 'near' },
    { horizon: '1', hole_a: 'H1', hole_b: 'H3' },
    { horizon: '1', hole_a: 'H3', hole_b: 'H2', lift_m: '50' },
  ]);
  assert.deepEqual(said, [
    'warning · section-boundary-without-contact · horizon · nothing, no contact between H1 on A',
    'warning · section-boundary-off-line · hole_a · near, no hole of A',
    'warning · section-boundary-not-neighbours · hole_b · H1 and H3, with a hole between them',
    'warning · section-boundary-without-contact · horizon · 1, no contact between H3 and H2 on A',
  ]);
  const { contacts } = sections[0]!;
  assert.equal(contacts.find(({ tie }) => tie === 'k1')!.boundary, 'b0');
  const peat = contacts.find(({ boundary }) => boundary === 'b1')!;
  assert.deepEqual([peat.ending, peat.hole_b], ['pinch_out', null]);
  assert.ok(near(peat.line.at(-1)!.along_m, 30, 0.01));

  const more = rows([
    { horizon: 'sand', hole_a: 'H1', hole_b: 'H2', ending: 'truncated' },
    { horizon: 'sand', hole_a: 'H1', hole_b: 'H2', lift_m: '9' },
    { horizon: '1', hole_a: 'H1', hole_b: 'H2' },
  ]);
  assert.deepEqual(more.said, [
    'warning · section-boundary-against-correlation · ending · sand ends, and is in both H1 and H2',
    'warning · section-boundary-twice · horizon · a second row about 1 between H1 and H2',
    'warning · section-lift-too-much · lift_m · 9.00 m, drawn 1.47 m',
  ]);
});

test('a correlation over a hole that has no such contact is noted, unless another line shows it', () => {
  const correlations = [{ row_id: 'far', hole_a: 'H1', unit_a: '1', hole_b: 'H3', unit_b: '1' }];
  const notes = (tables: Record<string, Cells[]>) =>
    computed(tables)
      .problems.filter(({ code }) => code === 'section-correlation-over-hole')
      .map(({ severity, found }) => `${severity} · ${found}`);
  assert.deepEqual(notes({ section_lines: [LINE], correlations }), [
    'note · H1 1 and H3 1, with H2 between on A',
  ]);
  assert.deepEqual(notes({ section_lines: [LINE, { line: 'B', holes: 'H3;H1' }], correlations }), []);
  const through = [...correlations, { row_id: 'near', hole_a: 'H2', unit_a: '1', hole_b: 'H3', unit_b: '1' }];
  assert.deepEqual(notes({ section_lines: [LINE], correlations: through }), []);
});

test('a contact is traced to the rows it is drawn from', () => {
  const { trace } = computed({
    section_lines: [LINE],
    section_boundaries: [
      { row_id: 'b1', line: 'A', horizon: 'sand', hole_a: 'H1', hole_b: 'H2', lift_m: '0.1' },
    ],
  });
  const at = trace.find(traceId.contact('A', 'H1 1 to H2 1'));
  assert.ok(at >= 0);
  const { label, value, how } = trace.node(at);
  assert.deepEqual(
    [label, value, how],
    ['base of H1 1 to H2 1, sand, line A', 'continuous', 'drawn from 0.0 to 100.0 m along the line'],
  );
  assert.deepEqual(
    trace.parts(at).map((part) => trace.node(part).row?.table),
    ['section_lines', 'correlations', 'section_boundaries', 'units', 'units'],
  );
});

test('a campaign without holes has no section', () => {
  const { sections, said } = computed({ holes: [], units: [], correlations: [], section_lines: [LINE] });
  assert.deepEqual(sections, []);
  assert.deepEqual(said, ['warning · section-hole-unknown · holes · H1, H2, H3']);
});
