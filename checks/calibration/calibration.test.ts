/** Calibration against outside figures: computed tables, published ranges, scipy, and a plain twin. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { test } from 'node:test';
import { type CurveName, loadCurve } from '@stillstand/published/curves';
import { randomStream } from '@stillstand/science/base';
import {
  type Calibration,
  calibrate,
  calibrateMany,
  calibrationSets,
  type RadiocarbonAge,
  type YearlyCurve,
} from '@stillstand/science/dating';
import { readCsv } from './read-csv.ts';

function calibrated(age: RadiocarbonAge, curve: YearlyCurve): Calibration {
  const answer = calibrate(age, curve);
  assert.equal(answer.kind, 'calibrated');
  return answer as Calibration;
}

function plainAge(c14_age: number, error_yr: number, offset_yr = 0, offset_sd_yr = 0): RadiocarbonAge {
  return { c14_age, error_yr, offset_yr, offset_sd_yr };
}

/** Agreement asked of two computations of one model: half a year is the step of a grid. */
const YEAR_TOLERANCE = 1;
const PROBABILITY_TOLERANCE = 0.005;

// Computed twice, independently, in numpy (no published value beside it): the table of standard results this project
// was given; 95.4 % sets as older, younger, probability.
const TABLE: [
  number,
  number,
  CurveName,
  number,
  number,
  number,
  number,
  number,
  [number, number, number | null][],
][] = [
  [
    2000,
    30,
    'intcal20',
    0,
    0,
    1934.9,
    1933.5,
    42.6,
    [
      [1998, 1868, 0.911],
      [1853, 1836, 0.044],
    ],
  ],
  [
    4520,
    30,
    'intcal20',
    0,
    0,
    5156.4,
    5168.3,
    79.2,
    [
      [5308, 5213, 0.312],
      [5196, 5050, 0.643],
    ],
  ],
  [
    7400,
    50,
    'intcal20',
    0,
    0,
    8234.9,
    8222.9,
    80.4,
    [
      [8345, 8162, 0.801],
      [8138, 8112, 0.03],
      [8108, 8038, 0.123],
    ],
  ],
  [
    4520,
    30,
    'shcal20',
    0,
    0,
    5155.4,
    5149.0,
    91.7,
    [
      [5300, 5028, 0.889],
      [5011, 4977, 0.065],
    ],
  ],
  [
    300,
    25,
    'shcal20',
    0,
    0,
    312.5,
    335.7,
    63.2,
    [
      [441, 366, 0.34],
      [328, 282, 0.59],
      [165, 157, 0.026],
    ],
  ],
  [5000, 40, 'marine20', 0, 0, 5126.4, 5124.0, 99.2, [[5305, 4928, null]]],
  [5000, 40, 'marine20', -120, 45, 5276.9, 5270.6, 112.4, [[5473, 5038, null]]],
];
for (const [age, error, name, offset, offsetSd, median, mean, sd, sets] of TABLE) {
  test(`${age} ± ${error} on ${name}, offset ${offset} ± ${offsetSd}: median, moments and sets as tabulated`, async () => {
    const c = calibrated(plainAge(age, error, offset, offsetSd), await loadCurve(name));
    assert.ok(Math.abs(c.median_cal_bp - median) <= YEAR_TOLERANCE, `median ${c.median_cal_bp}`);
    assert.ok(
      Math.abs(c.mean_cal_bp - mean) <= 0.1 && Math.abs(c.sd_yr - sd) <= 0.1,
      `${c.mean_cal_bp} ${c.sd_yr}`,
    );
    const got = calibrationSets(c, 0.954);
    assert.equal(got.length, sets.length);
    for (const [i, [older, younger, probability]] of sets.entries()) {
      assert.ok(Math.abs(got[i]!.older_cal_bp - older) <= YEAR_TOLERANCE);
      assert.ok(Math.abs(got[i]!.younger_cal_bp - younger) <= YEAR_TOLERANCE);
      if (probability !== null)
        assert.ok(Math.abs(got[i]!.probability - probability) <= PROBABILITY_TOLERANCE);
    }
  });
}

const curveName = (label: string): CurveName => label.toLowerCase() as CurveName;

