/** Messy tables to rows: what is taken, what is set aside and why. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign, withRows } from '@stillstand/campaign/document';
import { withProposal } from './add.ts';
import { decided } from './decide.ts';
import { campaignOf, type Looked, lookedAt, rowsOf, TWO_CORES } from './fixtures/tables.ts';
import { hereOf } from './here.ts';
import { proposed } from './proposed.ts';

const outcomes = ({ proposal }: Looked) =>
  Object.fromEntries(proposal.lines.map(({ line, outcome, why }) => [line, `${outcome}: ${why}`]));
const asked = ({ proposal }: Looked) => proposal.decisions.map(({ where }) => where);

test('dates by core and depth: samples found or made, two lines of headings, a line of units, a mean, a footnote', async () => {
  const looked = await lookedAt(
    `Table 2. Ages,,,,,\nCore,Depth,,Laboratory,14C age,\n,top,bottom,code,,error\n,cm,cm,,yr BP,1σ\nC1,12,14,L-1,3120,30\n,30,31,L-2,"> 48,000",\nC2,12.0,14.0,L-3,4100 ± 40,\nC9,5,6,L-4,100,20\nMean,,,,2440,\n* invented for this test and not measured anywhere,,,,,\n`,
    'dates',
  );
  assert.deepEqual(looked.mapping.headings, [2, 3]);
  assert.equal(looked.mapping.units, 4);
  assert.deepEqual(rowsOf(looked, 'determinations'), [
    { lab_code: 'L-1', sample: 'C1 a', method: 'radiocarbon', value: '3120', error: '30' },
    {
      lab_code: 'L-2',
      sample: 'C1 30–31 cm',
      method: 'radiocarbon',
      value: '48000',
      qualifier: 'greater_than',
    },
    { lab_code: 'L-3', sample: 'C2 12.0–14.0 cm', method: 'radiocarbon', value: '4100', error: '40' },
  ]);
  assert.deepEqual(
    rowsOf(looked, 'samples').map(({ sample, hole, top, bottom }) => [sample, hole, top, bottom]),
    [
      ['C1 30–31 cm', 'C1', '30 cm', '31 cm'],
      ['C2 12.0–14.0 cm', 'C2', '12.0 cm', '14.0 cm'],
    ],
  );
  assert.deepEqual(looked.proposal.found, [{ line: 5, sample: 'C1 a', how: 'depth' }]);
  assert.deepEqual(outcomes(looked), {
    1: 'set_aside: above the headings',
    2: 'set_aside: headings',
    3: 'set_aside: headings',
    4: 'set_aside: units',
    5: 'used: 1 row',
    6: 'used: 1 row',
    7: 'used: 1 row',
    8: 'problem: hole: “C9”; expected a core of the campaign',
    9: 'set_aside: “Mean” of the column, not a row',
    10: 'set_aside: a footnote',
  });
  const { campaign, problems } = parseCampaign(withProposal(TWO_CORES, looked.proposal));
  assert.equal(campaign.rows.determinations.length, 3);
  assert.deepEqual(problems, []);
});

test('what is there already is not added again, and a corrected table may come once more', async () => {
  const table = 'Core,Depth (cm),Lab code,14C age BP,Error\nC1,13,L-1,3120,30\nC2,40,L-2,x,30\n';
  const first = await lookedAt(table, 'dates');
  assert.deepEqual(
    first.proposal.problems.map((p) => [p.line, p.column, p.found]),
    [[3, '14C age BP', 'x']],
  );
  const after = withProposal(TWO_CORES, first.proposal);
  const again = await lookedAt(table.replace(',x,', ',4100,'), 'dates', {}, after);
  assert.deepEqual(outcomes(again), {
    1: 'set_aside: headings',
    2: 'set_aside: L-1 is in the campaign already',
    3: 'used: 1 row',
  });
});

test('results that a laboratory sends back with the codes of the labels, or a registered identifier', async () => {
  const here = withRows(
    { ...TWO_CORES, package: { ...TWO_CORES.package, id: 'd3000000-0000-4000-8000-000000000001' } },
    'samples',
    [
      { sample: 'C1 a', hole: 'C1', depth_basis: 'in_situ', top: '0.12 m', bottom: '0.14 m' },
      { sample: 'C1/b', hole: 'C1', depth_basis: 'in_situ', top: '0.3 m', identifier: '10.58052/INVENTED1' },
    ],
  );
  const looked = await lookedAt(
    'Sample,Lab code,14C age (yr BP),Error\nD3000000/SAMPLE/C1 A,L-1,3120,30\nd3000000/sample/C1%2Fb,L-2,3200,30\n10.58052/invented1,L-3,3210,30\nd3000000/sample/C7,L-4,100,20\nfeedbeef/sample/C1 a,L-5,100,20\nd3000000/core/C1/R1,L-6,100,20\n',
    'dates',
    {},
    here,
  );
  assert.deepEqual(
    rowsOf(looked, 'determinations').map(({ sample, lab_code }) => [sample, lab_code]),
    [
      ['C1 a', 'L-1'],
      ['C1/b', 'L-2'],
      ['C1/b', 'L-3'],
    ],
  );
  assert.equal(rowsOf(looked, 'samples').length, 0);
  assert.deepEqual(
    looked.proposal.problems.map(({ line, code, found }) => [line, code, found]),
    [
      [5, 'unknown-code', 'd3000000/sample/C7'],
      [6, 'unknown-code', 'feedbeef/sample/C1 a'],
      [7, 'unknown-code', 'd3000000/core/C1/R1'],
    ],
  );
});

test('measurements with a column for each property: errors, per cents, below detection, not determined, filler', async () => {
  const looked = await lookedAt(
    'core_id,depth_min_cm,depth_max_cm,LOI (%),dry_bulk_density_g_cm3,cs137_bq_kg,cs137_se_bq_kg,texture\nC1,12,14,12.5,0.31,<0.5,,peaty\nC1,14,16,ND,-9999,3.2,0.4,clay\nC1,16,18,,,,,\nC2,16,18,4,0.9,x,,\n',
    'measurements',
  );
  assert.deepEqual(rowsOf(looked, 'measurements'), [
    { sample: 'C1 a', property: 'loi', value: '12.5', unit: '%', note: 'texture: peaty' },
    { sample: 'C1 a', property: 'dry bulk density', value: '0.31', unit: 'g/cm3' },
    { sample: 'C1 a', qualifier: 'less_than', property: 'cs137', value: '0.5', unit: 'Bq/kg' },
    { sample: 'C1 14–16 cm', qualifier: 'not_determined', property: 'loi', unit: '%', note: 'texture: clay' },
    { sample: 'C1 14–16 cm', property: 'cs137', value: '3.2', sigma: '0.4', unit: 'Bq/kg' },
    { sample: 'C2 16–18 cm', property: 'loi', value: '4', unit: '%' },
    { sample: 'C2 16–18 cm', property: 'dry bulk density', value: '0.9', unit: 'g/cm3' },
  ]);
  const lines = outcomes(looked);
  assert.equal(lines[4], 'set_aside: nothing was measured in this line');
  assert.equal(lines[5], 'used: 2 rows, 1 not');
  assert.deepEqual(
    looked.proposal.problems.map((p) => [p.line, p.column, p.found]),
    [[5, 'cs137_bq_kg', 'x']],
  );
});

test('a length without a unit is not guessed; one decision settles the column', async () => {
  const table = 'Core,Top,Bottom,Lithology\nC1,0,31,sand\nC1,31,40,peat\n';
  const looked = await lookedAt(table, 'layers');
  assert.equal(rowsOf(looked, 'units').length, 0);
  assert.deepEqual(asked(looked), ['columns.B.unit', 'columns.C.unit', 'fixed.depth_basis']);
  let { mapping } = looked;
  for (const where of ['columns.B.unit', 'columns.C.unit']) {
    const read = decided(mapping, where, 'cm');
    assert.ok('mapping' in read);
    mapping = read.mapping;
  }
  const settled = await lookedAt(table, 'layers', mapping);
  assert.deepEqual(
    rowsOf(settled, 'units').map(({ top, bottom, sediment }) => [top, bottom, sediment]),
    [
      ['0 cm', '31 cm', 'sand'],
      ['31 cm', '40 cm', 'peat'],
    ],
  );
  assert.deepEqual(asked(settled), ['fixed.depth_basis']);
});

test('layers by their tops, by thickness, in one cell, and in feet', async () => {
  const ends = async (table: string) =>
    rowsOf(await lookedAt(table, 'layers'), 'units').map(({ hole, top, bottom }) =>
      [hole, top, bottom].join(' | '),
    );
  assert.deepEqual(await ends('Core,Thickness (cm),Sediment\nC1,31,mud\nC1,12.5,sand\nC2,5,peat\n'), [
    'C1 | 0 cm | 31 cm',
    'C1 | 31 cm | 43.5 cm',
    'C2 | 0 cm | 5 cm',
  ]);
  assert.deepEqual(await ends('Core,Top (m),Sediment\nC1,0,mud\nC1,0.31,sand\nC2,0,peat\n'), [
    'C1 | 0 m | 0.31 m',
  ]);
  assert.deepEqual(await ends('Core,Depth (cm),Sediment\nC1,0–31,mud\nC1,31 to 40,sand\n'), [
    'C1 | 0 cm | 31 cm',
    'C1 | 31 cm | 40 cm',
  ]);
  assert.deepEqual(await ends('Core,From,To,Sediment\nC1,0 ft,9\' 11 1/2",mud\n'), [
    'C1 | 0 ft | 9\' 11 1/2"',
  ]);
});

test('cores: heights converted to the digit, sites and zeros made, degrees and minutes, words of the trade', async () => {
  const looked = await lookedAt(
    "Core;Site;Method;Latitude;Longitude;Elevation (cm NAVD88)\nA;North;Vibracore;31°30'N;81°15'36\"W;83,2\nB;North;Russian corer;31,5;−81,26;−7\nC1;North;gouge;;;1\n",
    'cores',
  );
  assert.ok(looked.mapping.decimal_comma);
  assert.deepEqual(rowsOf(looked, 'holes'), [
    {
      hole: 'A',
      site: 'North',
      method: 'tube',
      latitude_deg: '31.5000000',
      longitude_deg: '-81.2600000',
      reference_elevation_m: '0.832',
      reference_datum: 'NAVD88',
    },
    {
      hole: 'B',
      site: 'North',
      method: 'chamber',
      latitude_deg: '31.5',
      longitude_deg: '-81.26',
      reference_elevation_m: '-0.07',
      reference_datum: 'NAVD88',
    },
  ]);
  assert.deepEqual(rowsOf(looked, 'sites'), [{ site: 'North' }]);
  assert.deepEqual(rowsOf(looked, 'datums'), [{ datum: 'NAVD88', kind: 'orthometric' }]);
  assert.equal(
    outcomes(looked)[4],
    'set_aside: C1 is in the campaign already, with reference elevation blank, not 0.01; site blank, not North; method hand, not gouge',
  );
});

test('a number that every row needs and no heading names: its column is asked for once', async () => {
  const looked = await lookedAt(
    'Point,Kind,Source,Corrected level (m),2s (m),c14_age_bp,c14_error\nP1,index,A,-4.5,0.6,7615,149\nP2,index,A,-3.5,0.5,4257,196\n',
    'published-points',
  );
  const wants = looked.proposal.decisions.filter(({ where }) => where.startsWith('column.'));
  assert.deepEqual(
    wants.map(({ where, taken }) => [where, taken]),
    [
      ['column.rsl_m', null],
      ['column.rsl_2sigma_m', null],
    ],
  );
  assert.ok(wants[0]!.choices.includes('Corrected level (m)'));
  const once = decided(looked.mapping, 'column.rsl_m', 'Corrected level (m)');
  assert.ok('mapping' in once);
  const twice = decided(once.mapping, 'column.rsl_2sigma_m', '2s (m)');
  assert.ok('mapping' in twice);
  const { proposal } = { proposal: proposed(hereOf(TWO_CORES), looked.sheet, twice.mapping) };
  assert.deepEqual(
    proposal.rows.flatMap(({ table, cells }) => (table === 'compiled_points' ? [cells['rsl_m']] : [])),
    ['-4.5', '-3.5'],
  );
  assert.deepEqual(
    proposal.decisions.filter(({ where }) => where.startsWith('column.')),
    [],
  );
  assert.ok('fault' in decided(looked.mapping, 'column.rsl_m', 'no such heading'));
});

test('a label that two lines have for two things: named, and neither lost as a repetition', async () => {
  const looked = await lookedAt(
    'Lab code,Kind,Source,RSL (m),RSL error 2s (m),c14_age_bp,c14_error\nunknown,index,A,-41.5,0.6,7615,149\nunknown,index,A,-39.5,0.6,4257,196\nunknown,index,A,-41.50,0.6,7615,149\n',
    'published-points',
  );
  assert.equal(rowsOf(looked, 'compiled_points').length, 1);
  const [twice, ...others] = looked.proposal.problems;
  assert.deepEqual(others, []);
  assert.deepEqual(
    [twice!.line, twice!.column, twice!.code, twice!.found],
    [3, 'point', 'label-twice', 'unknown'],
  );
  assert.match(twice!.expected, /^a label of its own: line 2 has it with .*-41\.5, not -39\.5/);
  assert.equal(outcomes(looked)[4], 'set_aside: unknown is in line 2 already', 'the same once more');
});

test('what is in the campaign with another value is said with both', async () => {
  const table = 'Core,Depth (cm),Lab code,14C age BP,Error\nC1,13,L-1,3120,30\n';
  const first = await lookedAt(table, 'dates');
  const again = await lookedAt(
    table.replace('3120', '3150'),
    'dates',
    {},
    withProposal(TWO_CORES, first.proposal),
  );
  assert.match(outcomes(again)[2]!, /^set_aside: L-1 is in the campaign already, with .*3120, not 3150$/);
});

test('grid coordinates become latitude and longitude where the zone is known, and stay in the note', async () => {
  const looked = await lookedAt(
    'Core,Method,easting_utm17n_m,northing_utm17n_m\nA,hand,500000,0\nB,hand,81,7\n',
    'cores',
  );
  // On the equator at the central meridian of zone 17.
  assert.deepEqual(
    rowsOf(looked, 'holes').map(({ latitude_deg, longitude_deg }) => [latitude_deg, longitude_deg]),
    [
      ['0.0000000', '-81.0000000'],
      [undefined, undefined],
    ],
  );
  assert.match(rowsOf(looked, 'holes')[1]!['note']!, /easting_utm17n_m: 81; northing_utm17n_m: 7/);
});

test('tide levels across and down; levelling in millimetres in its order; pushes by what came up and what is missing', async () => {
  const across = await lookedAt(
    'Site,MHW (m NAVD88),MTL (m NAVD88)\nNorth,1.01,-0.05\nSouth,ND,0.1\n',
    'tide-levels',
  );
  assert.deepEqual(
    rowsOf(across, 'tide_levels').map(({ site, level, elevation_m }) => [site, level, elevation_m]),
    [
      ['North', 'MHW', '1.01'],
      ['North', 'MTL', '-0.05'],
      ['South', 'MTL', '0.1'],
    ],
  );
  const levels = await lookedAt(
    'Loop,Point,BS (mm),FS (mm)\nL,BM1,1234,\nL,T1,1100,987\nL,BM1,,1001\n',
    'levelling',
  );
  assert.deepEqual(
    rowsOf(levels, 'levelling').map(({ seq, point, backsight_m, foresight_m }) => [
      seq,
      point,
      backsight_m,
      foresight_m,
    ]),
    [
      ['1', 'BM1', '1.234', undefined],
      ['2', 'T1', '1.100', '0.987'],
      ['3', 'BM1', undefined, '1.001'],
    ],
  );
  const pushes = await lookedAt(
    'Core,Push,From (cm),Recovery (cm),Shortening (cm)\nC1,V1,19.5,186.8,2.5\n',
    'pushes',
  );
  // 19.5 + 186.8 + 2.5
  assert.equal(rowsOf(pushes, 'pushes')[0]!['to'], '2.088 m');
});

test('published points: asymmetric errors, sigmas, years CE, codes as words', async () => {
  const looked = await lookedAt(
    'id,reference,type_code,rsl_m,rsl_1s_plus_m,rsl_1s_minus_m,age_ce,age_2s_plus_yr,age_2s_minus_yr\nP1,Somebody 2010,0,-2.96,0.2,0.25,-872,74,119\n',
    'published-points',
    { words: { kind: { '0': 'index' } } },
  );
  const [{ note, ...point }] = rowsOf(looked, 'compiled_points') as [Record<string, string>];
  // 2 × 0.25; 1950 + 872
  assert.deepEqual(point, {
    point: 'P1',
    source: 'Somebody 2010',
    kind: 'index',
    rsl_m: '-2.96',
    rsl_2sigma_m: '0.50',
    age_cal_bp: '2822',
    age_2sigma_yr: '119',
  });
  assert.match(note!, /rsl_1s_plus_m 0.2, rsl_1s_minus_m 0.25: the larger is written/);
});

test('a core that is named once is meant below; in a table that repeats it a blank is none', async () => {
  const once = await lookedAt('Core,Depth (cm),LOI (%)\nC1,1,5\n,2,6\nC2,1,7\n', 'measurements');
  assert.deepEqual(
    rowsOf(once, 'samples').map(({ hole }) => hole),
    ['C1', 'C1', 'C2'],
  );
  assert.ok(asked(once).includes('fill_down'));
  const repeated = await lookedAt('Core,Depth (cm),LOI (%)\nC1,1,5\nC1,2,6\n,3,7\n', 'measurements');
  assert.equal(rowsOf(repeated, 'samples').length, 2);
  assert.equal(repeated.proposal.lines.at(-1)!.outcome, 'problem');
});

test('dates that a spreadsheet made of numbers, and its formulas, are named with what to do', async () => {
  const looked = await lookedAt(
    'Core,Depth (cm),LOI (%)\nC1,2019-03-05,5\nC1,7,=A1*2\nC1,8,#REF!\nC1,9,4\n',
    'measurements',
  );
  assert.deepEqual(
    looked.proposal.problems.map((p) => [p.line, p.code]),
    [
      [2, 'date-for-number'],
      [3, 'formula-for-number'],
      [4, 'formula-for-number'],
    ],
  );
  assert.ok(looked.proposal.problems.every((p) => p.fix.length > 20));
});

test('headings that come twice, a table of 200 columns, a table of nothing but headings', async () => {
  const twice = await lookedAt('Core,Depth (cm),LOI (%),LOI (%)\nC1,1,5,6\n', 'measurements');
  assert.deepEqual(rowsOf(twice, 'measurements'), [
    { sample: 'C1 1 cm', property: 'loi', value: '5', unit: '%', note: 'LOI (%): 6' },
  ]);
  const names = Array.from({ length: 198 }, (_, i) => `element ${i} (ppm)`);
  const wide = await lookedAt(`Core,Depth (cm),${names}\nC1,1,${names.map((_, i) => i)}\n`, 'measurements');
  assert.equal(rowsOf(wide, 'measurements').length, 198);
  const empty = await lookedAt('Core,Depth (cm),LOI (%)\n', 'measurements');
  assert.deepEqual([empty.proposal.rows.length, empty.proposal.lines.length], [0, 1]);
});

test('added behind what is there, in the way that table is written: old names, decimal commas, other columns', async () => {
  const before = campaignOf({
    holes: [{ hole: 'C1', method: 'hand' }],
    samples: [{ sample: 'S1', hole: 'C1', basis: 'in_situ', top: '0,1 m', bottom: '0,2 m', mine: 'kept' }],
  });
  const samples = before.tables.get('samples')!;
  const document = {
    ...before,
    tables: new Map(before.tables).set('samples', {
      ...samples,
      dialect: { ...samples.dialect, delimiter: ';' as const, decimal_comma: true },
    }),
  };
  const looked = await lookedAt(
    'Core,Depth (cm),LOI (%)\nC1,10–20,5.5\nC1,12.5,6\n',
    'measurements',
    {},
    document,
  );
  // 10 to 20 cm is 0,1 to 0,2 m.
  assert.deepEqual(
    looked.proposal.found.map(({ sample }) => sample),
    ['S1'],
  );
  const after = withProposal(document, looked.proposal);
  const table = after.tables.get('samples')!;
  assert.equal(table.rows.length, 2);
  assert.equal(table.rows[0]!.cells[table.columns.indexOf('mine')], 'kept');
  assert.equal(table.rows[1]!.cells[table.columns.indexOf('top')], '12,5 cm');
  const { campaign, problems } = parseCampaign(after);
  assert.ok(Math.abs(campaign.rows.samples[1]!.top_m! - 0.125) < 1e-12);
  assert.deepEqual(
    problems.filter((p) => p.severity === 'error'),
    [],
  );
  assert.equal(document.tables.get('samples')!.rows.length, 1);
});
