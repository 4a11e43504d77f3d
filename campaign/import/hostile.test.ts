/** Anything at all may be given: nothing throws, and every line is used or explained, exactly once. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import fc from 'fast-check';
import { zipSync } from 'fflate';
import { withProposal } from './add.ts';
import { campaignOf, TWO_CORES } from './fixtures/tables.ts';
import { hereOf } from './here.ts';
import { KINDS, type Kind } from './mapping.ts';
import { proposed } from './proposed.ts';
import { readMapping } from './read-mapping.ts';
import { readTheirs } from './read-theirs.ts';
import type { TheirSheet } from './sheet.ts';
import { bestSheet, understand } from './understand.ts';

const SEED = 20260417;
const CELLS = [
  '',
  '-',
  'C1',
  'C2',
  'C9',
  '12',
  '12.5',
  '12,5',
  '1,234',
  '-7',
  '12–14',
  '14-12',
  '12–14 cm',
  '> 48,000',
  '<0.5',
  'ND',
  'bdl',
  '5920 ± 25',
  '5920 +30/-20',
  '2019-03-05',
  '3-May',
  '=A1*2',
  '#REF!',
  'NaN',
  '-9999',
  '1e308',
  '1e999',
  '9'.repeat(60),
  '½',
  '9\' 11 1/2"',
  "31°30'N",
  '81.3 W',
  'sand',
  'peat',
  'index',
  'Vibracore',
  'Mean',
  'Total',
  '* a footnote about something',
  'Source: me',
  'MHW',
  'MHW+0.1',
  'rejected',
  'intcal20',
  '__proto__',
  'constructor',
  'row_id',
  '\u202eabc',
  'é',
  '＝1',
  '\u0000',
  '"',
  ';',
  '\t',
  'x'.repeat(300),
];
const HEADINGS = [
  'Core',
  'hole',
  'Site',
  'Method',
  'Type',
  'Depth (cm)',
  'Depth',
  'Top (m)',
  'Bottom (m)',
  'From',
  'To',
  'Thickness (cm)',
  'Marsh thick',
  'Sand thick',
  'Lab code',
  'Sample',
  '14C age BP',
  '± 1σ',
  'δ13C (‰)',
  'LOI (%)',
  'LOI error',
  'dry_bulk_density_g_cm3',
  'Property',
  'Value',
  'Unit',
  'rsl_m',
  'rsl_error_up_2s_m',
  'rsl_error_down_2s_m',
  'type_code',
  'reference',
  'age_ce',
  'Latitude',
  'Longitude',
  'Elevation (cm NAVD88)',
  'Loop',
  'Point',
  'BS (mm)',
  'FS',
  'Push',
  'Recovery (cm)',
  'Shortening (cm)',
  'MHW (m MSL)',
  'MTL (m)',
  'Level',
  'Lower',
  'Upper',
  'Kind',
  'note',
  '',
  'status',
];
const cell = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...CELLS) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 12 }) },
);
const line = fc.array(cell, { maxLength: 9 });
const headings = fc.array(
  fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...HEADINGS) }, { weight: 1, arbitrary: cell }),
  { minLength: 1, maxLength: 9 },
);
const sheetOf = fc
  .tuple(
    fc.array(line, { maxLength: 2 }),
    headings,
    fc.option(fc.array(fc.constantFrom('cm', 'm', '%', 'none', 'yr BP', '', 'text'), { maxLength: 9 })),
    fc.array(line, { maxLength: 12 }),
  )
  .map(([above, heads, units, rows]) => [...above, heads, ...(units === null ? [] : [units]), ...rows]);

const sheetWith = (rows: readonly (readonly string[])[]): TheirSheet => ({
  name: 'sheet',
  lines: rows.flatMap((cells, i) =>
    cells.some((each) => each.trim() !== '') ? [{ line: i + 1, cells }] : [],
  ),
});

/** Lines of each outcome that were held to it. */
const met = { used: 0, set_aside: 0, problem: 0 };

