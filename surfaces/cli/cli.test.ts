/** The command line as a person or another program uses it: words in, text or JSON and an exit code out. */
import assert from 'node:assert/strict';
import { spawn, spawnSync } from 'node:child_process';
import { closeSync, existsSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';

const LAUNCHER = join(import.meta.dirname, 'stillstand.js');
const DEMO = join(import.meta.dirname, '../../demo/campaign');
const place = mkdtempSync(join(tmpdir(), 'stillstand-cli-'));
after(() => rmSync(place, { recursive: true, force: true }));

function stillstand(...words: string[]): { code: number | null; out: string; err: string } {
  const run = spawnSync(process.execPath, [LAUNCHER, ...words], { encoding: 'utf8' });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

function file(name: string, text: string): string {
  const path = join(place, name);
  writeFileSync(path, text);
  return path;
}

const YEAR = 1;
const PROBABILITY = 0.005;

test('one age comes out as its published figures say (standards A.8, SHCal20)', () => {
  const { code, out } = stillstand(
    'calibrate',
    '--age',
    '4520',
    '--error',
    '30',
    '--curve',
    'shcal20',
    '--json',
  );
  assert.equal(code, 0);
  const answer = JSON.parse(out);
  assert.deepEqual(Object.keys(answer), ['median_cal_bp', 'mean_cal_bp', 'sd_yr', 'sets']);
  assert.ok(Math.abs(answer.median_cal_bp - 5155.4) <= YEAR);
  const [first, second] = answer.sets['95.4'];
  assert.ok(Math.abs(first.older_cal_bp - 5300) <= YEAR && Math.abs(first.younger_cal_bp - 5028) <= YEAR);
  assert.ok(Math.abs(first.probability - 0.889) <= PROBABILITY);
  assert.ok(Math.abs(second.older_cal_bp - 5011) <= YEAR);
});

test('a reservoir offset may be negative without an equals sign', () => {
  const words = [
    '--age',
    '5000',
    '--error',
    '40',
    '--curve',
    'marine20',
    '--offset',
    '-120',
    '--offset-sd',
    '45',
  ];
  const { code, out } = stillstand('calibrate', ...words, '--json');
  assert.equal(code, 0);
  assert.ok(Math.abs(JSON.parse(out).median_cal_bp - 5276.9) <= YEAR);
});

test('a file of dates: the usable ones are computed, the others named with their line, exit code 1', () => {
  const path = file(
    'dates.csv',
    'id,age,error,curve,offset,offset_sd\nA,2000,30,intcal20,,\nB,2000,-30,intcal20,,\nC,60000,30,intcal20,,\nD,5000,40,marine20,-120,45\n',
  );
  const { code, out, err } = stillstand('calibrate', path, '--json');
  assert.equal(code, 1);
  assert.deepEqual(
    JSON.parse(out).map((answer: { id: string }) => answer.id),
    ['A', 'D'],
  );
  assert.match(err, /line 3.*B.*error/);
  assert.match(err, /line 4.*C/);
});

test('a table with semicolons and decimal commas reads as the same with points', () => {
  const comma = file('comma.csv', 'ID;Age;error;curve\nA;4520,5;30;SHCal20\n');
  const point = file('point.csv', 'id,age,error,curve\nA,4520.5,30,shcal20\n');
  const read = stillstand('calibrate', comma, '--json');
  assert.equal(read.code, 0, read.err);
  assert.equal(read.out, stillstand('calibrate', point, '--json').out);
});

test('compute from any folder of the machine writes figures and report; a file is no place for them', () => {
  const run = (out: string) =>
    spawnSync(process.execPath, [LAUNCHER, 'compute', 'empty', '--out', out, '--figures', 'svg'], {
      encoding: 'utf8',
      cwd: place,
    });
  assert.equal(stillstand('new', join(place, 'empty')).code, 0);
  const { status, stderr } = run('from-elsewhere');
  assert.equal(status, 0, stderr);
  assert.match(readFileSync(join(place, 'from-elsewhere/report.html'), 'utf8'), /^<!doctype html>/);
  const wrong = run(join('empty', 'points.csv'));
  assert.equal(wrong.status, 2);
  assert.match(wrong.stderr, /is a file/);
});

test('points: an error column that is not counted is named', () => {
  const heading = 'id,kind,elevation_m,reference_water_level_m,indicative_range_m';
  const path = file('points.csv', `${heading},error_tide\nP1,index,-3,1.3,0.6,0.1\n`);
  const { code, err } = stillstand('points', path);
  assert.equal(code, 0);
  assert.match(err, /warning: .*error_tide.*error_NAME_m/);
});

test('points: the worked example of standards C.4', () => {
  const path = file(
    'points.csv',
    [
      'id,kind,elevation_m,reference_water_level_m,indicative_range_m,error_thickness_m,error_levelling_m,error_core_m,error_lean_m',
      'P1,index,-3.20,1.7908,0.7596,0.02,0.03,0.15,0.032',
      'P2,marine,-5.1,0,,0.02,0.03,0.15,',
    ].join('\n'),
  );
  const { code, out } = stillstand('points', path, '--json');
  assert.equal(code, 0);
  const [index, marine] = JSON.parse(out);
  assert.ok(Math.abs(index.rsl_m - -4.9908) < 1e-4);
  assert.ok(Math.abs(index.error_m - 0.4112) < 1e-4);
  assert.ok(Math.abs(index.components.indicative_range - 0.3798) < 1e-4);
  assert.equal(marine.rsl_m, -5.1);
});

test('curve: every part of the answer is there, and the same seed gives the same answer', () => {
  const rows = Array.from({ length: 12 }, (_, i) => `P${i},index,${-0.8 * i},0.2,${500 + 600 * i},60,BM,0.1`);
  const path = file(
    'curve.csv',
    ['id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr,group,group_sigma_m', ...rows].join('\n'),
  );
  const words = ['curve', path, '--step', '500', '--intervals', '6000-1000', '--seed', '3', '--json'];
  const { code, out } = stillstand(...words);
  assert.equal(code, 0);
  const answer = JSON.parse(out);
  for (const key of ['ages_cal_bp', 'rsl_m', 'rate_mm_yr', 'intervals', 'points', 'diagnostics']) {
    assert.ok(key in answer, key);
  }
  for (const key of ['median', 'lower95', 'upper95']) {
    assert.equal(answer.rsl_m[key].length, answer.ages_cal_bp.length);
  }
  assert.equal(answer.points.length, 12);
  assert.equal(typeof answer.points[0].residual_m, 'number');
  assert.ok(answer.diagnostics.converged);
  // 0.8 m in 600 yr.
  const { lower95, upper95 } = answer.intervals[0].rate_mm_yr;
  assert.ok(lower95 < 0.8 / 0.6 && upper95 > 0.8 / 0.6);
  assert.equal(stillstand(...words).out, out);
});

test('curve: every point’s p and shift are printed, and a date 3,000 years too old is named', () => {
  const rows = Array.from({ length: 12 }, (_, i) => {
    const age = 500 + 600 * i + (i === 4 ? 3000 : 0);
    return `P${i},index,${-0.8 * i},0.2,${age},60`;
  });
  const path = file('wrong.csv', ['id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr', ...rows].join('\n'));
  const { code, out } = stillstand('curve', path, '--step', '1000', '--intervals', '6000-1000');
  assert.equal(code, 0);
  assert.match(out, /^Points disagree with the others: P4 \(p <0\.001, age moved [+−]\d+\.\d sd\)/m);
  assert.match(out, /^Probably wrong by more than the error says, and weighed so: the date of P4 \(/m);
  for (let i = 0; i < 12; i++)
    assert.match(
      out,
      new RegExp(
        `^P${i} +index .* (<0\\.001|[01]\\.\\d{3}) +[\\d,]+ +[+−]?\\d+\\.\\d +[01]\\.\\d\\d +[01]\\.\\d\\d`,
        'm',
      ),
      `P${i}`,
    );
  assert.match(out, /^P4 .* yes/m);
  const json = JSON.parse(stillstand('curve', path, '--step', '1000', '--json').out);
  assert.equal(json.disagreeing[0].id, 'P4');
});

test('curve: order, burial and shared offsets from columns of their own; rows that contradict themselves are named', () => {
  const head = [
    'id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr,c14_age,c14_error,curve,offset,offset_sd',
    'half_range_m,lowering_m,compressible_m,delta_r_group,hole,depth_m,thickness_m',
  ].join(',');
  const row = (start: string, end = ',,,,,,'): string => `${start},,,,,,${end}`;
  const path = file(
    'columns.csv',
    [
      head,
      ...[1, 2, 3, 4].map((ka) => row(`B${ka},index,${-ka},0.1,${1000 * ka},30`)),
      row('I1,index,-1.9,0.1,1500,30', ',,3,,H1,2.0,0.02'),
      row('I2,index,-3.0,0.1,2500,30', ',,4,,H1,3.0,0.02'),
      // 2,400 years too old: it lies above I4.
      row('I3,index,-3.9,0.1,5900,30', ',,3,,H1,3.5,0.02'),
      row('I4,index,-4.6,0.1,4300,30', ',,1,,H1,5.0,0.02'),
      row('T1,terrestrial,0.6,0.1,1200,30', '0.3,,,,H1,0.5,'),
      row('N1,index,-4.6,0.1,4300,30', ',,2,,,,'),
      'S1,index,-4.2,0.2,,,4010,30,marine20,0,50,,,,shells,,,',
      'S2,index,-4.6,0.2,,,4310,30,marine20,0,60,,,,shells,,,',
    ].join('\n'),
  );
  const words = ['curve', path, '--step', '1000', '--intervals', '4000-1000'];
  const { code, out, err } = stillstand(...words);
  assert.equal(code, 1);
  assert.match(err, /line 10, T1, half_range_m: found “0\.3”/);
  assert.match(err, /line 11, N1, hole: found nothing/);
  assert.match(err, /line 13, S2, offset_sd: found “60”; expected 50/);
  assert.match(
    out,
    /^Hole H1: a sample above 4\.0 m of compressible sediment lies lower by 0\.\d\d m, 95 %/m,
  );
  assert.match(out, /^Dates contradict the order of their depths: I3 above I4 \(p <0\.001\)\.$/m);
  assert.match(out, /weighed so: the date of I3 \(/);
  const off = stillstand(...words, '--order', 'off', '--burial', '0').out;
  assert.doesNotMatch(off, /Hole H1|contradict the order/);
  const odd = stillstand(...words, '--order', 'maybe');
  assert.equal(odd.code, 2);
  assert.match(odd.err, /--order: found “maybe”, expected on or off/);
});

test('curve: limits alone fix nothing, and it says so', () => {
  const path = file(
    'limits.csv',
    'id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr\nA,terrestrial,1,0.1,1000,30\nB,marine,-3,0.1,2000,30\n',
  );
  const { code, out } = stillstand('curve', path, '--step', '1000');
  assert.equal(code, 0);
  assert.match(out, /^No index point: limits only keep the level to one side, and nothing fixes it\./m);
  assert.match(out, /^No point disagrees with the others\.$/m);
});

test('curve: two coasts are two curves unless --sites says so', () => {
  const at = (site: string, from: number, n: number): string[] =>
    Array.from({ length: n }, (_, i) => `${site}${i},index,${-0.8 * i},0.2,${from + 600 * i},60,${site}`);
  const path = file(
    'sites.csv',
    ['id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr,site', ...at('A', 500, 4), ...at('B', 800, 5)].join(
      '\n',
    ),
  );
  const words = ['curve', path, '--step', '1000', '--json'];
  const alone = stillstand(...words);
  assert.equal(alone.code, 0);
  const answer = JSON.parse(alone.out);
  assert.deepEqual([answer.sites, answer.points.length], [['B'], 5]);
  assert.match(
    alone.err,
    /warning: .*points of 2 sites: A 4, B 5.*The curve is of B alone; 4 points of A are left out/,
  );
  const together = stillstand(...words, '--sites', 'all');
  assert.deepEqual([JSON.parse(together.out).points.length, together.err], [9, '']);
  assert.deepEqual(JSON.parse(stillstand(...words, '--sites', 'A').out).sites, ['A']);
  const wrong = stillstand(...words, '--sites', 'C');
  assert.equal(wrong.code, 2);
  assert.match(wrong.err, /no usable point has the site C; expected A, B or all/);
});

test('curve: what has not converged says so on every line that has a number of it', () => {
  // Two chains of few draws cannot reach the 400 effective draws asked for.
  const rows = Array.from({ length: 6 }, (_, i) => `P${i},index,${-0.8 * i},0.2,${500 + 600 * i},60`);
  const path = file('few.csv', ['id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr', ...rows].join('\n'));
  const words = [
    'curve',
    path,
    '--step',
    '1000',
    '--intervals',
    '3000-1000',
    '--chains',
    '1',
    '--draws',
    '100',
  ];
  const { out } = stillstand(...words);
  const numbers = out.split('\n').filter((line) => /^(\d+ |P\d|\d+ to )/.test(line));
  assert.ok(numbers.length >= 4 + 1 + 6, out);
  for (const line of numbers) assert.match(line, /NOT CONVERGED/, line);
  const json = JSON.parse(stillstand(...words, '--json').out);
  assert.deepEqual([json.converged, json.intervals[0].converged], [false, false]);
});

test('a new campaign has nothing wrong with it but that it is empty, and is never written over', () => {
  const folder = join(place, 'new');
  assert.equal(stillstand('new', folder).code, 0);
  const { code, out } = stillstand('check', folder, '--json');
  assert.equal(code, 0, out);
  assert.equal(stillstand('new', folder).code, 2);
});

test('check names the demo’s warnings; trace leads from a point to its readings', () => {
  const checked = stillstand('check', DEMO);
  assert.equal(checked.code, 0);
  assert.match(checked.out, /sampler|shoe/);
  const table = stillstand('check', join(DEMO, 'holes.csv'));
  assert.equal(table.code, 2);
  assert.match(table.err, /holes\.csv is one table; the campaign’s folder is wanted/);
  const traced = stillstand('trace', DEMO, 'P-T3-07', '--json');
  assert.equal(traced.code, 0);
  const nodes = JSON.parse(traced.out);
  const tables = new Set(
    nodes.flatMap((n: { row: { table: string } | null }) => (n.row ? [n.row.table] : [])),
  );
  for (const table of ['points', 'samples', 'runs', 'soundings', 'levelling', 'determinations']) {
    assert.ok(tables.has(table), table);
  }
  const { out } = stillstand('trace', DEMO, 'P-T3-07');
  assert.match(out, /Ground at T3 \+2\.52 ± 0\.16 m/);
  assert.match(out, /In-situ depth of T3-07 10\.34 ± /);
  assert.match(
    stillstand('trace', DEMO, 'INV-2406', '--depth', '1').out,
    /Date INV-2406 median 9,255, sd 100, cal BP /,
  );
  // Of no number, and of an interval that the curve does not reach.
  assert.equal(stillstand('trace', DEMO, '99000-98000').code, 1);
});

test('trace names an answer, and what it was made of', () => {
  const [top, ...nodes] = JSON.parse(stillstand('trace', DEMO, 'passed -5', '--depth', '5', '--json').out);
  assert.match(top.label, /^First rise through -5 m/);
  assert.ok(top.parts.length === 1 && nodes[0].id === top.parts[0]);
  assert.ok(nodes.some(({ row }: { row: { table: string } | null }) => row?.table === 'points'));
});

test('compute writes everything it promises', () => {
  const out = join(place, 'out');
  const { code, out: said } = stillstand('compute', DEMO, '--out', out, '--figures', 'svg');
  assert.equal(code, 0);
  // A headline that fits a small terminal, then a line for each point of the curve.
  const [head, points] = said.split('Points among the others:\n');
  assert.ok(head!.trim().split('\n').length <= 16);
  assert.equal(points!.split('\n').filter((line) => line.startsWith('P-')).length, 33);
  const results = JSON.parse(readFileSync(join(out, 'results.json'), 'utf8'));
  assert.equal(results.format, 'stillstand-results');
  const traced = stillstand('trace', out, 'P7');
  assert.equal(traced.code, 2);
  assert.match(traced.err, /holds results; the campaign’s folder is wanted/);
  for (const path of [
    'report.html',
    'results.npz',
    'tables/points.csv',
    'tables/curve.csv',
    'figures/curve.svg',
  ]) {
    assert.ok(readFileSync(join(out, path)).length > 500, path);
  }
});

test('wrong use says so and ends with 2', () => {
  for (const words of [
    [],
    ['fly'],
    ['calibrate'],
    ['calibrate', '--age', 'x'],
    ['curve'],
    ['check', 'no-such-folder'],
    ['compute', DEMO],
  ]) {
    assert.equal(stillstand(...words).code, 2, words.join(' '));
  }
});

test('a reader that closes the pipe early costs nothing but the rest; a full disk behind the output is a sentence', async () => {
  const program = spawn(process.execPath, [LAUNCHER, 'trace', DEMO], { stdio: ['ignore', 'pipe', 'pipe'] });
  program.stdout.once('data', () => program.stdout.destroy());
  let complaint = '';
  program.stderr.on('data', (data: Buffer) => {
    complaint += data.toString();
  });
  const code = await new Promise((resolve) => program.on('close', resolve));
  assert.deepEqual([code, complaint], [0, '']);
  if (!existsSync('/dev/full')) return;
  const full = openSync('/dev/full', 'w');
  const run = spawnSync(process.execPath, [LAUNCHER, 'check', DEMO], {
    encoding: 'utf8',
    stdio: ['ignore', full, 'pipe'],
  });
  closeSync(full);
  assert.equal(run.status, 2);
  assert.match(run.stderr, /^error: standard output cannot be written \(ENOSPC\)\. .+\n$/);
});

test('every command has its help', () => {
  const { out } = stillstand('--help');
  for (const name of [
    'new',
    'check',
    'compute',
    'calibrate',
    'dose',
    'uranium',
    'points',
    'curve',
    'trace',
    'ages',
    'lead',
    'reservoir',
  ]) {
    assert.ok(out.includes(`stillstand ${name}`));
    const help = stillstand(name, '--help');
    assert.equal(help.code, 0);
    assert.match(help.out, /--json/);
  }
});
