/**
 * Answers of the curve under the prior: seas drawn from it by dense algebra, twenty dated index points on each, and of
 * every answer whether its 95 % hold the truth and whether its probabilities come true. The truth is read off the drawn
 * path every 40 yr by plain code; the curve reports every 200 yr, so that what lies between is asked of the cubic. An age
 * that may not be is asked of those seas where it is: what holds 95 % given the event in each posterior holds 95 % of
 * such seas.
 *
 * Bounds, set before the first run: a share of n seas no more than 4 standard errors, 4√(0.95·0.05/n), below 0.95; above
 * it none, since an age at an end of the curve is held whenever that end is in its 95 %. What happened against the sum of
 * the probabilities: 4 standard errors, √Σp(1 − p). At least nine seas in ten converge. Seed 31, 40 seas in
 * the gate; STILLSTAND_SETS=400 takes more.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import {
  answerTo,
  type CurvePoint,
  type CurveResult,
  type CurveSettings,
  computeCurve,
  DEFAULT_CURVE_SETTINGS,
  differenceFrom,
  isAnswer,
  type NoAnswer,
} from '@stillstand/science/curve';
import { drawSea } from './simulated-sea.ts';

const SETS = Number(process.env['STILLSTAND_SETS'] ?? 40);
const STEP = 40;
const OLDEST = 8000;
/** Oldest first. */
const GRID = Array.from({ length: OLDEST / STEP + 1 }, (_, i) => OLDEST - STEP * i);

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  priors: { ...DEFAULT_CURVE_SETTINGS.priors, rate_mean_mm_yr: 1 },
  outliers: null,
  depth_order: false,
  burial_percent: null,
  tie: null,
  ages_cal_bp: Array.from({ length: 41 }, (_, i) => 200 * i),
  intervals: [],
  chains: 2,
  draws: 400,
};

interface Truth {
  /** At each age of the grid, m. */
  level: number[];
  /** Between each and the next younger, mm/yr. */
  rate: number[];
}

const LEVEL = 0;
const RATE = 1;
const YEARS = 1000;

/** First age from the oldest on at which values at `ages` go from one side of `value` to the other. */
function crossings(
  values: readonly number[],
  ages: readonly number[],
  value: number,
  to: 'above' | 'below',
): number[] {
  const found: number[] = [];
  const isAbove = values.map((x) => x >= value);
  for (let i = 1; i < values.length; i++) {
    if (isAbove[i] === isAbove[i - 1] || isAbove[i] !== (to === 'above')) continue;
    const share = (value - values[i - 1]!) / (values[i]! - values[i - 1]!);
    found.push(ages[i - 1]! + share * (ages[i]! - ages[i - 1]!));
  }
  return found;
}

/** Index of the largest. */
const largest = (x: readonly number[]): number =>
  x.reduce((best, value, i) => (value > x[best]! ? i : best), 0);

type Seen = Map<string, { held: number; of: number }>;
type Foretold = Map<string, { happened: number; expected: number; variance: number }>;

function hold(
  seen: Seen,
  what: string,
  truth: number | null,
  amount: { lower95: number; upper95: number } | null,
): void {
  if (truth === null || amount === null) return;
  const count = seen.get(what) ?? { held: 0, of: 0 };
  const slack = 1e-6;
  count.of += 1;
  if (truth >= amount.lower95 - slack && truth <= amount.upper95 + slack) count.held += 1;
  seen.set(what, count);
}

function foretell(seen: Foretold, what: string, happened: boolean, { p }: { p: number }): void {
  const count = seen.get(what) ?? { happened: 0, expected: 0, variance: 0 };
  count.happened += happened ? 1 : 0;
  count.expected += p;
  count.variance += p * (1 - p);
  seen.set(what, count);
}

function said<Answer extends object>(found: { answer: Answer } | NoAnswer): Answer {
  assert.ok(isAnswer(found), JSON.stringify(found));
  return found.answer;
}

test(`95 % of every answer and its probabilities, seas from the prior (seed 31, ${SETS} sets)`, {
  timeout: 3_600_000,
}, (t) => {
  const seen: Seen = new Map();
  const foretold: Foretold = new Map();
  let converged = 0;
  let before: { curve: CurveResult; truth: Truth } | null = null;
  for (let set = 0; set < SETS; set++) {
    const { curve, truth } = sea(set);
    if (curve.diagnostics.converged) converged += 1;
    compare(curve, truth, seen, foretold);
    if (before !== null) {
      const difference = differenceFrom(curve, before.curve, true);
      assert.ok(isAnswer(difference));
      const at = (age: number): number => (OLDEST - age) / STEP;
      const off = (age: number): number => truth.level[at(age)]! - before!.truth.level[at(age)]!;
      hold(
        seen,
        'difference of level',
        off(3000),
        difference.at.find(({ age_cal_bp }) => age_cal_bp === 3000)!.level_m,
      );
      hold(
        seen,
        'difference of mean rate',
        (1000 * (off(0) - off(OLDEST))) / OLDEST,
        difference.mean_rate_mm_yr,
      );
    }
    before = { curve, truth };
  }
  t.diagnostic(`${converged} of ${SETS} converged`);
  const failed: string[] = [];
  for (const [what, { held, of }] of seen) {
    const bound = 0.95 - 4 * Math.sqrt((0.95 * 0.05) / of);
    const line = `${what}: ${(held / of).toFixed(3)} of ${of} held, at least ${bound.toFixed(3)}`;
    t.diagnostic(line);
    if (held / of < bound) failed.push(line);
  }
  for (const [what, { happened, expected, variance }] of foretold) {
    const z = (happened - expected) / Math.sqrt(variance);
    const line = `${what}: happened ${happened}, foretold ${expected.toFixed(1)}, ${z.toFixed(1)} standard errors`;
    t.diagnostic(line);
    if (!(Math.abs(z) < 4)) failed.push(line);
  }
  assert.deepEqual(failed, []);
  assert.ok(converged >= 0.9 * SETS, `${converged} converged`);
});

