/** Looks gone on from where the last one stood, against the whole curve computed cold. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { computeCurve } from './compute-curve.ts';
import { type CurveState, previewCurve } from './preview.ts';
import type { CurvePoint } from './problem/model.ts';
import { DEFAULT_CURVE_SETTINGS } from './problem/settings.ts';
import type { CurveResult, CurveSettings } from './result/result.ts';

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: [0, 1000, 2000, 3000, 4000, 5000, 6000, 7000],
  intervals: [{ older_cal_bp: 6000, younger_cal_bp: 3000 }],
  seed: 5,
};

/** Radiocarbon ages that stand still for 300 years now and then. */
const steps = {
  name: 'steps',
  from_cal_bp: 0,
  c14_age: Float64Array.from({ length: 10_001 }, (_, i) => i - 150 * Math.sin((2 * Math.PI * i) / 900)),
  sigma_yr: new Float64Array(10_001).fill(15),
};

/** A sea that rose 1.5 mm/yr and then less, seen by every kind of height and age. */
const points: CurvePoint[] = Array.from({ length: 14 }, (_, i) => {
  const age = 400 + 480 * i;
  const level = age < 3000 ? -0.0004 * age : -1.2 - 0.0015 * (age - 3000);
  const kind = i % 5 === 3 ? 'terrestrial' : i % 7 === 4 ? 'marine' : 'index';
  const isIndex = kind === 'index';
  return {
    id: `P${i + 1}`,
    kind,
    height_m: level + (kind === 'terrestrial' ? 0.4 : kind === 'marine' ? -0.4 : 0.15 * Math.sin(5 * i)),
    sigma_m: 0.15,
    half_range_m: isIndex && i % 2 === 0 ? 0.3 : 0,
    lowering_m: isIndex && i % 3 === 0 ? 0.2 : 0,
    shared: [{ group: i < 7 ? 'young' : 'old', sigma_m: 0.1 }],
    age:
      i % 2 === 0
        ? { kind: 'normal', mean_cal_bp: age, sd_yr: 60 }
        : {
            kind: 'radiocarbon',
            c14_age: Math.round(steps.c14_age[age]!) + 40,
            error_yr: 35,
            curve: steps,
            offset_yr: 0,
            offset_sd_yr: 40,
            delta_r_group: 'lagoon',
          },
  };
});

const LOOK = { chains: 4, warm_up: 12, draws: 20 };
/** Of the mean of such a look, in sds of the posterior: about forty of its draws are worth something. */
const ERROR = 0.16;

/** How far the levels and the rate of a look are from the whole curve's, in sds of the posterior. */
function misses(look: CurveResult, whole: CurveResult): number[] {
  const [a, b] = [look.intervals[0]!.rate_mm_yr, whole.intervals[0]!.rate_mm_yr];
  const levels = look.level_m.mean.map((mean, k) => (mean - whole.level_m.mean[k]!) / whole.level_m.sd[k]!);
  return [...levels, (a.mean - b.mean) / b.sd];
}

const base = computeCurve(points, settings);
const [first] = base.points.toSorted((a, b) => b.influence - a.influence);
const changed = (id: string, change: Partial<CurvePoint>): CurvePoint[] =>
  points.map((p) => (p.id === id ? { ...p, ...change } : p));
const EDITS: readonly (readonly [string, readonly CurvePoint[]])[] = [
  ['nothing', points],
  ['the point that decides most left out', points.filter((p) => p.id !== first!.id)],
  ['its error four times as large', changed(first!.id, { sigma_m: 0.6 })],
  ['its height half a metre up', changed(first!.id, { height_m: pointOf(first!.id).height_m + 0.5 })],
  ['a height made a limit', changed('P6', { kind: 'marine', half_range_m: 0, lowering_m: 0 })],
  ['a limit made a height', changed('P4', { kind: 'index' })],
  ['an age moved by five sd', changed('P9', { age: { kind: 'normal', mean_cal_bp: 3940, sd_yr: 60 } })],
  ['a point more', [...points, { ...pointOf('P9'), id: 'new', height_m: pointOf('P9').height_m - 0.3 }]],
  ['half of the points', points.filter((_, i) => i % 2 === 0)],
];

function pointOf(id: string): CurvePoint {
  return points.find((p) => p.id === id)!;
}

test('a look after an edit is the curve of the edited points within its Monte-Carlo error, and unbiased (seeds 1 to 16)', (t) => {
  const seeds = Array.from({ length: 16 }, (_, k) => k + 1);
  const before = seeds.map(
    (seed) => previewCurve(points, { ...settings, seed }, { chains: 4, warm_up: 150, draws: 8 }, null).state,
  );
  for (const [name, edited] of EDITS) {
    const whole = computeCurve(edited, settings);
    assert.ok(whole.diagnostics.converged, name);
    const found = seeds.map((seed, k) =>
      misses(previewCurve(edited, { ...settings, seed }, LOOK, before[k]!).curve, whole),
    );
    const worst = Math.max(...found.flat().map(Math.abs));
    t.diagnostic(`${name}: at most ${worst.toFixed(2)} sd off`);
    // Five errors of one look, and of the mean of sixteen.
    for (const each of found)
      for (const miss of each) assert.ok(Math.abs(miss) < 5 * ERROR, `${name}: off by ${miss} sd`);
    for (let q = 0; q < found[0]!.length; q++) {
      const bias = found.reduce((sum, each) => sum + each[q]!, 0) / seeds.length;
      assert.ok(Math.abs(bias) < (5 * ERROR) / Math.sqrt(seeds.length), `${name}: biased by ${bias} sd`);
    }
  }
});

test('a state of other points does no harm (seed 5)', (t) => {
  const stateOf = (of: readonly CurvePoint[]): CurveState =>
    previewCurve(of, settings, { chains: 2, warm_up: 60, draws: 8 }, null).state;
  const strangers = stateOf(points.map((p) => ({ ...p, id: `other ${p.id}` })));
  // The same names on other ground: heights upside down, ages and kinds of their neighbours.
  const namesakes = stateOf(
    points.map((p, i) => ({ ...points[points.length - 1 - i]!, id: p.id, height_m: -3 * p.height_m })),
  );
  for (const state of [strangers, namesakes]) {
    const { curve } = previewCurve(points, settings, { chains: 4, warm_up: 100, draws: 400 }, state);
    const found = misses(curve, base);
    t.diagnostic(`at most ${Math.max(...found.map(Math.abs)).toFixed(2)} sd off`);
    // As first written: five errors of a look whose 1,600 draws are worth 400.
    for (const miss of found) assert.ok(Math.abs(miss) < 0.25, `off by ${miss} sd`);
  }
});

test('the same state gives the same look, survives being copied, and no look passes for a curve', () => {
  const { state } = previewCurve(points, settings, LOOK, null);
  const look = previewCurve(points, settings, LOOK, state);
  assert.deepEqual(previewCurve(points, settings, LOOK, structuredClone(state)), look);
  const long = previewCurve(points, settings, { chains: 4, warm_up: 0, draws: 1500 }, state);
  assert.ok(long.curve.diagnostics.ess_bulk_min > 400);
  assert.equal(long.curve.diagnostics.converged, false);
  assert.match(long.curve.diagnostics.remarks[0]!, /provisional/);
});
