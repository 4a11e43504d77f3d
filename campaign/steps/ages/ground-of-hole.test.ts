/** What the units and the top of a hole say of its ages: beds laid down at once, sediments, a ground that lives. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { sediments } from '@stillstand/published/vocabularies';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';
import { formsInPlace, SEDIMENTS_WITH_A_RATE, usualAccumulation } from './usual-accumulation.ts';

interface Said {
  units?: Cells[];
  hole?: Cells;
  ages?: readonly (readonly [depth_m: number, age: number])[];
}

/** An exposure of 1 mm/yr, dated at four depths, with a sample between that nobody dated. */
function computed({
  units = [],
  hole = {},
  ages = [1, 2, 3, 4].map((d) => [d, 1000 * d] as const),
}: Said = {}) {
  const sample = (label: string, depth: number): Cells => ({
    sample: label,
    hole: 'A',
    basis: 'in_situ',
    top: `${depth - 0.005} m`,
    bottom: `${depth + 0.005} m`,
  });
  const tables: Record<string, Cells[]> = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    holes: [{ hole: 'A', method: 'exposure', reference_elevation_m: '2', reference_datum: 'MSL', ...hole }],
    units: units.map((unit) => ({ hole: 'A', basis: 'in_situ', ...unit })),
    samples: [...ages.map(([depth], i) => sample(`A${i + 1}`, depth)), sample('between', 2.5)],
    determinations: ages.map(([, age], i) => ({
      lab_code: `L${i + 1}`,
      sample: `A${i + 1}`,
      method: 'luminescence',
      value: String(age),
      error: '60',
    })),
    settings: [{ name: 'age_depth', value: 'A' }],
  };
  const { campaign, problems } = campaignOf('ground', tables);
  return computeCampaign(campaign, { curves: {} }, problems, { withCurve: true, memo: new Map() }).results;
}
const unit = (label: string, top: number, bottom: number, sediment: string, more: Cells = {}): Cells => ({
  unit: label,
  top: `${top} m`,
  bottom: `${bottom} m`,
  sediment,
  ...more,
});
const storm = (top: number, bottom: number, sediment = 'fine sand'): Cells =>
  unit('storm', top, bottom, sediment, { event_bed: 'yes' });

test('a storm bed of a metre takes no time: ages run on below it as if it were not there', () => {
  // A metre of bed from 2.2 m on, 1 mm/yr above and below it.
  const ages = [
    [1, 1000],
    [2, 2000],
    [4, 3000],
    [5, 4000],
  ] as const;
  const [history] = computed({ units: [storm(2.2, 3.2)], ages }).histories;
  assert.ok(history !== undefined);
  assert.deepEqual(
    history.beds.map(({ id }) => id),
    ['storm'],
  );
  const { median, lower95, upper95 } = history.beds[0]!.age_cal_bp;
  assert.ok(Math.abs(median - 2200) < 120, `${median}`);
  assert.ok(lower95 < 2200 && 2200 < upper95);
  const [top, base] = [2.2, 3.2].map((d) => history.depth_m.findIndex((at) => Math.abs(at - d) < 1e-9));
  assert.ok(top! >= 0 && base! > top!, `${[...history.depth_m]}`);
  assert.ok(Math.abs(history.age_cal_bp.median[top!]! - history.age_cal_bp.median[base!]!) < 1e-6);
  // Without the mark the metre is time: the sample in it lies between.
  const [plain] = computed({ units: [{ ...storm(2.2, 3.2), event_bed: '' }], ages }).histories;
  assert.deepEqual(plain!.beds, []);
  const widthOf = (h: typeof history): number => {
    const { lower95: a, upper95: b } = h.samples.find((s) => s.sample === 'between')!.age_cal_bp;
    return b - a;
  };
  assert.ok(widthOf(plain!) > widthOf(history), `${widthOf(plain!)}, ${widthOf(history)}`);
});

