/** ΔR from a campaign's own shells: pooled by water, with what is doubtful named; the shells are not dated. */
import assert from 'node:assert/strict';
import { before, test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import { loadCurve } from '@stillstand/published/curves';
import { computeCampaign } from '../compute.ts';
import type { Published } from './dates.ts';
import { ownReservoirs } from './own-reservoirs.ts';
import { offeredOffset } from './reservoirs.ts';

type Cells = Record<string, string>;

let published: Published;
before(async () => {
  published = { curves: { marine20: await loadCurve('marine20'), intcal20: await loadCurve('intcal20') } };
});

const shell = (lab_code: string, value: number, error: number, cells: Cells): Cells => ({
  lab_code,
  sample: 'shelf',
  method: 'radiocarbon',
  value: String(value),
  error: String(error),
  calibration_curve: 'marine20',
  delta_r_group: 'bay',
  ...cells,
});

/** Five shells of Merino-Campos et al. 2019 (figures in checks/reservoir/data). */
const FIVE = [
  [640, 25, 1945.5],
  [605, 30, 1947.5],
  [570, 30, 1945.5],
  [605, 25, 1946.5],
  [525, 25, 1947.5],
].map(([age, error, year], i) => shell(`S${i + 1}`, age!, error!, { known_age_ce: String(year) }));

function computed(determinations: Cells[]) {
  let document = newDocument('reservoirs');
  document = withRows(document, 'samples', [{ sample: 'shelf', depth_basis: 'elevation', elevation_m: '0' }]);
  document = withRows(document, 'determinations', determinations);
  const { campaign, problems } = parseCampaign(document);
  const { results, trace } = computeCampaign(campaign, published, problems, { withCurve: false });
  const said = results.problems
    .filter((p) => /reservoir/.test(p.code))
    .map((p) => `${p.code} ${p.label}: ${p.found}`);
  return { results, trace, said, pools: ownReservoirs(campaign, published) };
}

test('five shells of one bay: mean, error, spread, and that they differ', () => {
  const { pools, said, results, trace } = computed(FIVE);
  const [pool] = pools;
  // Computed apart (numpy): 37, 2, −33, 2, −78; mean −13.8, weighted error 11.9, chi-square 11.81.
  assert.ok(Math.abs(pool!.mean_yr + 13.8) < 0.1 && Math.abs(pool!.weighted_error_yr - 11.9) < 0.1);
  assert.ok(Math.abs(pool!.chi_square - 11.81) < 0.05);
  // By hand: scatter √(11.81/4 · 5 · 11.9²) = 45.8, over √5 = 20.5; √(45.8² + 20.5²) = 50.2.
  assert.ok(Math.abs(pool!.new_sample_error_yr - 50.2) < 0.3, `${pool!.new_sample_error_yr}`);
  assert.deepEqual(offeredOffset(pool!), { delta_r: -14, delta_r_error: 51 });
  assert.deepEqual(said, ['reservoir-disagrees S1: bay: chi-square 11.8 with 4 degrees of freedom, p 0.019']);
  assert.deepEqual(results.dates, []);
  const node = trace.node(trace.find(traceId.reservoir('bay')));
  assert.equal(node.parts.length, 5);
});

test('a pair gives its ΔR by the terrestrial date, which is dated itself', () => {
  const charcoal = shell('C', 2768, 15, { calibration_curve: 'intcal20', delta_r_group: '' });
  const { pools, said, results } = computed([shell('S', 3137, 24, { paired_with: 'C' }), charcoal]);
  // −87 ± 38 computed apart; √2 of it for one more shell.
  assert.ok(Math.abs(pools[0]!.mean_yr + 87) < 1 && Math.abs(pools[0]!.new_sample_error_yr - 54) < 1);
  assert.deepEqual(said, ['reservoir-few S: bay: 1 shell']);
  assert.deepEqual(
    results.dates.map(({ lab_code }) => lab_code),
    ['C'],
  );
});

test('a lake’s shells against the air give its hard-water offset', () => {
  const { pools } = computed([
    shell('L', 500, 20, { calibration_curve: 'intcal20', known_age_ce: '1900', delta_r_group: 'lake' }),
  ]);
  // IntCal20 at 50 cal BP, by its published row: 96 ± 10 14C yr BP.
  assert.ok(Math.abs(pools[0]!.mean_yr - 404) < 1e-9);
  assert.equal(pools[0]!.curve, 'intcal20');
});

test('what cannot be used is named, and the rest computes', () => {
  const { said, pools } = computed([
    ...FIVE,
    shell('late', 500, 30, { known_age_ce: '1953' }),
    shell('nameless', 500, 30, { known_age_ce: '1900', delta_r_group: '' }),
    shell('curveless', 500, 30, { known_age_ce: '1900', calibration_curve: '' }),
    shell('of itself', 500, 30, { paired_with: 'S1' }),
    shell('alone', 500, 30, { known_age_ce: '1960', delta_r_group: 'lagoon' }),
    shell('thrown out', 500, 30, { known_age_ce: '1900', status: 'rejected', reason: 'cracked' }),
    shell('X1', 500, 30, { known_age_ce: '1900', delta_r_group: 'mixed' }),
    shell('X2', 500, 30, { known_age_ce: '1900', delta_r_group: 'mixed', calibration_curve: 'intcal20' }),
  ]);
  assert.deepEqual(
    pools.map(({ group, n }) => [group, n]),
    [['bay', 5]],
  );
  assert.deepEqual(said.sort(), [
    'no-reservoir-offset alone: 1960',
    'no-reservoir-offset curveless: 1900',
    'no-reservoir-offset late: 1953',
    'no-reservoir-offset nameless: 1900',
    'no-reservoir-offset of itself: S1',
    'reservoir-disagrees S1: bay: chi-square 11.8 with 4 degrees of freedom, p 0.019',
    'reservoir-empty alone: lagoon: no shell that can be used',
    'reservoir-two-curves X1: mixed on marine20, intcal20',
  ]);
});

test('the error of a marine share widens the date, and is then not asked for', () => {
  const mixed = (lab_code: string, marine_fraction_error: string): Cells =>
    shell(lab_code, 4520, 30, {
      calibration_curve: 'intcal20',
      delta_r_group: '',
      marine_fraction: '0.4',
      marine_fraction_error,
    });
  const { results } = computed([mixed('M0', ''), mixed('M1', '0.15')]);
  const [exact, wide] = results.dates;
  assert.ok(wide!.sd_yr > exact!.sd_yr);
  assert.deepEqual(
    results.problems.filter(({ code }) => code === 'marine-share-exact').map(({ label }) => label),
    ['M0'],
  );
});

test('an offset on the curve of the air is taken off a date of old carbon, its error added', () => {
  const snail = (lab_code: string, value: number, error: number, cells: Cells): Cells =>
    shell(lab_code, value, error, { calibration_curve: 'intcal20', delta_r_group: '', ...cells });
  const { results } = computed([
    snail('air', 4520, 50, {}),
    // 350 ± 40 off 4870 ± 30: 4520 ± √(30² + 40²).
    snail('lake', 4870, 30, { delta_r: '350', delta_r_error: '40' }),
  ]);
  const [air, lake] = results.dates;
  assert.deepEqual(lake!.density, air!.density);
  assert.deepEqual(
    results.problems.filter(({ code }) => code === 'offset-on-air').map(({ label }) => label),
    ['lake'],
  );
});
