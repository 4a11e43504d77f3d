/**
 * Holes of shells whose reservoir offset has one unknown error (100 14C yr, 1 sigma), their truth drawn from the prior and the
 * error once for all dates: read as one, and as each date's own as it was before. Bounds were set before measuring: 95 % hold
 * 0.90 to 0.99 of the true ages with the error as one, 90 % of the holes settle. Out of the assumption the coverage is stated,
 * not bounded. Seed 91.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import {
  mean,
  quantiles,
  type RandomStream,
  randomStream,
  standardDeviation,
} from '@stillstand/science/base';
import { type AgeDepth, ageDepthTogether } from '@stillstand/science/dating';
import { OFFSET_SD_YR, type ShellHole, shellHole } from './shells-of-holes.ts';

const SEED = 91;
const HOLES = Number(process.env['STILLSTAND_HOLES'] ?? 40);
const ROBUST = 12;
const PAIRS = 8;
const DATES = Number(process.env['STILLSTAND_SHELLS'] ?? 6);
/** Where ages are asked for, m. */
const DEPTHS = [0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5];

const marine = await loadCurve('marine20');

interface Measured {
  /** Share of the true ages that 95 % hold, by hole. */
  held: number[];
  width_yr: number[];
  converged: number;
  /** Mean and sd found of the error less its truth, in its sds. */
  off: number[];
  sd: number[];
}

const nothing = (): Measured => ({ held: [], width_yr: [], converged: 0, off: [], sd: [] });

function note(into: Measured, { truth }: ShellHole, result: AgeDepth, error: number): void {
  let held = 0;
  let width = 0;
  for (const depth_m of DEPTHS) {
    const [low, high] = quantiles(result.agesAt(depth_m), [0.025, 0.975]) as [number, number];
    const is = truth.age_cal_bp(depth_m);
    width += (high - low) / DEPTHS.length;
    if (is >= low && is <= high) held++;
  }
  into.held.push(held / DEPTHS.length);
  into.width_yr.push(width);
  if (result.diagnostics.converged) into.converged++;
  for (const { shift_yr } of result.shared) {
    into.off.push(shift_yr.mean / OFFSET_SD_YR - error);
    into.sd.push(shift_yr.sd / OFFSET_SD_YR);
  }
}

const inWords = ({ held, width_yr, converged, off, sd }: Measured): string =>
  `95 % hold ${mean(held).toFixed(3)} (error between holes ${(standardDeviation(held) / Math.sqrt(held.length)).toFixed(3)}), ${mean(width_yr).toFixed(0)} yr wide; ${converged} of ${held.length} settled` +
  (off.length === 0
    ? ''
    : `; error found ±${mean(sd).toFixed(2)} sds, off by ${Math.sqrt(mean(off.map((z) => z * z))).toFixed(2)} (root mean square)`);

/** Holes of one group, read together and each date by itself. */
function both(
  holesOf: (stream: RandomStream) => { holes: ShellHole[]; error: number },
  count: number,
  name: string,
): { one: Measured[]; own: Measured[] } {
  const one: Measured[] = [];
  const own: Measured[] = [];
  for (let k = 0; k < count; k++) {
    const stream = randomStream(SEED).split(name).split(k);
    const { holes, error } = holesOf(stream);
    for (const [into, isOne] of [
      [one, true],
      [own, false],
    ] as const) {
      const asked = holes.map(({ together }) => (isOne ? together : { ...together, shared: [] }));
      const results = ageDepthTogether(asked, stream.split('run'));
      for (const [h, result] of results.entries()) {
        assert(result.kind === 'age_depth');
        if (into.length === h) into.push(nothing());
        note(into[h]!, holes[h]!, result, error);
      }
    }
  }
  return { one, own };
}

test(`${HOLES} holes of ${DATES} shells, one error each (seed ${SEED})`, (t) => {
  const { one, own } = both(
    (stream) => {
      const error = stream.normal();
      const dates = { hole: 'H1', dates: DATES, error: () => error };
      return { holes: [shellHole(marine, dates, stream.split('hole'))], error };
    },
    HOLES,
    'one',
  );
  t.diagnostic(`as one: ${inWords(one[0]!)}`);
  t.diagnostic(`as each date's own: ${inWords(own[0]!)}`);
  const share = mean(one[0]!.held);
  assert(share >= 0.9 && share <= 0.99, `95 % hold ${share}`);
  assert(one[0]!.converged >= 0.9 * HOLES, `${one[0]!.converged} of ${HOLES} settled`);
});

test(`${PAIRS} pairs of holes of one error, the second with dates of another clock too`, (t) => {
  const { one, own } = both(
    (stream) => {
      const error = stream.normal();
      const dates = { dates: DATES, error: () => error };
      return {
        holes: [
          shellHole(marine, { ...dates, hole: 'H1' }, stream.split('first')),
          shellHole(marine, { ...dates, hole: 'H2', other: [1, 3, 5] }, stream.split('second')),
        ],
        error,
      };
    },
    PAIRS,
    'pairs',
  );
  for (const [h, name] of ['the first', 'the second, three dates of another clock'].entries()) {
    t.diagnostic(`${name}, as one: ${inWords(one[h]!)}`);
    t.diagnostic(`${name}, as each date's own: ${inWords(own[h]!)}`);
  }
  assert(one[0]!.converged + one[1]!.converged >= 0.9 * 2 * PAIRS);
  // What the other clock knows of the error reaches the hole that has none: it is known better than it was stated.
  assert(mean(one[0]!.sd) < 0.9, `±${mean(one[0]!.sd)} sds`);
});

for (const [name, error, stranger] of [
  ['the error three sds off', 3, false],
  ['one of the dates not of the group, without the error of one sd that the others have', 1, true],
] as const) {
  test(`out of the assumption: ${name}, ${ROBUST} holes`, (t) => {
    const { one, own } = both(
      (stream) => {
        const odd = stream.integer(DATES);
        const dates = {
          hole: 'H1',
          dates: DATES,
          error: (i: number) => (stranger && i === odd ? 0 : error),
        };
        return { holes: [shellHole(marine, dates, stream.split('hole'))], error };
      },
      ROBUST,
      name,
    );
    t.diagnostic(`as one: ${inWords(one[0]!)}`);
    t.diagnostic(`as each date's own: ${inWords(own[0]!)}`);
  });
}
