/** What is said with what to date next: when its promise does not bind, and which layers are ranked by what name. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';
import { DEFAULT_DATE_PLAN, type Pair, type RatesCompared, SMOOTH_RATE } from '@stillstand/science/curve';
import { layersToDate } from './layers-to-date.ts';
import { pricesInWords, promiseAssumes, promiseDoubts, togetherInWords } from './next-dates.ts';

type Rate = typeof SMOOTH_RATE;
const curve = (
  rate_model: Rate,
  one_break: { log_evidence_ratio: number; age_cal_bp: number } | null = null,
) => ({ settings: { rate_model }, one_break }) as unknown as Parameters<typeof promiseDoubts>[0];
const stepwise: Rate = { ...SMOOTH_RATE, kind: 'stepwise', changes: 1 };
const INTERVAL = { older_cal_bp: 6000, younger_cal_bp: 4000 };

test('what a promise assumes is always said, by the model of the rate', () => {
  assert.match(promiseAssumes(curve(SMOOTH_RATE)), /a smooth rate\. If it had a kink or the level jumped/);
  assert.match(promiseAssumes(curve(stepwise)), /a rate with 1 change, from its draws as they are/);
  assert.match(promiseAssumes(curve({ ...SMOOTH_RATE, changes: 2 })), /at most 2 breaks, from its draws/);
  assert.match(promiseAssumes(curve({ ...SMOOTH_RATE, kind: 'constant' })), /constant rate/);
  for (const model of [SMOOTH_RATE, stepwise])
    assert.match(promiseAssumes(curve(model)), /the promise does not bind/);
});

test('it does not bind where the heights suit an abrupt change, or the data decide for another model', () => {
  assert.deepEqual(promiseDoubts(curve(SMOOTH_RATE), INTERVAL, []), []);
  const at = (age_cal_bp: number, ratio = 3) =>
    promiseDoubts(curve(SMOOTH_RATE, { log_evidence_ratio: ratio, age_cal_bp }), INTERVAL, []);
  assert.deepEqual(at(5000, 1), []);
  assert.match(at(5000)[0]!, /^This promise does not bind: .* near 5,000 cal BP, within the interval/);
  assert.match(at(7000)[0]!, /near 7,000 cal BP, outside the interval/);

  const row = (
    rate_model: Rate,
    behind: number | null,
    undecided: 'below 4 units' | null,
    converged = true,
  ) => ({ rate_model, behind, undecided, converged }) as RatesCompared[number];
  const compared = (...rows: RatesCompared) => promiseDoubts(curve(SMOOTH_RATE), INTERVAL, rows);
  const best = row(stepwise, null, null);
  assert.match(
    compared(best, row(SMOOTH_RATE, 9, null))[0]!,
    /the data decide against this model of the rate; “stepwise, 1 change” has the best score/,
  );
  assert.deepEqual(compared(best, row(SMOOTH_RATE, 2, 'below 4 units')), []);
  assert.deepEqual(compared(row(SMOOTH_RATE, null, null), row(stepwise, 9, null)), []);
  assert.deepEqual(compared(row(stepwise, null, null, false), row(SMOOTH_RATE, 9, null)), []);
});

test('two dates repeat or complete one another only where the draws can show it', () => {
  const pair = (value: number, mcse: number) =>
    togetherInWords({
      kind: 'two',
      choice: {
        together: 0.6,
        beyond: { value, mcse },
        dates: [{ alone: 0.4 }, { alone: 0.1 }],
      } as unknown as Pair,
    });
  assert.equal(
    pair(0.1, 0.02),
    'Together the two take 60 % of the variance, alone 40 % and 10 %: they complete one another.',
  );
  assert.match(pair(-0.1, 0.02)!, /repeat one another in part\.$/);
  for (const [value, mcse] of [
    [0.1, 0.06],
    [0.005, 0.0001],
  ] as const)
    assert.match(pair(value, mcse)!, /cannot be distinguished\.$/);
});

test('prices are said where there are any', () => {
  assert.equal(pricesInWords(DEFAULT_DATE_PLAN), null);
  const said = pricesInWords({ ...DEFAULT_DATE_PLAN, date_price: 450.5, core_price: 3000, budget: 5000 })!;
  assert.match(said, /^A date costs 450\.50, a new point also a core of 3,000, .* The budget is 5,000: /);
});

test('layers by core, depth and sample; of another site than the curve, or with nothing to say of the sea: not ranked, with why', () => {
  const sample = (name: string, site: string, dated = false, depth: number | null = 6.42) => ({
    sample: name,
    hole: depth === null ? null : 'H2',
    site,
    dated,
    depth_m: depth === null ? null : { value: depth },
  });
  const undated = (point: string, of: string) => ({ point, sample: of, rsl_m: -4, rsl_sigma_m: 0.2 });
  const results = {
    samples: [
      sample('H2-7', 'Bay'),
      sample('C-1', 'Cove'),
      sample('H2-8', 'Bay'),
      sample('H2-9', 'Bay', true),
      sample('B-1', 'Bay', false, null),
      sample('H2-10', 'Bay'),
    ],
    undated: [undated('P7', 'H2-7'), undated('PC', 'C-1')],
    points: [],
    problems: [
      { code: 'point-without-date', found: 'H2-7' },
      { code: 'point-without-date', found: 'H2-8' },
      { code: 'point-without-elevation', found: 'B-1' },
    ],
    curves: [{ role: 'headline', sites: ['Bay'] }],
  } as unknown as Results;
  const found = layersToDate(results);
  assert.deepEqual(
    found.layers.map(({ point }) => [point, found.names.get(point)]),
    [['P7', 'core H2, 6.42 m, sample H2-7']],
  );
  assert.deepEqual(found.unusable, [
    { why: 'of a site that is not in this curve', names: ['core H2, 6.42 m, sample C-1'] },
    {
      why: 'a limiting or a rejected point: only index points are ranked',
      names: ['core H2, 6.42 m, sample H2-8'],
    },
    { why: 'no elevation', names: ['sample B-1'] },
    { why: 'nothing stated that it says of the sea', names: ['core H2, 6.42 m, sample H2-10'] },
  ]);
  const held = layersToDate(results, new Map([['H2-7', 'sent, and waiting for a result']]));
  assert.deepEqual(held.layers, []);
  assert.deepEqual(held.unusable[0], {
    why: 'sent, and waiting for a result',
    names: ['core H2, 6.42 m, sample H2-7'],
  });
});
