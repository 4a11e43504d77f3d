/** `stillstand correlate`: plain tables of units, one or several, bad rows named, and a campaign. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';

const place = mkdtempSync(join(tmpdir(), 'stillstand-correlate-'));
after(() => rmSync(place, { recursive: true, force: true }));

function run(...words: string[]) {
  const launcher = join(import.meta.dirname, 'stillstand.js');
  const ended = spawnSync(process.execPath, [launcher, 'correlate', ...words], { encoding: 'utf8' });
  return { code: ended.status, out: ended.stdout, err: ended.stderr };
}
function table(name: string, rows: readonly string[]): string {
  const path = join(place, name);
  writeFileSync(path, rows.join('\n'));
  return path;
}

const COLUMN = ['0,1,sand', '1,2.6,clay', '2.6,2.9,peat', '2.9,4.4,silt', '4.4,4.6,peat', '4.6,5.5,gravel'];
const of = (hole: string, at: number): string[] => COLUMN.map((row) => `${hole},${row},${at},1.5`);
const HEADING = 'hole,top_m,bottom_m,sediment,at_m,ground_m';

test('holes of one table along the section, as JSON and as text', () => {
  const path = table('units.csv', [HEADING, ...of('B', 60), ...of('A', 0)]);
  const { code, out, err } = run(path, '--json');
  assert.deepEqual([code, err], [0, '']);
  const { proposals } = JSON.parse(out);
  assert.deepEqual(
    proposals.map(
      (p: Record<string, string>) => `${p['hole_a']} ${p['unit_a']} ${p['hole_b']} ${p['unit_b']}`,
    ),
    [1, 2, 3, 4, 5].map((i) => `A ${i} B ${i}`),
  );
  assert.ok(proposals.every((p: { is_clear: boolean }) => p.is_clear));
  const text = run(path);
  assert.match(text.out, /^base of +and of +margin/);
  assert.match(text.out, /\nA 1 +B 1 +\d+\.\d /);
  assert.match(run(path, '--margin', '50').out, /doubtful/);
});

test('a table for each hole, named by its file; the label of a unit is used', () => {
  const [a, b] = ['left', 'right'].map((name) =>
    table(`${name}.csv`, [
      'unit,top_m,bottom_m,sediment',
      ...COLUMN.map((row, i) => `${'abcdef'[i]},${row}`),
    ]),
  );
  const { code, out } = run(a!, b!, '--json');
  assert.equal(code, 0);
  const { proposals } = JSON.parse(out);
  assert.ok(proposals.length >= 3);
  assert.ok(
    proposals.every(
      (p: Record<string, unknown>) =>
        p['hole_a'] === 'left' &&
        p['hole_b'] === 'right' &&
        p['unit_a'] === p['unit_b'] &&
        p['elevation'] === 0,
    ),
  );
});

test('ages of two contacts that cannot be one forbid the tie; a measured column counts', () => {
  const rows = (loss: number[], age: string): string[] =>
    COLUMN.map((row, i) => `${row},${i === 2 ? age : ','},${loss[i]},1`);
  const heading = 'top_m,bottom_m,sediment,base_youngest_cal_bp,base_oldest_cal_bp,loss,loss_sigma';
  const a = table('a.csv', [heading, ...rows([1, 8, 60, 10, 40, 2], '8000,')]);
  const b = table('b.csv', [heading, ...rows([1, 8, 60, 10, 40, 2], ',6000')]);
  const { proposals } = JSON.parse(run(a, b, '--json').out);
  assert.ok(!proposals.some((p: Record<string, string>) => p['unit_a'] === '3' && p['unit_b'] === '3'));
  assert.ok(proposals.some((p: { measured: number }) => p.measured > 0.5));
});

test('bad rows are named with their line, the rest is compared; one hole is too few', () => {
  const path = table('bad.csv', [
    HEADING,
    ...of('A', 0),
    ...of('B', 60),
    'B,5.5,5.2,sand,60,1.5',
    'B,0.5,0.8,peat,60,1.5',
    ',1,2,sand,0,1',
  ]);
  const { code, out, err } = run(path);
  assert.equal(code, 1);
  assert.match(err, /line 14, bottom_m: found “5.2”/);
  assert.match(err, /line 15, top_m: found “0.5”/);
  assert.match(err, /line 16, hole/);
  assert.match(out, /A 1 +B 1/);
  const one = run(table('one.csv', [HEADING, ...of('A', 0)]));
  assert.deepEqual([one.code, one.out], [1, '']);
  assert.match(one.err, /found “1 holes with units”/);
  assert.equal(run().code, 2);
});

test('in a campaign the proposals of its results, and nothing is written', () => {
  const { code, out } = run(join(import.meta.dirname, '../../demo/campaign'), '--json');
  assert.equal(code, 0);
  const { proposals, horizons } = JSON.parse(out);
  assert.ok(proposals.some((p: Record<string, string>) => p['hole_a'] === 'T2' && p['hole_b'] === 'T1'));
  assert.deepEqual(
    horizons.map(({ horizon, contacts }: { horizon: string; contacts: unknown[] }) => [
      horizon,
      contacts.length,
    ]),
    [['basal peat', 5]],
  );
  assert.equal(run(join(import.meta.dirname, '../../demo/campaign'), '--margin', '3').code, 2);
});
