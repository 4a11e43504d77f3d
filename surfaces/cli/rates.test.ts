/** Models of the rate, as a person or another program asks for them. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-rates-'));
after(() => rmSync(place, { recursive: true, force: true }));

function file(name: string, rows: readonly string[]): string {
  const path = join(place, name);
  writeFileSync(path, ['id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr', ...rows].join('\n'));
  return path;
}

/** A rise of 0.8 mm/yr, and a jump of 3 m at 4,000 cal BP; errors of a fixed pattern. */
const jump = file(
  'jump.csv',
  Array.from({ length: 24 }, (_, i) => {
    const age = 200 + 320 * i;
    const level = -0.0008 * age - (age > 4000 ? 3 : 0) + 0.1 * ((i % 3) - 1);
    return `P${i},index,${level.toFixed(2)},0.15,${age},40`;
  }),
);
const QUICK = ['--step', '1000', '--draws', '200', '--outliers', 'off'];

test('curve: a stepwise rate says when it changed and how far the level jumped; a smooth one that it does not fit', async () => {
  const stepwise = await said('curve', jump, ...QUICK, '--rate', 'stepwise', '--jump', '2');
  assert.equal(stepwise.code, 0, stepwise.err);
  assert.match(
    stepwise.out,
    /^Model: a stepwise rate, 1 change, each with a jump of the level \(1 sd 2\.0 m\)\.$/m,
  );
  assert.match(
    stepwise.out,
    /^Change 1: [34],\d{3} cal BP \(95 % \d,\d{3} to \d,\d{3}\), from \+0\.\d+ .* mm\/yr; the level jumped by \+[23]\.\d+ m \(95 %/m,
  );
  assert.doesNotMatch(stepwise.out, /Swings of the sea/);
  const smooth = await said('curve', jump, ...QUICK);
  assert.match(smooth.out, /^A smooth rate does not fit: one abrupt change near [34],\d{3} cal BP/m);
  assert.match(smooth.out, /^Swings of the sea shorter than about \d+ yr would not show/m);
  const breaks = await said('curve', jump, ...QUICK, '--changes', '1', '--jump', '2', '--scatter', '0.2');
  assert.match(breaks.out, /^Breaks of the rate: none 0\.\d\d, 1 [01]\.\d\d \(probabilities\)/m);
  assert.match(breaks.out, /^Index points scatter by 0\.\d+ m \(1 sd, 95 %/m);
  const json = JSON.parse((await said('curve', jump, ...QUICK, '--slowing', '0.5', '--json')).out);
  assert.equal(json.settings.rate_model.slowing_mm_yr_ka, 0.5);
  assert.ok(json.slowing_mm_yr_ka.median > 0);
});

test('curve --compare: models side by side, the best first; one that cannot be is named', async () => {
  const { code, out, err } = await said('curve', jump, ...QUICK, '--chains', '2', '--compare');
  assert.equal(code, 0, err);
  assert.match(out, /^Models of the rate by leave-one-out score, the best first; none is chosen\.$/m);
  assert.match(out, /^The data (do not )?decide/m);
  for (const name of ['constant', 'smooth, slowing', 'stepwise, 1 change, jumps'])
    assert.match(out, new RegExp(`^${name} +−?-?[\\d.]+`, 'm'));
  for (const [words, named] of [
    [['--rate', 'wavy'], /--rate: found “wavy”, expected smooth, stepwise, constant/],
    [['--rate', 'constant', '--changes', '1'], /--changes: found 1, expected/],
    [['--rate', 'stepwise', '--changes', '5'], /--changes: found 5, expected/],
    [['--changes', '1.5'], /--changes: found 1\.5, expected/],
    [['--jump', '2'], /--jump: a smooth rate without changes has none/],
    [['--changes', '1', '--ages', '500'], /--changes: one reported age leaves no time/],
    [['--scatter', '-1'], /--scatter: found -1, expected/],
  ] as const) {
    const wrong = await said('curve', jump, ...words);
    assert.equal(wrong.code, 2, words.join(' '));
    assert.match(wrong.err, named);
  }
});

test('curve: one point, limits alone and ages all alike are a curve under every model, or say why not', async () => {
  const one = file('one.csv', ['P1,index,-3,0.2,5000,60']);
  const limits = file('limits.csv', ['L1,marine,-3,0.2,5000,60', 'L2,terrestrial,1,0.2,4000,60']);
  const alike = file(
    'alike.csv',
    Array.from({ length: 5 }, (_, i) => `P${i},index,${-3 + 0.1 * i},0.2,5000,60`),
  );
  for (const path of [one, limits, alike])
    for (const model of [
      ['--rate', 'constant'],
      ['--rate', 'stepwise', '--changes', '4', '--jump', '1'],
      ['--changes', '2', '--slowing', '1', '--scatter', '0.5'],
    ]) {
      const { code, out, err } = await said(
        'curve',
        path,
        '--step',
        '2000',
        '--draws',
        '100',
        '--chains',
        '1',
        ...model,
      );
      assert.equal(code, 0, `${path} ${model.join(' ')}: ${err}`);
      assert.match(out, /onverged|CONVERGED/);
      assert.doesNotMatch(out, /NaN|undefined|Infinity/);
    }
});

test('curve: ages measured together share the part of their error that is stated; one above the whole is named', async () => {
  const path = join(place, 'doses.csv');
  const rows = Array.from({ length: 8 }, (_, i) => {
    const age = 500 + 900 * i;
    const part = i === 7 ? 900 : 300;
    return `D${i},index,${(-0.001 * age).toFixed(2)},0.15,${age + 200},${i === 7 ? 400 : 360},lab,${part}`;
  });
  const heading = 'id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr,age_systematic_group,age_systematic_yr';
  writeFileSync(path, [heading, ...rows].join('\n'));
  const { code, out, err } = await said('curve', path, ...QUICK, '--json');
  assert.equal(code, 1);
  assert.match(err, /D7, age_systematic_yr: found “900”; expected a number of at least 0 and of at most 400/);
  const { offsets, points } = JSON.parse(out);
  assert.equal(points.length, 7);
  assert.deepEqual([offsets.length, offsets[0].group, offsets[0].sigma_yr], [1, 'dose:lab', 300]);
});
