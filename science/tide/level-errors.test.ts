import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { highAndLowWaters } from './extremes.ts';
import { predictedLevels } from './harmonic-levels.ts';
import { waterSigmas } from './level-errors.ts';
import { PHASE_UNKNOWN_DEG, predict, predictionSigma, type TidalConstant, tideCurve } from './prediction.ts';

const DAY_MS = 86_400_000;
const FROM_MS = Date.UTC(2010, 2, 1);

const constants: TidalConstant[] = [
  { constituent: 'M2', amplitude_m: 1, phase_deg: 40, amplitude_sigma_m: 0.02, phase_sigma_deg: 2 },
  { constituent: 'S2', amplitude_m: 0.4, phase_deg: 75, amplitude_sigma_m: 0.03, phase_sigma_deg: 6 },
  { constituent: 'K1', amplitude_m: 0.3, phase_deg: 200, amplitude_sigma_m: 0.04, phase_sigma_deg: 5 },
  { constituent: 'M4', amplitude_m: 0.05, phase_deg: 10, amplitude_sigma_m: 0.01, phase_sigma_deg: 9 },
  { constituent: 'O1', amplitude_m: 0.2, phase_deg: 180 },
  { constituent: 'M2X', amplitude_m: 0.2, phase_deg: 180, amplitude_sigma_m: 9 },
];
const tide = { mean_m: 0.5, mean_sigma_m: 0.03, constants };

test('1 sigma of a mean of waters is that of tides drawn with the errors of the constants (seed 5)', () => {
  const to_ms = FROM_MS + 60 * DAY_MS;
  const watersOf = (of: typeof tide) => {
    const waters = highAndLowWaters(tideCurve(of), FROM_MS, to_ms);
    const highs = waters.filter(({ kind }) => kind === 'high');
    const lows = waters.filter(({ kind }) => kind === 'low');
    return { highs, lows, highest: [highs.reduce((a, b) => (b.height_m > a.height_m ? b : a))] };
  };
  const mean = (waters: { height_m: number }[]): number =>
    waters.reduce((sum, { height_m }) => sum + height_m, 0) / waters.length;
  const own = watersOf(tide);
  const sigmaOf = waterSigmas(tide);
  const random = randomStream(5);
  const RUNS = 600;
  const squares = { highs: 0, lows: 0, highest: 0, middle: 0 };
  for (let run = 0; run < RUNS; run++) {
    const drawn = watersOf({
      ...tide,
      mean_m: tide.mean_m + tide.mean_sigma_m * random.normal(),
      constants: constants.map((c) => ({
        ...c,
        amplitude_m: c.amplitude_m + (c.amplitude_sigma_m ?? 0) * random.normal(),
        phase_deg: c.phase_deg + (c.phase_sigma_deg ?? 0) * random.normal(),
      })),
    });
    for (const kind of ['highs', 'lows', 'highest'] as const)
      squares[kind] += (mean(drawn[kind]) - mean(own[kind])) ** 2 / RUNS;
    const middle = (of: typeof own): number => (mean(of.highs) + mean(of.lows)) / 2;
    squares.middle += (middle(drawn) - middle(own)) ** 2 / RUNS;
  }
  const close = (simulated: number, sigma_m: number): void =>
    // Three sds of an sd of 600 draws, and the second order of 0.06 m in 1 m.
    assert.ok(Math.abs(Math.sqrt(simulated) / sigma_m - 1) < 0.12, `${Math.sqrt(simulated)} ${sigma_m}`);
  close(squares.highs, sigmaOf(own.highs));
  close(squares.lows, sigmaOf(own.lows));
  close(squares.highest, sigmaOf(own.highest));
  // Half-tide level: M2 moves the high and the low waters apart, and it stays.
  close(squares.middle, sigmaOf(own.highs, own.lows));
  assert.ok(sigmaOf(own.highs, own.lows) < 0.9 * sigmaOf(own.highs) + 0.03);
});

test('1 sigma of a prediction is the rms of a year of tides drawn with the errors (seed 6)', () => {
  const random = randomStream(6);
  const times = Float64Array.from({ length: 600 }, (_, i) => FROM_MS + i * 0.608 * DAY_MS);
  const noPhase = {
    constituent: 'SA',
    amplitude_m: 0.0001,
    phase_deg: 0,
    amplitude_sigma_m: 0.1,
    phase_sigma_deg: PHASE_UNKNOWN_DEG,
  };
  const whole = { ...tide, constants: [...constants.slice(0, 5), noPhase] };
  const own = predict(whole, times);
  let squares = 0;
  const RUNS = 300;
  for (let run = 0; run < RUNS; run++) {
    const drawn = predict(
      {
        mean_m: tide.mean_m + tide.mean_sigma_m * random.normal(),
        constants: [
          ...constants.slice(0, 5).map((c) => ({
            ...c,
            amplitude_m: c.amplitude_m + (c.amplitude_sigma_m ?? 0) * random.normal(),
            phase_deg: c.phase_deg + (c.phase_sigma_deg ?? 0) * random.normal(),
          })),
          // An amplitude whose mean square is that of its sigma.
          {
            constituent: 'SA',
            amplitude_m: 0.1 * Math.sqrt(-Math.log(1 - random.uniform())),
            phase_deg: 360 * random.uniform(),
          },
        ],
      },
      times,
    );
    for (let i = 0; i < times.length; i++) squares += (drawn[i]! - own[i]!) ** 2 / (RUNS * times.length);
  }
  const sigma_m = predictionSigma(whole);
  assert.ok(Math.abs(Math.sqrt(squares) / sigma_m - 1) < 0.06, `${Math.sqrt(squares)} ${sigma_m}`);
  assert.equal(predictionSigma({ mean_m: 0, constants: [] }), 0);
  assert.equal(predictionSigma({ mean_m: 0, constants: [{ ...constants[4]!, amplitude_sigma_m: null }] }), 0);
});

test('levels of 19 years: errors of constants and mean level on top of the method’s; none dropped', () => {
  const bare = {
    mean_m: 0.5,
    constants: constants.map((c) => ({ ...c, amplitude_sigma_m: 0, phase_sigma_deg: 0 })),
  };
  const of = predictedLevels(tide, 2002)!.sigma_m;
  const method = predictedLevels(bare, 2002)!.sigma_m;
  for (const [level, sigma_m] of Object.entries(method))
    assert.equal(sigma_m, level === 'HAT' || level === 'LAT' ? 0.02 : 0.04, level);
  for (const [level, sigma_m] of Object.entries(of))
    assert.ok(sigma_m >= Math.sqrt(method[level as keyof typeof of] ** 2 + 0.03 ** 2) - 1e-12, level);
  const springs = Math.sqrt(0.04 ** 2 + 0.03 ** 2 + 0.02 ** 2 + 0.03 ** 2);
  assert.ok(Math.abs(of.MHWS - springs) < 1e-12 && Math.abs(of.MLWN - springs) < 1e-12);
  assert.ok(Math.abs(of.MSL - 0.05) < 1e-12);
  // M2 0.02 m along; 2° of a metre across hardly move a high water.
  assert.ok(of.MHW > Math.sqrt(0.04 ** 2 + 0.03 ** 2 + 0.019 ** 2) && of.MHW < 0.06, String(of.MHW));
  assert.ok(of.HAT > of.MSL);
});
