/**
 * Points with ages from the dates of their hole, on seas of known truth. A marsh keeps up with a sea that rose ever more
 * slowly, nearer to it and farther from it by turns; how far is read from each sample with an error of its own (0.15 m, 1
 * sigma). So depth says the age and age says the depth. Seven dates (60 to 100 yr) at depths off alike by 8 cm and each by 3 cm, one date in
 * fifteen off by centuries; eight index points at other depths, undated.
 *
 * Held, set before measuring: 95 % intervals of ages, levels and rates hold their truths in at least 0.85 of the cases (of
 * sixteen sets with about three independent answers each, 0.95 less 3.3 standard errors of 0.031). Asked too, printed
 * whatever it is, of a set each in the gate: a hole with 700 years missing that no contact tells of; depths that are off three times as far as said; and
 * a marsh that stands still for centuries and whose samples do not say how far it was from the sea, so that the errors of
 * heights side by side are alike.
 * Seed 41. `STILLSTAND_SETS=60 node --import ./scripts/typescript.mjs --test checks/curve/ages-by-depth.long.test.ts`
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, type RandomStream, randomStream } from '@stillstand/science/base';
import type { HoleOfClocks } from '@stillstand/science/clocks';
import { type CurvePoint, computeCurve, DEFAULT_CURVE_SETTINGS } from '@stillstand/science/curve';
import { ageDepthDefaults } from '@stillstand/science/dating';
import { partOrWhole } from '../bounds/part.ts';

const SETS = Number(process.env['STILLSTAND_SETS'] ?? 16);
const STATES = 200;
const MEANING_M = 0.15;
const HEIGHT_SIGMA_M = 0.1;
const AGES = [1500, 2500, 3500, 4500, 5500];
const INTERVALS = [
  { older_cal_bp: 5000, younger_cal_bp: 3500 },
  { older_cal_bp: 3500, younger_cal_bp: 1500 },
];

/** m: 4 mm/yr at 6,000 cal BP, a tenth of it today. */
const sea = (t: number): number => -0.0004 * t - 0.0004 * (exp(t / 2600) - 1) * 1000;

interface Truth {
  gap_yr: number;
  depthTimes: number;
  /** Whether a sample says how far from the sea it formed. */
  isMeaningRead: boolean;
}

interface Set {
  points: CurvePoint[];
  trueAges: number[];
}

function drawSet({ gap_yr, depthTimes, isMeaningRead }: Truth, stream: RandomStream): Set {
  // The surface above the sea of its time; with the slower swing it never stands still.
  const phase = 6 * stream.uniform();
  const wander = (t: number): number =>
    MEANING_M * Math.sqrt(2) * Math.sin(phase + t / (isMeaningRead ? 900 : 350));
  const gapAt = 3600;
  const isThere = (t: number): boolean => t < gapAt || t > gapAt + gap_yr;
  const ground = 0.4;
  /** Below the ground; where the surface would have sunk it stood still. */
  const depthOf = (t: number): number => {
    let lowest = 0;
    for (let s = 0; s <= t; s += 10) if (isThere(s)) lowest = Math.max(lowest, ground - sea(s) - wander(s));
    return lowest;
  };
  const alike = Float64Array.from({ length: STATES }, () => stream.normal());
  const trueShift = depthTimes * 0.08 * stream.normal();
  const drawsOf = (depth_m: number): Float64Array => {
    const measured = depth_m - trueShift - depthTimes * 0.03 * stream.normal();
    return alike.map((shift) => measured + 0.08 * shift + 0.03 * stream.normal());
  };
  const anAge = (from: number, to: number): number => {
    for (;;) {
      const t = from + (to - from) * stream.uniform();
      if (isThere(t)) return t;
    }
  };
  const horizons = Array.from({ length: 7 }, (_, i) => {
    const t = anAge(600 + 750 * i, 1350 + 750 * i);
    const sd = 60 + 40 * stream.uniform();
    const isOut = stream.uniform() < 1 / 15;
    const read = t + sd * stream.normal() + (isOut ? (stream.uniform() < 0.8 ? 1 : -1) * 600 : 0);
    const from_cal_bp = Math.floor(read - 6 * sd);
    return {
      id: `D${i + 1}`,
      depth_m: drawsOf(depthOf(t)),
      age: {
        from_cal_bp,
        density: Float64Array.from({ length: Math.ceil(12 * sd) }, (_, k) =>
          exp(-0.5 * ((from_cal_bp + k - read) / sd) ** 2),
        ),
      },
    };
  });
  const bottom_m = 1 + Math.max(...horizons.map(({ depth_m }) => Math.max(...depth_m)));
  const clocks: HoleOfClocks = {
    hole: 'H',
    input: { horizons, surface: null, breaks: [], bottom_m },
    lead: null,
    shared: [],
    settings: ageDepthDefaults,
  };
  const trueAges = Array.from({ length: 8 }, (_, i) => anAge(900 + 600 * i, 1500 + 600 * i));
  const points = trueAges.map((t, i): CurvePoint => {
    const depth_m = drawsOf(depthOf(t));
    const at = depth_m.reduce((a, b) => a + b) / STATES;
    return {
      id: `P${i + 1}`,
      kind: 'index',
      height_m:
        ground -
        at -
        (isMeaningRead ? wander(t) + MEANING_M * stream.normal() : 0) +
        HEIGHT_SIGMA_M * stream.normal(),
      sigma_m: Math.hypot(MEANING_M, HEIGHT_SIGMA_M),
      half_range_m: 0,
      lowering_m: 0,
      shared: [],
      age: {
        kind: 'of_hole',
        clocks,
        depth_m,
        height_at_m: at,
        date: null,
        alone_cal_bp: { mean: t, sd_yr: 200 },
      },
    };
  });
  return { points, trueAges };
}

