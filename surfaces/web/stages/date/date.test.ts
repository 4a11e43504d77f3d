import assert from 'node:assert/strict';
import { before, test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import type { Results } from '@stillstand/campaign/results';
import type { Published } from '@stillstand/campaign/steps';
import type { Row } from '@stillstand/campaign/tables';
import { textWidth } from '@stillstand/output/drawing';
import { loadCurve } from '@stillstand/published/curves';
import { DOSE_FACTORS } from '@stillstand/published/dose-factors';
import { demoResults, demoRows } from '../../store/fixtures/demo.ts';
import { ageOfCells, isPerhapsF14C, isReportedAsF14C } from './age.ts';
import { laneScale, PX } from './lane.ts';
import { placeLabels } from './place-labels.ts';
import { grouped, span } from './rows.ts';
import { commonEra, setWords } from './set-words.ts';

const NONE = new Map();
const RANGE = { youngest: -80, oldest: 20_000 };

let results: Results;
let published: Published;
before(async () => {
  results = await demoResults();
  published = {
    curves: { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') },
    doseFactors: DOSE_FACTORS,
  };
});

test('an age while it is typed is the age the computation gives, to the last digit, for every date of the demo', () => {
  const samples = new Map(demoRows('samples').map((r) => [r.cells['sample'], r.cells]));
  let compared = 0;
  for (const row of demoRows('determinations')) {
    const sample = samples.get(row.cells['sample']!)!;
    const age = ageOfCells(row.cells, {}, published, NONE, sample as unknown as Row<'samples'>, RANGE, null);
    assert.equal(age.kind, 'dated', row.cells['lab_code']);
    const computed = results.dates.find((d) => d.row_id === row.row_id)!;
    if (age.kind !== 'dated') continue;
    assert.deepEqual(age.date.density, computed.density);
    assert.deepEqual(age.date.sets_95, computed.sets_95);
    assert.equal(age.date.median_cal_bp, computed.median_cal_bp);
    compared++;
  }
  assert.equal(compared, 39);
});

test('a date by measurements or by an age density alone is dated while it is typed', () => {
  const { campaign } = parseCampaign(
    [
      ['samples', ['A', 'C'].map((sample) => ({ sample, basis: 'in_situ', material: 'sand' }))],
      [
        'measurements',
        [
          { sample: 'A', property: 'equivalent dose', value: '12', sigma: '0.5', unit: 'Gy' },
          { sample: 'A', property: 'dose rate', value: '2.4', sigma: '0.1', unit: 'Gy/ka' },
          ...(
            [
              ['equivalent dose', '105.4', '7', 'Gy'],
              ['U', '0.63', '0.03', 'ppm'],
              ['Th', '2.11', '0.1', 'ppm'],
              ['K', '0.61', '0.03', '%'],
              ['water since burial', '32', '6', '%'],
              ['cosmic dose rate', '0.16', '0.016', 'Gy/ka'],
              ['grain size from', '180', '', 'µm'],
              ['grain size to', '250', '', 'µm'],
              ['etched layer', '10', '', 'µm'],
            ] as const
          ).map(([property, value, sigma, unit]) => ({ sample: 'C', property, value, sigma, unit })),
        ],
      ],
      [
        'age_densities',
        [
          { density: 'ash', age_cal_bp: '900', weight: '1' },
          { density: 'ash', age_cal_bp: '1000', weight: '1' },
        ],
      ],
    ].reduce(
      (whole, [table, rows]) => withRows(whole, table as string, rows as Record<string, string>[]),
      newDocument('typed'),
    ),
  );
  const ageOf = (cells: Record<string, string>) =>
    ageOfCells({ sample: 'A', ...cells }, {}, published, NONE, null, RANGE, campaign);
  const grains = ageOf({ method: 'luminescence', reference_year: '2020' });
  assert.ok(grains.kind === 'dated' && grains.date.age_from === 'measurements');
  assert.ok(Math.abs(grains.date.median_cal_bp - 4930) < 20);
  // 105.4 Gy by 0.82 Gy/ka, printed with these contents: 128.5 ka.
  const byContents = ageOf({ method: 'luminescence', sample: 'C', reference_year: '2020' });
  assert.ok(byContents.kind === 'dated' && Math.abs(byContents.date.value - 128_500) < 4000);
  const ash = ageOf({ method: 'marker', age_density: 'ash' });
  assert.ok(ash.kind === 'dated' && Math.abs(ash.date.median_cal_bp - 950) < 1);
  const none = ageOf({ method: 'luminescence', sample: 'B' });
  assert.ok(
    none.kind === 'undated' && /waits for an age and its 1 sigma, or measurements of B/.test(none.why),
  );
  const typo = ageOf({ method: 'marker', age_density: 'ahs' });
  assert.ok(typo.kind === 'undated' && /Found “ahs”; expected a name/.test(typo.why));
});

test('half typed, it says what it waits for', () => {
  const said = (cells: Record<string, string>) => {
    const age = ageOfCells(cells, {}, published, NONE, null, RANGE, null);
    return age.kind === 'undated' ? age.why : age.kind;
  };
  assert.match(said({}), /waits for a method/);
  assert.match(said({ method: 'radiocarbon' }), /waits for the age/);
  assert.match(said({ method: 'radiocarbon', value: '59x' }), /Found “59x”/);
  assert.match(
    said({ method: 'radiocarbon', value: '5900', error: '25' }),
    /waits for its calibration curve/,
  );
  assert.equal(
    said({ method: 'radiocarbon', value: '5900', error: '25', calibration_curve: 'intcal20' }),
    'waiting',
  );
  assert.match(
    said({ method: 'radiocarbon', value: '5900', error: '25', calibration_curve: 'Lagoon' }),
    /No curve Lagoon can be used/,
  );
  assert.match(
    said({ method: 'radiocarbon', value: '60000', error: '25', calibration_curve: 'shcal20' }),
    /older/,
  );
});

test('a value that is no age is asked about, until somebody says what it is', () => {
  const cells = { method: 'radiocarbon', value: '1.2534', error: '0.0025' };
  assert.ok(isPerhapsF14C(cells, {}));
  assert.ok(isPerhapsF14C({ ...cells, value: '0,4179' }, { decimal_comma: true }));
  for (const other of [
    { value: '2' },
    { value: '-0.5' },
    { value: '3.2' },
    { value: '2914' },
    { value: '1.2x' },
    { value: '' },
    { method: 'lead210' },
    { reported_as: 'age' },
    { reported_as: 'f14c' },
  ]) {
    assert.ok(!isPerhapsF14C({ ...cells, ...other }, {}), JSON.stringify(other));
  }
  assert.ok(isReportedAsF14C({ ...cells, reported_as: 'f14c' }));
  assert.ok(!isReportedAsF14C(cells));
});

test('a year after 1950 is said in the common era too', () => {
  assert.equal(commonEra(-13), '1963 CE');
  assert.equal(commonEra(-12.6), '1963 CE');
  assert.equal(commonEra(0), '');
  assert.equal(commonEra(310), '');
  const set = (older_cal_bp: number, younger_cal_bp: number) =>
    setWords({ older_cal_bp, younger_cal_bp, probability: 0.38 }, true);
  assert.equal(set(5587, 5468), '5,587–5,468 (38 %)');
  assert.equal(set(-12, -31), '−12 to −31 (38 %)');
  assert.equal(set(-11.6, -12.4), '−12 (38 %)');
});

test('of labels in one line the heaviest is placed first, none touches another, none leaves the page', () => {
  const label = (middle: number, half: number, weight: number) => ({ middle, half, weight });
  assert.deepEqual(placeLabels([label(30, 20, 0.15), label(55, 20, 0.72), label(120, 20, 0.01)], 200, 6), [
    null,
    55,
    120,
  ]);
  assert.deepEqual(placeLabels([label(5, 20, 1), label(195, 20, 0.5)], 200, 6), [20, 180]);
  assert.deepEqual(placeLabels([], 200, 6), []);
});

test('a year at either end of the lane is written whole', () => {
  for (const [oldest, youngest, lane] of [
    [10_000, 0, 76],
    [10_060, 8_000, 240],
  ] as const) {
    const x = laneScale(oldest, youngest, lane);
    assert.ok(x(10_000) - textWidth('10,000') / 2 >= 0);
    assert.ok(x(youngest) + textWidth(youngest === 0 ? '0' : '8,000') / 2 <= lane / PX);
  }
});

test('the table goes hole by hole along the section, from the top down', () => {
  const groups = grouped(demoRows('determinations'), demoRows('samples'), results);
  assert.equal(
    groups.reduce((sum, g) => sum + g.rows.length, 0),
    39,
  );
  assert.deepEqual(
    groups.map((g) => g.name),
    ['Hole T2', 'Hole T1', 'Hole T3', 'Hole M1', 'Hole M2', 'Hole M3'],
  );
  for (const { rows } of groups) {
    for (let i = 1; i < rows.length; i++) assert.ok(rows[i]!.depth_m! >= rows[i - 1]!.depth_m!);
  }
  const { oldest, youngest } = span(groups);
  assert.ok(oldest > 9300 && youngest < 600);
});
