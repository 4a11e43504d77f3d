/** Questions to a curve, and its difference from another, as a person or another program asks for them. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { curveOf, withCurve, writeResults } from '@stillstand/campaign/results';
import { tinyResultsWithDraws } from '../../output/report/fixtures/results.ts';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-questions-'));
after(() => rmSync(place, { recursive: true, force: true }));

function file(name: string, text: string): string {
  const path = join(place, name);
  writeFileSync(path, text);
  return path;
}

/** Eight points of a rise to a highstand of +1.5 m about 5,000 years ago. */
const HIGHSTAND = [
  'id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr',
  ...[
    [0.1, 500],
    [0.6, 2000],
    [1.2, 3500],
    [1.5, 5000],
    [0, 6000],
    [-3.5, 7000],
    [-8.9, 8000],
    [-14, 9000],
  ].map(([rsl, age], i) => `P${i},index,${rsl},0.2,${age},60`),
].join('\n');

test('curve: questions are answered in sentences and as data; one beyond the curve is named, the others are answered', async () => {
  const path = file('highstand.csv', HIGHSTAND);
  const words = [
    'curve',
    path,
    '--step',
    '100',
    '--intervals',
    '8000-7000',
    '--rate-above',
    '5',
    '--passed',
    '-5,30',
  ];
  const more = ['--highest', '--fastest', '500', '--rate-below', '2', '--acceleration'];
  const { code, out, err } = await said(...words, ...more);
  assert.equal(code, 0, err);
  for (const line of [
    /^Mean rate above \+5 mm\/yr: The mean rate over 8,000–7,000 cal BP was \+5\.\d+ mm\/yr .*Probability of more than \+5 mm\/yr: 0\.\d\d\. At least [\d,]+ effective draws\.$/m,
    /^Level −5 m passed: The sea first rose through −5 m at 7,[23]\d\d cal BP \(95 % 7,[34]\d\d–7,\d+\).*more than 0\.99; more than once: less than 0\.01/m,
    /^Level \+30 m passed: Too few draws rise through \+30 m to date it\. .*: less than 0\.01/m,
    /^Highest stand: The sea stood highest at \+1\.[4-9]\d? m .* above 0 of the datum: more than 0\.99/m,
    /^Fastest and slowest 500 yr: The fastest 500 yr rose \+5\.\d mm\/yr .*The slowest 500 yr: −/m,
    /^Rate below \+2 mm\/yr: The rate first fell below \+2 mm\/yr at 5,\d+ cal BP .*for good at 5,/m,
    /^Acceleration: The rate changed by −0\.\d+ mm\/yr per 1,000 yr .*quickened: less than 0\.01/m,
  ])
    assert.match(out, line);
  const json = JSON.parse((await said(...words, '--json')).out);
  assert.deepEqual(
    json.answers.map((answer: { kind: string }) => answer.kind),
    ['mean rate above', 'passed', 'passed'],
  );
  const [{ answer }] = json.answers;
  assert.ok(answer.above.p > 0.5 && answer.above.mcse < 0.05 && answer.above.effective_draws > 100);
  assert.equal(json.answers[2].answer.age_cal_bp, null);

  const beyond = await said(...words, '--within', '50000-0', '--highest');
  assert.equal(beyond.code, 1);
  assert.match(
    beyond.err,
    /error: --highest: found “50000 to 0 cal BP”; expected .* within the reported ages, \d+ to 0/,
  );
  assert.match(
    (await said('curve', path, '--ages', '0,4000,9000', '--highest')).err,
    /warning: --highest: .*up to 5000 yr apart/,
  );
  for (const [wrong, named] of [
    [['--at', '500'], /--at: expected --rate-above too/],
    [['--passed', 'x'], /--passed: found “x”/],
    [['--within', '1000-2000', '--highest'], /--within: found “1000-2000”/],
    [['--fastest', '0'], /--fastest: found 0, expected above 0/],
  ] as const) {
    const { code: wrongCode, err: wrongErr } = await said('curve', path, ...wrong);
    assert.equal(wrongCode, 2);
    assert.match(wrongErr, named);
  }
});

