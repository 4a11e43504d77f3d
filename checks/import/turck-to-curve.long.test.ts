/**
 * From two published tables as they are, and three invented ones, to a converged curve and what a journal asks for: by the
 * commands of the guide (docs/guide/from-a-spreadsheet.md), word for word.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';

const ROOT = join(import.meta.dirname, '../..');
const LAUNCHER = join(ROOT, 'surfaces/cli/stillstand.js');
const place = mkdtempSync(join(tmpdir(), 'stillstand-import-'));
after(() => rmSync(place, { recursive: true, force: true }));

/** The lines of the guide that a reader types, as words: what is in quotation marks is one. */
const typed = readFileSync(join(ROOT, 'docs/guide/from-a-spreadsheet.md'), 'utf8')
  .split('\n')
  .filter((line) => line.startsWith('npx stillstand '))
  .map((line) =>
    [...line.slice('npx stillstand '.length).matchAll(/"([^"]*)"|(\S+)/g)].map(([, a, b]) => a ?? b!),
  );

function stillstand(words: readonly string[]): { code: number | null; out: string; err: string } {
  const run = spawnSync(process.execPath, [LAUNCHER, ...words], { encoding: 'utf8', cwd: place });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

const table = (name: string): string => join(import.meta.dirname, 'data', `${name}.csv`);

/** Heights of the tables are on NAVD88 here; those of layers are published on MLLW, 127.7 cm lower (Turck 2014, all cores). */
const MLLW_BELOW_NAVD88_M = 1.277;
const CENTIMETRE = 0.01;

test('six vibracores, their layers and samples, five dates and a limit: imported, computed, converged', () => {
  symlinkSync(join(ROOT, 'checks'), join(place, 'checks'));
  const said = new Map<string, string>();
  for (const words of typed) {
    const { code, err, out } = stillstand(words);
    const isLook = words[0] === 'import' && !words.includes('--write');
    // A look at a table with footnotes says what is wrong with them.
    assert.equal(code, isLook ? 1 : 0, `${words.join(' ')}: ${err}${out}`);
    if (isLook) assert.match(out, /Nothing was changed/);
    said.set(words[0]!, out);
  }
  assert.deepEqual([...said.keys()], ['new', 'import', 'check', 'compute', 'trace']);
  assert.match(said.get('compute')!, /Converged/);
  assert.match(said.get('trace')!, /Rate from 4000 to 3000 cal BP/);
  const results = join(place, 'result');
  for (const file of ['report.html', 'tables/points.csv', 'figures/curve.pdf', 'figures/captions.txt'])
    assert.ok(existsSync(join(results, file)), file);
  assert.match(readFileSync(join(results, 'figures/curve.svg'), 'utf8'), /width="90mm"/);
  assert.ok(existsSync(join(place, 'my-coast-data.zip')));
  const { holes, dates, points, problems } = JSON.parse(
    readFileSync(join(results, 'results.json'), 'utf8'),
  ) as Results;
  assert.equal(holes.length, 6);
  assert.equal(points.length, 5);
  // The limit is beyond what ages of this campaign may be: kept and said, no error.
  assert.deepEqual(
    dates.map((date) => date.lab_code),
    ['INV-1', 'INV-3', 'INV-4', 'INV-5', 'INV-6'],
  );
  assert.deepEqual(
    problems.filter((p) => p.severity === 'error' || p.severity === 'danger'),
    [],
  );

  // Tops of sand and clay as published, the middle of a range for a range.
  const rows = readFileSync(table('turck_sampling'), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('"Vibracore"'));
  let compared = 0;
  for (const line of rows) {
    const cells = line.split(',').map((cell) => cell.replaceAll('"', ''));
    const hole = holes.find((each) => each.hole === cells[1])!;
    for (const [unit, column] of [
      ['L2', 14],
      ['L3', 18],
    ] as const) {
      const [low, high] = cells[column]!.split('-').map(Number) as [number, number | undefined];
      const published_m = (low + (high ?? low)) / 200 - MLLW_BELOW_NAVD88_M;
      const { elevation_top_m } = hole.units.find((each) => each.unit === unit)!;
      assert.ok(Math.abs(elevation_top_m!.value - published_m) <= CENTIMETRE + 1e-9, `${hole.hole} ${unit}`);
      compared++;
    }
  }
  assert.equal(compared, 12);
});
