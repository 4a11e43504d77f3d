/** `stillstand sequence`: rings from a table, the answer as text and JSON, bad rows named by line. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';

const place = mkdtempSync(join(tmpdir(), 'stillstand-sequence-'));
after(() => rmSync(place, { recursive: true, force: true }));

function sequence(rows: readonly string[], ...words: string[]) {
  const path = join(place, 'rings.csv');
  writeFileSync(path, rows.join('\n'));
  const launcher = join(import.meta.dirname, 'stillstand.js');
  const run = spawnSync(process.execPath, [launcher, 'sequence', path, ...words], { encoding: 'utf8' });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

const HEADING = 'id,age,error,curve,after_first,block';
/** The log of Āraiši, by the year before felling (figures and source in checks/sequence/data). */
const RINGS = readFileSync(join(import.meta.dirname, '../../checks/sequence/data/rings.csv'), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => {
    const [ring, age, error] = line.split(',').map(Number) as [number, number, number];
    return `R${-ring},${age},${error},intcal20,${ring + 66},`;
  });

test('14 rings as JSON: the last of them 53 years before the felling of 835 CE', () => {
  const { code, out, err } = sequence([HEADING, ...RINGS], '--json');
  assert.equal(code, 0);
  const { members, chi_square } = JSON.parse(out);
  assert.equal(members[0].id, 'R53');
  assert.equal(Math.round(members[0].median_cal_bp), 1950 - 835 + 53);
  assert.ok(Math.abs(chi_square - 25.0) < 0.1);
  assert.match(err, /found “R59: 1117 ± 18; by the others 1183”/);
});

test('bad rows are named with their line; one usable member is no sequence', () => {
  const { code, out, err } = sequence([
    HEADING,
    RINGS[0]!,
    'B,1200,18,bomb21_nh1,5,',
    'C,1200,18,intcal20,,',
    'D,1200,18,intcal20,9,2.5',
  ]);
  assert.deepEqual([code, out], [1, '']);
  assert.match(err, /line 3, B, curve: found “bomb21_nh1”/);
  assert.match(err, /line 4, C, after_first: found nothing/);
  assert.match(err, /line 5, D, block: found “2.5”; expected whole rings/);
  assert.match(err, /found “1 of 4 members usable”; expected at least two/);
});