test('curve --against: levels and rates beside another curve; another datum is named and only rates compared', async () => {
  const path = file('here.csv', HIGHSTAND);
  const head = 'age_cal_bp,level_m,sd_m,datum';
  const rows = ['8000,-9.5,0.3,MSL 1993-2011', '6000,-1,0.3,', '4000,0.5,0.2,', '20000,-60,1,'];
  const table = file('published.csv', [head, ...rows].join('\n'));
  const words = ['curve', path, '--step', '500', '--against', table];
  const same = await said(...words, '--datum', 'MSL 1993-2011');
  assert.equal(same.code, 0);
  assert.doesNotMatch(same.err, /datum/);
  assert.match(same.out, /^8,000 +\+\d\.\d\d +[+−]\d\.\d\d to \+\d\.\d\d +0\.\d\d +[+−]\d/m);
  assert.match(same.out, /^Mean rate from 8,000 to 4,000 cal BP: [+−]\d\.\d\d mm\/yr/m);
  const { difference } = JSON.parse((await said(...words, '--datum', 'MSL 1993-2011', '--json')).out);
  assert.deepEqual(
    difference.at.map((each: { age_cal_bp: number }) => each.age_cal_bp),
    [8000, 6000, 4000],
  );
  const other = await said(...words, '--datum', 'LAT', '--json');
  assert.equal(other.code, 1);
  assert.match(
    other.err,
    /error: published\.csv, datum: found “MSL 1993-2011”; expected LAT\..*The levels are not compared; the rates are/,
  );
  const rates = JSON.parse(other.out).difference;
  assert.equal(rates.at[0].level_m, null);
  assert.deepEqual(rates.mean_rate_mm_yr, difference.mean_rate_mm_yr);
  assert.match(
    (await said(...words)).err,
    /warning: published\.csv, datum: .*expected the datum of POINTS\.csv in --datum/,
  );

  // The curve.csv of another campaign: 1 sigma is its 95 % over 3.92.
  const own = file(
    'curve.csv',
    'age_cal_bp,rsl_m_median,rsl_m_lower_95,rsl_m_upper_95\n8000,-9.5,-10.08799,-8.91201\n6000,-1,-1.58799,-0.41201\n',
  );
  const ofOwn = await said('curve', path, '--step', '500', '--against', own, '--json');
  assert.equal(ofOwn.code, 0, ofOwn.err);
  assert.doesNotMatch(ofOwn.err, /sd_m|level_m/);
  for (const k of [0, 1]) {
    const [from, to] = [difference.at[k].level_m, JSON.parse(ofOwn.out).difference.at[k].level_m];
    assert.ok(
      Math.abs(from.mean - to.mean) < 1e-6 && Math.abs(from.sd - to.sd) < 1e-4,
      `${from.sd} ${to.sd}`,
    );
  }

  const bare = file('bare.csv', 'age_cal_bp,level_m\n6000,-1\n6000,-2\nx,3\n');
  const exact = await said('curve', path, '--step', '500', '--against', bare);
  assert.equal(exact.code, 1);
  assert.match(exact.err, /sd_m: .*taken as exact/);
  assert.match(exact.err, /line 3, age_cal_bp: found “6000”; expected one row for each age/);
  assert.match(exact.err, /line 4, age_cal_bp: found “x”/);
  assert.match(exact.out, /^6,000 /m);
  const old = file('old.csv', 'age_cal_bp,level_m,sd_m\n20000,-100,1\n');
  assert.match(
    (await said('curve', path, '--step', '500', '--against', old)).err,
    /found “ages from 20000 cal BP”; expected ages that overlap/,
  );
  const broken = file('broken.json', '{"format": "x"}');
  writeFileSync(join(place, 'results.npz'), '');
  const refused = await said('curve', path, '--step', '500', '--against', broken);
  assert.equal(refused.code, 1);
  assert.match(refused.err, /found “x”; expected stillstand-results/);
  assert.match(refused.out, /^No point disagrees/m);
});