function sea(set: number): { curve: CurveResult; truth: Truth } {
  const stream = randomStream(31).split(set);
  const dates = Array.from({ length: 20 }, () => {
    const mean_cal_bp = 100 + 7800 * stream.uniform();
    return { mean_cal_bp, age: mean_cal_bp + 60 * stream.normal() };
  });
  const drawn = drawSea(settings.priors, [...GRID, ...dates.map(({ age }) => age)], [], stream);
  const points = dates.map(({ mean_cal_bp, age }, i): CurvePoint => {
    const height_m = drawn.level_m(age) + 0.3 * stream.normal();
    return {
      id: `P${i}`,
      kind: 'index',
      height_m,
      sigma_m: 0.3,
      half_range_m: 0,
      lowering_m: 0,
      shared: [],
      age: { kind: 'normal', mean_cal_bp, sd_yr: 60 },
    };
  });
  const level = GRID.map(drawn.level_m);
  const rate = level.slice(1).map((m, i) => (1000 * (m - level[i]!)) / STEP);
  return { curve: computeCurve(points, settings), truth: { level, rate } };
}

function compare(curve: CurveResult, { level, rate }: Truth, seen: Seen, foretold: Foretold): void {
  const at = (age: number): number => (OLDEST - age) / STEP;
  const mean = (older: number, younger: number): number =>
    (1000 * (level[at(younger)]! - level[at(older)]!)) / (older - younger);
  const middles = GRID.slice(1).map((age) => age + STEP / 2);

  const passed = said(answerTo(curve, { kind: 'passed', level_m: LEVEL, window: null }));
  const rises = crossings(level, GRID, LEVEL, 'above');
  hold(seen, 'first rise through 0 m', rises[0] ?? null, passed.age_cal_bp);
  foretell(foretold, 'rise through 0 m', rises.length > 0, passed.passed);
  foretell(foretold, 'rise through 0 m more than once', rises.length > 1, passed.more_than_once);
  foretell(foretold, 'above 0 m at the start', level[0]! >= LEVEL, passed.above_at_start);

  const highest = said(answerTo(curve, { kind: 'highest', window: null }));
  const top = largest(level);
  hold(seen, 'highest stand', level[top]!, highest.level_m);
  hold(seen, 'age of the highest stand', GRID[top]!, highest.age_cal_bp);
  hold(seen, 'highest stand above the youngest', level[top]! - level.at(-1)!, highest.above_youngest_m);
  foretell(foretold, 'highest stand above 0', level[top]! > 0, highest.above_zero);
  foretell(foretold, 'highest stand at the younger end', top === level.length - 1, highest.at_younger_end);

  const fastest = said(answerTo(curve, { kind: 'fastest', years: YEARS, window: null }));
  const stretches = GRID.filter((age) => age >= YEARS).map((age) => mean(age, age - YEARS));
  const [most, least] = [largest(stretches), largest(stretches.map((each) => -each))];
  hold(seen, 'rate of the fastest 1,000 yr', stretches[most]!, fastest.fastest.rate_mm_yr);
  hold(seen, 'middle of the fastest 1,000 yr', GRID[most]! - YEARS / 2, fastest.fastest.middle_cal_bp);
  hold(seen, 'rate of the slowest 1,000 yr', stretches[least]!, fastest.slowest.rate_mm_yr);
  hold(seen, 'middle of the slowest 1,000 yr', GRID[least]! - YEARS / 2, fastest.slowest.middle_cal_bp);

  const slowed = said(answerTo(curve, { kind: 'slowed', mm_yr: RATE, window: null }));
  const falls = crossings(rate, middles, RATE, 'below');
  const isForGood = rate.at(-1)! < RATE && falls.length > 0;
  hold(seen, 'rate first below 1 mm/yr', falls[0] ?? null, slowed.first.age_cal_bp);
  hold(seen, 'rate below 1 mm/yr for good', isForGood ? falls.at(-1)! : null, slowed.for_good.age_cal_bp);
  foretell(foretold, 'rate falls below 1 mm/yr', falls.length > 0, slowed.first.happened);
  foretell(foretold, 'rate below 1 mm/yr for good', isForGood, slowed.for_good.happened);
  foretell(
    foretold,
    'rate below 1 mm/yr throughout',
    rate.every((each) => each < RATE),
    slowed.below_throughout,
  );

  const change = said(answerTo(curve, { kind: 'acceleration', window: null }));
  const quicker = (mean(4000, 0) - mean(8000, 4000)) / 4;
  hold(seen, 'acceleration', quicker, change.mm_yr_per_ka);
  foretell(foretold, 'acceleration above 0', quicker > 0, change.quickened);

  const window = { older_cal_bp: 6120, younger_cal_bp: 2280 };
  const over = said(answerTo(curve, { kind: 'mean rate above', mm_yr: RATE, window }));
  hold(seen, 'mean rate', mean(6120, 2280), over.rate_mm_yr);
  foretell(foretold, 'mean rate above 1 mm/yr', mean(6120, 2280) > RATE, over.above);
  const now = said(answerTo(curve, { kind: 'rate above', mm_yr: RATE, age_cal_bp: 3300 }));
  hold(seen, 'rate at an age', mean(3320, 3280), now.rate_mm_yr);
  foretell(foretold, 'rate at an age above 1 mm/yr', mean(3320, 3280) > RATE, now.above);
}