function held(sheet: TheirSheet, as: Kind | undefined): void {
  const understood = understand(sheet, as === undefined ? {} : { as });
  if (understood === null) return;
  const { mapping } = understood;
  const back = readMapping(JSON.stringify(mapping));
  assert.ok('mapping' in back, JSON.stringify(back));
  assert.deepEqual(back.mapping, mapping);
  const proposal = proposed(hereOf(TWO_CORES), sheet, mapping);
  // Every line of theirs has one outcome, in its order.
  assert.deepEqual(
    proposal.lines.map((each) => each?.line),
    sheet.lines.map((each) => each.line),
  );
  const own = proposal.rows.filter((row) => !row.made);
  for (const { line, outcome, why } of proposal.lines) {
    assert.ok(why.length > 0);
    met[outcome]++;
    assert.equal(
      own.some((row) => row.line === line),
      outcome === 'used',
      `line ${line}`,
    );
    if (outcome === 'problem')
      assert.ok(
        proposal.problems.some((p) => p.line === line),
        `line ${line} says why`,
      );
  }
  // What was proposed is added whole, and nothing that was there is touched.
  const after = withProposal(TWO_CORES, proposal);
  for (const [name, table] of TWO_CORES.tables) {
    const added = proposal.rows.filter((row) => row.table === name).length;
    const now = after.tables.get(name)!;
    assert.equal(now.rows.length, table.rows.length + added);
    table.rows.forEach((row, i) => {
      for (const [at, text] of row.cells.entries()) assert.equal(now.rows[i]!.cells[at] ?? '', text);
    });
  }
  // A campaign takes every row that is used: none is set aside for what this room had to see.
  const { campaign } = parseCampaign(after);
  const skipped = campaign.skipped_rows.filter(({ why }) => why === 'unreadable');
  const lacking = own.filter(
    ({ cells }) => cells['qualifier'] === 'not_determined' || cells['status'] === 'rejected',
  );
  assert.ok(
    skipped.length <= lacking.length + proposal.rows.length - own.length,
    JSON.stringify(skipped.slice(0, 3)),
  );
}

test(`any sheet, as any kind: every line used or explained (seed ${SEED})`, () => {
  fc.assert(
    fc.property(sheetOf, fc.option(fc.constantFrom(...KINDS), { nil: undefined }), (rows, as) => {
      held(sheetWith(rows), as);
    }),
    { seed: SEED, numRuns: 1500 },
  );
});

/** Columns that a table of each kind may have, each with cells that are right for it. */
const SOUND: Readonly<Record<Kind, Readonly<Record<string, readonly string[]>>>> = {
  cores: {
    Core: ['A', 'B', 'D', 'E', 'F'],
    Method: ['Vibracore', 'hand', 'gouge'],
    Site: ['North', ''],
    'Elevation (cm NAVD88)': ['83.2', '-7'],
  },
  'tide-levels': { Site: ['North', 'South'], 'MHW (m MSL)': ['1.01', '0.9'], 'MTL (cm)': ['-5', '3'] },
  levelling: { Loop: ['L'], Point: ['BM1', 'T1'], 'BS (mm)': ['1234', ''], 'FS (m)': ['0.987', '1.2'] },
  pushes: {
    Core: ['C1', 'C2'],
    Push: ['1', '2', '3'],
    'From (cm)': ['0', '50'],
    'To (cm)': ['100', '120'],
    'Recovery (cm)': ['45', ''],
  },
  layers: {
    Core: ['C1', 'C2'],
    'Top (cm)': ['0', '10'],
    'Bottom (cm)': ['20', '31.5'],
    Lithology: ['sand', 'peat'],
  },
  samples: { Sample: ['S1', 'S2', 'S3', 'S4'], Core: ['C1', 'C2'], 'Depth (cm)': ['12', '12–14', '3'] },
  dates: {
    Core: ['C1', 'C2', ''],
    'Depth (cm)': ['12–14', '30', '31-33'],
    'Lab code': ['L1', 'L2', 'L3', 'L4'],
    '14C age BP': ['3120', '> 48,000', '4,100 ± 40'],
    '± 1σ': ['30', ''],
  },
  'calibration-curves': {
    Curve: ['Lagoon'],
    'CAL BP': ['0', '10', '20', '30'],
    '14C age': ['120', '140', ''],
    Sigma: ['12', '0', '-1'],
  },
  'age-densities': {
    Tephra: ['A', 'B', ''],
    Year: ['100', '101', '102', '-3', '0', '450 BCE', 'AD 12', '2,450 cal BP'],
    Probability: ['0.1', '0', '-0.2', '', '1e-4'],
  },
  measurements: {
    Core: ['C1', 'C2', ''],
    'Depth (mm)': ['120', '125', '300'],
    'LOI (%)': ['12.5', '<0.5', 'ND', ''],
    'sand (%)': ['80', ''],
    'sand error': ['2', ''],
  },
  'lead-profiles': {
    Core: ['C1', 'C2'],
    'Top (cm)': ['0', '1', '2'],
    'Bottom (cm)': ['3', '4'],
    '210Pb (Bq/kg)': ['212.4', '88', '<LD', '41 ± 4'],
    '± 1σ': ['8', ''],
    '137Cs (Bq/kg)': ['3.1', '< 0.8', 'ND', ''],
  },
  points: {
    Core: ['C1'],
    'Depth (cm)': ['12–14', '30', '40'],
    Kind: ['index', 'marine'],
    Lower: ['MTL'],
    Upper: ['MHW+0.1'],
  },
  'published-points': {
    id: ['P1', 'P2', 'P3'],
    reference: ['Somebody 2010'],
    kind: ['index', 'terrestrial'],
    rsl_m: ['-2.96'],
    rsl_error_up_2s_m: ['0.2'],
    rsl_error_down_2s_m: ['0.3'],
    age_ce: ['-872', ''],
  },
};
const soundSheet = fc.constantFrom(...KINDS).chain((as) => {
  const columns = Object.values(SOUND[as]);
  const row = fc.tuple(
    ...columns.map((sound) =>
      fc.oneof({ weight: 12, arbitrary: fc.constantFrom(...sound) }, { weight: 1, arbitrary: cell }),
    ),
  );
  return fc
    .tuple(fc.array(row, { minLength: 1, maxLength: 10 }), fc.array(line, { maxLength: 1 }))
    .map(([rows, below]) => ({ as, rows: [Object.keys(SOUND[as]), ...rows, ...below] }));
});