test('published ranges drawn without regard to agreement: 35 rows by their own rule', async () => {
  const rows = readCsv('calibration_checks_unselected.csv', [
    'lab_code',
    'c14_age',
    'c14_error',
    'curve',
    'published_95_older_calBP',
    'published_95_younger_calBP',
    'published_median_calBP',
    'agreement',
  ]);
  assert.equal(rows.length, 35);
  for (const row of rows) {
    const c = calibrated(
      plainAge(Number(row.c14_age), Number(row.c14_error)),
      await loadCurve(curveName(row.curve)),
    );
    const older = Number(row.published_95_older_calBP);
    const younger = Number(row.published_95_younger_calBP);
    const sets = calibrationSets(c, 0.954);
    if (row.agreement === 'within5') {
      assert.ok(
        Math.abs(sets[0]!.older_cal_bp - older) <= 5,
        `${row.lab_code} older ${sets[0]!.older_cal_bp} ${older}`,
      );
      assert.ok(Math.abs(sets.at(-1)!.younger_cal_bp - younger) <= 5, `${row.lab_code} younger`);
    } else {
      assert.equal(row.agreement, 'tail');
      let inside = 0;
      for (let i = 0; i < c.density.length; i++) {
        const year = c.from_cal_bp + i;
        if (year >= younger && year <= older) inside += c.density[i]!;
      }
      assert.ok(inside >= 0.93 && inside <= 0.99, `${row.lab_code} holds ${inside}`);
    }
    if (row.published_median_calBP !== '') {
      assert.ok(
        Math.abs(c.median_cal_bp - Number(row.published_median_calBP)) <= 2,
        `${row.lab_code} median`,
      );
    }
  }
});

test('72 more published ranges stay where they were (chosen by agreement: shows change, not accuracy)', async () => {
  const rows = readCsv('calibration_checks.csv', [
    'lab_code',
    'c14_age',
    'error',
    'curve',
    'published_95_from',
    'published_95_to',
    'published_median',
  ]);
  assert.equal(rows.length, 72);
  for (const row of rows) {
    const c = calibrated(
      plainAge(Number(row.c14_age), Number(row.error)),
      await loadCurve(curveName(row.curve)),
    );
    const sets = calibrationSets(c, 0.954);
    assert.ok(Math.abs(sets[0]!.older_cal_bp - Number(row.published_95_from)) <= 5, row.lab_code);
    assert.ok(Math.abs(sets.at(-1)!.younger_cal_bp - Number(row.published_95_to)) <= 5, row.lab_code);
    if (row.published_median !== '') {
      assert.ok(Math.abs(c.median_cal_bp - Number(row.published_median)) <= 2, row.lab_code);
    }
  }
});

/** Seeded ages over the whole of a curve, errors 8 to 300 yr, offsets now and then. */
function ages(n: number, seed: string, oldest: number): RadiocarbonAge[] {
  const s = randomStream(seed);
  return Array.from({ length: n }, () => {
    const offset = s.uniform() < 0.3;
    return plainAge(
      Math.round(300 + (oldest - 300) * s.uniform()),
      Math.round(8 + 292 * s.uniform() ** 4),
      offset ? Math.round(200 * s.normal()) : 0,
      offset ? Math.round(100 * s.uniform()) : 0,
    );
  });
}

