/** Tables of slices with their activities, as laboratories send them. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { decided } from './decide.ts';
import { campaignOf, lookedAt, rowsOf } from './fixtures/tables.ts';
import { hereOf } from './here.ts';
import { proposed } from './proposed.ts';
import { readTheirs } from './read-theirs.ts';
import { bestSheet, understand } from './understand.ts';

const MESSY = new Uint8Array(readFileSync(join(import.meta.dirname, 'fixtures', 'slices.csv')));
const CORE = campaignOf({ holes: [{ hole: 'C1', method: 'hand' }] });
const C1 = { hole: 'C1', depth_basis: 'in_situ' };
const bytes = (text: string) => new TextEncoder().encode(text);

/** Rows of the table with what a person decides, in that order. */
async function decidedAs(content: Uint8Array, said: Readonly<Record<string, string>>, document = CORE) {
  const sheet = bestSheet(await readTheirs('theirs', content))!;
  let { mapping } = understand(sheet)!;
  for (const [where, word] of Object.entries(said)) {
    const read = decided(mapping, where, word);
    assert.ok('mapping' in read, JSON.stringify(read));
    mapping = read.mapping;
  }
  return { sheet, mapping, proposal: proposed(hereOf(document), sheet, mapping) };
}

test('a messy report: units, decimal commas, limits, 2 sigma; the bad slices named, comments set aside', async () => {
  const looked = await decidedAs(MESSY, { hole: 'C1', collected: '2023-02-13' });
  assert.equal(looked.mapping.as, 'lead-profiles');
  assert.equal(looked.mapping.decimal_comma, true);
  assert.deepEqual(
    looked.proposal.lines.map(({ line, outcome }) => `${line} ${outcome}`),
    [
      ...[1, 2, 4, 5].map((line) => `${line} set_aside`),
      '6 used',
      '7 used',
      // What could be read of slice 3 is used, the lost count named.
      '8 used',
      '9 used',
      '10 used',
      '11 problem',
      '12 used',
      '13 used',
      '14 set_aside',
      '15 set_aside',
      '16 set_aside',
    ],
  );
  assert.deepEqual(
    looked.proposal.problems.map(({ line, column, found }) => [line, column, found]),
    [
      [8, '²¹⁰Pb tot.', 'lost'],
      [11, 'Depth (cm)', '5–'],
    ],
  );
  const rows = rowsOf(looked, 'measurements');
  const at = (top: string, property: string) =>
    rows.find((row) => row['top'] === top && row['property'] === property);
  const unitAnd = { unit: 'Bq/kg', ...C1 };
  assert.deepEqual(at('0 cm', 'total lead-210'), {
    property: 'total lead-210',
    value: '262.4',
    sigma: '10.5',
    top: '0 cm',
    bottom: '1 cm',
    note: '± 2σ: 21,0',
    ...unitAnd,
  });
  const limit = (top: string) => {
    const { value, qualifier, sigma } = at(top, 'caesium-137')!;
    return [value, qualifier, sigma];
  };
  // The limit of its column, its own, and that of a longer slice.
  assert.deepEqual(limit('0 cm'), ['1.4', 'less_than', undefined]);
  assert.deepEqual(limit('1 cm'), ['1.2', 'less_than', undefined]);
  assert.deepEqual(limit('7 cm'), ['1.6', 'less_than', undefined]);
  assert.deepEqual(
    [at('4 cm', 'radium-226')?.['qualifier'], at('4 cm', 'radium-226')?.['value']],
    ['not_determined', undefined],
  );
  assert.deepEqual(
    [at('7 cm', 'total lead-210')?.['value'], at('7 cm', 'total lead-210')?.['qualifier']],
    ['28', 'less_than'],
  );
  assert.equal(at('2 cm', 'total lead-210'), undefined);
  // What else the line says is in the note of its first row.
  assert.equal(at('2 cm', 'dry density')?.['note'], 'slice: 3; beaker broken');
  assert.equal(at('2 cm', 'dry density')?.['value'], '0.214');
  assert.equal(at('2 cm', 'dry density')?.['unit'], 'g/cm3');
  assert.deepEqual(rowsOf(looked, 'lead_profiles'), [
    { profile: 'C1 lead-210', hole: 'C1', collected: '2023-02-13' },
  ]);
  assert.deepEqual(rowsOf(looked, 'samples'), []);
});

