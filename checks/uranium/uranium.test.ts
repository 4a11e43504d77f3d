/** Ages of 509 published corals, and whether stated errors cover known truths, in the model and out of it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, mean, median, randomStream } from '@stillstand/science/base';
import {
  type ActivityRatios,
  DECAY_CONSTANTS,
  type DecayConstants,
  openSystem,
  type UraniumAge,
  uraniumAge,
} from '@stillstand/science/uranium';
import { readCsv } from '../calibration/read-csv.ts';

const CORALS = readCsv('../../uranium/data/corals.csv', [
  'th230_u238',
  'th230_u238_2s',
  'u234_u238',
  'u234_u238_2s',
  'age_ka',
  'age_2s_ka',
  'initial_delta234u_permil',
]);

const { cheng2013, cheng2000 } = DECAY_CONSTANTS;

const aged = (
  of: ActivityRatios,
  decay: DecayConstants = cheng2013,
  initial: Parameters<typeof uraniumAge>[2] = null,
): UraniumAge => {
  const made = uraniumAge(of, decay, initial);
  assert.equal(made.kind, 'age');
  return made as UraniumAge;
};

const ofCorals = (decay: DecayConstants) =>
  CORALS.map((c) => {
    const found = aged(
      {
        th230_u238: { value: Number(c.th230_u238), sd: Number(c.th230_u238_2s) / 2 || 1e-6 },
        u234_u238: { value: Number(c.u234_u238), sd: Number(c.u234_u238_2s) / 2 || 1e-6 },
        correlation: 0,
        th230_th232: null,
      },
      decay,
    );
    return {
      off_ka: Math.abs(found.age_yr / 1000 - Number(c.age_ka)),
      off_permil: Math.abs(found.initial_delta234u_permil - Number(c.initial_delta234u_permil)),
      error_ratio: c.age_2s_ka === '' ? NaN : found.error_yr / 500 / Number(c.age_2s_ka),
      isClosed: openSystem(found) === null,
    };
  });

test('509 published corals come back within 0.05 ka, 504 of them within 0.02 ka', (t) => {
  const all = ofCorals(cheng2013);
  const worst = Math.max(...all.map((c) => c.off_ka));
  const near = all.filter((c) => c.off_ka <= 0.02).length;
  const permil = median(all.map((c) => c.off_permil));
  const errors = all.map((c) => c.error_ratio).filter(Number.isFinite);
  const alike = errors.filter((r) => Math.abs(r - 1) < 0.2).length;
  t.diagnostic(`farthest ${worst.toFixed(3)} ka; ${near} of ${all.length} within 0.02 ka`);
  t.diagnostic(`initial δ234U typically ${permil.toFixed(3)} ‰ off`);
  t.diagnostic(
    `errors: median ratio ${median(errors).toFixed(3)}, ${alike} of ${errors.length} within 20 % (correlations are not published)`,
  );
  t.diagnostic(
    `${all.filter((c) => c.isClosed).length} of ${all.length} corals pass 147 ± 7 ‰ of initial δ234U`,
  );
  assert.ok(all.length === 509 && worst < 0.05, `${worst}`);
  assert.ok(near >= 504, `${near}`);
  assert.ok(permil < 0.05, `${permil}`);
  assert.ok(Math.abs(median(errors) - 1) < 0.2, `${median(errors)}`);
});

test('the constants of 2000 are told from those of 2013 by the same corals', (t) => {
  const off = median(ofCorals(cheng2000).map((c) => c.off_ka));
  t.diagnostic(`typically ${off.toFixed(3)} ka off with the constants of 2000`);
  assert.ok(off > 0.05);
});

const SETS = 4000;
/** Four standard errors of a share of 0.95 of so many sets: √(0.95·0.05/4000) = 0.0034. */
const ALLOWED = 0.0138;
const SEA = 1.147;

interface Grown {
  thorium: number;
  uranium: number;
}

