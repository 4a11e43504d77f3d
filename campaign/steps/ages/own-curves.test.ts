/** A calibration curve of the campaign's own: named by its dates, refused with its reason, traced to its rows. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { curveRows, loadCurve } from '@stillstand/published/curves';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

const published = {
  curves: { intcal20: await loadCurve('intcal20'), marine20: await loadCurve('marine20') },
};

const DATE = { sample: 'A', method: 'radiocarbon', value: '2000', error: '30' };

function computed(calibration_curves: Cells[], determinations: Cells[]) {
  const tables = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    samples: [{ sample: 'A', depth_basis: 'elevation', elevation_m: '0.2', elevation_datum: 'MSL' }],
    calibration_curves,
    determinations: determinations.map((cells, i) => ({ lab_code: `L${i + 1}`, ...DATE, ...cells })),
  };
  const { campaign, problems } = campaignOf('own curve', tables);
  const { results, trace } = computeCampaign(campaign, published, problems, { withCurve: false });
  const said = results.problems
    .filter(({ table }) => table === 'calibration_curves' || table === 'determinations')
    .map(({ code, severity }) => `${severity} ${code}`);
  return { dates: results.dates, problems: results.problems, said, trace };
}

/** One 14C year for each calendar year, 20 ± `error` ahead of it. */
const LINE = (curve: string, ages: readonly (number | string)[], more: Cells = {}): Cells[] =>
  ages.map((age) => ({
    curve,
    age_cal_bp: String(age),
    c14_age: String(Number(age) + 20),
    c14_error: '40',
    ...more,
  }));

/** The published rows up to 10,000 cal BP and some beyond, as a person would write them. */
async function copied(name: 'intcal20' | 'marine20', curve: string, more: Cells = {}): Promise<Cells[]> {
  const { cal_bp, c14_age, sigma_yr } = await curveRows(name);
  return Array.from(cal_bp, (age, i) => ({
    curve,
    age_cal_bp: String(age),
    c14_age: String(c14_age[i]),
    c14_error: String(sigma_yr[i]),
    ...more,
  }));
}

test('on a line the age is the reported one less its lead, its sd the root of the squares', () => {
  // 2000 ± 30 on 14C = cal + 20 ± 40: mean 1980, sd √(30² + 40²) = 50
  const { dates, said } = computed(LINE('Lagoon 2024', [3500, 500, 2001]), [
    { calibration_curve: 'Lagoon 2024' },
    // ΔR 100 ± 50 lifts the curve: mean 1880, sd √(50² + 50²)
    { calibration_curve: 'Lagoon 2024', delta_r: '100', delta_r_error: '50' },
  ]);
  assert.deepEqual(said, []);
  assert.deepEqual(
    dates.map(({ curve, mean_cal_bp, sd_yr }) => [curve, mean_cal_bp.toFixed(3), sd_yr.toFixed(2)]),
    [
      ['Lagoon 2024', '1980.000', '50.00'],
      ['Lagoon 2024', '1880.000', Math.hypot(50, 50).toFixed(2)],
    ],
  );
});

test('a published curve under a name of one’s own gives its ages to the last digit, out of order too', async () => {
  const air = (await copied('intcal20', 'Mine')).reverse();
  const sea = await copied('marine20', 'My sea', { reservoir: 'marine' });
  const ages = [
    { value: '2000', error: '30' },
    { value: '9120', error: '45' },
    { value: '41000', error: '700' },
    { value: '0.5711', error: '0.002', reported_as: 'f14c' },
  ];
  const offset = { delta_r: '-120', delta_r_error: '45' };
  const { dates, said } = computed(
    [...air, ...sea],
    [
      ...ages.flatMap((age) => [
        { ...age, calibration_curve: 'intcal20' },
        { ...age, calibration_curve: 'Mine' },
      ]),
      ...ages.flatMap((age) => [
        { ...age, ...offset, calibration_curve: 'marine20' },
        { ...age, ...offset, calibration_curve: 'My sea' },
      ]),
      // A marine share of one's own atmosphere mixes marine20 into it; of one's own sea, nothing.
      { calibration_curve: 'intcal20', marine_fraction: '0.4', ...offset },
      { calibration_curve: 'Mine', marine_fraction: '0.4', ...offset },
      { calibration_curve: 'marine20', marine_fraction: '1', ...offset },
      { calibration_curve: 'My sea', marine_fraction: '1', ...offset },
    ],
  );
  assert.deepEqual(new Set(said), new Set(['note marine-share-exact']));
  assert.equal(dates.length, 20);
  for (let i = 0; i < dates.length; i += 2) {
    const [named, own] = [dates[i]!, dates[i + 1]!];
    assert.deepEqual(own.density, named.density);
    for (const key of ['from_cal_bp', 'median_cal_bp', 'mean_cal_bp', 'sd_yr', 'truncated'] as const)
      assert.equal(own[key], named[key], key);
    assert.deepEqual([own.sets_68, own.sets_95], [named.sets_68, named.sets_95]);
  }
});

