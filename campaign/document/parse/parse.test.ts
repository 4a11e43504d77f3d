import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Problem } from '@stillstand/campaign/problems';
import { readFiles } from '../files.ts';
import { parseCampaign } from './parse.ts';

const HOLES = 'hole,method\nH1,string\nH2,tube\n';
const parse = (tables: Record<string, string>) => {
  const encoder = new TextEncoder();
  const files = new Map(Object.entries(tables).map(([name, csv]) => [`${name}.csv`, encoder.encode(csv)]));
  return parseCampaign(readFiles(files).document);
};
/** "code table line column" of each problem. */
const places = (problems: readonly Problem[]): string[] =>
  problems.map(({ code, table, line, column }) =>
    [code, table, line, column].filter((x) => x !== null).join(' '),
  );

test('a clean campaign: every kind of cell, nothing to mend', () => {
  const { campaign, problems } = parse({
    sites: 'site,name,latitude_deg,longitude_deg\nS,the spit,-42.5,-30.25\n',
    holes: 'hole,site,method,inclination_deg\nH1,S,string,0.5\n',
    joints: 'hole,seq,action,item,length,tight\nH1,1,add,shoe,0.1 m,yes\nH1,2,add,joint,10 ft,no\n',
    drives:
      'hole,seq,time,stick_up_start,stick_up_end,duration_s\nH1,3,2024-03-05T10:00+08:00,9 ft,1 ft 6 in,240\n',
    tide_levels: 'site,level,elevation_m,sigma_m\nS,MHW,0.61,0.03\n',
    samples: 'sample,hole,basis,top,bottom\nA1,H1,entered,1.20 m,1.22 m\n',
    determinations: 'lab_code,sample,method,value,error\nX-1,A1,radiocarbon,4520,30\n',
    points: 'point,sample,kind,lower,upper\nP1,A1,index,MTL-0.1,MHW+0.05\n',
    settings: 'name,value\nname,The spit\n',
  });
  assert.deepEqual(problems, []);
  assert.equal(campaign.name, 'The spit');
  assert.equal(campaign.rows.string_items[1]?.length_m, 3.048);
  assert.equal(campaign.rows.string_items[1]?.tight, false);
  assert.equal(campaign.rows.drives[0]?.stick_up_end_m, 0.4572);
  assert.deepEqual(campaign.rows.points[0]?.upper, { level: 'MHW', offset_m: 0.05 });
  assert.equal(campaign.rows.determinations[0]?.delta_r, null);
  assert.equal(campaign.settings.get('name'), 'The spit');
  assert.equal(campaign.lines.get(campaign.rows.string_items[1]!.row_id), 3);
  assert.ok(Object.isFrozen(campaign.rows.string_items[0]));
});

test('bad input: each is a named problem at its place, and the rest is read', () => {
  const cases: [name: string, tables: Record<string, string>, expected: string[]][] = [
    ['missing column', { holes: 'hole\nH1\n' }, ['missing-column holes method']],
    ['missing column of an empty table', { holes: 'hole\n' }, []],
    [
      'unknown column',
      { holes: 'hole,method,colour of the hat\nH1,string,red\n' },
      ['unknown-column holes colour of the hat'],
    ],
    ['misspelt column', { holes: 'hole,method,lean_dg\nH1,string,1\n' }, ['unknown-column holes lean_dg']],
    ['column twice', { holes: 'hole,method,Method\nH1,string,tube\n' }, ['column-twice holes method']],
    ['unknown table', { holes: HOLES, shells: 'a\n1\n' }, ['unknown-table shells']],
    [
      'wrong unit',
      { holes: HOLES, ground: 'hole,seq,ground_below_reference\nH1,1,10 kg\n' },
      ['wrong-unit ground_levels 2 ground_below_reference'],
    ],
    [
      'no unit',
      { holes: HOLES, ground: 'hole,seq,ground_below_reference\nH1,1,0.3\n' },
      ['no-unit ground_levels 2 ground_below_reference'],
    ],
    [
      'date for a length',
      { holes: HOLES, ground: 'hole,seq,ground_below_reference\nH1,1,2019-03-05\n' },
      ['date-for-number ground_levels 2 ground_below_reference'],
    ],
    [
      'negative error',
      {
        samples: 'sample\nA\n',
        determinations: 'lab_code,sample,method,value,error\nX,A,radiocarbon,4520,-30\n',
      },
      ['negative-error determinations 2 error'],
    ],
    [
      'unknown curve',
      {
        samples: 'sample\nA\n',
        determinations:
          'lab_code,sample,method,value,error,calibration_curve\nX,A,radiocarbon,4520,30,intcal2o\n',
      },
      ['unknown-choice determinations 2 calibration_curve'],
    ],
    ['unknown choice', { holes: 'hole,method\nH1,strng\n' }, ['unknown-choice holes 2 method']],
    [
      'label twice',
      { holes: 'hole,method\nH1,string\nH1,tube\n' },
      ['label-twice holes 2 hole', 'label-twice holes 3 hole'],
    ],
    [
      'unknown sample',
      {
        samples: 'sample\nA\n',
        determinations: 'lab_code,sample,method,value,error\nX,B1,radiocarbon,4520,30\n',
      },
      ['unknown-reference determinations 2 sample'],
    ],
    [
      'no table to refer to',
      {
        determinations:
          'lab_code,sample,method,value,error\nX,B,radiocarbon,4520,30\nY,C,radiocarbon,4520,30\n',
      },
      ['missing-table samples'],
    ],
    ['missing cell', { holes: 'hole,method\nH1,\n' }, ['missing-cell holes 2 method']],
    ['too many cells', { holes: 'hole,method\nH1,string,3\n' }, ['too-many-cells holes 2']],
    ['too few cells', { holes: 'hole,method,note\nH1,string\n' }, ['too-few-cells holes 2']],
    [
      'upside down',
      { holes: HOLES, units: 'hole,basis,top,bottom,sediment\nH1,entered,2 m,1 m,sand\n' },
      ['top-below-bottom units 2 bottom'],
    ],
    [
      'time without offset',
      { holes: HOLES, ground: 'hole,seq,time,ground_below_reference\nH1,1,2024-03-05T10:00,0.3 m\n' },
      ['time-without-offset ground_levels 2 time'],
    ],
    ['bad length unit', { settings: 'name,value\nlength_unit,fathom\n' }, ['unknown-choice settings value']],
  ];
  for (const [name, tables, expected] of cases) {
    const { problems } = parse(tables);
    assert.deepEqual(places(problems), expected, name);
    for (const p of problems) assert.ok(p.expected !== '' && p.fix !== '', name);
  }
});