test(`tables mostly right, with anything in between (seed ${SEED})`, () => {
  const before = { ...met };
  fc.assert(
    fc.property(soundSheet, ({ as, rows }) => held(sheetWith(rows), as)),
    { seed: SEED, numRuns: 1000 },
  );
  // Each outcome was met often enough to mean something.
  assert.ok(met.used - before.used > 1500, JSON.stringify(met));
  assert.ok(
    Math.min(met.set_aside - before.set_aside, met.problem - before.problem) > 300,
    JSON.stringify(met),
  );
});

test(`any bytes: read, or refused by name (seed ${SEED})`, async () => {
  const text = fc
    .tuple(
      sheetOf,
      fc.constantFrom(',', ';', '\t'),
      fc.constantFrom('\n', '\r\n', '\r'),
      fc.constantFrom('utf-8', 'utf-16le', 'latin'),
    )
    .map(([rows, delimiter, end, encoding]) => {
      const whole = rows.map((cells) => cells.join(delimiter)).join(end);
      if (encoding === 'utf-8') return new TextEncoder().encode(whole);
      if (encoding === 'utf-16le') return new Uint8Array(Buffer.from(`\ufeff${whole}`, 'utf16le'));
      return new Uint8Array(Buffer.from(whole, 'latin1'));
    });
  await fc.assert(
    fc.asyncProperty(fc.oneof(text, fc.uint8Array({ maxLength: 400 })), async (bytes) => {
      const theirs = await readTheirs('file', bytes);
      if (theirs.sheets.length === 0) return;
      for (const sheet of theirs.sheets) held(sheet, undefined);
    }),
    { seed: SEED, numRuns: 400 },
  );
});

test('a workbook whose bytes are changed at random is read or refused, and what is read is explained', async () => {
  const whole = new Uint8Array(readFileSync(join(import.meta.dirname, 'fixtures', 'letter-above.xlsx')));
  for (let i = 0; i < 100; i++) {
    const broken = whole.slice();
    for (let j = 0; j < 8; j++) broken[(i * 7919 + j * 104_729) % broken.length]! ^= 1 << (j % 8);
    const { sheets } = await readTheirs('x.xlsx', broken);
    for (const sheet of sheets) held(sheet, 'dates');
  }
});

/** A workbook of one sheet, as small as one can be. */
function workbook(sheetData: string, behind = '', styles = ''): Uint8Array {
  const parts = {
    'xl/workbook.xml': '<workbook><sheets><sheet name="S" sheetId="1" r:id="rId1"/></sheets></workbook>',
    'xl/_rels/workbook.xml.rels':
      '<Relationships><Relationship Id="rId1" Target="worksheets/sheet1.xml"/></Relationships>',
    'xl/worksheets/sheet1.xml': `<worksheet><sheetData>${sheetData}</sheetData>${behind}</worksheet>`,
    'xl/styles.xml': styles,
  };
  return zipSync(
    Object.fromEntries(Object.entries(parts).map(([name, xml]) => [name, new TextEncoder().encode(xml)])),
  );
}
const textCell = (at: string, text: string) => `<c r="${at}" t="inlineStr"><is><t>${text}</t></is></c>`;

