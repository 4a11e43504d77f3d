/**
 * Ages from order and from one event, on known truths. Bounds by docs/bounds.md rule 1: within the model at least 0.954
 * less 3.3 sampling errors; what lies outside is printed.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { randomStream } from '@stillstand/science/base';
import {
  ageBetween,
  type Calibration,
  calibrationSets,
  normalAge,
  sameEvent,
} from '@stillstand/science/dating';

const normal = (mean: number, sd: number): Calibration => {
  const age = normalAge(mean, sd);
  assert.ok(age.kind === 'calibrated');
  return age;
};

const holds = (age: Calibration, year: number): boolean =>
  calibrationSets(age, 0.954).some((s) => s.younger_cal_bp <= year && year <= s.older_cal_bp);

test('what lies between two dated horizons is held, 2000 sets, seed 313', () => {
  const stream = randomStream(313);
  for (const [name, place] of [
    ['anywhere between', () => stream.uniform()],
    ['just after the older', () => 0.05 * stream.uniform()],
  ] as const) {
    let held = 0;
    for (let i = 0; i < 2000; i++) {
      const b = 3000 + 500 * stream.uniform();
      const a = b + 50 + 500 * stream.uniform();
      const truth = Math.round(a - place() * (a - b));
      const age = ageBetween(normal(a + 40 * stream.normal(), 40), normal(b + 40 * stream.normal(), 40));
      assert.ok(age.kind === 'calibrated');
      if (holds(age, truth)) held++;
    }
    console.log(`between, ${name}: ${(held / 2000).toFixed(3)}`);
    // One sampling error of 2000 sets is 0.0047.
    if (name === 'anywhere between') assert.ok(held / 2000 >= 0.938, `${held / 2000}`);
  }
});

test('the year of an event with a shell and two twigs is held, 1000 sets, seed 314', async () => {
  const [air, sea] = [await loadCurve('intcal20'), await loadCurve('marine20')];
  for (const [name, tooOld] of [
    ['all of the event', 0],
    ['one twig of wood 150 yr old', 150],
  ] as const) {
    const stream = randomStream(314).split(name);
    let held = 0;
    let named = 0;
    for (let i = 0; i < 1000; i++) {
      const year = Math.floor(1000 + 6000 * stream.uniform());
      const airError = stream.normal();
      const measured = (curve: typeof air, at: number, error: number, sd: number) => ({
        c14_age:
          curve.c14_age[at - curve.from_cal_bp]! +
          curve.sigma_yr[at - curve.from_cal_bp]! * error +
          sd * stream.normal(),
        error_yr: 30,
        offset_yr: 0,
        offset_sd_yr: 0,
        curve,
      });
      const event = sameEvent([
        measured(air, year, airError, 30),
        measured(air, year + tooOld, airError, 30),
        { ...measured(sea, year, stream.normal(), 50), offset_sd_yr: 40 }, // √(30² + 40²)
      ]);
      assert.ok(event.kind === 'dated');
      if (holds(event.age, year)) held++;
      if (event.p < 0.05) named++;
    }
    console.log(
      `event, ${name}: held ${(held / 1000).toFixed(3)}, said to disagree ${(named / 1000).toFixed(3)}`,
    );
    // One sampling error of 1000 sets is 0.0066.
    if (tooOld === 0) assert.ok(held / 1000 >= 0.932, `${held / 1000}`);
  }
});
