/** From two published tables as they are, and three invented ones, to a converged curve: by the command line, without a script. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';

const LAUNCHER = join(import.meta.dirname, '../../surfaces/cli/stillstand.js');
const place = mkdtempSync(join(tmpdir(), 'stillstand-import-'));
after(() => rmSync(place, { recursive: true, force: true }));
const folder = join(place, 'campaign');

function stillstand(...words: string[]): { code: number | null; out: string; err: string } {
  const run = spawnSync(process.execPath, [LAUNCHER, ...words], { encoding: 'utf8' });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

const table = (name: string): string => join(import.meta.dirname, 'data', `${name}.csv`);

/** Heights of the tables are on NAVD88 here; those of layers are published on MLLW, 127.7 cm lower (Turck 2014, all cores). */
const MLLW_BELOW_NAVD88_M = 1.277;
const CENTIMETRE = 0.01;

test('six vibracores, their layers and samples, five dates and a limit: imported, computed, converged', () => {
  assert.equal(stillstand('new', folder).code, 0);
  const steps: [string, string, string][] = [
    ['turck_sampling', 'cores', 'site=Mary Hammock; reference_sigma_m=0.01; leave_out=12,13'],
    ['turck_sampling', 'layers', 'words.sediment.marsh=organic mud'],
    ['turck_sediment', 'measurements', 'leave_out=60'],
    ['invented_tides', 'tide-levels', ''],
    ['invented_dates', 'dates', 'calibration_curve=intcal20'],
    ['invented_points', 'points', ''],
  ];
  for (const [name, as, set] of steps) {
    const words = ['import', folder, table(name), '--as', as, ...(set === '' ? [] : ['--set', set])];
    const looked = stillstand(...words);
    assert.match(looked.out, /Nothing was changed/);
    const { code, err, out } = stillstand(...words, '--write');
    assert.equal(code, 0, `${name} as ${as}: ${err}${out}`);
  }
  const results = join(place, 'results');
  const computed = stillstand('compute', folder, '--out', results);
  assert.match(computed.out, /Converged/, computed.out + computed.err);
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