test('merged cells are said where they reach; per cents and dates as they are shown; formulas without a value are named', async () => {
  const { sheets, problems } = await readTheirs(
    'x.xlsx',
    workbook(
      `<row r="1">${textCell('A1', 'Core')}${textCell('B1', 'Depth (cm)')}<c r="C1"/></row>` +
        `<row r="2"><c r="A2"/>${textCell('B2', 'top')}${textCell('C2', 'bottom')}${textCell('D2', 'LOI')}</row>` +
        `<row r="3">${textCell('A3', 'C1')}<c r="B3"><v>1</v></c><c r="C3"><v>2</v></c><c r="D3" s="1"><v>0.125</v></c></row>` +
        `<row r="4" hidden="1"><c r="B4" s="2"><v>43588</v></c><c r="C4"><f>B4*2</f></c><c r="D4"><f>1+1</f><v>2</v></c></row>`,
      '<mergeCells><mergeCell ref="B1:C1"/><mergeCell ref="A1:A2"/><mergeCell ref="A3:A4"/><mergeCell ref="bad"/></mergeCells>',
      '<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="10"/><xf numFmtId="14"/></cellXfs></styleSheet>',
    ),
  );
  assert.deepEqual(
    sheets[0]!.lines.map(({ cells }) => [...cells]),
    [
      ['Core', 'Depth (cm)', 'Depth (cm)'],
      ['Core', 'top', 'bottom', 'LOI'],
      ['C1', '1', '2', '12.5%'],
      // 43588 is 3 May 2019: what a spreadsheet makes of 3-5.
      ['C1', '2019-05-03', '', '2'],
    ],
  );
  assert.deepEqual(
    problems.map((p) => p.code),
    ['formula-without-value', 'hidden-lines'],
  );
  assert.match(problems[0]!.found, /C4/);
});

test('cells merged over a whole sheet, a million times, are refused and not followed', async () => {
  const merged = '<mergeCell ref="A1:XFD1048576"/>'.repeat(2000);
  const { sheets, problems } = await readTheirs(
    'x.xlsx',
    workbook(
      `<row r="1">${textCell('A1', 'x')}</row><row r="1048576">${textCell('B1048576', 'y')}</row>`,
      `<mergeCells>${merged}</mergeCells>`,
    ),
  );
  assert.equal(sheets.length, 0);
  assert.match(problems[0]!.found, /merged cells over more than/);
});

test('what is no table is named for what it is', async () => {
  const locked = new Uint8Array(600);
  locked.set([0xd0, 0xcf, 0x11, 0xe0]);
  locked.set(
    [...'EncryptedPackage'].flatMap((letter) => [letter.charCodeAt(0), 0]),
    300,
  );
  const text = (content: string) => new TextEncoder().encode(content);
  for (const [bytes, code, found] of [
    [locked, 'locked-spreadsheet', /password/],
    [Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0]), 'old-spreadsheet', /old binary/],
    [text('%PDF-1.7'), 'not-a-table', /PDF/],
    [text('<!DOCTYPE html><table>'), 'not-a-table', /web page/],
    [
      zipSync(
        { mimetype: text('application/vnd.oasis.opendocument.spreadsheet'), 'content.xml': text('<x/>') },
        { level: 0 },
      ),
      'not-a-spreadsheet',
      /OpenDocument/,
    ],
    [new Uint8Array(50_000_000), 'table-too-large', /50 MB/],
    [new Uint8Array(0), 'empty-file', /^$/],
    [Uint8Array.from([65, 66, 0, 67, 68, 69]), 'not-a-table', /zero bytes/],
  ] as const) {
    const { sheets, problems } = await readTheirs('x', bytes);
    assert.equal(sheets.length, 0);
    assert.equal(problems[0]!.code, code);
    assert.match(problems[0]!.found, found);
    assert.ok(problems[0]!.fix.length > 20);
  }
});

test('Windows-1252 and UTF-16 keep their signs; a stated delimiter is held to', async () => {
  const latin = await readTheirs(
    'x.csv',
    Uint8Array.from(Buffer.from('Core,Depth (cm),\xb1\nC1,3,2\n', 'latin1')),
  );
  assert.equal(latin.sheets[0]!.lines[0]!.cells[2], '±');
  assert.equal(latin.problems[0]!.code, 'not-utf-8');
  const wide = await readTheirs(
    'x.csv',
    new Uint8Array(Buffer.from('\ufeffCore\tDepth (cm)\nC1\t3\n', 'utf16le')),
  );
  assert.deepEqual([...wide.sheets[0]!.lines[1]!.cells], ['C1', '3']);
  const stated = await readTheirs('x.csv', new TextEncoder().encode('sep=;\nCore;Depth (cm)\nC1;3,5\n'));
  assert.deepEqual(
    stated.sheets[0]!.lines.map(({ line }) => line),
    [2, 3],
  );
  assert.equal(bestSheet(stated)!.name, 'x.csv');
});

test('thirty thousand lines, each of a depth of its own, are each a row', async () => {
  const rows = Array.from({ length: 30_000 }, (_, i) => `C1,${i % 1000},${i}.5`).join('\n');
  const { sheets } = await readTheirs(
    'x.csv',
    new TextEncoder().encode(`Core,Depth (mm),LOI (%)\n${rows}\n`),
  );
  const document = campaignOf({ holes: [{ hole: 'C1', method: 'hand' }] });
  const { lines, rows: added } = proposed(hereOf(document), sheets[0]!, understand(sheets[0]!)!.mapping);
  assert.equal(lines.length, 30_001);
  assert.equal(added.length, 31_000);
});