// scipy 1.17.1 and numpy 2.4.6: norm.pdf on the same yearly grid; set by sorting; median by half of the summed mass.
const SCIPY = `
import json, sys
import numpy as np
from scipy.stats import norm
job = json.load(sys.stdin)
mu, sigma = np.array(job["c14_age"]), np.array(job["sigma_yr"])
out = []
for age, error, offset, offset_sd in job["ages"]:
    p = norm.pdf(age, mu + offset, np.sqrt(error**2 + offset_sd**2 + sigma**2))
    p /= p.sum()
    s = np.cumsum(p)
    k = np.searchsorted(s, 0.5)
    t = np.arange(len(p))
    mean = (p * t).sum()
    f = np.sort(p)[::-1]
    level = f[np.searchsorted(np.cumsum(f), 0.954)]
    inside = p >= level * (1 - 1e-9)
    i = np.flatnonzero(inside)
    out.append([k + 0.5 - (s[k] - 0.5) / p[k], mean, float(np.sqrt((p * (t - mean) ** 2).sum())), int(i[-1]), int(i[0]), float(p[inside].sum())])
json.dump(out, sys.stdout, default=float)
`;
// Four of its answers, kept for machines without scipy: IntCal20, [age, error] → median, mean, sd, ends, mass.
const KEPT: [number, number, number[]][] = [
  [4520, 30, [5156.868724089321, 5168.298713698443, 79.18310860091069, 5308, 5050, 0.9549609479765397]],
  [1200, 25, [1116.607382545818, 1119.3351647770626, 41.655217058784125, 1242, 1060, 0.955259636254759]],
  [10020, 45, [11516.238444668621, 11518.519985951101, 118.31440635482572, 11742, 11287, 0.9543183987235069]],
  [31000, 300, [35372.4791050557, 35369.57825879932, 354.9044356019369, 36048, 34700, 0.9542209400913473]],
];

test('scipy on the same grid gives the same median, moments and set (seed scipy)', async (t) => {
  const curve = await loadCurve('intcal20');
  for (const [age, error, kept] of KEPT) agree(plainAge(age, error), curve, kept);
  const list = ages(120, 'scipy', 45_000);
  const run = spawnSync('python3', ['-c', SCIPY], {
    input: JSON.stringify({
      c14_age: [...curve.c14_age],
      sigma_yr: [...curve.sigma_yr],
      ages: list.map((a) => [a.c14_age, a.error_yr, a.offset_yr, a.offset_sd_yr]),
    }),
    encoding: 'utf8',
    maxBuffer: 2 ** 26,
  });
  if (run.status !== 0) {
    t.diagnostic('no python3 with scipy here: compared with the kept answers alone');
    return;
  }
  const answers = JSON.parse(run.stdout) as number[][];
  for (const [i, answer] of answers.entries()) agree(list[i]!, curve, answer);
});

function agree(age: RadiocarbonAge, curve: YearlyCurve, answer: readonly number[]): void {
  const c = calibrated(age, curve);
  const [median, mean, sd, older, younger, mass] = answer as [number, number, number, number, number, number];
  const where = JSON.stringify(age);
  assert.ok(Math.abs(c.median_cal_bp - median) < 1e-4, `${where} median ${c.median_cal_bp} ${median}`);
  assert.ok(Math.abs(c.mean_cal_bp - mean) < 1e-3, `${where} mean ${c.mean_cal_bp} ${mean}`);
  assert.ok(Math.abs(c.sd_yr - sd) < 1e-3, `${where} sd ${c.sd_yr} ${sd}`);
  const sets = calibrationSets(c, 0.954);
  assert.ok(
    Math.abs(sets[0]!.older_cal_bp - older) <= 1 && Math.abs(sets.at(-1)!.younger_cal_bp - younger) <= 1,
    where,
  );
  const sum = sets.reduce((total, set) => total + set.probability, 0);
  assert.ok(Math.abs(sum - mass) < 1e-3, `${where} ${sum} ${mass}`);
}

/** The obvious twin: every year of the curve, Math.exp, a full sort. */
function twin(age: RadiocarbonAge, curve: YearlyCurve): Float64Array {
  const p = Float64Array.from(curve.c14_age, (mu, i) => {
    const variance = age.error_yr ** 2 + age.offset_sd_yr ** 2 + curve.sigma_yr[i]! ** 2;
    return Math.exp(-((age.c14_age - age.offset_yr - mu) ** 2) / (2 * variance)) / Math.sqrt(variance);
  });
  const total = p.reduce((sum, v) => sum + v, 0);
  return p.map((v) => v / total);
}

