/**
 * Holes that are no draws from the prior: accumulation that is even, that rises sevenfold at once, and that swings; eight
 * radiocarbon dates of 30 yr, of which one is 800 yr too old and in every second hole another 600 yr too young; depths with
 * a common and a separate error. Ages at 19 depths without a date, and the naming of the dates out of place. Seed 51. The gate
 * takes the second truth, `STILLSTAND_TRUTHS=all` each.
 *
 * **Coverage.** 95 % is not owed to truths outside the prior. The least share of each truth is as first written, without a
 * reason; nothing is allowed off it. The ages of one hole go together, so the error of a share is that between holes.
 *
 * **Naming.** A date is named where it is more likely out of place than not. Set before measuring, by the two usual numbers
 * of a test: four in five of the bad dates are named (power 0.8; Cohen 1988, Statistical Power Analysis, 2nd ed.; from
 * memory) and one in twenty of the good at most (level 0.05, which is also how many the prior thinks are bad). Two binomial
 * sds of the dates asked are allowed.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { mean, quantiles, randomStream, standardDeviation } from '@stillstand/science/base';
import {
  ageDepth,
  ageDepthDefaults,
  calibrate,
  type DatedHorizon,
  isProbableOutlier,
} from '@stillstand/science/dating';
import { knownToFail } from '../bounds/known-to-fail.ts';

const HOLES = 16;
const SEED = 51;
const STATES = 100;
const BOTTOM_M = 6;
/** Where ages are asked for, m. */
const DEPTHS = Array.from({ length: 19 }, (_, k) => 0.3 * (k + 1));
const NAMED = 0.8;
const FALSELY = 0.05;

interface Truth {
  name: string;
  age_cal_bp: (depth_m: number) => number;
  /** Least share of true ages within 95 %. */
  least: number;
  /** Share of the dates out of place that are named, where it is known to be too few. */
  named: string | null;
}

const truths: Truth[] = [
  { name: 'even, 1.2 mm/yr', age_cal_bp: (d) => -60 + d / 0.0012, least: 0.93, named: null },
  {
    name: '0.4 mm/yr, above 2.5 m 2.8 mm/yr',
    age_cal_bp: (d) => -60 + Math.min(d, 2.5) / 0.0028 + Math.max(0, d - 2.5) / 0.0004,
    least: 0.9,
    named: '0.348',
  },
  {
    name: 'swinging between 0.6 and 2.4 mm/yr over 3 m',
    age_cal_bp: (d) => -60 + 1042 * d - 625 * (1.5 / Math.PI) * Math.sin((Math.PI * d) / 1.5),
    least: 0.9,
    named: '0.476',
  },
];

const chosen = process.env['STILLSTAND_TRUTHS'] === 'all' ? truths : truths.slice(1, 2);

for (const truth of chosen) {
  test(`${truth.name}: ${HOLES} holes with dates out of place, seed ${SEED}`, async (t) => {
    const { held, width_yr, converged, bad, good } = await measured(truth);
    const share = mean(held) / DEPTHS.length;
    const error = standardDeviation(held) / DEPTHS.length / Math.sqrt(HOLES);
    t.diagnostic(
      `95 % hold ${share.toFixed(3)} ± ${error.toFixed(3)} of ${HOLES * DEPTHS.length} ages, mean width ${width_yr.toFixed(0)} yr; converged ${converged} of ${HOLES}`,
    );
    t.diagnostic(`named: ${bad.yes} of ${bad.of} out of place, ${good.yes} of ${good.of} in place`);
    assert(share >= truth.least, `95 % hold ${share}, ${truth.least} promised`);
    const most = FALSELY + 2 * binomialSd(FALSELY, good.of);
    assert(good.yes / good.of <= most, `falsely named ${good.yes} of ${good.of}, ${most} allowed`);
    const least = NAMED - 2 * binomialSd(NAMED, bad.of);
    if (truth.named === null) assert(bad.yes / bad.of >= least, `named ${bad.yes} of ${bad.of} out of place`);
    else
      await knownToFail(t, {
        what: `age–depth, dates out of place that are named, ${truth.name}, ${HOLES} holes, seed ${SEED}`,
        bound: { at_least: least },
        measured: bad.yes / bad.of,
        stated: truth.named,
        since: '2026-11-28',
        page: 'docs/methods/age-depth.md',
      });
  });
}

function binomialSd(p: number, n: number): number {
  return Math.sqrt((p * (1 - p)) / n);
}

interface Count {
  yes: number;
  of: number;
}

/** `held`: how many ages lie within 95 %, by hole. */
async function measured(
  truth: Truth,
): Promise<{ held: Float64Array; width_yr: number; converged: number; bad: Count; good: Count }> {
  const curve = await loadCurve('intcal20');
  const held = new Float64Array(HOLES);
  const bad = { yes: 0, of: 0 };
  const good = { yes: 0, of: 0 };
  let width = 0;
  let converged = 0;
  for (let hole = 0; hole < HOLES; hole++) {
    const stream = randomStream(SEED).split(truth.name).split(hole);
    const shift = Float64Array.from({ length: STATES }, () => 0.04 * stream.normal());
    const state = stream.integer(STATES);
    const wrong = [stream.integer(8), hole % 2 === 0 ? -1 : stream.integer(8)];
    const horizons = Array.from({ length: 8 }, (_, i): DatedHorizon => {
      const depth = (BOTTOM_M * (i + 0.2 + 0.6 * stream.uniform())) / 8;
      const depth_m = shift.map((s) => depth + s + 0.02 * stream.normal());
      let year = Math.round(truth.age_cal_bp(depth_m[state]!));
      if (i === wrong[0]) year += 800;
      else if (i === wrong[1]) year = Math.max(0, year - 600);
      const at = Math.max(0, year) - curve.from_cal_bp;
      const spread = Math.sqrt(30 ** 2 + curve.sigma_yr[at]! ** 2);
      const c14_age = curve.c14_age[at]! + spread * stream.normal();
      const age = calibrate({ c14_age, error_yr: 30, offset_yr: 0, offset_sd_yr: 0 }, curve);
      assert(age.kind === 'calibrated', JSON.stringify(age));
      return { id: `D${i}`, depth_m, age };
    });
    const result = ageDepth(
      { horizons, surface: { age_cal_bp: -60, sd_yr: 2 }, breaks: [], bottom_m: BOTTOM_M },
      ageDepthDefaults,
      stream.split('run'),
    );
    assert(result.kind === 'age_depth');
    if (result.diagnostics.converged) converged++;
    for (const depth_m of DEPTHS) {
      const [low, high] = quantiles(result.agesAt(depth_m), [0.025, 0.975]) as [number, number];
      const is = truth.age_cal_bp(depth_m);
      width += high - low;
      if (is >= low && is <= high) held[hole]!++;
    }
    result.clocks.forEach((horizon, i) => {
      const count = wrong.includes(i) ? bad : good;
      count.of++;
      if (isProbableOutlier(horizon)) count.yes++;
    });
  }
  return { held, width_yr: width / (HOLES * DEPTHS.length), converged, bad, good };
}
