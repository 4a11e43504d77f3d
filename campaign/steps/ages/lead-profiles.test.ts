/** Profiles of lead-210: from measurements typed as laboratories send them to ages of slices, and what is said of them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

/** The worked example of science/lead: eight slices of 2 cm, 6183.4 Bq/m². */
const C = [200, 150, 110, 80, 55, 35, 18, 6];
const DENSITY = [0.4, 0.45, 0.5, 0.52, 0.55, 0.58, 0.6, 0.62];

const slice = (i: number): Cells => ({
  hole: 'H1',
  depth_basis: 'in_situ',
  top: `${2 * i} cm`,
  bottom: `${2 * (i + 1)} cm`,
});

const worked = (activity: (bq_kg: number) => Cells): Cells[] =>
  C.flatMap((bq_kg, i) => [
    { ...slice(i), property: 'lead210_total', ...activity(bq_kg) },
    { ...slice(i), property: 'dry density', value: `${DENSITY[i]}`, unit: 'g/cm3' },
  ]);

function computed(measurements: Cells[], profile: Cells = {}, more: Record<string, Cells[]> = {}) {
  const tables = {
    holes: [{ hole: 'H1', method: 'hand' }],
    lead_profiles: [
      {
        profile: 'L1',
        hole: 'H1',
        supported_bq_kg: '10',
        supported_sigma_bq_kg: '0.5',
        collected: '2020-07-01',
        ...profile,
      },
    ],
    measurements: measurements.map((cells, i) => ({ row_id: `m${i}`, ...cells })),
    ...more,
  };
  const { campaign, problems } = campaignOf('lead', tables);
  const { results, trace } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  const said = results.problems.filter(({ code }) => code.startsWith('lead-'));
  return { profile: results.lead_profiles[0], trace, said, all: results.problems };
}

const bq = (bq_kg: number): Cells => ({ value: `${bq_kg + 10}`, sigma: '0.5', unit: 'Bq/kg' });
const base = (of: ReturnType<typeof computed>['profile'], i: number) =>
  of!.slices[i]!.ages.find(({ model }) => model === 'constant_supply')?.base_yr?.value;

test('measurements of a hole are a profile; ages by hand, before collection and cal BP', () => {
  const { profile, said, trace, all } = computed(worked(bq), {});
  assert.deepEqual(
    all.filter(({ severity }) => severity === 'error'),
    [],
  );
  // 60 Bq/m² and more lie below the last slice, as the mean decline has it; so a little older than without.
  assert.deepEqual(
    said.map(({ code }) => code),
    ['lead-below'],
  );
  const inventory = 6183.4 + profile!.below_bq_m2!.value;
  assert.ok(Math.abs(profile!.inventory_bq_m2!.value - inventory) < 1e-6);
  const expected = Math.log(inventory / (inventory - 1600)) / (Math.LN2 / 22.2);
  assert.ok(Math.abs(base(profile, 0)! - expected) < 1e-6);
  const { base_cal_bp } = profile!.slices[0]!.ages.find(({ model }) => model === 'constant_supply')!;
  // 2020-07-01, noon, is day 182.5 of 366.
  assert.ok(Math.abs(base_cal_bp! - (expected + 1950 - (2020 + 182.5 / 366))) < 1e-6);
  assert.equal(trace.node(trace.find(traceId.leadProfile('L1'))!).unit, 'Bq/m²/yr');
});

test('units and names as laboratories have them: the same ages', () => {
  const plain = computed(worked(bq)).profile;
  const other = computed(
    worked((bq_kg) => ({
      ...bq(bq_kg),
      property: 'Pb-210',
      value: `${((bq_kg + 10) * 60) / 1000}`,
      sigma: '0.03',
      unit: 'dpm/g',
    })).map((cells) =>
      cells['property'] === 'dry density'
        ? { ...cells, property: 'Dry bulk density', value: `${1000 * Number(cells['value'])}`, unit: 'kg/m³' }
        : cells,
    ),
  ).profile;
  const excess = computed(
    worked((bq_kg) => ({ value: `${bq_kg}`, sigma: '0.5', unit: 'Bq/kg', property: 'excess 210Pb' })),
  ).profile;
  for (const i of [0, 3, 6]) {
    assert.ok(Math.abs(base(plain, i)! - base(other, i)!) < 1e-9);
    assert.ok(Math.abs(base(plain, i)! - base(excess, i)!) < 1e-9);
  }
});

