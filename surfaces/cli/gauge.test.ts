/** `curve --gauge`: annual means of a tide gauge that join a curve of a plain table. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-gauge-'));
after(() => rmSync(place, { recursive: true, force: true }));

function file(name: string, text: string): string {
  const path = join(place, name);
  writeFileSync(path, text);
  return path;
}

const POINTS = [
  'id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr',
  ...[500, 1500, 2500, 3500, 4500].map((age, i) => `P${i},index,${-age / 1000},0.2,${age},50`),
].join('\n');
const stream = randomStream(7);
/** 3 mm/yr from 1901 to 2010, 0 in 1950 on a datum whose zero is 7 m above the gauge's. */
const LEVELS = Array.from({ length: 110 }, (_, i) => ({
  year: 1901 + i,
  level_m: 7 + 0.003 * (i - 49) + 0.02 * stream.normal(),
}));
const gaugeFile = (level: (of: (typeof LEVELS)[number]) => string, heading = 'year,level_m'): string =>
  file('Harbour.csv', [heading, ...LEVELS.map(level)].join('\n'));
const plain = (): string => gaugeFile(({ year, level_m }) => `${year},${level_m.toFixed(4)}`);
const FEW = ['--chains', '2', '--draws', '300'];
const ASKED = ['--ages', '-60,0,50', '--intervals', '50--60', '--json', ...FEW];

interface Curve {
  points: { id: string; own_sigma_m: number; age_cal_bp: { mean: number } }[];
  intervals: { rate_mm_yr: { median: number; lower95: number; upper95: number } }[];
  rsl_m: { mean: number[]; sd: number[] };
  groups: { group: string; sigma_m: number }[];
  gauge: { zero_elevation_m: number | null; blocks: { years: number }[] };
}

test('a gauge on the datum of the points informs level and rate of its century', async () => {
  const points = file('points.csv', POINTS);
  const zero = ['--gauge-zero', '-7', '--gauge-zero-sd', '0.05'];
  const { code, out, err } = await said('curve', points, '--gauge', plain(), ...zero, ...ASKED);
  assert.equal(code, 0, err);
  const found = JSON.parse(out) as Curve;
  const rate = found.intervals[0]!.rate_mm_yr;
  assert.ok(rate.lower95 < 3 && rate.upper95 > 3 && rate.upper95 - rate.lower95 < 1, JSON.stringify(rate));
  assert.ok(Math.abs(found.rsl_m.mean[1]!) < 0.12 && found.rsl_m.sd[1]! < 0.07);
  assert.deepEqual(
    found.gauge.blocks.map(({ years }) => years),
    [19, 18, 18, 19, 18, 18],
  );
  assert.deepEqual(
    found.groups.map(({ group }) => group),
    ['gauge:Harbour'],
  );
  const block = found.points.find(({ id }) => id === 'Harbour 1901–1919')!;
  assert.equal(block.age_cal_bp.mean, 1950 - 1910);
});

test('a gauge whose zero is not related informs the rate and not the level', async () => {
  const points = file('points.csv', POINTS);
  const bare = JSON.parse((await said('curve', points, ...ASKED)).out) as Curve;
  const { out, err } = await said('curve', points, '--gauge', plain(), ...ASKED);
  assert.equal(err, '');
  const found = JSON.parse(out) as Curve;
  assert.equal(found.gauge.zero_elevation_m, null);
  const [wide, narrow] = [bare, found].map(({ intervals: [interval] }) => {
    const { lower95, upper95 } = interval!.rate_mm_yr;
    return upper95 - lower95;
  });
  assert.ok(narrow! < wide! / 3, `${narrow} of ${wide}`);
  assert.ok(found.rsl_m.sd[1]! > 0.5 * bare.rsl_m.sd[1]!);
  const text = (await said('curve', points, '--gauge', plain(), '--ages', '0', ...FEW)).out;
  assert.match(
    text,
    /Gauge Harbour: 110 annual means from 1901 to 2010 CE in 6 blocks, ±0\.010 to 0\.011 m \(2σ\) each; .* informs the rate and not the level\./,
  );
});

test('what cannot be used is named, and the points are still computed', async () => {
  const points = file('points.csv', POINTS);
  const asked = ['--ages', '0', '--json', '--chains', '1', '--draws', '100'];
  for (const [path, wanted] of [
    [
      () => gaugeFile(({ year, level_m }) => `${year},${Math.round(1000 * level_m)}`),
      /look like millimetres: divide by 1,000/,
    ],
    [() => gaugeFile(({ year, level_m }) => `${year + 0.5},${level_m}`), /look like monthly means/],
    [
      () =>
        gaugeFile(
          ({ year, level_m }) => `${year},${level_m},${year < 2005 ? '' : 'moved'}`,
          'year,level_m,flag',
        ),
      /flagged years are left out/,
    ],
    [
      () => gaugeFile(({ year, level_m }) => `${year},${year % 50 === 0 ? '' : level_m}`),
      /no usable mean in 1950, 2000/,
    ],
    [() => gaugeFile(({ year }) => `${year},`), /no level in any row/],
    [() => gaugeFile(({ year, level_m }) => `${year},x${level_m}`), /level_m.*a number/],
  ] as const) {
    const { out, err } = await said('curve', points, '--gauge', path(), ...asked);
    assert.match(err, wanted);
    assert.ok((JSON.parse(out) as Curve).points.length >= 5);
  }
  const alone = await said('curve', points, '--gauge', plain(), '--gauge-zero', '-7');
  assert.match(alone.err, /expected both/);
  assert.notEqual(alone.code, 0);
});
