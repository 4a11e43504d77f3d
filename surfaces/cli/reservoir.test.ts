/** `stillstand reservoir`: shells of known age and pairs from a table, bad rows named by line. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';

const place = mkdtempSync(join(tmpdir(), 'stillstand-reservoir-'));
after(() => rmSync(place, { recursive: true, force: true }));

function reservoir(rows: readonly string[], ...words: string[]) {
  const path = join(place, 'shells.csv');
  writeFileSync(path, rows.join('\n'));
  const launcher = join(import.meta.dirname, 'stillstand.js');
  const run = spawnSync(process.execPath, [launcher, 'reservoir', path, ...words], { encoding: 'utf8' });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

const HEADING = 'id,age,error,known_ce,terrestrial_age,terrestrial_error,terrestrial_curve,group';
const PAIR = 'P,3137,24,,2768,15,intcal20,atoll';

test('a pair as JSON: ΔR of the shell and of its group', () => {
  const { code, out, err } = reservoir([HEADING, PAIR], '--json');
  assert.equal(code, 0);
  const { shells, pools } = JSON.parse(out);
  // Published −93 ± 36 by another method; −87 ± 38 computed apart.
  assert.ok(Math.abs(shells[0].delta_r + 87) < 1 && Math.abs(shells[0].delta_r_error - 38) < 1);
  assert.equal(pools[0].group, 'atoll');
  assert.match(err, /warning: .*atoll, group: found “1 shell”; expected at least 4/);
});

test('bad rows are named with their line, and the others computed', () => {
  const { code, out, err } = reservoir([
    HEADING,
    PAIR,
    'L,525,25,1952,,,,lagoon',
    'M,3137,24,,2768,15,marine20,atoll',
    'N,3137,,1900,,,,atoll',
    'O,610,25,1900,,,,bay',
  ]);
  assert.equal(code, 1);
  assert.match(out, /^O +bay +50 +−3 +25$/m); // Marine20 at 50 cal BP, by its published row: 613
  assert.match(err, /line 3, L, known_ce: found “1952”; .*bomb carbon/);
  assert.match(err, /line 4, M, terrestrial_curve: found “marine20”; expected intcal20 or shcal20/);
  assert.match(err, /line 5, N, error: found nothing/);
  assert.match(err, /lagoon, group: found “no shell that can be used”/);
});