test('what cannot be so is named with its row, and the rest computes', () => {
  const rows = worked(bq);
  rows[0] = { ...rows[0]!, unit: 'counts' };
  rows[2] = { ...rows[2]!, sigma: '' };
  rows[3] = { ...rows[3]!, value: '-0.45' };
  rows[14] = { ...rows[14]!, value: '3' };
  rows.push({ ...rows[4]!, value: '121' });
  rows.push({ ...slice(1), top: '3 cm', bottom: '5 cm', property: 'lead210_total', ...bq(130) });
  const { profile, said } = computed(rows, { collected: '' });
  const codes = said.map(({ code, table, line }) => `${code} ${table} ${line ?? ''}`.trim());
  for (const code of [
    'lead-unit measurements',
    'lead-no-sigma measurements',
    'lead-density measurements',
    'lead-below-supported measurements',
    'lead-measured-twice measurements',
    'lead-overlap measurements',
    'lead-collected lead_profiles',
    'lead-surface measurements',
  ])
    assert.ok(
      codes.some((each) => each.startsWith(code)),
      `${code} in ${codes.join(', ')}`,
    );
  assert.equal(profile!.collected_ce, null);
  assert.ok(base(profile, 4)! > 0);
  for (const { ages } of profile!.slices) for (const age of ages) assert.equal(age.base_cal_bp, null);
});

test('a hole without lead-210 and a second profile of a hole are said', () => {
  assert.deepEqual(
    computed([]).said.map(({ code }) => code),
    ['lead-no-slices'],
  );
});

test('a core that was squeezed: in-situ depths, and the dry mass that entered', () => {
  // 40 cm pushed, 20 recovered: ends twice as deep on average, density × entered thickness as before.
  const pushed = worked(bq).map((cells) => ({ ...cells, depth_basis: 'push', run: 'P1' }));
  const { profile, said } = computed(
    pushed,
    {},
    {
      pushes: [{ hole: 'H1', push: 'P1', seq: '1', from: '0 m', to: '0.40 m', recovered: '0.20 m' }],
    },
  );
  assert.ok(!said.some(({ severity }) => severity === 'error'), JSON.stringify(said));
  const plain = computed(worked(bq)).profile!;
  const { slices, inventory_bq_m2 } = profile!;
  assert.equal(slices.length, 8);
  assert.ok(slices.at(-1)!.bottom_m > 0.2 && slices[0]!.entered_m === 0.02);
  // What lies below follows the decline against mass, so the whole is the same too.
  assert.ok(
    Math.abs(inventory_bq_m2!.value - plain.inventory_bq_m2!.value) < 1e-6 * plain.inventory_bq_m2!.value,
  );
  for (const i of [0, 3, 6]) assert.ok(Math.abs(base(profile, i)! - base(plain, i)!) < 1e-6);
  const rate = (of: typeof plain, i: number) => of.slices[i]!.rate_mm_yr!.value;
  const stretched = (slices[3]!.bottom_m - slices[3]!.top_m) / 0.02;
  assert.ok(Math.abs(rate(profile!, 3) / rate(plain, 3) - stretched) < 1e-6);
});

test('a limit, and slices by their samples', () => {
  const rows = worked(bq);
  rows[14] = { ...rows[14]!, value: '12', qualifier: 'less_than', sigma: '' };
  const { profile, said } = computed(rows);
  assert.ok(!said.some(({ severity }) => severity === 'error'));
  // Anywhere from nothing to 12 − 10 Bq/kg.
  assert.ok(Math.abs(profile!.slices[7]!.excess_bq_kg!.value - 1) < 1e-9);
  assert.equal(profile!.slices[7]!.total_sigma_bq_kg, null);
});