test('a piece of a layer speaks for the layer; a date in it, a bed of peat and a hole of nothing else are named', () => {
  const pieces = [storm(2.2, 2.7), { ...storm(2.7, 3.2), event_bed: '' }];
  const ages = [
    [1, 1000],
    [2, 2000],
    [3, 2100],
    [4, 3000],
    [5, 4000],
  ] as const;
  const dated = computed({ units: pieces, ages });
  const { depth_m, age_cal_bp } = dated.histories[0]!;
  const at = (d: number): number => age_cal_bp.median[depth_m.findIndex((x) => Math.abs(x - d) < 1e-9)]!;
  assert.ok(Math.abs(at(2.2) - at(3.2)) < 1e-6);
  assert.deepEqual(
    dated.problems
      .filter(({ code }) => code === 'date-in-event-bed')
      .map(({ label, found }) => [label, found]),
    [['L3', 'a date in bed storm of A, laid down at once']],
  );
  const peat = computed({ units: [storm(2.2, 3.2, 'peat')] });
  assert.deepEqual(
    peat.problems
      .filter(({ code }) => code === 'event-bed-in-place')
      .map(({ table, found }) => [table, found]),
    [['units', 'a bed of peat laid down at once']],
  );
  assert.equal(peat.histories.length, 1);
  const all = computed({ units: [storm(0, 9)] });
  assert.deepEqual(all.histories, []);
  assert.deepEqual(
    all.problems.filter(({ code }) => code === 'age-depth-only-beds').map(({ found }) => found),
    ['A with nothing but beds laid down at once'],
  );
});

test('between two dates what gathers slowly has more of the time; a name that is none changes nothing', () => {
  const ages = [
    [0.5, 500],
    [1, 1000],
    [4, 4000],
  ] as const;
  const at = (upper: string, lower: string): number => {
    const { histories } = computed({ units: [unit('1', 1, 2.5, upper), unit('2', 2.5, 4, lower)], ages });
    return histories[0]!.samples.find((s) => s.sample === 'between')!.age_cal_bp.median;
  };
  const slowAbove = at('Peat', 'medium sand');
  const slowBelow = at('medium sand', 'peat');
  // By the factor of three alone 3,250 and 1,750 yr, by the metre above, whose 1 mm/yr persists, 2,500 and 1,500.
  assert.ok(slowAbove > 2500 && slowAbove < 3250, `${slowAbove}`);
  assert.ok(slowBelow > 1500 && slowBelow < 1750, `${slowBelow}`);
  assert.equal(at('something else', 'constructor'), at('unknown', 'unknown'));
});

test('a top that is living ground is of the year of coring, and two dates are then enough', () => {
  const hole = { top_is_ground: 'yes', ended_at: '2016-07-02T12:00+00:00' };
  const ages = [
    [1, 1000],
    [2, 2000],
  ] as const;
  const [history] = computed({ hole, ages }).histories;
  assert.ok(history !== undefined);
  const { median, lower95, upper95 } = history.age_cal_bp;
  assert.ok(Math.abs(median[0]! - -66.5) < 0.2, `${median[0]}`);
  assert.ok(upper95[0]! - lower95[0]! > 3 && upper95[0]! - lower95[0]! < 5, `${lower95[0]} to ${upper95[0]}`);
  const noDay = computed({ hole: { top_is_ground: 'yes' } });
  assert.deepEqual(
    noDay.problems
      .filter(({ code }) => code === 'ground-without-day')
      .map(({ label, found }) => [label, found]),
    [['A', 'A begins at the living ground, cored on no known day']],
  );
  assert.equal(noDay.histories.length, 1);
  const few = computed({ hole: { top_is_ground: 'no' }, ages });
  assert.deepEqual(few.problems.filter(({ code }) => code === 'age-depth-too-few').length, 1);
});

test('the sediments with a usual accumulation are of the vocabulary, and none of them is said to form in place but peat', () => {
  const words = new Set(sediments.map(({ word }) => word));
  for (const word of SEDIMENTS_WITH_A_RATE) {
    assert.ok(words.has(word), word);
    const usual = usualAccumulation(` ${word.toUpperCase()}`)!;
    // Within the factor of ten that a hole may differ from its usual accumulation.
    assert.ok(usual > 0.1 && usual < 10, `${word}: ${usual}`);
    assert.equal(formsInPlace(word), word === 'peat', word);
  }
  assert.equal(usualAccumulation('toString'), null);
});
