import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { before, test } from 'node:test';
import { bestSheet, readTheirs } from '@stillstand/campaign/import';
import type { Results } from '@stillstand/campaign/results';
import type { Published } from '@stillstand/campaign/steps';
import type { Row } from '@stillstand/campaign/tables';
import { textWidth } from '@stillstand/output/drawing';
import { loadCurve } from '@stillstand/published/curves';
import { demoResults, demoRows } from '../../store/fixtures/demo.ts';
import { ageOfCells, isPerhapsF14C, isReportedAsF14C } from './age.ts';
import { type BringOptions, broughtRows } from './bring/brought-row.ts';
import { readDates } from './bring/mapping.ts';
import { laneScale, PX } from './lane.ts';
import { placeLabels } from './place-labels.ts';
import { grouped, span } from './rows.ts';
import { commonEra, setWords } from './set-words.ts';

const FIXTURES = join(import.meta.dirname, '../../../../campaign/import/fixtures');
const fixture = (name: string) => new Uint8Array(readFileSync(join(FIXTURES, name)));
const bytes = (text: string) => new TextEncoder().encode(text);
const RANGE = { youngest: -80, oldest: 20_000 };

let results: Results;
let published: Published;
before(async () => {
  results = await demoResults();
  published = { curves: { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') } };
});

const CODES = {
  samples: ['T2-03', 'T2-04', 'M1-07', 'M2-07'],
  carbon: new Map([['M2-07', 'sea' as const]]),
  lab_codes: new Set(['INV-2419']),
};
const options = (over: Partial<BringOptions>): BringOptions => ({
  mapping: {},
  fixed: { method: 'radiocarbon', calibration_curve: 'shcal20' },
  keepRest: true,
  decimal_comma: false,
  mended: new Map(),
  ...over,
});

/** From bytes to rows by the guesses alone. */
async function brought(name: string, content: Uint8Array, over: Partial<BringOptions> = {}) {
  const theirs = readDates(bestSheet(await readTheirs(name, content), 'dates')!);
  return broughtRows(
    theirs.headings,
    theirs.lines,
    options({ mapping: theirs.mapping, decimal_comma: theirs.decimal_comma, ...over }),
    CODES,
  );
}

test('an age while it is typed is the age the computation gives, to the last digit, for every date of the demo', () => {
  const samples = new Map(demoRows('samples').map((r) => [r.cells['sample'], r.cells]));
  let compared = 0;
  for (const row of demoRows('determinations')) {
    const sample = samples.get(row.cells['sample']!)!;
    const age = ageOfCells(row.cells, {}, published, sample as unknown as Row<'samples'>, RANGE);
    assert.equal(age.kind, 'dated', row.cells['lab_code']);
    const computed = results.dates.find((d) => d.row_id === row.row_id)!;
    if (age.kind !== 'dated') continue;
    assert.deepEqual(age.date.density, computed.density);
    assert.deepEqual(age.date.sets_95, computed.sets_95);
    assert.equal(age.date.median_cal_bp, computed.median_cal_bp);
    compared++;
  }
  assert.equal(compared, 37);
});

test('half typed, it says what it waits for', () => {
  const said = (cells: Record<string, string>) => {
    const age = ageOfCells(cells, {}, published, null, RANGE);
    return age.kind === 'undated' ? age.why : age.kind;
  };
  assert.match(said({}), /waits for a method/);
  assert.match(said({ method: 'radiocarbon' }), /waits for the age/);
  assert.match(said({ method: 'radiocarbon', value: '59x' }), /Found “59x”/);
  assert.match(
    said({ method: 'radiocarbon', value: '5900', error: '25' }),
    /waits for its calibration curve/,
  );
  assert.equal(
    said({ method: 'radiocarbon', value: '5900', error: '25', calibration_curve: 'intcal20' }),
    'waiting',
  );
  assert.match(
    said({ method: 'radiocarbon', value: '60000', error: '25', calibration_curve: 'shcal20' }),
    /older/,
  );
});

test('a value that is no age is asked about, until somebody says what it is', () => {
  const cells = { method: 'radiocarbon', value: '1.2534', error: '0.0025' };
  assert.ok(isPerhapsF14C(cells, {}));
  assert.ok(isPerhapsF14C({ ...cells, value: '0,4179' }, { decimal_comma: true }));
  for (const other of [
    { value: '2' },
    { value: '-0.5' },
    { value: '3.2' },
    { value: '2914' },
    { value: '1.2x' },
    { value: '' },
    { method: 'lead210' },
    { reported_as: 'age' },
    { reported_as: 'f14c' },
  ]) {
    assert.ok(!isPerhapsF14C({ ...cells, ...other }, {}), JSON.stringify(other));
  }
  assert.ok(isReportedAsF14C({ ...cells, reported_as: 'f14c' }));
  assert.ok(!isReportedAsF14C(cells));
});

test('a year after 1950 is said in the common era too', () => {
  assert.equal(commonEra(-13), '1963 CE');
  assert.equal(commonEra(-12.6), '1963 CE');
  assert.equal(commonEra(0), '');
  assert.equal(commonEra(310), '');
  const set = (older_cal_bp: number, younger_cal_bp: number) =>
    setWords({ older_cal_bp, younger_cal_bp, probability: 0.38 }, true);
  assert.equal(set(5587, 5468), '5,587–5,468 (38 %)');
  assert.equal(set(-12, -31), '−12 to −31 (38 %)');
  assert.equal(set(-11.6, -12.4), '−12 (38 %)');
});

test('of labels in one line the heaviest is placed first, none touches another, none leaves the page', () => {
  const label = (middle: number, half: number, weight: number) => ({ middle, half, weight });
  assert.deepEqual(placeLabels([label(30, 20, 0.15), label(55, 20, 0.72), label(120, 20, 0.01)], 200, 6), [
    null,
    55,
    120,
  ]);
  assert.deepEqual(placeLabels([label(5, 20, 1), label(195, 20, 0.5)], 200, 6), [20, 180]);
  assert.deepEqual(placeLabels([], 200, 6), []);
});

test('a year at either end of the lane is written whole', () => {
  for (const [oldest, youngest, lane] of [
    [10_000, 0, 76],
    [10_060, 8_000, 240],
  ] as const) {
    const x = laneScale(oldest, youngest, lane);
    assert.ok(x(10_000) - textWidth('10,000') / 2 >= 0);
    assert.ok(x(youngest) + textWidth(youngest === 0 ? '0' : '8,000') / 2 <= lane / PX);
  }
});

test('the table goes hole by hole along the section, from the top down', () => {
  const groups = grouped(demoRows('determinations'), demoRows('samples'), results);
  assert.equal(
    groups.reduce((sum, g) => sum + g.rows.length, 0),
    37,
  );
  assert.deepEqual(
    groups.map((g) => g.name),
    ['Hole T2', 'Hole T1', 'Hole T3', 'Hole M1', 'Hole M2', 'Hole M3'],
  );
  for (const { rows } of groups) {
    for (let i = 1; i < rows.length; i++) assert.ok(rows[i]!.depth_m! >= rows[i - 1]!.depth_m!);
  }
  const { oldest, youngest } = span(groups);
  assert.ok(oldest > 9300 && youngest < 600);
});

test('CSV with semicolons, decimal commas, a letter above and a bad row: named, nothing lost', async () => {
  const text = `\ufeffRadiocarbon results, March 2024\r\nLab code;Sample;Age BP;1 sigma;d13C;Remark;F14C\r\nINV-4001;t2 03;7010;30;-26,1;;0,4179\r\nINV-4002;T2-04;seven thousand;25;-25;ask again;0,42\r\nINV-2419;T2-03;8074;40;-26,8;;\r\nINV-4001;T2-04;7000;30;;;\r\n`;
  const rows = await brought('results.csv', bytes(text));
  assert.deepEqual(
    rows.map((r) => [
      r.line,
      r.cells['lab_code'],
      r.cells['sample'],
      r.known !== null,
      Object.keys(r.faults),
    ]),
    [
      [3, 'INV-4001', 'T2-03', false, []],
      [4, 'INV-4002', 'T2-04', false, ['value']],
      [5, 'INV-2419', 'T2-03', true, []],
      [6, 'INV-4001', 'T2-04', true, []],
    ],
  );
  assert.equal(rows[1]!.cells['value'], 'seven thousand');
  assert.equal(rows[1]!.cells['note'], 'ask again; F14C: 0,42');
  assert.equal(rows[0]!.cells['delta13c_permil'], '-26.1');
  assert.equal(rows[0]!.cells['note'], 'F14C: 0,4179');
});

test('pasted from a spreadsheet, tabs between', async () => {
  const rows = await brought(
    'pasted',
    bytes('Code\tSample\tAge\t±\nA1\tM1-07\t5920 ± 25 BP\t\nA2\tM1-07\t5,890\t±28\n'),
  );
  assert.deepEqual([rows[0]!.cells['value'], rows[0]!.cells['error']], ['5920', '25']);
  assert.deepEqual(rows[0]!.faults, {});
  assert.equal(rows[1]!.cells['error'], '28');
  assert.equal(rows[1]!.faults['value']!.code, 'decimal-comma');
});

test('a row mended in the preview is as good as any', async () => {
  const csv = bytes('Code,Sample,Age,Error\nA1,T9,about 5900,25\n');
  const [bad] = await brought('x.csv', csv);
  assert.deepEqual(Object.keys(bad!.faults).sort(), ['sample', 'value']);
  const [good] = await brought('x.csv', csv, { mended: new Map([[2, { value: '5900', sample: 'M1-07' }]]) });
  assert.deepEqual(good!.faults, {});
});

test('workbooks of three general-purpose writers', async () => {
  const rows = await brought('letter-above.xlsx', fixture('letter-above.xlsx'));
  assert.deepEqual(
    rows.map((r) => [r.cells['lab_code'], r.cells['sample'], Object.keys(r.faults)]),
    [
      ['INV-3001', 'T2-04', []],
      // A limit is an age too: > 45000.
      ['INV-3002', 'T2-04', []],
      ['INV-3003', 'X9-01', ['sample']],
    ],
  );
  assert.equal(rows[0]!.cells['note'], 'small; Date received: 2024-03-05');

  const plain = await brought('plain.xlsx', fixture('plain.xlsx'));
  assert.deepEqual(
    plain.map((r) => [
      r.cells['value'],
      r.cells['error'],
      r.cells['method'],
      r.cells['calibration_curve'],
      r.faults,
    ]),
    [
      ['5920', '25', 'radiocarbon', 'shcal20', {}],
      ['5890.5', '28', 'radiocarbon', 'shcal20', {}],
    ],
  );
  const inline = await brought('inline-strings.xlsx', fixture('inline-strings.xlsx'));
  assert.deepEqual(
    inline.map((r) => [r.line, r.cells['lab_code'], r.cells['value'], Object.keys(r.faults)]),
    [
      [2, 'INV-3020', '4100', []],
      [4, 'INV-3021', '4050', ['delta13c_permil']],
    ],
  );
});

test('a shell on the air’s curve, and on the sea’s without its offset, is doubted and not refused', async () => {
  const csv = bytes(
    'Code,Sample,Age,Error,Curve,Delta R\nA1,M2-07,5900,25,shcal20,\nA2,M2-07,5900,25,Marine20,\nA3,M2-07,5900,25,marine20,-100\n',
  );
  const rows = await brought('x.csv', csv);
  assert.deepEqual(
    rows.map((r) => [r.doubts.length, Object.keys(r.faults).length]),
    [
      [1, 0],
      [1, 0],
      [0, 0],
    ],
  );
});
