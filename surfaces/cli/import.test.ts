/** `stillstand import`: looked at first, added when asked, and nothing else touched. */
import assert from 'node:assert/strict';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import type { Mapping, Proposal } from '@stillstand/campaign/import';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-cli-import-'));
after(() => rmSync(place, { recursive: true, force: true }));
let made = 0;

async function campaign(): Promise<string> {
  const folder = join(place, `campaign-${made++}`);
  assert.equal((await said('new', folder)).code, 0);
  const cores = table('Core,Method\nC1,hand\nC2,hand\n');
  assert.equal((await said('import', folder, cores, '--as', 'cores', '--write')).code, 0);
  return folder;
}

function table(text: string): string {
  const path = join(place, `table-${made++}.csv`);
  writeFileSync(path, text);
  return path;
}

const snapshot = (folder: string): Record<string, string> =>
  Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
const rows = (folder: string, name: string): string[] =>
  readFileSync(join(folder, `${name}.csv`), 'utf8')
    .trimEnd()
    .split('\n')
    .slice(1);

const DATES =
  'Core,Depth,Lab code,14C age BP,Error\nC1,12,L-1,3120,30\nC2,40,L-2,> 48000,\nC9,1,L-3,100,20\n';

test('without --write it says what would be added, what is wrong and what is asked, and changes nothing', async () => {
  const folder = await campaign();
  const before = snapshot(folder);
  const { code, out, err } = await said('import', folder, table(DATES), '--set', 'columns.B.unit=cm');
  assert.equal(code, 1);
  assert.match(out, /as dates: headings in line 1/);
  assert.match(out, /B Depth: depth, in cm/);
  assert.match(out, /4 lines: 2 used, 1 set aside, 1 with something wrong/);
  assert.match(out, /2 to add to samples, 2 of them because others name them: C1 12 cm, C2 40 cm/);
  assert.match(out, /fixed\.calibration_curve: On which curve/);
  assert.match(out, /Nothing was changed/);
  assert.match(err, /line 4, .*found “C9”; expected a core of the campaign/);
  assert.deepEqual(snapshot(folder), before);
});

test('with --write the rows are added, those that are wrong are not; once more adds nothing', async () => {
  const folder = await campaign();
  const dates = table(DATES);
  const words = ['import', folder, dates, '--set', 'columns.B.unit=cm; calibration_curve=intcal20'];
  const { code, out } = await said(...words, '--write');
  assert.equal(code, 1);
  assert.match(out, /Added to .*: samples\.csv, determinations\.csv\./);
  assert.equal(rows(folder, 'samples').length, 2);
  assert.equal(rows(folder, 'determinations').length, 2);
  assert.ok(readdirSync(folder).every((name) => !name.includes('stillstand-new')));
  const again = await said(...words, '--write');
  assert.match(again.out, /No row was added/);
  assert.match(again.out, /L-1 is in the campaign already/);
  assert.equal(rows(folder, 'samples').length, 2);
  assert.equal((await said('check', folder)).code, 0);
});

test('what was decided is remembered for tables headed alike, with the campaign', async () => {
  const folder = await campaign();
  await said(
    'import',
    folder,
    table(DATES),
    '--set',
    'columns.B.unit=cm; calibration_curve=shcal20',
    '--write',
  );
  assert.ok(existsSync(join(folder, 'import-mappings.json')));
  const later = table('CORE,depth ,Lab Code,14C age BP,Error\nC1,50,L-9,4000,30\n');
  const { code, out } = await said('import', folder, later, '--write');
  assert.equal(code, 0);
  assert.match(out, /every row: calibration_curve = shcal20/);
  assert.match(rows(folder, 'determinations').at(-1)!, /^L-9,C1 50 cm,radiocarbon,4000,30,.*shcal20/);
});

test('a mapping is written to be edited, read back, and what is wrong in it is said', async () => {
  const folder = await campaign();
  const file = join(place, 'mapping.json');
  const dates = table(DATES);
  const first = await said('import', folder, dates, '--mapping', file);
  assert.match(first.out, /The mapping is in .*mapping\.json/);
  const mapping = JSON.parse(readFileSync(file, 'utf8')) as Mapping;
  mapping.columns[1]!.unit = 'cm';
  mapping.leave_out = [4];
  writeFileSync(file, JSON.stringify(mapping));
  const { code, out } = await said('import', folder, dates, '--mapping', file, '--json');
  assert.equal(code, 0);
  const proposal = JSON.parse(out) as Proposal & { mapping: Mapping };
  assert.deepEqual(
    proposal.lines.map(({ outcome }) => outcome),
    ['set_aside', 'used', 'used', 'set_aside'],
  );
  writeFileSync(file, JSON.stringify({ ...mapping, columns: [{ ...mapping.columns[0], to: 'hol' }] }));
  const wrong = await said('import', folder, dates, '--mapping', file);
  assert.equal(wrong.code, 2);
  assert.match(wrong.err, /columns\.A\.to: found "hol", expected perhaps hole/);
});

test('wrong use, files that are no table and campaigns that may not be written are named; nothing is changed', async () => {
  const folder = await campaign();
  const before = snapshot(folder);
  const dates = table(DATES);
  const locked = join(place, 'locked.xlsx');
  const bytes = new Uint8Array(400);
  bytes.set([0xd0, 0xcf, 0x11, 0xe0]);
  bytes.set(
    [...'EncryptedPackage'].flatMap((letter) => [letter.charCodeAt(0), 0]),
    100,
  );
  writeFileSync(locked, bytes);
  for (const [words, code, found] of [
    [[folder], 2, /Expected a campaign folder and a table/],
    [[folder, dates, '--as', 'dats'], 2, /--as: found “dats”, expected one of cores/],
    [[folder, dates, '--sheet', 'x'], 2, /--sheet: found “x”, expected one of/],
    [[folder, dates, '--set', 'method'], 2, /expected WHERE=WORD/],
    [[folder, dates, '--set', 'metod=hand'], 2, /found "metod", expected/],
    [[folder, dates, '--set', 'columns.ZZ.unit=cm'], 2, /no column ZZ; they are A to E/],
    [[folder, join(place, 'none.csv')], 2, /there is no such file/],
    [[place, dates], 2, /holds no campaign/],
    [[dates, dates], 2, /a campaign’s folder is wanted/],
    [[folder, locked, '--write'], 1, /locked with a password.*save a copy without one/],
    [[folder, table('just a letter\nand nothing else\n'), '--write'], 1, /found no line of headings/],
  ] as const) {
    const ended = await said('import', ...words);
    assert.equal(ended.code, code, words.join(' '));
    assert.match(ended.err, found);
  }
  assert.deepEqual(snapshot(folder), before);

  const newer = await campaign();
  const path = join(newer, 'datapackage.json');
  const described = JSON.parse(readFileSync(path, 'utf8'));
  writeFileSync(path, JSON.stringify({ ...described, stillstand: { version: 99 } }));
  const kept = snapshot(newer);
  const refused = await said('import', newer, dates, '--set', 'columns.B.unit=cm', '--write');
  assert.equal(refused.code, 2);
  assert.match(refused.err, /newer version/);
  assert.deepEqual(snapshot(newer), kept);
});