test('once more brings nothing; another table of the core joins its profile', async () => {
  const first = await decidedAs(MESSY, { hole: 'C1' });
  const there = campaignOf({
    holes: [{ hole: 'C1', method: 'hand' }],
    measurements: rowsOf(first, 'measurements'),
    lead_profiles: rowsOf(first, 'lead_profiles'),
  });
  const again = await decidedAs(MESSY, { hole: 'C1' }, there);
  assert.deepEqual(again.proposal.rows, []);
  const more = await decidedAs(
    bytes('Core,Top (cm),Bottom (cm),210Pb (dpm/g),± 1σ\nC1,9,11,1.1,0.2\n'),
    {},
    there,
  );
  assert.deepEqual(rowsOf(more, 'lead_profiles'), []);
  assert.deepEqual(
    rowsOf(more, 'measurements').map(({ value, sigma, unit }) => [value, sigma, unit]),
    [['1.1', '0.2', 'dpm/g']],
  );
});

test('a table headed alike is read alike, but its core, day and limits are its own', async () => {
  const table = bytes('Depth (cm);Pb-210 (Bq/kg);error;Cs-137 (Bq/kg)\n0-2;212;8;<LD\n2-4;160;7;3\n');
  const { mapping } = await decidedAs(table, {
    hole: 'C1',
    collected: '2023-02-13',
    sigma: '2',
    'columns.D.limit': '0.9',
    supported_bq_kg: '18',
  });
  const next = understand(bestSheet(await readTheirs('next', table))!, {
    remembered: () => mapping,
  })!.mapping;
  assert.deepEqual(next.fixed, { depth_basis: 'in_situ' });
  assert.deepEqual(
    next.columns.map(({ sigma, limit }) => [sigma, limit]),
    [
      [undefined, undefined],
      [2, undefined],
      [2, undefined],
      [2, undefined],
    ],
  );
});

test('what the table does not say is asked: core, day, unit, sigma, limit, supported; lines wait for the unit', async () => {
  const table = bytes(
    'Depth (cm);Pb-210;error;Cs-137\n0-2;212;8;<LD\n2-4;160;7;3\n4-6;90;5;ND\n6-8;41 ± 4;;<LD\n',
  );
  const bare = await decidedAs(table, {});
  assert.deepEqual(
    bare.proposal.decisions.map(({ where, taken }) => [where, taken === null]),
    [
      ['columns.B.unit', true],
      ['columns.D.unit', true],
      ['sigma', false],
      ['columns.D.limit', false],
      ['fixed.depth_basis', false],
      ['fixed.hole', true],
      ['fixed.collected', false],
      ['fixed.supported_bq_kg', false],
    ],
  );
  assert.deepEqual(rowsOf(bare, 'measurements'), []);
  assert.ok(
    bare.proposal.problems.some(
      ({ code, fix }) => code === 'no-unit' && fix === 'State the unit of “Pb-210”.',
    ),
  );
  const said = await decidedAs(table, {
    hole: 'C1',
    'columns.B.unit': 'mBq/g',
    'columns.D.unit': 'pCi/g',
    'columns.D.limit': '0.9',
    sigma: '2',
    supported_bq_kg: '18',
    supported_sigma_bq_kg: '1.5',
    collected: '13 February',
  });
  const short = rowsOf(said, 'measurements').map(({ property, value, sigma, unit, qualifier }) =>
    [property, value, sigma, unit, qualifier].filter((cell) => cell !== undefined).join(' '),
  );
  assert.deepEqual(short, [
    'total lead-210 212 4 mBq/g',
    'caesium-137 0.9 pCi/g less_than',
    'total lead-210 160 3.5 mBq/g',
    'caesium-137 3 pCi/g',
    'total lead-210 90 2.5 mBq/g',
    'caesium-137 pCi/g not_determined',
    'total lead-210 41 2 mBq/g',
    'caesium-137 0.9 pCi/g less_than',
  ]);
  // A day that cannot be read is named, and the profile is made without it.
  assert.deepEqual(rowsOf(said, 'lead_profiles'), [
    { profile: 'C1 lead-210', hole: 'C1', supported_bq_kg: '18', supported_sigma_bq_kg: '1.5' },
  ]);
  assert.deepEqual(
    said.proposal.problems.map(({ severity, column, found }) => [severity, column, found]),
    [['warning', 'collected', '13 February']],
  );
});

