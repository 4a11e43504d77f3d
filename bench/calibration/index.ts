/**
 * Dates calibrated per second on one thread, median and 95.4 % set each, beside plainer ways to do the same job in the
 * same run. Ages are a seeded mix: 200 to 20,000 14C yr, errors 15 to 60 yr (the dates
 * in the published checks have a median of 20 to 35).
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { loadCurve } from '@stillstand/published/curves';
import { randomStream } from '@stillstand/science/base';
import { calibrateMany, type RadiocarbonAge, type YearlyCurve } from '@stillstand/science/dating';
import { calibratePlainly, type PlainAnswer } from './plain.ts';

/** Dates per second over the repeats: the best, the middle one and the worst. */
interface Speed {
  best: number;
  median: number;
  worst: number;
  repeats: number;
  dates: number;
}

export interface CalibrationBench {
  dates_per_s: Speed;
  plain_javascript_dates_per_s: Speed;
  /** Null where there is no python3 with numpy. */
  plain_numpy_dates_per_s: Speed | null;
  /** Times faster, middle repeat against middle repeat. */
  ratio_to_plain_javascript: number;
  ratio_to_plain_numpy: number | null;
  /** Largest differences between the ways, yr: the benchmark compares equal work. */
  largest_median_difference_yr: number;
  largest_end_difference_yr: number;
}

const MASS = 0.954;
const REPEATS = 15;

export async function benchCalibration(): Promise<CalibrationBench> {
  const curve = await loadCurve('intcal20');
  const ages = mixOfAges(20_000);
  calibrateMany(ages.slice(0, 5000), curve, MASS); // warm
  const fast: number[] = [];
  let columns = calibrateMany([], curve, MASS);
  for (let k = 0; k < REPEATS; k++) {
    const begin = performance.now();
    columns = calibrateMany(ages, curve, MASS);
    fast.push((performance.now() - begin) / 1000);
  }

  const few = ages.slice(0, 200);
  for (const age of few.slice(0, 20)) calibratePlainly(age, curve, MASS);
  const plain: number[] = [];
  let plainAnswers: PlainAnswer[] = [];
  for (let k = 0; k < 3; k++) {
    const begin = performance.now();
    plainAnswers = few.map((age) => calibratePlainly(age, curve, MASS));
    plain.push((performance.now() - begin) / 1000);
  }

  const numpy = runNumpy(curve, ages.slice(0, 10_000));
  let medianOff = 0;
  let endOff = 0;
  const compare = (i: number, answer: PlainAnswer): void => {
    const first = columns.first_interval[i]!;
    const last = columns.first_interval[i + 1]! - 1;
    medianOff = Math.max(medianOff, Math.abs(columns.median_cal_bp[i]! - answer.median_cal_bp));
    endOff = Math.max(
      endOff,
      Math.abs(columns.older_cal_bp[first]! - answer.older_cal_bp),
      Math.abs(columns.younger_cal_bp[last]! - answer.younger_cal_bp),
    );
  };
  for (const [i, answer] of plainAnswers.entries()) compare(i, answer);
  for (const [i, [median_cal_bp, older_cal_bp, younger_cal_bp]] of (numpy?.answers ?? []).entries()) {
    compare(i, { median_cal_bp, older_cal_bp, younger_cal_bp });
  }

  const fastSpeed = speed(fast, ages.length);
  const plainSpeed = speed(plain, few.length);
  const numpySpeed = numpy === null ? null : speed(numpy.seconds, 10_000);
  return {
    dates_per_s: fastSpeed,
    plain_javascript_dates_per_s: plainSpeed,
    plain_numpy_dates_per_s: numpySpeed,
    ratio_to_plain_javascript: fastSpeed.median / plainSpeed.median,
    ratio_to_plain_numpy: numpySpeed === null ? null : fastSpeed.median / numpySpeed.median,
    largest_median_difference_yr: medianOff,
    largest_end_difference_yr: endOff,
  };
}

function mixOfAges(n: number): RadiocarbonAge[] {
  const s = randomStream('calibration bench');
  return Array.from({ length: n }, () => ({
    c14_age: Math.round(200 + 19_800 * s.uniform()),
    error_yr: Math.round(15 + 45 * s.uniform()),
    offset_yr: 0,
    offset_sd_yr: 0,
  }));
}

function speed(seconds: readonly number[], dates: number): Speed {
  const sorted = [...seconds].sort((a, b) => a - b);
  return {
    best: dates / sorted[0]!,
    median: dates / sorted[sorted.length >> 1]!,
    worst: dates / sorted.at(-1)!,
    repeats: sorted.length,
    dates,
  };
}

function runNumpy(
  curve: YearlyCurve,
  ages: readonly RadiocarbonAge[],
): { seconds: number[]; answers: [number, number, number][] } | null {
  const job = {
    c14_age: [...curve.c14_age],
    sigma_yr: [...curve.sigma_yr],
    ages: ages.map((a) => [a.c14_age, a.error_yr]),
    repeats: 3,
  };
  const script = fileURLToPath(new URL('./plain_numpy.py', import.meta.url));
  const run = spawnSync('python3', [script], {
    input: JSON.stringify(job),
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
    env: { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' },
  });
  return run.status === 0 ? JSON.parse(run.stdout) : null;
}