for (const name of ['intcal20', 'shcal20', 'marine20'] as const) {
  test(`every year's probability is the plain twin's, on ${name} (seed twin)`, async () => {
    const curve = await loadCurve(name);
    for (const age of ages(60, `twin ${name}`, 46_000)) {
      const answer = calibrate(age, curve);
      if (answer.kind !== 'calibrated') continue;
      const slow = twin(age, curve);
      const peak = slow.reduce((m, v) => Math.max(m, v), 0);
      for (let i = 0; i < slow.length; i++) {
        const got = answer.density[curve.from_cal_bp + i - answer.from_cal_bp] ?? 0;
        assert.ok(
          Math.abs(got - slow[i]!) <= 1e-7 * peak,
          `${JSON.stringify(age)} at ${i}: ${got} ${slow[i]}`,
        );
      }
    }
  });

  test(`many at once are one by one, on ${name} (seed batch)`, async () => {
    const curve = await loadCurve(name);
    const list = [
      ...ages(400, `batch ${name}`, 52_000),
      plainAge(NaN, 30),
      plainAge(-500, 30),
      plainAge(3000, 0),
    ];
    for (const mass of [0.683, 0.954]) {
      const columns = calibrateMany(list, curve, mass);
      for (const [k, age] of list.entries()) {
        const one = calibrate(age, curve);
        const first = columns.first_interval[k]!;
        const end = columns.first_interval[k + 1]!;
        if (one.kind !== 'calibrated') {
          assert.ok(Number.isNaN(columns.median_cal_bp[k]!) && first === end);
          continue;
        }
        assert.ok(Math.abs(columns.median_cal_bp[k]! - one.median_cal_bp) < 0.02, JSON.stringify(age));
        assert.ok(Math.abs(columns.mean_cal_bp[k]! - one.mean_cal_bp) < 0.02);
        assert.ok(Math.abs(columns.sd_yr[k]! / one.sd_yr - 1) < 1e-3, JSON.stringify(age));
        assert.ok(Math.abs(columns.truncated[k]! - one.truncated) < 1e-5);
        const mine = calibrationSets(one, mass);
        // A year whose density is the level to a part in a million may fall either side.
        assert.ok(Math.abs(columns.older_cal_bp[first]! - mine[0]!.older_cal_bp) <= 1, JSON.stringify(age));
        assert.ok(
          Math.abs(columns.younger_cal_bp[end - 1]! - mine.at(-1)!.younger_cal_bp) <= 1,
          JSON.stringify(age),
        );
      }
    }
  });
}

test('known true ages are covered as often as stated (4000 simulated dates, seed coverage)', async (t) => {
  const curve = await loadCurve('shcal20');
  const s = randomStream('coverage');
  const n = 4000;
  let in68 = 0;
  let in95 = 0;
  let stated68 = 0;
  let stated95 = 0;
  let below = 0;
  for (let k = 0; k < n; k++) {
    // The prior of the model itself: any year equally likely; the middle of the curve, so that no end is near.
    const truth = 1000 + s.integer(40_000);
    const error = 15 + 60 * s.uniform();
    const sd = Math.sqrt(error ** 2 + curve.sigma_yr[truth]! ** 2);
    const c = calibrated(plainAge(curve.c14_age[truth]! + sd * s.normal(), error), curve);
    for (const set of calibrationSets(c, 0.683)) {
      stated68 += set.probability;
      if (truth <= set.older_cal_bp && truth >= set.younger_cal_bp) in68++;
    }
    for (const set of calibrationSets(c, 0.954)) {
      stated95 += set.probability;
      if (truth <= set.older_cal_bp && truth >= set.younger_cal_bp) in95++;
    }
    if (truth < c.median_cal_bp) below++;
  }
  t.diagnostic(
    `held ${in68 / n} (stated ${stated68 / n}) and ${in95 / n} (${stated95 / n}); ${below / n} below the median`,
  );
  // 3.3 standard errors of a share of n: a sound one fails once in a thousand. 0.011 at 95.4 %, 0.024 at 68.3 %.
  const near = (share: number, p: number): boolean =>
    Math.abs(share - p) < 3.3 * Math.sqrt((p * (1 - p)) / n);
  assert.ok(near(in68 / n, stated68 / n), `68.3 %: ${in68 / n}, stated ${stated68 / n}`);
  assert.ok(near(in95 / n, stated95 / n), `95.4 %: ${in95 / n}, stated ${stated95 / n}`);
  assert.ok(near(below / n, 0.5), `${below / n} below the median`);
});
