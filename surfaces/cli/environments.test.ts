/** `stillstand environments`: a campaign of two exposures, as text and as JSON; what is missing is said. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';

const place = mkdtempSync(join(tmpdir(), 'stillstand-environments-'));
after(() => rmSync(place, { recursive: true, force: true }));

function run(...words: string[]) {
  const launcher = join(import.meta.dirname, 'stillstand.js');
  const ended = spawnSync(process.execPath, [launcher, 'environments', ...words], { encoding: 'utf8' });
  return { code: ended.status, out: ended.stdout, err: ended.stderr };
}
const table = (name: string, rows: readonly string[]): void =>
  writeFileSync(join(place, `${name}.csv`), rows.join('\n'));

const DEPTHS = [0.5, 1.5, 2.5, 3.5];
const each = (row: (hole: string, depth: number) => string): string[] =>
  ['A', 'B'].flatMap((hole) => DEPTHS.map((depth) => row(hole, depth)));
table('sites', ['site,name', 'S,Shore']);
table('datums', ['datum,kind', 'MSL,mean_sea_level']);
table('holes', [
  'hole,site,method,latitude_deg,longitude_deg,reference_elevation_m,reference_datum',
  'A,S,exposure,-46.4,-121.300,2,MSL',
  'B,S,exposure,-46.4,-121.298,2,MSL',
]);
table('units', [
  'hole,unit,basis,top,bottom,sediment,environment',
  'A,1,in_situ,0 m,2 m,mud,lagoon',
  'A,2,in_situ,2 m,4 m,rooted clay,land surface',
  'B,1,in_situ,0 m,1 m,peat,high marsh',
  'B,2,in_situ,1 m,4 m,rooted clay,',
]);
table('samples', [
  'sample,hole,basis,top,bottom',
  ...each((hole, depth) => `${hole}${depth},${hole},in_situ,${depth - 0.005} m,${depth + 0.005} m`),
]);
table('determinations', [
  'lab_code,sample,method,value,error',
  ...each((hole, depth) => `${hole}-${depth},${hole}${depth},luminescence,${1000 * depth},40`),
]);

test('spells, passages and lines as text; a layer without an environment is a note', () => {
  const { code, out, err } = run(place, '--holes', 'A,B', '--ages', '1500');
  assert.equal(code, 0, err);
  assert.match(out, /^A\nenvironment +layers +began cal BP/);
  // Its base, at 4 m, lies below the last date.
  assert.match(out, /\nland surface +2 +(39|40|41)\d\d +\d{4} to \d{4}/);
  assert.match(out, /\nnot said +2 /);
  assert.match(out, /\nA +0\.0 +outside +\d{4} /);
  assert.match(out, /\n1500 cal BP: A lagoon 1\.00; B not said 1\.00\n/);
  assert.match(err, /1 of 2 layers of B without one/);
});

test('as JSON, with an edge of one’s own; nothing is written into the campaign', () => {
  const { code, out } = run(place, '--holes', 'A,B', '--inside', 'high marsh', '--json');
  assert.equal(code, 0);
  const { environments, lines_through_time } = JSON.parse(out);
  assert.deepEqual(
    environments.map(({ hole, converged }: { hole: string; converged: boolean }) => [hole, converged]),
    [
      ['A', true],
      ['B', true],
    ],
  );
  const [line] = lines_through_time;
  assert.deepEqual([line.line, line.edge.inner, line.edge.innermost], [null, ['high marsh'], 'B']);
  assert.equal(line.edge.median.length, line.edge.ages_cal_bp.length);
});

test('without holes it says what to do; wrong words are refused', () => {
  assert.match(run(place).out, /No hole has ages against depth.*--holes T2,T3/);
  const { code, err } = run(place, '--holes', 'A', '--line', 'Z');
  assert.equal(code, 2);
  assert.match(err, /No section line Z; there are: none/);
  assert.equal(run().code, 2);
});