test('the trace of a date goes down to the rows it lies on, and to no others', () => {
  const { trace, dates } = computed(LINE('Lagoon', [0, 1000, 1900, 2100, 3000, 4000]), [
    { calibration_curve: 'Lagoon' },
  ]);
  const [{ from_cal_bp, density }] = dates as [(typeof dates)[number]];
  assert.ok(from_cal_bp > 1000 && from_cal_bp < 1900 && from_cal_bp + density.length - 1 < 3000);
  const stretch = trace.find(traceId.ownCurve('Lagoon', 'L1'));
  assert.ok(trace.parts(trace.find(traceId.date('L1'))).includes(stretch));
  assert.deepEqual(
    trace.parts(stretch).map((part) => {
      const { row, label } = trace.node(part);
      return [row?.table, label];
    }),
    [1000, 1900, 2100, 3000].map((age) => ['calibration_curves', `Lagoon at ${age} cal BP`]),
  );
});

test('beyond the ends of the curve: a limit with its share, or no date, never silence', () => {
  const { dates, said, problems } = computed(LINE('Short', [1950, 2500]), [
    { calibration_curve: 'Short' },
    { calibration_curve: 'Short', value: '1500' },
    { calibration_curve: 'Short', value: '9000' },
  ]);
  assert.deepEqual(said.sort(), [
    'error age-beyond-curve',
    'error age-beyond-curve',
    'warning age-at-end-of-curve',
  ]);
  // 1980 ± 50 on a line that goes on: what lies below 1950 is Φ(−0.6) = 0.274
  assert.equal(dates.length, 1);
  assert.ok(Math.abs(dates[0]!.truncated - 0.274) < 0.01, String(dates[0]!.truncated));
  const [, older] = problems.filter(({ code }) => code === 'age-beyond-curve');
  assert.match(
    older!.found + problems.map(({ expected }) => expected).join(),
    /older than Short, which runs/,
  );
});

test('what is wrong with a curve is named, and its dates say that it is not used', () => {
  const all = [0, 1000, 2000, 3000];
  const edited = (cells: Cells): Cells[] =>
    LINE('Lagoon', all).map((row, i) => (i === 2 ? { ...row, ...cells } : row));
  const cases: [Cells[], string][] = [
    [LINE('Lagoon', [2000]), 'error own-curve-too-short'],
    [LINE('Lagoon', [2000.1, 2000.7]), 'error own-curve-too-short'],
    [
      [...LINE('Lagoon', all), { ...LINE('Lagoon', [2000])[0]!, c14_error: '41' }],
      'error own-curve-age-twice',
    ],
    [edited({ c14_error: '0' }), 'error own-curve-without-error'],
    [edited({ c14_error: '-30' }), 'error negative-error'],
    [edited({ c14_error: '' }), 'error missing-cell'],
    [edited({ c14_age: 'NaN' }), 'error not-a-number'],
    [edited({ age_cal_bp: '#REF!' }), 'error not-a-number'],
    [edited({ age_cal_bp: '2,000' }), 'error decimal-comma'],
    [
      edited({ reservoir: 'marine' }).map((r, i) => (i === 0 ? { ...r, reservoir: 'atmosphere' } : r)),
      'error own-curve-two-reservoirs',
    ],
  ];
  for (const [rows, code] of cases) {
    const { dates, said, problems } = computed(rows, [{ calibration_curve: 'Lagoon' }]);
    assert.deepEqual(said.sort(), [code, 'error no-calibration-curve'].sort());
    assert.equal(dates.length, 0);
    const { fix } = problems.find((p) => p.code === 'no-calibration-curve')!;
    assert.equal(
      fix,
      'Correct the rows of Lagoon in the table of calibration curves. The date is not calibrated.',
    );
  }
});

test('a curve named as a published one does not hide it', () => {
  for (const name of ['intcal20', 'IntCal20']) {
    const { dates, said } = computed(LINE(name, [0, 3000]), [{ calibration_curve: name }]);
    assert.deepEqual(said, ['error own-curve-named-as-published']);
    assert.equal(dates[0]!.curve, 'intcal20');
    assert.ok(dates[0]!.median_cal_bp < 1960, 'IntCal20: 1934 (standards A.1), not the 1980 of the line');
  }
});

test('a curve that no table has is a word misspelt', () => {
  const { said, problems } = computed(LINE('Lagoon', [0, 3000]), [{ calibration_curve: 'Lagon' }]);
  assert.deepEqual(said, ['error unknown-choice']);
  assert.match(problems.find((p) => p.code === 'unknown-choice')!.fix, /Lagoon/);
});