test('one depth of each slice: their middles where they follow each other, a thickness where it is said, else named', async () => {
  const ends = async (depths: readonly string[], said: Readonly<Record<string, string>> = {}) => {
    const lines = depths.map((depth) => `C1,${depth},${depth === '0' ? '' : '50'},2`);
    const looked = await decidedAs(
      bytes(['Core,Mid depth (cm),210Pb (Bq/kg),err', ...lines, ''].join('\n')),
      said,
    );
    return {
      rows: rowsOf(looked, 'measurements').map(({ top, bottom }) => `${top} to ${bottom}`),
      problems: looked.proposal.problems.map(({ line, code }) => `${line} ${code}`),
    };
  };
  assert.deepEqual(await ends(['0', '0.5', '1.5', '3']), {
    rows: ['0 cm to 1.0 cm', '1.0 cm to 2.0 cm', '2.0 cm to 4.0 cm'],
    problems: [],
  });
  // 1 to 2 cm is missing: no slice can be 3 cm at its middle.
  assert.deepEqual(await ends(['0.5', '1.2', '1.3', '2.5']), {
    rows: ['0 cm to 1.0 cm', '1.0 cm to 1.4 cm'],
    problems: ['4 no-slice', '5 no-slice'],
  });
  assert.deepEqual(await ends(['0.5', '4.5'], { thickness: '1 cm' }), {
    rows: ['0.0 cm to 1.0 cm', '4.0 cm to 5.0 cm'],
    problems: [],
  });
});

test('per cent of the value, an error in the cell, coverage factors, a slice that is a sample here', async () => {
  const document = campaignOf({
    holes: [{ hole: 'C1', method: 'hand' }],
    samples: [{ sample: 'C1-07', hole: 'C1', depth_basis: 'in_situ', top: '7 cm', bottom: '8 cm' }],
  });
  const looked = await lookedAt(
    'Sample,Unsupported 210Pb (dpm/g),unc. (%),Ra-226 (dpm/g),unc. (k=2)\nc1 07,5.20,10,1.2,0.4\nX9,5.2,10,1.2,0.4\n',
    undefined,
    {},
    document,
  );
  assert.equal(looked.mapping.as, 'lead-profiles');
  assert.deepEqual(
    rowsOf(looked, 'measurements').map(({ sample, property, value, sigma }) => [
      sample,
      property,
      value,
      sigma,
    ]),
    [
      ['C1-07', 'excess lead-210', '5.20', '0.5200'],
      ['C1-07', 'radium-226', '1.2', '0.2'],
    ],
  );
  assert.deepEqual(rowsOf(looked, 'lead_profiles'), [{ profile: 'C1 lead-210', hole: 'C1' }]);
  assert.deepEqual(
    looked.proposal.problems.map(({ line, column, code }) => [line, column, code]),
    [
      [3, 'hole', 'no-core'],
      [3, 'depth', 'no-slice'],
    ],
  );
});
