/** Tables as laboratories send them: letters above, decimal commas, workbooks of several writers. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { campaignOf, type Looked, lookedAt, rowsOf } from './fixtures/tables.ts';

const HERE = campaignOf({
  holes: [{ hole: 'T2', method: 'hand' }],
  samples: ['T2-03', 'T2-04', 'M1-07', 'M2-07'].map((sample, i) => ({
    sample,
    hole: 'T2',
    depth_basis: 'in_situ',
    top: `${i + 1} m`,
    bottom: `${i + 1}.02 m`,
  })),
  determinations: [
    { lab_code: 'INV-2419', sample: 'T2-03', method: 'radiocarbon', value: '8074', error: '40' },
  ],
});
const fixture = (name: string) => new Uint8Array(readFileSync(join(import.meta.dirname, 'fixtures', name)));
const look = (content: string | Uint8Array) =>
  lookedAt(content, 'dates', { fixed: { method: 'radiocarbon' } }, HERE);
const outcomes = ({ proposal }: Looked) => proposal.lines.map(({ line, outcome }) => `${line} ${outcome}`);

test('CSV with semicolons, decimal commas, a letter above and a bad row: named, nothing lost', async () => {
  const looked = await look(
    '\ufeffRadiocarbon results, March 2024\r\nLab code;Sample;Age BP;1 sigma;d13C;Remark;F14C\r\nINV-4001;t2 03;7010;30;-26,1;;0,4179\r\nINV-4002;T2-04;seven thousand;25;-25;ask again;0,42\r\nINV-2419;T2-03;8074;40;-26,8;;\r\nINV-4001;T2-04;7000;30;;;\r\n',
  );
  assert.deepEqual(outcomes(looked), [
    '1 set_aside',
    '2 set_aside',
    '3 used',
    '4 problem',
    '5 set_aside',
    '6 problem',
  ]);
  const [first] = rowsOf(looked, 'determinations');
  assert.equal(first!['sample'], 'T2-03');
  assert.equal(first!['delta13c_permil'], '-26.1');
  assert.equal(first!['note'], 'F14C: 0,4179');
  assert.deepEqual(
    looked.proposal.problems.map((p) => [p.line, p.column, p.found]),
    [
      [4, 'Age BP', 'seven thousand'],
      // the code of line 3 for another age
      [6, 'lab_code', 'INV-4001'],
    ],
  );
});

test('pasted from a spreadsheet, tabs between, the error in the cell of the age', async () => {
  const looked = await look('Code\tSample\tAge\t±\nA1\tM1-07\t5920 ± 25 BP\t\nA2\tM1-07\t5890\t±28\n');
  assert.deepEqual(
    rowsOf(looked, 'determinations').map(({ value, error }) => [value, error]),
    [
      ['5920', '25'],
      ['5890', '28'],
    ],
  );
});

test('workbooks of three general-purpose writers', async () => {
  const letter = await look(fixture('letter-above.xlsx'));
  assert.deepEqual(
    rowsOf(letter, 'determinations').map(({ lab_code, sample }) => [lab_code, sample]),
    [
      ['INV-3001', 'T2-04'],
      ['INV-3002', 'T2-04'],
    ],
  );
  assert.deepEqual(
    letter.proposal.problems.map((p) => [p.line, p.found]),
    [[7, 'X9-01']],
  );
  const plain = await look(fixture('plain.xlsx'));
  assert.deepEqual(
    rowsOf(plain, 'determinations').map(({ value, error }) => [value, error]),
    [
      ['5920', '25'],
      ['5890.5', '28'],
    ],
  );
  const inline = await look(fixture('inline-strings.xlsx'));
  assert.equal(rowsOf(inline, 'determinations')[0]!['lab_code'], 'INV-3020');
});
