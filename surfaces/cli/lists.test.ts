/** `stillstand submission` and `archive`: a sheet goes out, comes back filled in, and is imported; the archive says where all is. */
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-cli-lists-'));
after(() => rmSync(place, { recursive: true, force: true }));
const folder = join(place, 'campaign');
const file = (name: string): string => join(place, name);

const CUSTODY = [
  'sample,seq,action,date,laboratory,submission,request,due,by',
  'A,1,sent,2026-03-02,Quay Laboratory,P1,radiocarbon,2026-04-02,A. Bearer',
  'B,2,sent,2026-03-02,Quay Laboratory,P1,radiocarbon,2026-04-02,A. Bearer',
].join('\n');

test('a campaign with two samples sent', async () => {
  assert.equal((await said('new', folder)).code, 0);
  writeFileSync(join(folder, 'holes.csv'), 'hole,method\nC1,hand\n');
  writeFileSync(
    join(folder, 'samples.csv'),
    'sample,hole,depth_basis,top,bottom,material\nA,C1,in_situ,1.00 m,1.02 m,peat\nB,C1,in_situ,2.00 m,2.02 m,peat\nC,C1,in_situ,3.00 m,3.02 m,wood\n',
  );
  writeFileSync(join(folder, 'laboratories.csv'), 'laboratory,address\nQuay Laboratory,1 Quay\n');
  writeFileSync(join(folder, 'custody.csv'), `${CUSTODY}\n`);
});

test('the sheet of a parcel in three formats, and its CSV filled in is imported as it is', async () => {
  for (const ending of ['csv', 'xlsx', 'html']) {
    const { code, out, err } = await said(
      'submission',
      folder,
      '--parcel',
      'P1',
      '--out',
      file(`p1.${ending}`),
    );
    assert.equal(code, 0, err);
    assert.match(out, /^2 samples to Quay Laboratory: /);
  }
  const sheet = readFileSync(file('p1.csv'), 'utf8');
  assert.match(sheet, /^"?From: A\. Bearer/m);
  // The laboratory types behind the method: code, value, error.
  const back = sheet
    .replace(/^(A,.*,radiocarbon),,,,/m, '$1,INV-1,4520,30,')
    .replace(/^(B,.*,radiocarbon),,,,/m, '$1,INV-2,6310,35,');
  assert.notEqual(back, sheet);
  writeFileSync(file('back.csv'), back);
  const { code, out, err } = await said('import', folder, file('back.csv'), '--write');
  assert.equal(code, 0, err);
  assert.match(out, /Added to .*: determinations\.csv\./);
  const rows = readFileSync(join(folder, 'determinations.csv'), 'utf8');
  assert.match(rows, /INV-1,A,radiocarbon,4520,30/);
  assert.match(rows, /INV-2,B,radiocarbon,6310,35/);
});

test('a sheet of samples still to be sent, and what cannot be sent is named', async () => {
  const words = ['submission', folder, '--laboratory', 'Quay Laboratory', '--date', '2026-03-05'];
  const { code, err } = await said(...words, '--request', 'radiocarbon', '--out', file('new.csv'));
  assert.equal(code, 0, err);
  const lines = readFileSync(file('new.csv'), 'utf8').trimEnd().split('\n');
  assert.match(lines.at(-1)!, /^C,/);
  assert.ok(!lines.some((line) => line.startsWith('A,')));
  for (const [given, found] of [
    [['--parcel', 'P9'], /--parcel: found “P9”, expected a parcel sent; there are P1/],
    [['--laboratory', 'Quay'], /--laboratory: found “Quay”, expected a laboratory of the campaign/],
    [[], /Expected --parcel LABEL of a parcel that was sent, or --laboratory/],
    [['--parcel', 'P1', '--samples', 'A'], /--samples: expected --laboratory/],
    [['--parcel', 'P1', '--format', 'pdf'], /--format: found “pdf”, expected csv, xlsx or html/],
  ] as const) {
    const wrong = await said('submission', folder, ...given, '--out', file('wrong.csv'));
    assert.equal(wrong.code, 2);
    assert.match(wrong.err, found);
  }
  const unknown = await said(...words, '--samples', 'C,X', '--out', file('wrong.csv'));
  assert.match(unknown.err, /--samples: found “X”, expected a sample that can be sent/);
  const once = await said('submission', folder, '--parcel', 'P1', '--out', file('p1.csv'));
  assert.equal(once.code, 2);
});

test('a parcel of cores alone has no sheet, and is not among those that can be named', async () => {
  const custody = join(folder, 'custody.csv');
  const before = readFileSync(custody, 'utf8');
  writeFileSync(
    custody,
    'sample,hole,run,seq,action,date,laboratory,submission\nA,,,1,sent,2026-03-02,Quay Laboratory,P1\n,C1,,2,sent,2026-03-03,Quay Laboratory,P2\n',
  );
  const { code, err } = await said('submission', folder, '--parcel', 'P2', '--out', file('wrong.csv'));
  writeFileSync(custody, before);
  assert.equal(code, 2);
  assert.match(err, /found “P2”, expected a parcel sent; there are P1$/m);
});

test('the archive list; results that came back are no longer overdue, a loan is', async () => {
  const fine = await said('archive', folder, '--date', '2026-05-01', '--out', file('archive.csv'));
  assert.equal(fine.code, 0, fine.err);
  assert.match(fine.out, /3 samples and cores, 0 on loan, 0 overdue/);
  writeFileSync(
    join(folder, 'custody.csv'),
    `${CUSTODY}\nC,3,lent,2026-03-05,Quay Laboratory,,,2026-04-20,\n`,
  );
  const late = await said(
    'archive',
    folder,
    '--of',
    'loans',
    '--date',
    '2026-05-01',
    '--out',
    file('loans.csv'),
  );
  assert.equal(late.code, 1);
  assert.match(late.out, /1 sample or core, 1 on loan, 1 overdue/);
  // 21 April to 1 May.
  assert.match(late.out, /Overdue: C, lent to Quay Laboratory.*overdue by 11 days/);
  assert.equal((await said('archive', folder, '--out', file('x.csv'))).code, 2);
  // No loan is overdue on a day that does not exist: it is not taken.
  const never = await said('archive', folder, '--date', '2026-06-31', '--out', file('x.csv'));
  assert.equal(never.code, 2);
  assert.match(never.err, /--date: found “2026-06-31”, expected a date that exists/);
});