interface Held {
  ages: number;
  levels: number;
  rates: number;
  converged: number;
  of: { ages: number; levels: number; rates: number };
}

function heldIn(truth: Truth, sets: number, stream: RandomStream): Held {
  const held: Held = { ages: 0, levels: 0, rates: 0, converged: 0, of: { ages: 0, levels: 0, rates: 0 } };
  const isIn = (x: number, low: number, high: number): number => (x >= low && x <= high ? 1 : 0);
  for (let s = 0; s < sets; s++) {
    const { points, trueAges } = drawSet(truth, stream.split(s));
    const found = computeCurve(points, {
      ...DEFAULT_CURVE_SETTINGS,
      ages_cal_bp: AGES,
      intervals: INTERVALS,
      seed: s + 1,
    });
    held.converged += found.diagnostics.converged ? 1 : 0;
    found.points.forEach(({ age_cal_bp }, i) => {
      held.ages += isIn(trueAges[i]!, age_cal_bp.lower95, age_cal_bp.upper95);
      held.of.ages++;
    });
    AGES.forEach((t, k) => {
      held.levels += isIn(sea(t), found.level_m.lower95[k]!, found.level_m.upper95[k]!);
      held.of.levels++;
    });
    found.intervals.forEach(({ older_cal_bp: old, younger_cal_bp: young, rate_mm_yr }) => {
      const rate = (1000 * (sea(young) - sea(old))) / (old - young);
      held.rates += isIn(rate, rate_mm_yr.lower95, rate_mm_yr.upper95);
      held.of.rates++;
    });
  }
  return held;
}

const told = ({ ages, levels, rates, converged, of }: Held, sets: number): string =>
  `95 % hold ages ${(ages / of.ages).toFixed(3)}, levels ${(levels / of.levels).toFixed(3)}, rates ${(rates / of.rates).toFixed(3)}; ${converged} of ${sets} converged`;

const stream = randomStream(41).split('ages by depth');

test(`a sea seen by points dated by their depth is held as promised, ${SETS} sets of seed 41`, (t) => {
  const held = heldIn({ gap_yr: 0, depthTimes: 1, isMeaningRead: true }, SETS, stream.split('within'));
  t.diagnostic(told(held, SETS));
  assert.ok(held.ages / held.of.ages >= 0.85);
  assert.ok(held.levels / held.of.levels >= 0.85);
  assert.ok(held.rates / held.of.rates >= 0.85);
});

test('truths that the model does not have are asked', (t) => {
  const sets = Math.ceil(SETS / partOrWhole(16, 4));
  const gap = heldIn({ gap_yr: 700, depthTimes: 1, isMeaningRead: true }, sets, stream.split('gap'));
  t.diagnostic(`700 years missing: ${told(gap, sets)}`);
  const off = heldIn({ gap_yr: 0, depthTimes: 3, isMeaningRead: true }, sets, stream.split('off'));
  t.diagnostic(`depths off three times as far: ${told(off, sets)}`);
  const still = heldIn({ gap_yr: 0, depthTimes: 1, isMeaningRead: false }, sets, stream.split('still'));
  t.diagnostic(`a marsh that stood still, its meaning not read: ${told(still, sets)}`);
});