/** Ratios today of what formed in the sea `age` years ago with so much 230Th. */
function grown(age: number, initial230 = 0): Grown {
  const { lambda230: l0, lambda234: l4 } = cheng2013;
  const excess = (SEA - 1) * exp(-l4 * age);
  const thorium =
    1 -
    exp(-l0 * age) +
    excess * (l0 / (l0 - l4)) * (1 - exp(-(l0 - l4) * age)) +
    initial230 * exp(-l0 * age);
  return { thorium, uranium: 1 + excess };
}

/** Shares of sets whose 95 % hold the age, and whose initial δ234U passes. */
function coverage(
  seed: number,
  change: (grown: Grown, normal: () => number) => Grown,
  detritus = 0,
): { held: number; closed: number } {
  const stream = randomStream(seed);
  const sets = Array.from({ length: SETS }, () => {
    const age = 3000 + 150_000 * stream.uniform();
    // 1e-6 of atoms are 0.18589 in activity for each ppm: 9.1705e-6 / (ln 2 / 14.05e9).
    const initial = detritus === 0 ? 0 : detritus * 0.185886 * (4.4 + 2.2 * stream.normal());
    const truth = change(grown(age, initial), () => stream.normal());
    const sd = { thorium: 0.002 * truth.thorium, uranium: 0.001 };
    const thorium = truth.thorium + sd.thorium * stream.normal();
    const found = aged(
      {
        th230_u238: { value: thorium, sd: sd.thorium },
        u234_u238: { value: truth.uranium + sd.uranium * stream.normal(), sd: sd.uranium },
        correlation: 0,
        th230_th232: detritus === 0 ? null : thorium / detritus,
      },
      cheng2013,
      detritus === 0 ? null : { atomic_ppm: 4.4, sd_ppm: 2.2 },
    );
    const isHeld =
      found.younger95_yr <= age && (found.older95_yr === null || age <= found.older95_yr) ? 1 : 0;
    return { held: isHeld, closed: openSystem(found) === null ? 1 : 0 };
  });
  return { held: mean(sets.map((s) => s.held)), closed: mean(sets.map((s) => s.closed)) };
}

test('95 % hold the age of closed systems (4,000 samples, seed 11)', (t) => {
  const { held, closed } = coverage(11, (truth) => truth);
  t.diagnostic(`${(100 * held).toFixed(1)} %; ${(100 * closed).toFixed(1)} % pass the initial δ234U`);
  assert.ok(Math.abs(held - 0.95) < ALLOWED, `${held}`);
});

test('95 % hold the age where detritus is corrected for as it was (4,000 samples, seed 12)', (t) => {
  const { held } = coverage(12, (truth) => truth, 0.02);
  t.diagnostic(`${(100 * held).toFixed(1)} %`);
  assert.ok(Math.abs(held - 0.95) < ALLOWED, `${held}`);
});

test('truths outside the model, printed (4,000 samples each, seed 13)', (t) => {
  const printed = (what: string, change: (truth: Grown, normal: () => number) => Grown): void => {
    const { held, closed } = coverage(13, change);
    t.diagnostic(
      `95 % hold the age of ${(100 * held).toFixed(1)} %, ${(100 * closed).toFixed(1)} % pass the initial δ234U: ${what}`,
    );
  };
  printed('uranium of the sea gained lately, 3 % typically', ({ thorium, uranium }, normal) => {
    const gain = Math.abs(0.03 * normal());
    return { thorium: thorium / (1 + gain), uranium: (uranium + SEA * gain) / (1 + gain) };
  });
  printed('uranium lost lately, 3 % typically', ({ thorium, uranium }, normal) => ({
    thorium: thorium * (1 + Math.abs(0.03 * normal())),
    uranium,
  }));
  printed('234U and 230Th gained together, 0.01 typically', ({ thorium, uranium }, normal) => {
    const gain = Math.abs(0.01 * normal());
    return { thorium: thorium + gain, uranium: uranium + gain };
  });
  printed('detritus not corrected for, 0.02 of 232Th/238U', ({ thorium, uranium }) => ({
    thorium: thorium + 0.015,
    uranium,
  }));
});