test('curve --against: results of another campaign, its datum, its state and its files', async () => {
  const path = file('site.csv', HIGHSTAND);
  const results = tinyResultsWithDraws();
  const folder = (name: string, of: typeof results): string => {
    const { json, arrays } = writeResults(of);
    mkdirSync(join(place, name));
    writeFileSync(join(place, name, 'results.npz'), arrays);
    writeFileSync(join(place, name, 'results.json'), json);
    return join(place, name, 'results.json');
  };
  const other = folder('other', results);
  const words = ['curve', path, '--step', '1000', '--json', '--against'];
  const { label, epoch } = results.datum;
  assert.ok(epoch !== null);
  for (const datum of [label, `${label} (${epoch})`]) {
    const { code, out, err } = await said(...words, other, '--datum', datum);
    assert.equal(code, 0, err);
    const { difference } = JSON.parse(out);
    // Rises of 1.0 to 4.9 mm/yr to 0 m: −2.95 m 1,000 years ago, +0.3 here.
    const at = difference.at.find((each: { age_cal_bp: number }) => each.age_cal_bp === 1000);
    assert.ok(at.level_m.median > 2 && at.level_m.median < 4.5, JSON.stringify(at));
    assert.ok(at.level_m.p_larger > 0.95);
  }
  const elsewhere = await said(...words, other, '--datum', 'another');
  assert.equal(elsewhere.code, 1);
  assert.match(elsewhere.err, /error: .*expected another\. Convert one/);
  assert.equal(JSON.parse(elsewhere.out).difference.at[0].level_m, null);

  const local = folder('local', { ...results, datum: { ...results.datum, kind: 'local' } });
  assert.match(
    (await said(...words, local, '--datum', label)).err,
    /warning: .*a local datum”; expected that it is/,
  );
  const unsettled = {
    ...curveOf(results)!,
    diagnostics: { ...curveOf(results)!.diagnostics, converged: false },
  };
  const loose = folder('loose', withCurve(results, unsettled));
  assert.match((await said(...words, loose, '--datum', label)).err, /a curve that has not converged/);
  const none = await said(...words, folder('none', withCurve(results, null)), '--datum', label);
  assert.match(none.err, /results without a curve/);
  assert.equal(JSON.parse(none.out).difference, null);
  rmSync(join(place, 'other', 'results.npz'));
  const torn = await said(...words, other);
  assert.notEqual(torn.code, 0);
  assert.match(torn.err, /results\.npz/);
  assert.equal(torn.out, '', 'before anything is computed');
});

test('curve --take-off: questions are about what remains; a prediction that cannot be used answers none', async () => {
  const path = file('taken.csv', HIGHSTAND);
  const words = ['curve', path, '--step', '500', '--intervals', '6000-1000', '--highest'];
  const rows = Array.from({ length: 11 }, (_, i) => `${1000 * i},${0.3 * i},0.1`);
  const table = file('motion.csv', ['age_cal_bp,level_m,sd_m', ...rows].join('\n'));
  const { code, out, err } = await said(...words, '--take-off', table);
  assert.equal(code, 0, err);
  assert.match(out, /^Less motion\.csv; its error is one for all ages\. Questions are about what remains:$/m);
  assert.match(out, /^6000 to 1000 cal BP, remaining: \+0\.[23]\d mm\/yr/m);
  // The highest of what remains is no longer 5,000 years ago.
  assert.match(out, /^Highest stand: The sea stood highest at [+−]?0\.\d+ m/m);
  const json = JSON.parse((await said(...words, '--take-off', table, '--json')).out);
  const plain = JSON.parse((await said(...words, '--json')).out);
  assert.equal(plain.remaining, null);
  assert.deepEqual(json.rsl_m, plain.rsl_m, 'the curve itself is the same');
  const shift = plain.intervals[0].rate_mm_yr.mean - json.remaining.intervals[0].rate_mm_yr.mean;
  // 0.3 m in 1,000 yr higher once, so that it fell by 0.3 mm/yr.
  assert.ok(Math.abs(shift + 0.3) < 0.02, `${shift}`);
  const short = file('short.csv', 'age_cal_bp,level_m,sd_m\n20000,1,0.1\n15000,0.5,0.1\n');
  const refused = await said(...words, '--take-off', short);
  assert.equal(refused.code, 1);
  assert.match(
    refused.err,
    /error: short\.csv: found “a prediction from 20000 to 15000 cal BP”.*Nothing is subtracted/,
  );
  assert.doesNotMatch(refused.out, /Highest stand/);
  assert.match(refused.out, /^No point disagrees/m);
});
