/**
 * Whether the 95.4 % sets of dates in sequence hold the true year: eight rings, ten years apart, on IntCal20, 200 sets.
 * Bounds by docs/bounds.md rule 1: within the model at least 0.905 (0.954 less 3.3 sampling errors of 200 sets, 0.015);
 * a curve error all members share at least 0.9 (0.05 of a coverage is what a reader would mind). A ring 150 yr too
 * old, six laboratory errors, is to be named in at least 0.9. What else lies outside the model is printed.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { randomStream } from '@stillstand/science/base';
import { calibrationSets, DISAGREES, matchSequence, type SequenceMember } from '@stillstand/science/dating';

const SETS = 200;
const RINGS = 8;
const GAP = 10;
const ERROR = 25;

interface Truth {
  /** The error of each gap that is stated, yr. */
  stated_sd?: number;
  /** How its errors come: each its own, or adding up from ring to ring. */
  adding_up?: boolean;
  shared_curve_error?: boolean;
  /** 14C yr that the third ring is too old. */
  wrong?: number;
  /** Years nobody counted, between the fourth ring and the fifth. */
  missing?: number;
  /** ΔR and its error, shared by all. */
  shared_offset_sd?: number;
  holds?: number;
  names?: number;
}

const TRUTHS: Readonly<Record<string, Truth>> = {
  'as the model has it': { holds: 0.905 },
  'gaps ± 4 yr, each its own': { stated_sd: 4, holds: 0.905 },
  'ΔR ± 40 yr shared by all': { shared_offset_sd: 40, holds: 0.905 },
  'the curve’s error shared by all': { shared_curve_error: true, holds: 0.9 },
  'gaps ± 4 yr, adding up along the sequence': { stated_sd: 4, adding_up: true },
  'third ring 150 yr too old': { wrong: 150, names: 0.9 },
  'three years not counted': { missing: 3 },
  'fifteen years not counted': { missing: 15 },
};

test('dates in sequence hold their year, 200 sets, seed 312', async () => {
  const curve = await loadCurve('intcal20');
  for (const [name, truth] of Object.entries(TRUTHS)) {
    const stream = randomStream(312).split(name);
    const count = { first: 0, last: 0, named: 0, unfit: 0 };
    for (let set = 0; set < SETS; set++) {
      const first = Math.floor(600 + 4000 * stream.uniform());
      const shift = (truth.shared_offset_sd ?? 0) * stream.normal();
      const together = stream.normal();
      let drift = 0;
      const years: number[] = [];
      const members = Array.from({ length: RINGS }, (_, i): SequenceMember => {
        const error = i === 0 ? 0 : (truth.stated_sd ?? 0) * stream.normal();
        drift = truth.adding_up ? drift + error / Math.sqrt(RINGS / 2) : error;
        const year = Math.round(first - i * GAP - drift - (i > 3 ? (truth.missing ?? 0) : 0));
        years.push(year);
        const at = year - curve.from_cal_bp;
        const own = stream.normal();
        const of = truth.shared_curve_error ? together : own;
        const c14_age =
          curve.c14_age[at]! +
          curve.sigma_yr[at]! * of +
          ERROR * stream.normal() +
          shift +
          (i === 2 ? (truth.wrong ?? 0) : 0);
        return {
          id: `R${i + 1}`,
          c14_age,
          error_yr: ERROR,
          offset_yr: 0,
          offset_sd_yr: truth.shared_offset_sd ?? 0,
          offset_group: truth.shared_offset_sd === undefined ? null : 'all',
          after_first_yr: i * GAP,
          after_first_sd_yr: i === 0 ? 0 : (truth.stated_sd ?? 0),
          block_yr: 1,
          curve,
        };
      });
      const answer = matchSequence(members);
      assert.ok(answer.kind === 'matched');
      const holds = (m: number): boolean =>
        calibrationSets(answer.members[m]!.age, 0.954).some(
          (s) => s.younger_cal_bp <= years[m]! && years[m]! <= s.older_cal_bp,
        );
      if (holds(0)) count.first++;
      if (holds(RINGS - 1)) count.last++;
      if (answer.members[2]!.agreement < DISAGREES / RINGS) count.named++;
      if (answer.p < 0.05) count.unfit++;
    }
    const share = (n: number): string => (n / SETS).toFixed(3);
    console.log(
      `${name}: first ${share(count.first)}, last ${share(count.last)}; third ring named ${share(count.named)}; chi-square fails ${share(count.unfit)}`,
    );
    const { holds, names } = truth;
    if (holds !== undefined) {
      assert.ok(count.first / SETS >= holds, `${name}: first ring ${share(count.first)}`);
      assert.ok(count.last / SETS >= holds, `${name}: last ring ${share(count.last)}`);
    }
    if (names !== undefined) assert.ok(count.named / SETS >= names, `${name}: named ${share(count.named)}`);
  }
});
