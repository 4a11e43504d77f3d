/** Tree rings of known date, blocks of rings with a published range, and a slow twin of the computation. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { before, test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { square } from '@stillstand/science/base';
import {
  calibrate,
  calibrationSets,
  matchSequence,
  type Sequence,
  type SequenceMember,
  type YearlyCurve,
} from '@stillstand/science/dating';

let intcal20: YearlyCurve;
before(async () => {
  intcal20 = await loadCurve('intcal20');
});

function member(
  parts: Partial<SequenceMember> & Pick<SequenceMember, 'c14_age' | 'error_yr'>,
): SequenceMember {
  return {
    id: '',
    after_first_yr: 0,
    after_first_sd_yr: 0,
    block_yr: 1,
    offset_yr: 0,
    offset_sd_yr: 0,
    offset_group: null,
    curve: intcal20,
    ...parts,
  };
}

function matched(members: readonly SequenceMember[]): Sequence {
  const answer = matchSequence(members);
  assert.ok(answer.kind === 'matched', JSON.stringify(answer));
  return answer;
}

const modeOf = ({ density, from_cal_bp }: { density: Float64Array; from_cal_bp: number }): number =>
  from_cal_bp + density.indexOf(Math.max(...density));

test('Āraiši: 14 rings end in 835 CE with probability 0.993, chi-square 25.0', () => {
  const rows = readFileSync(new URL('data/rings.csv', import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .slice(1);
  const rings = rows.map((row) => row.split(',').map(Number) as [number, number, number]);
  assert.equal(rings.length, 14);
  // The first in the list is the youngest; the last before felling is 53 years younger.
  const answer = matched(
    rings.map(([ring, c14_age, error_yr]) => member({ c14_age, error_yr, after_first_yr: ring + 53 })),
  );
  const { age } = answer.members[0]!;
  const year = 1950 - 835 + 53;
  assert.equal(modeOf(age), year);
  assert.ok(Math.abs(age.density[year - age.from_cal_bp]! - 0.993) < 0.001);
  assert.ok(Math.abs(answer.chi_square - 25.0) < 0.1 && answer.degrees === 13);
  assert.ok(Math.abs(answer.p - 0.023) < 0.001, `${answer.p}`); // chi-square 25.0 with 13 degrees: 0.0231
});

test('Santorini: four blocks of rings, within 1 yr of the same computed apart, within 8 yr of what is published', () => {
  const blocks: [first: number, last: number, age: number, error: number][] = [
    [1, 13, 3383, 11],
    [14, 37, 3372, 12],
    [38, 59, 3349, 12],
    [60, 72, 3331, 10],
  ];
  const answer = matched(
    blocks.map(([first, last, c14_age, error_yr]) =>
      member({ c14_age, error_yr, after_first_yr: (first + last) / 2 - 7, block_yr: last - first + 1 }),
    ),
  );
  const { age } = answer.members[3]!;
  // The last ring is 6 years younger than the middle of its block; BCE is cal BP less 1949.
  const bce = (cal_bp: number): number => cal_bp - 6 - 1949;
  const ends = (mass: number): number[] => {
    const sets = calibrationSets(age, mass);
    return [bce(sets[0]!.older_cal_bp), bce(sets.at(-1)!.younger_cal_bp)];
  };
  const near = (found: readonly number[], expected: readonly number[], by: number): void => {
    for (const [i, year] of found.entries())
      assert.ok(Math.abs(year - expected[i]!) <= by, `${found} for ${expected}`);
  };
  near(ends(0.683), [1610, 1595], 1);
  near(ends(0.954), [1615, 1584], 1);
  near(ends(0.683), [1608, 1589], 8);
  near(ends(0.954), [1616, 1576], 8);
  near([bce(modeOf(age))], [1604], 1);
});

test('one member alone is its calibration, to the last digit but rounding', () => {
  const alone = calibrate({ c14_age: 4520, error_yr: 30, offset_yr: 0, offset_sd_yr: 0 }, intcal20);
  const [of] = matched([member({ c14_age: 4520, error_yr: 30 })]).members;
  assert.ok(alone.kind === 'calibrated');
  assert.ok(Math.abs(of!.age.median_cal_bp - alone.median_cal_bp) < 1e-6);
  assert.ok(Math.abs(of!.age.sd_yr - alone.sd_yr) < 1e-6);
});

/** Every year, every error of every gap and every shared ΔR, counted out. */
function plainTwin(members: readonly SequenceMember[]): number[][] {
  const ages = members.map(() => new Map<number, number>());
  for (let t = 0; t < 400; t++) {
    for (let z = -4; z <= 4.001; z += 0.2) {
      const of = members.map((m) => {
        const reach = Math.ceil(5 * m.after_first_sd_yr);
        const places: [year: number, p: number][] = [];
        for (let e = -reach; e <= reach; e++) {
          const year = t - m.after_first_yr + e;
          const at = year - m.curve.from_cal_bp;
          if (m.curve.c14_age[at] === undefined) continue;
          const variance = square(m.error_yr) + square(m.curve.sigma_yr[at]!);
          const off = m.c14_age - m.curve.c14_age[at]! - m.offset_yr - z * m.offset_sd_yr;
          const gap = reach === 0 ? 1 : Math.exp(-0.5 * square(e / m.after_first_sd_yr));
          places.push([year, (gap * Math.exp((-0.5 * off * off) / variance)) / Math.sqrt(variance)]);
        }
        return places;
      });
      const sums = of.map((places) => places.reduce((sum, [, p]) => sum + p, 0));
      const all = sums.reduce((product, sum) => product * sum, Math.exp(-0.5 * z * z));
      for (const [m, places] of of.entries())
        for (const [year, p] of places) {
          if (!(sums[m]! > 0)) continue;
          ages[m]!.set(year, (ages[m]!.get(year) ?? 0) + (all * p) / sums[m]!);
        }
    }
  }
  return ages.map((of) => {
    const total = [...of.values()].reduce((sum, p) => sum + p, 0);
    const mean = [...of].reduce((sum, [year, p]) => sum + (year * p) / total, 0);
    const variance = [...of].reduce((sum, [year, p]) => sum + (square(year - mean) * p) / total, 0);
    return [mean, Math.sqrt(variance)];
  });
}

