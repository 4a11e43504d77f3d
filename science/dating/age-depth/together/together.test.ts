/** Holes together: which stand together, what a hole that shares nothing keeps, and that an error is one. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, randomStream } from '@stillstand/science/base';
import { ageDepth } from '../age-depth.ts';
import type { AgeDepth, AgeDepthInput } from '../model.ts';
import { ageDepthDefaults } from '../settings.ts';
import type { NormalSharing } from './date-given.ts';
import { type HoleTogether, holesApart, sharedGroups } from './model.ts';
import { ageDepthTogether } from './together.ts';

const settings = { ...ageDepthDefaults, sections: 12, draws: 300 };
const OWN_YR = 40;

/** A metre in a thousand years, a date at each, all of them off alike. */
function input(off_yr: number, sd_yr: number, depths = [1, 2, 3, 4]): AgeDepthInput {
  const age = (mean: number) => ({
    from_cal_bp: Math.floor(mean - 6 * sd_yr),
    density: Float64Array.from({ length: 12 * sd_yr + 1 }, (_, i) =>
      exp(-0.5 * ((Math.floor(mean - 6 * sd_yr) + i - mean) / sd_yr) ** 2),
    ),
  });
  return {
    horizons: depths.map((d) => ({
      id: `D${d}`,
      depth_m: Float64Array.of(d, d + 0.02, d - 0.02),
      age: age(1000 * d + off_yr),
    })),
    surface: { age_cal_bp: 0, sd_yr: 2 },
    breaks: [],
    bottom_m: 4.5,
  };
}

const sharing = (group: string, mean_cal_bp: number, loading_yr: number): NormalSharing => ({
  kind: 'normal',
  group,
  mean_cal_bp,
  loading_yr,
  precision: 1 / OWN_YR ** 2,
  log_precision: -2 * Math.log(OWN_YR),
  log_mass: 0.5 * Math.log(2 * Math.PI),
});

const hole = (name: string, groups: Record<string, string>, off_yr = 0, loading_yr = 120): HoleTogether => ({
  hole: name,
  input: input(off_yr, Math.round(Math.hypot(OWN_YR, loading_yr))),
  settings,
  shared: Object.entries(groups).map(([id, group]) => ({
    id,
    sharing: sharing(group, 1000 * Number(id.slice(1)) + off_yr, loading_yr),
  })),
});

test('holes stand together where they share an error, by way of others too; one date shares nothing', () => {
  const holes = [
    hole('A', { D1: 'x' }),
    hole('B', { D1: 'y', D2: 'y' }),
    hole('C', { D1: 'z', D3: 'w' }),
    hole('D', { D1: 'v' }),
    hole('E', { D1: 'x', D2: 'z' }),
  ];
  assert.deepEqual(sharedGroups(holes), ['x', 'y', 'z']);
  assert.deepEqual(
    holesApart(holes).map((each) => each.map((h) => h.hole).join('')),
    ['ACE', 'B', 'D'],
  );
  assert.deepEqual(holesApart([]), []);
});

const plain = ({ agesAt, depthsAt, ...result }: AgeDepth) => ({
  ...result,
  at: agesAt(2.3),
  states: depthsAt(Float64Array.of(0, 1, 2)),
});
const found = (result: ReturnType<typeof ageDepthTogether>[number] | undefined): AgeDepth => {
  assert(result?.kind === 'age_depth');
  return result;
};

test('a hole whose dates share nothing with the others is as it is by itself, to the last digit (seed 3)', () => {
  const stream = randomStream(3);
  const holes = [hole('A', { D1: 'x' }), hole('B', { D1: 'y', D2: 'y' }), hole('C', {})];
  const results = ageDepthTogether(holes, stream).map(found);
  for (const h of [0, 2]) {
    const alone = ageDepth(holes[h]!.input, settings, stream.split(holes[h]!.hole));
    assert.deepEqual(plain(results[h]!), plain(found(alone)));
    assert.deepEqual(results[h]!.shared, []);
  }
  assert.deepEqual(
    results[1]!.shared.map(({ group, dates, holes: others }) => [group, dates, others]),
    [['y', ['D1', 'D2'], []]],
  );
  assert.deepEqual(ageDepthTogether(holes, stream).map(found).map(plain), results.map(plain));
});

test('a hole without dates enough leaves the others; two errors of one hole are told apart (seed 4)', () => {
  const few = hole('few', { D1: 'x', D2: 'x' });
  const bare = { ...few, input: { ...few.input, horizons: few.input.horizons.slice(0, 1), surface: null } };
  const all = { D1: 'x', D2: 'y', D3: 'x', D4: 'y' };
  const [none, both] = ageDepthTogether([bare, hole('A', all)], randomStream(4));
  assert.equal(none?.kind, 'not_enough');
  const { shared, diagnostics } = found(both);
  assert.ok(diagnostics.converged, diagnostics.remarks.join('\n'));
  assert.deepEqual(
    shared.map(({ group, holes }) => [group, holes]),
    [
      ['x', []],
      ['y', []],
    ],
  );
  for (const { shift_yr } of shared)
    assert.ok(Math.abs(shift_yr.mean) < 60 && shift_yr.sd > 60 && shift_yr.sd < 130);
});

test('dates at one depth of another clock say what the error of all is, in a hole without such dates too (seed 5)', () => {
  const groups = { D1: 'x', D2: 'x', D3: 'x', D4: 'x' };
  const off = 150;
  const told = hole('told', groups, off);
  const exact = input(0, 10, [2, 4]).horizons.map((h) => ({ ...h, id: `${h.id} exact` }));
  const knows = {
    ...hole('knows', groups, off),
    input: { ...told.input, horizons: [...told.input.horizons, ...exact] },
  };
  const results = ageDepthTogether([told, knows], randomStream(5)).map(found);
  const [{ shift_yr }] = results[0]!.shared as [AgeDepth['shared'][number]];
  // Two differences of 150 yr, each ±41, of an error of ±120: 142 ± 28.
  assert.ok(Math.abs(shift_yr.mean - 142) < 12, `${shift_yr.mean}`);
  assert.ok(Math.abs(shift_yr.sd - 28) < 5, `${shift_yr.sd}`);
  const alone = found(ageDepthTogether([told], randomStream(5))[0]);
  const at = (result: AgeDepth): number => result.clocks[2]!.age_cal_bp.mean;
  assert.ok(Math.abs(at(results[0]!) - 3008) < 25, `${at(results[0]!)}`);
  assert.ok(at(alone) - at(results[0]!) > 60, 'by itself it has the error that was stated');
});

test('holes of other chains or draws are an error of the program', () => {
  const holes = [hole('A', { D1: 'x' }), hole('B', { D1: 'x' })];
  const other = { ...holes[1]!, settings: { ...settings, draws: 200 } };
  assert.throws(() => ageDepthTogether([holes[0]!, other], randomStream(1)), RangeError);
});
