/** `stillstand section`: plain tables, rows that cannot be drawn, and a campaign. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';

const place = mkdtempSync(join(tmpdir(), 'stillstand-section-'));
after(() => rmSync(place, { recursive: true, force: true }));

function run(...words: string[]) {
  const launcher = join(import.meta.dirname, 'stillstand.js');
  const ended = spawnSync(process.execPath, [launcher, 'section', ...words], { encoding: 'utf8' });
  return { code: ended.status, out: ended.stdout, err: ended.stderr };
}
function table(name: string, rows: readonly string[]): string {
  const path = join(place, name);
  writeFileSync(path, rows.join('\n'));
  return path;
}

const units = table('units.csv', [
  'hole,unit,top_m,bottom_m,sediment,at_m,ground_m,contact_below',
  'A,1,0,2,sand,0,1,erosional',
  'A,2,2,3,shells,0,1,',
  'A,3,3,5,mud,0,1,sharp',
  'B,1,0,2,sand,80,1.5,',
  'B,2,2,4,mud,80,1.5,sharp',
]);
const ties = table('ties.csv', ['hole_a,unit_a,hole_b,unit_b,confidence,horizon', 'A,3,B,2,probable,base']);
const ground = table('ground.csv', ['distance_m,elevation_m', '0,1', '40,2', '80,1.5']);
const ends = table('ends.csv', ['horizon,hole_a,hole_b,ending,at_fraction', '2,A,B,truncated,0.25']);

test('tables of units, correlations, ground and ends, as JSON and as text', () => {
  const { code, out, err } = run(units, '--ties', ties, '--ground', ground, '--ends', ends, '--json');
  assert.deepEqual([code, err], [0, '']);
  const { holes, bodies, contacts, ground: line } = JSON.parse(out);
  assert.deepEqual(holes, [
    { hole: 'A', along_m: 0 },
    { hole: 'B', along_m: 80 },
  ]);
  assert.deepEqual(
    bodies.map(({ units: of }: { units: { hole: string; unit: string }[] }) =>
      of.map(({ hole, unit }) => `${hole}${unit}`).join(' '),
    ),
    ['A1 B1', 'A2', 'A3 B2'],
  );
  const shells = contacts.find((c: { unit_a: string; ending: string }) => c.ending === 'truncated');
  // A quarter of 80 m.
  assert.deepEqual([shells.unit_a, shells.hole_b, shells.line.at(-1)[0]], ['2', null, 20]);
  assert.ok(line.some(([x, y]: [number, number]) => x === 40 && y === 2));
  const text = run(units, '--ties', ties, '--ends', ends).out;
  assert.match(text, /^contact of +with +runs +confidence +from m +to m +horizon/);
  assert.match(text, /\nbase of A 3 +B 2 +continuous +probable +0\.0 +80\.0 +base/);
  assert.match(text, /\nbase of A 2 +truncated +0\.0 +20\.0/);
});

test('rows that cannot be drawn are named by their line, the rest is drawn', () => {
  const badTies = table('bad-ties.csv', [
    'hole_a,unit_a,hole_b,unit_b,confidence',
    'A,3,B,2,',
    'A,1,B,9,',
    'A,1,B,1,sure',
  ]);
  const badEnds = table('bad-ends.csv', [
    'horizon,hole_a,hole_b,ending,lift_m',
    '7,A,B,pinch_out,',
    '3,A,B,,30',
    '1,Q,,,',
    '1,A,B,gone,',
  ]);
  const { code, out, err } = run(units, '--ties', badTies, '--ends', badEnds);
  assert.equal(code, 1);
  assert.match(out, /base of A 3 +B 2/);
  assert.match(err, /bad-ties\.csv, line 3, unit_a: found “B 9, no unit on the section”/);
  assert.match(err, /bad-ties\.csv, line 4, confidence: found “sure”; expected certain, probable, possible/);
  assert.match(err, /bad-ends\.csv, line 2, horizon: found “no contact between these holes”/);
  assert.match(err, /bad-ends\.csv, line 3, lift_m: found “30 m, drawn \d\.\d\d m”/);
  assert.match(err, /bad-ends\.csv, line 4, hole_a: found “Q, no hole of units”/);
  assert.match(err, /bad-ends\.csv, line 5, ending: found “gone”/);
  const bare = table('bare.csv', ['hole,top_m,bottom_m,sediment', 'A,0,1,sand']);
  assert.match(run(bare).err, /A, ground_m: found nothing; expected the elevation of the ground/);
});

test('wrong use is said, with exit code 2', () => {
  assert.equal(run().code, 2);
  assert.match(run(units, '--line', 'A').err, /--line is for a campaign/);
  assert.match(run(place, '--ties', ties).err, /A campaign has its own tables/);
});

test('the sections of the demo, one line or all', () => {
  const demo = join(import.meta.dirname, '../../demo/campaign');
  const { out } = run(demo, '--line', 'A');
  assert.match(out, /^Line A, m along it: T2 0\.0, T3 130\.5, M1 286\.1, M2 411\.8, M3 527\.2\n/);
  assert.match(out, /base of M1 5 +M2 5 +continuous +certain +286\.1 +411\.8 +basal peat/);
  assert.match(out, /base of T3 7 +pinch out +130\.5 +219\.2/);
  const other = run(demo, '--line', 'Z');
  assert.deepEqual([other.code, /No section line Z; there are: A/.test(other.err)], [2, true]);
});
