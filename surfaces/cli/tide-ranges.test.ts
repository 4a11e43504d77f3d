/** `curve --tide-ranges`: points of a plain table by the tide of their time. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-tide-ranges-'));
after(() => rmSync(place, { recursive: true, force: true }));

function file(name: string, text: string): string {
  const path = join(place, name);
  writeFileSync(path, text);
  return path;
}

const HEADING = 'id,kind,rsl_m,rsl_sigma_m,half_range_m,age_cal_bp,age_sigma_yr,tide_level_above_mean_m';
const POINTS = [
  HEADING,
  ...[500, 2000, 3500, 5000, 6500].map((age, i) => `P${i},index,${-age / 1000},0.2,0.2,${age},50,1.5`),
  'M,marine,-7,0.2,,6500,50,-1.2',
].join('\n');
const RANGES = 'age_cal_bp,factor,factor_sigma\n0,1,0\n7000,1.7,0.14\n';
const FEWEST = ['--chains', '1', '--draws', '100', '--json'];
const FEW = ['--chains', '2', '--draws', '300', '--json'];

interface Curve {
  points: { id: string; height_m: number; own_sigma_m: number }[];
  groups: { group: string; sigma_m: number }[];
  rsl_m: { mean: number[] };
}
const curveOf = (out: string): Curve => JSON.parse(out) as Curve;

test('heights, ranges and the shared error are those of the tide then', async () => {
  const [points, ranges] = [file('points.csv', POINTS), file('ranges.csv', RANGES)];
  const { code, out, err } = await said('curve', points, '--tide-ranges', ranges, ...FEW);
  assert.equal(code, 0, err);
  const found = curveOf(out);
  const at = (id: string) => found.points.find((point) => point.id === id)!;
  // 5000 cal BP: a factor of 1.5 scales 1.5 m; 6500: 1.65 scales −1.2 m.
  assert.ok(Math.abs(at('P3').height_m - (-5 - 0.5 * 1.5)) < 1e-9);
  assert.ok(Math.abs(at('M').height_m - (-7 + 0.65 * 1.2)) < 1e-9);
  // ± 50 yr at 1e-4 a year of 1.5 m; the range 1.5 × 0.2 m.
  assert.ok(Math.abs(at('P3').own_sigma_m - Math.hypot(0.2, 0.0075, 0.3 / Math.sqrt(3))) < 1e-4);
  const [group] = found.groups;
  assert.equal(group!.group, 'tide_range:');
  assert.ok(Math.abs(group!.sigma_m - 1.5 * 0.13) < 1e-9, 'the largest, of 6500 cal BP');
});

test('a factor of 1 without an error changes nothing, to the last bit', async () => {
  const points = file('points.csv', POINTS);
  const same = file('same.csv', 'age_cal_bp,factor,factor_sigma\n0,1,0\n9000,1,0\n');
  const [plain, scaled] = [
    await said('curve', points, ...FEW),
    await said('curve', points, '--tide-ranges', same, ...FEW),
  ];
  assert.equal(scaled.out, plain.out);
});

test('what cannot be used is named: no lever, no sigma, ages in ka, two rows of one age, a point beyond', async () => {
  const points = file('points.csv', POINTS);
  const bare = file('bare.csv', `${POINTS.split('\n').slice(0, 3).join('\n')}\nP9,index,-3,0.2,0.2,3000,50,`);
  const ranges = file('ranges.csv', RANGES);
  const one = await said('curve', bare, '--tide-ranges', ranges, ...FEW);
  assert.match(one.err, /P9.*tide_level_above_mean_m/);
  assert.deepEqual(
    curveOf(one.out).points.map(({ id }) => id),
    ['P0', 'P1'],
  );
  for (const [text, wanted] of [
    ['age_cal_bp,factor\n0,1\n7000,1.7\n', /factor_sigma/],
    ['age_cal_bp,factor,factor_sigma\n0,1,0\n7000,1.7,\n', /factor_sigma/],
    ['age_cal_bp,factor,factor_sigma\n0,1,0\n7000,0,0.1\n', /factor.*0\.01/],
    ['age_cal_bp,factor,factor_sigma\n0,1,0\n7,1.7,0.1\n', /ages from 0 to 7/],
    ['age_cal_bp,factor,factor_sigma\n0,1,0\n7000,1.7,0.1\n7000,1.6,0.1\n', /a second row at 7000/],
    ['age_cal_bp,factor,factor_sigma\n7000,1.7,0.1\n0,1,0\n9000,1.9,0.1\n', /0 after 7000/],
    ['age_cal_bp,factor,factor_sigma\n0,1,0\n6000,1.7,0.1\n', /P4 at 6500, M at 6500/],
  ] as const) {
    const { err } = await said('curve', points, '--tide-ranges', file('wrong.csv', text), ...FEWEST);
    assert.match(err, wanted);
  }
});