test('a slow twin over years, gap errors and a shared ΔR: means and sds within 0.05 yr', () => {
  const years = Array.from({ length: 500 }, (_, i) => i);
  const curve: YearlyCurve = {
    name: 'winding',
    from_cal_bp: -50,
    c14_age: Float64Array.from(years, (i) => i + 30 * Math.sin(i / 25)),
    sigma_yr: Float64Array.from(years, (i) => 8 + (i % 7)),
  };
  const shared = { curve, offset_yr: 10, offset_sd_yr: 20, offset_group: 'bay' };
  const members = [
    member({ ...shared, c14_age: 260, error_yr: 20 }),
    member({ ...shared, c14_age: 235, error_yr: 15, after_first_yr: 20, after_first_sd_yr: 3 }),
    member({ ...shared, c14_age: 190, error_yr: 25, after_first_yr: 60, after_first_sd_yr: 5 }),
  ];
  const twin = plainTwin(members);
  for (const [m, { age }] of matched(members).members.entries()) {
    const [mean, sd] = twin[m] as [number, number];
    assert.ok(Math.abs(age.mean_cal_bp - mean) < 0.05, `${m}: mean ${age.mean_cal_bp} for ${mean}`);
    assert.ok(Math.abs(age.sd_yr - sd) < 0.05, `${m}: sd ${age.sd_yr} for ${sd}`);
  }
});

test('what runs off its curve, or has nothing to stand on, says so', () => {
  const off = matchSequence([member({ id: 'R1', c14_age: -2000, error_yr: 20 })]);
  assert.ok('reason' in off && /^R1: .*younger/.test(off.reason));
  const late = matchSequence([
    member({ c14_age: 150, error_yr: 20 }),
    member({ c14_age: 150, error_yr: 20, after_first_yr: 400 }),
  ]);
  assert.equal(late.kind, 'beyond_curve');
  assert.throws(() => matchSequence([]), /matchSequence/);
});