test('the setting length_unit reads bare lengths, wherever it stands', () => {
  const { campaign, problems } = parse({
    ground: 'hole,seq,ground_below_reference\nH1,1,10\n',
    holes: HOLES,
    settings: 'value,name\nft,length_unit\n',
  });
  assert.deepEqual(problems, []);
  assert.equal(campaign.rows.ground_levels[0]?.ground_below_reference_m, 3.048);
});

test('decimal commas are read where the whole table writes them', () => {
  const { campaign, problems } = parse({
    holes: HOLES,
    ground: 'hole;seq;ground_below_reference\nH1;1;0,35 m\nH1;2;1,5 ft\n',
  });
  assert.deepEqual(problems, []);
  assert.deepEqual(
    campaign.rows.ground_levels.map((row) => row.ground_below_reference_m),
    [0.35, 0.4572],
  );
  const mixed = parse({
    holes: HOLES,
    ground: 'hole;seq;ground_below_reference\nH1;1;0,35 m\nH1;2;0.40 m\n',
  });
  assert.deepEqual(places(mixed.problems), ['decimal-comma ground_levels 2 ground_below_reference']);
});

test('a cell that cannot be read sets its row aside, unless nothing is computed from a blank there', () => {
  const { campaign, problems } = parse({
    holes: 'hole,method,latitude_deg,inclination_deg\nH1,string,95,1\nH2,string,42,steep\n',
  });
  assert.deepEqual(places(problems), [
    'out-of-range holes 2 latitude_deg',
    'not-a-number holes 3 inclination_deg',
  ]);
  assert.deepEqual(
    campaign.rows.holes.map((row) => [row.hole, row.latitude_deg]),
    [['H1', null]],
  );
  assert.deepEqual(
    campaign.skipped_rows.map(({ table, label, line }) => [table, label, line]),
    [['holes', 'H2', 3]],
  );
});

test('what hangs on a row set aside is set aside with it, and only that', () => {
  const { campaign, problems } = parse({
    holes: 'hole,method\nH1,strng\nH2,string\n',
    runs: 'hole,seq,run\nH1,1,R1\nH2,1,R1\n',
    pieces: 'hole,seq,run,top,bottom\nH1,2,R1,0 m,1 m\nH2,2,R1,0 m,1 m\n',
  });
  assert.deepEqual(places(problems), [
    'unknown-choice holes 2 method',
    'refers-to-skipped-row runs hole',
    'refers-to-skipped-row pieces hole',
    'refers-to-skipped-row pieces run',
  ]);
  assert.deepEqual(
    campaign.rows.pieces.map((row) => row.hole),
    ['H2'],
  );
  assert.deepEqual(
    campaign.skipped_rows.map(({ table, hole, seq }) => [table, hole, seq]),
    [
      ['holes', 'H1', null],
      ['runs', 'H1', 1],
      ['pieces', 'H1', 2],
    ],
  );
});

