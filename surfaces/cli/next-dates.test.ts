/** What to date next, as a person or another program asks for it. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-next-'));
after(() => rmSync(place, { recursive: true, force: true }));

function file(name: string, columns: string, rows: readonly string[]): string {
  const path = join(place, name);
  writeFileSync(path, [columns, ...rows].join('\n'));
  return path;
}

/** Six dated layers and a gap of 3,000 years, in which two layers of core H2 wait for a date; a third is far above any sea. */
const DATED = [
  'A1,index,-1.0,0.2,600,50,H1,1.20,,Bay',
  'A2,index,-2.1,0.2,1500,50,H1,2.20,,Bay',
  'A3,index,-3.6,0.2,3000,60,H1,3.50,,Bay',
  'A4,index,-7.9,0.3,6200,60,H2,7.80,,Bay',
  'A5,index,-9.8,0.3,7000,60,H2,9.90,,Bay',
];
const coast = file('coast.csv', 'id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr,hole,depth_m,price,site', [
  ...DATED,
  'H2-6,index,-5.2,0.2,,,H2,5.42,,Bay',
  'H2-7,index,-6.1,0.2,,,H2,6.42,900,Bay',
  'H3-1,index,25,0.2,,,H3,1.42,,Bay',
  'X-1,index,-6,0.2,,,,,,Cove',
]);
const QUICK = ['--step', '500', '--draws', '200', '--outliers', 'off', '--intervals', '6000-4000'];

test('curve --next: layers by core, depth and sample, two together, what a budget buys, and when it does not bind', async () => {
  const asked = ['--next', '--date-price', '450', '--core-price', '3000', '--budget', '1400'];
  const { code, out, err } = await said('curve', coast, ...QUICK, ...asked);
  assert.equal(code, 0, err);
  assert.match(out, /^What to date next, rate over 6,000 to 4,000 cal BP, now ±\d\.\d\d mm\/yr \(2σ\):$/m);
  assert.match(out, /^core H2, 5\.42 m, sample H2-6 +4,\d{3} +−5\.\d +0\.\d\d +450/m);
  assert.match(out, /^core H2, 6\.42 m, sample H2-7 +[45],\d{3} +−\d\.\d +0\.\d\d +900/m);
  assert.match(out, /^a new index point +\d,\d{3} +−\d\.\d +0\.\d\d +3,450/m);
  assert.match(out, /^two dates together:$/m);
  assert.match(out, /^within the budget:$/m);
  assert.match(out, /^Two dates: Together the two take \d+ % of the variance, alone \d+ % and \d+ %: /m);
  assert.match(out, /^The curve comes nowhere near: core H3, 1\.42 m, sample H3-1\.$/m);
  assert.match(out, /A date gives no result with 5\.0 % \(assumed\): 95 % count\.$/m);
  assert.match(out, /^Promised for a smooth rate\. If it had a kink .* the promise does not bind\.$/m);
  // Another coast's layer is named, and not ranked.
  assert.match(err, /sample X-1/);
  assert.doesNotMatch(out, /X-1/);
  // 1,400 does not buy a core.
  const bought = out.split('within the budget:')[1]!.split('\n')[1]!;
  assert.match(bought, /^ {2}core H2/);
});

test('curve --next --json: shares, errors and prices of every choice', async () => {
  const { code, out } = await said(
    'curve',
    coast,
    ...QUICK,
    '--next',
    '--date-fails',
    '20',
    '--budget',
    '3',
    '--json',
  );
  assert.equal(code, 0);
  const [next] = JSON.parse(out).next;
  assert.deepEqual([next.older_cal_bp, next.succeeds, next.plan.budget], [6000, 0.8, 3]);
  assert.deepEqual(next.far, ['H3-1']);
  const singles = next.choices.filter((c: { what: string }) => c.what === 'one date');
  assert.equal(singles.length, 3);
  for (const { left, mcse, price } of next.choices) assert.ok(left > 0 && left < 1 && mcse > 0 && price > 0);
  const pair = next.choices.find((c: { what: string }) => c.what === 'two dates together');
  assert.ok(pair.together > Math.max(...pair.dates.map((d: { alone: number }) => d.alone)));
  const bought = next.choices.find((c: { what: string }) => c.what === 'within the budget');
  assert.ok(bought.price <= 3 && bought.left <= pair.left + 1e-9);
});

test('curve --next: a sea that jumped is said not to be bound by it', async () => {
  const jump = file(
    'jump.csv',
    'id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr',
    Array.from({ length: 24 }, (_, i) => {
      const age = 200 + 320 * i;
      const level = -0.0008 * age - (age > 4000 ? 3 : 0) + 0.1 * ((i % 3) - 1);
      return `P${i},index,${level.toFixed(2)},0.15,${age},40`;
    }),
  );
  const asked = ['--step', '1000', '--draws', '200', '--outliers', 'off', '--next'];
  const { out } = await said('curve', jump, ...asked, '--intervals', '5000-3000,2000-1000');
  const binds = [
    ...out.matchAll(/^This promise does not bind: .* near [34],\d{3} cal BP, (\w+) the interval/gm),
  ];
  assert.deepEqual(
    binds.map(([, where]) => where),
    ['within', 'outside'],
  );
});

test('curve: what cannot be asked of what to date next is named', async () => {
  for (const [words, named] of [
    [['--budget', '3'], /--budget: expected --next too/],
    [['--date-fails', '96', '--next'], /--date-fails: found 96, expected 0 to 95/],
    [['--date-price', '0', '--next'], /--date-price: found 0, expected above 0/],
  ] as const) {
    const { code, err } = await said('curve', coast, ...QUICK, ...words);
    assert.equal(code, 2);
    assert.match(err, named);
  }
  const none = await said('curve', coast, '--step', '500', '--draws', '200', '--next');
  assert.match(none.err, /--next: expected --intervals too/);
  // Without --next a point without an age is a row to fill in, as before; with it a layer needs its height.
  const unaged = await said('curve', coast, ...QUICK);
  assert.equal(unaged.code, 1);
  assert.match(unaged.err, /H2-6/);
  const bare = file('bare.csv', 'id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr', [
    'P1,index,-1,0.2,600,50',
    'P2,index,-5,0.2,4600,50',
    'L1,index,-3,,,',
  ]);
  const layer = await said('curve', bare, '--draws', '200', '--intervals', '4000-2000', '--next');
  assert.equal(layer.code, 1);
  assert.match(layer.err, /L1.*rsl_sigma_m|rsl_sigma_m.*L1/);
});

test('an interval with ends between reported ages is ranked too; headings in capitals are the same columns', async () => {
  const asked = [
    '--step',
    '500',
    '--draws',
    '200',
    '--outliers',
    'off',
    '--intervals',
    '6100-4100',
    '--next',
  ];
  const between = await said('curve', coast, ...asked);
  assert.match(between.out, /^What to date next, rate over 6,100 to 4,100 cal BP, now ±\d/m);
  assert.match(between.out, /core H2, 6\.42 m, sample H2-7/);
  const capitals = file(
    'capitals.csv',
    'ID,Kind,RSL_m,RSL_sigma_m,Age_cal_BP,Age_sigma_yr,Hole,Depth_m,Price,Site',
    [
      ...DATED,
      'H2-6,index,-5.2,0.2,,,H2,5.42,,Bay',
      'H2-7,index,-6.1,0.2,,,H2,6.42,900,Bay',
      'H3-1,index,25,0.2,,,H3,1.42,,Bay',
      'X-1,index,-6,0.2,,,,,,Cove',
    ],
  );
  assert.equal((await said('curve', capitals, ...asked)).out, between.out);
});
