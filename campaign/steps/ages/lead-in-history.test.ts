/** A profile of lead-210 read with the dates of its hole: it fixes the ground, narrows the last century, and says where it is not read. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

/** 3 mm/yr, 150 Bq/m² a year, dry density 0.5 g/cm³: so the excess of a slice is 100 Bq/kg at the ground. */
const PER_YR_M = 0.003;
const EXCESS = 150 / (0.5 * 1000 * PER_YR_M);
const LAMBDA = Math.LN2 / 22.2;

function computed(from = 0, units: Cells[] = []) {
  const sample = (label: string, depth: number): Cells => ({
    sample: label,
    hole: 'A',
    basis: 'in_situ',
    top: `${depth} m`,
    bottom: `${depth + 0.01} m`,
  });
  const measurements = Array.from({ length: 12 }, (_, i) => i)
    .filter((i) => i >= from)
    .flatMap((i): Cells[] => {
      const at = { hole: 'A', depth_basis: 'in_situ', top: `${2 * i} cm`, bottom: `${2 * i + 2} cm` };
      const total = EXCESS * Math.exp((-LAMBDA * (0.02 * i + 0.01)) / PER_YR_M) + 20;
      return [
        { ...at, property: 'lead210_total', value: total.toFixed(1), sigma: '3', unit: 'Bq/kg' },
        { ...at, property: 'dry density', value: '0.5', unit: 'g/cm3' },
      ];
    });
  const tables: Record<string, Cells[]> = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    holes: [{ hole: 'A', method: 'exposure', reference_elevation_m: '2', reference_datum: 'MSL' }],
    units,
    samples: [sample('deep', 0.595), sample('between', 0.145)],
    determinations: [{ lab_code: 'L1', sample: 'deep', method: 'luminescence', value: '140', error: '30' }],
    measurements,
    lead_profiles: [
      {
        profile: 'lead',
        hole: 'A',
        supported_bq_kg: '20',
        supported_sigma_bq_kg: '1',
        collected: '2015-01-01',
      },
    ],
    settings: [{ name: 'age_depth', value: 'A' }],
  };
  const { campaign, problems } = campaignOf('lead', tables);
  return computeCampaign(campaign, { curves: {} }, problems, { withCurve: true, memo: new Map() }).results;
}

test('one date and a profile are a history, whose ground is of the day of collection', () => {
  const [history] = computed().histories;
  assert.ok(history !== undefined);
  assert.deepEqual(history.profiles, ['lead']);
  assert.ok(Math.abs(history.age_cal_bp.median[0]! - -65) < 0.01, `${history.age_cal_bp.median[0]}`);
  // 0.15 m at 3 mm/yr is 50 yr before 2015.
  const { median, lower95, upper95 } = history.samples.find((s) => s.sample === 'between')!.age_cal_bp;
  assert.ok(Math.abs(median - -15) < 8, `${median}`);
  assert.ok(upper95 - lower95 < 40, `${lower95} to ${upper95}`);
});

test('a profile that begins below the ground is not read, which is said', () => {
  const { histories, problems } = computed(3);
  assert.deepEqual(
    histories.flatMap(({ profiles }) => profiles),
    [],
  );
  assert.deepEqual(
    problems.filter(({ code }) => code === 'lead-not-in-history').map(({ found }) => found),
    ['a first slice at 6.0 cm'],
  );
});

test('a bed laid down at once among its slices keeps it from being read, which is said; one below does not', () => {
  const bed = (top: string, bottom: string): Cells => ({
    hole: 'A',
    unit: 'storm',
    basis: 'in_situ',
    top,
    bottom,
    sediment: 'sand',
    event_bed: 'yes',
  });
  const among = computed(0, [bed('0.10 m', '0.14 m')]);
  assert.deepEqual(
    among.problems.filter(({ code }) => code === 'lead-not-in-history').map(({ found }) => found),
    ['an erosional contact or a bed laid down at once among its slices'],
  );
  const [history] = computed(0, [bed('0.30 m', '0.40 m')]).histories;
  assert.deepEqual(history?.profiles, ['lead']);
  assert.deepEqual(
    history?.beds.map(({ id }) => id),
    ['storm'],
  );
});