test('labels are unique in their scope, references look in it', () => {
  const { problems } = parse({
    holes: HOLES,
    runs: 'hole,seq,run\nH1,1,R1\nH2,1,R2\n',
    pieces: 'hole,seq,run,top,bottom\nH1,2,R2,0 m,1 m\nH2,2,R2,0 m,1 m\n',
    samples:
      'sample,hole,basis,run,top,bottom\nA,H1,run,R2,0 m,1 m\nB,H2,run,R2,0 m,1 m\nC,H2,run,,0 m,1 m\n',
  });
  assert.deepEqual(places(problems), [
    'unknown-reference pieces 2 run',
    'unknown-reference samples 2 run',
    'unknown-reference samples 4 run',
  ]);
});

test('labels are the same however their accents are composed', () => {
  const { problems } = parse({
    holes: 'hole,method\nÉ1,string\n',
    runs: 'hole,seq,run\nE\u03011,1,R\u00e9\n',
    units: 'hole,basis,run,top,bottom,sediment\n\u00c91,run,Re\u0301,0 m,1 m,sand\n',
  });
  assert.deepEqual(problems, []);
});

test('nothing may be part of its own part', () => {
  const { campaign, problems } = parse({
    samples: 'sample,parent\nA,B\nB,A\nC,A\nD,\n',
    holes: 'hole,method,replaces\nH1,string,H1\n',
  });
  assert.deepEqual(places(problems), [
    'reference-circle holes 2 replaces',
    'reference-circle samples 2 parent',
    'refers-to-skipped-row samples parent',
    'refers-to-skipped-row samples parent',
  ]);
  assert.deepEqual(
    campaign.rows.samples.map((row) => row.sample),
    ['D'],
  );
  assert.equal(campaign.rows.holes[0]?.replaces, null);
});

test('the order of a hole is seq, not lines and not the clock; the same seq twice is warned of', () => {
  const { campaign, problems } = parse({
    holes: HOLES,
    ground:
      'hole,seq,time,ground_below_reference\nH1,3,2024-01-01T00:00Z,0.3 m\nH1,1,2025-01-01T00:00Z,0.1 m\nH1,2.5,,0.2 m\n',
    soundings: 'hole,seq,to_sediment\nH1,3,1 m\nH2,3,1 m\n',
  });
  assert.deepEqual(
    campaign.rows.ground_levels.map((row) => row.seq),
    [1, 2.5, 3],
  );
  assert.deepEqual(places(problems), ['seq-twice soundings 2 seq']);
});

test('two devices wrote at once: both rows are named, and their order does not hang on which came into the file first', () => {
  const head = 'hole,seq,action,item,joint,length,row_id';
  const [one, other] = ['H1,7,add,joint,A3,3.00 m,from-a', 'H1,7,add,joint,B1,2.00 m,from-b'];
  const sounding = { soundings: 'hole,seq,to_sediment,row_id\nH1,7,1.20 m,from-c\n' };
  const read = (lines: string[]) =>
    parse({ holes: HOLES, joints: `${head}\n${lines.join('\n')}\n`, ...sounding });
  const { campaign, problems } = read([one, other]);
  assert.deepEqual(
    campaign.rows.string_items.map((row) => row.row_id),
    ['from-a', 'from-b'],
  );
  assert.deepEqual(
    problems.map(({ code, row_id, found }) => [code, row_id, found]),
    [
      ['seq-twice', 'from-b', 'number 7 of this reading and of the string item A3 of H1'],
      ['seq-twice', 'from-c', 'number 7 of this reading and of the string item A3 of H1'],
    ],
  );
  assert.match(problems[0]!.fix, /move one of them before or after the other/);
  // mended: withdrawn and written again in its turn
  const mended = parse({
    holes: HOLES,
    joints: `${head},amends,amend_kind\n${one},,\n${other},,\nH1,7,add,joint,B1,,away,from-b,withdraw\nH1,7.5,add,joint,B1,2.00 m,again,,\n`,
  });
  assert.deepEqual(
    mended.campaign.rows.string_items.map((row) => [row.row_id, row.seq]),
    [
      ['from-a', 7],
      ['again', 7.5],
    ],
  );
  assert.deepEqual(mended.problems, []);
});

test('checks of a day have their own order, day by day; those of a hole stand with its readings', () => {
  const heads = 'hole,date,item,answer,seq';
  const { problems } = parse({
    holes: HOLES,
    ground: 'hole,seq,ground_below_reference\nH1,1,0.3 m\n',
    checks: `${heads}\n,2024-03-05,permits,yes,1\n,2024-03-06,permits,no,1\n,2024-03-06,services,not_needed,1\nH1,,services,yes,1\n`,
  });
  assert.deepEqual(places(problems), ['seq-twice checks 4 seq', 'seq-twice checks 5 seq']);
});

test('of ten thousand problems of a kind fifty are listed and the rest counted', () => {
  const lines = Array.from({ length: 10_000 }, (_, i) => `H1,${i},three`);
  const { problems } = parse({
    holes: HOLES,
    ground: `hole,seq,ground_below_reference\n${lines.join('\n')}`,
  });
  assert.equal(problems.length, 51);
  assert.match(problems.at(-1)!.found, /^9950 more/);
});
