/** Correlations: found by row or label among the units that were computed; what cannot be found says what to correct. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

const unit = (hole: string, label: string, top: string, bottom: string, more: Cells = {}): Cells => ({
  row_id: `${hole}-${label}-${top}`,
  hole,
  unit: label,
  depth_basis: 'in_situ',
  top: `${top} m`,
  bottom: `${bottom} m`,
  sediment: 'peat',
  ...more,
});

function computed(correlations: Cells[]) {
  const tables = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    settings: [{ name: 'datum', value: 'MSL' }],
    holes: ['H1', 'H2'].map((hole) => ({ hole, method: 'hand' })),
    units: [
      unit('H1', '1', '0', '1'),
      // One layer described in two pieces: a correlation may name the lower one.
      unit('H1', '2', '1', '1.5'),
      unit('H1', '2', '1.5', '2'),
      unit('H2', '1', '0', '3'),
      // Of a string that there is not: this unit has no depth.
      unit('H2', '9', '0', '0.4', { depth_basis: 'entered' }),
    ],
    correlations: correlations.map((cells, i) => ({ row_id: `k${i}`, ...cells })),
  };
  const { campaign, problems } = campaignOf('correlated', tables);
  const { results } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  return {
    made: results.correlations,
    said: results.problems
      .filter(({ table }) => table === 'correlations')
      .map(({ code, severity, row_id, column, found }) =>
        [severity, code, row_id, column, found].join(' · '),
      ),
  };
}

const BETWEEN = { hole_a: 'H1', unit_a: '1', hole_b: 'H2', unit_b: '1' };

test('a unit is found by its label, and by a row of any piece of it', () => {
  const { made, said } = computed([
    { ...BETWEEN, confidence: 'certain' },
    { ...BETWEEN, unit_a: 'H1-2-1.5' },
  ]);
  assert.deepEqual(said, []);
  assert.deepEqual(made[0], {
    row_id: 'k0',
    hole_a: 'H1',
    unit_a: '1',
    unit_a_row_id: 'H1-1-0',
    hole_b: 'H2',
    unit_b: '1',
    unit_b_row_id: 'H2-1-0',
    confidence: 'certain',
    horizon: null,
  });
  assert.deepEqual([made[1]!.unit_a, made[1]!.unit_a_row_id, made[1]!.confidence], ['2', 'H1-2-1', null]);
});

test('an earlier word for the confidence counts as the present one', () => {
  assert.equal(computed([{ ...BETWEEN, confidence: 'likely' }]).made[0]!.confidence, 'probable');
});

test('what is not there, has no depth or is in one hole is left out and named', () => {
  const { made, said } = computed([
    { ...BETWEEN, unit_b: '7' },
    { ...BETWEEN, unit_b: 'H1-1-0' },
    { ...BETWEEN, unit_b: '9' },
    { ...BETWEEN, hole_b: 'H1', unit_b: '2' },
    { ...BETWEEN, hole_b: 'H3' },
  ]);
  assert.deepEqual(made, []);
  assert.deepEqual(said.sort(), [
    'error · correlation-in-one-hole · k3 · hole_b · H1 on both sides',
    'error · correlation-not-placed · k0 · unit_b · 7, no unit of H2',
    'error · correlation-not-placed · k1 · unit_b · H1-1-0, no unit of H2',
    'error · correlation-not-placed · k2 · unit_b · unit 9 of H2, which has no depth',
    'error · unknown-reference · k4 · hole_b · H3',
  ]);
});

test('what nobody has accepted, or somebody refused, is no result and no problem', () => {
  const { made, said } = computed(
    ['proposed', 'refused', 'accepted'].map((status, i) => ({
      ...BETWEEN,
      unit_a: i === 1 ? '2' : '1',
      status,
    })),
  );
  assert.deepEqual([made.map(({ row_id }) => row_id), said], [['k2'], []]);
});

test('a refused correlation of a unit that is gone keeps nothing out and is no problem', () => {
  assert.deepEqual(computed([{ ...BETWEEN, unit_b: '7', status: 'refused' }]).said, []);
});
