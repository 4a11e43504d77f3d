import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import {
  assumedErrors,
  curveError,
  declaredError,
  forCurve,
  type HeightError,
  indexPoint,
  limitingPoint,
  type PlainCells,
  plainPoint,
  protocolError,
  type SiteTideLevel,
} from './index.ts';

/** Heights and errors, metres: sums of a few doubles. */
const METRE = 1e-12;

const near = (actual: number, expected: number, within = METRE) =>
  assert.ok(Math.abs(actual - expected) <= within, `${actual} is not ${expected} ± ${within}`);

const levels: SiteTideLevel[] = [
  { level: 'HAT', elevation_m: 1.2, sigma_m: 0.04 },
  { level: 'MHW', elevation_m: 0.8, sigma_m: 0.02 },
  { level: 'MTL', elevation_m: 0, sigma_m: null },
];
const at = (level: string, offset_m = 0) => ({ level, offset_m });
const normal = (component: string, sigma_m: number, shared_group: string | null = null): HeightError => ({
  component,
  sigma_m,
  shape: 'normal',
  shared_group,
  source: 'test',
});

test('an index point lies below its sample by the middle of its meaning', () => {
  const point = indexPoint({
    elevation_m: -3,
    lower: at('MHW', 0.1),
    upper: at('HAT'),
    tide_levels: levels,
    tide_group: 'marsh',
    errors: [normal('levelling', 0.02)],
  });
  assert.ok(point.ok);
  near(point.reference_water_level_m, 1.05);
  near(point.indicative_range_m, 0.3);
  near(point.rsl_m, -4.05);
  near(point.sigma_m, Math.sqrt(0.15 ** 2 / 3 + 0.03 ** 2 + 0.02 ** 2));
  near(point.protocol_2sigma_m, Math.sqrt(0.15 ** 2 + 0.06 ** 2 + 0.04 ** 2));
  assert.equal(point.components[1]?.shared_group, 'tide:marsh');
});

test('the middle and width of a meaning do not depend on which limit is called lower, and the mistake is remarked', () => {
  const input = { elevation_m: -1, tide_levels: levels, tide_group: null, errors: [] };
  const right = indexPoint({ ...input, lower: at('MTL'), upper: at('HAT') });
  const reversed = indexPoint({ ...input, lower: at('HAT'), upper: at('MTL') });
  assert.ok(right.ok && reversed.ok);
  assert.equal(right.rsl_m, reversed.rsl_m);
  assert.equal(right.indicative_range_m, reversed.indicative_range_m);
  assert.equal(right.remarks.length, 0);
  assert.match(reversed.remarks[0] ?? '', /other way round/);
});

test('a limiting point uses one tide level and has no range', () => {
  const point = limitingPoint({
    kind: 'terrestrial',
    elevation_m: -3,
    bound: at('MTL'),
    tide_levels: levels,
    tide_group: 'marsh',
    errors: [],
  });
  assert.ok(point.ok);
  near(point.rsl_m, -3);
  assert.equal(point.indicative_range_m, null);
  near(point.sigma_m, 0.05);
  assert.match(point.components[0]?.source ?? '', /assumed/);
});

test('what is missing or impossible is an answer that says how to fix it', () => {
  const input = { elevation_m: -3, tide_levels: levels, tide_group: null, errors: [] };
  const missing = indexPoint({ ...input, lower: at('MLW'), upper: at('HAT') });
  assert.ok(!missing.ok);
  assert.equal(missing.reason, 'tide_level_missing');
  assert.match(missing.fix, /MLW/);
  const negative = indexPoint({
    ...input,
    lower: at('MTL'),
    upper: at('HAT'),
    errors: [normal('levelling', -1)],
  });
  assert.ok(!negative.ok);
  assert.equal(negative.reason, 'negative_error');
  const nowhere = limitingPoint({ ...input, kind: 'marine', elevation_m: Number.NaN, bound: at('MTL') });
  assert.ok(!nowhere.ok);
  assert.equal(nowhere.reason, 'not_a_number');
});

test('a declared part counts in both sums as its shape says', () => {
  const declare = (shape: HeightError['shape'], sigma_level: 1 | 2) =>
    declaredError({
      component: 'x',
      value_m: 0.6,
      sigma_level,
      shape,
      shared_group: null,
      source: 'declared',
    });
  near(curveError([declare('normal', 2)]), 0.3);
  near(protocolError([declare('normal', 2)]), 0.6);
  near(protocolError([declare('normal', 1)]), 1.2);
  near(curveError([declare('uniform', 2)]), 0.6 / Math.sqrt(3));
  near(protocolError([declare('uniform', 2)]), 0.6);
  near(curveError([declare('one_sided', 2)]), 0.6);
  near(protocolError([declare('one_sided', 2)]), 1.2);
  near(protocolError([declare('normal', 2)], 1), 0.3);
});

const sample = {
  declared: new Set<string>(),
  hole: 'H3',
  method: 'string' as const,
  thickness_m: 0.04,
  depth_m: 3.2,
  depth_sigma_m: { own: 0.02, shared: 0.05 },
  inclination_deg: null,
  reference: {
    levelling_sigma_m: 0.004,
    group: null,
    benchmarks: [{ benchmark: 'BM1', sigma_m: 0.015 }],
  },
  datum_shifts: [{ name: 'local to MSL', sigma_m: 0.03 }],
};

test('every part nobody declared is named, with its group and source', () => {
  const errors = assumedErrors(sample);
  assert.deepEqual(
    errors.map((e) => [e.component, e.shared_group]),
    [
      ['sample_thickness', null],
      ['levelling', 'level:H3'],
      ['benchmark', 'height:BM1'],
      ['datum_shift', 'datum:local to MSL'],
      ['depth_sample', null],
      ['depth_hole_model', 'depth:H3'],
      ['inclination', 'inclination:H3'],
      ['sampling', null],
    ],
  );
  near(errors.find((e) => e.component === 'inclination')?.sigma_m ?? 0, 0.016);
  assert.ok(errors.every((e) => e.source.length > 0));
});

test('a declared part takes the place of the assumed one; a measured inclination that of 1 % of depth', () => {
  const errors = assumedErrors({
    ...sample,
    depth_m: 20,
    inclination_deg: 5,
    declared: new Set(['sampling', 'levelling']),
  });
  assert.ok(!errors.some((e) => e.component === 'sampling' || e.component === 'levelling'));
  // 20 m at 5°: 0.076 m, standards_verified.md, correction 5.
  near(errors.find((e) => e.component === 'inclination')?.sigma_m ?? 0, 0.076, 5e-4);
  near(
    errors.find((e) => e.component === 'inclination')?.sigma_m ?? 0,
    20 * (1 - Math.cos((5 * Math.PI) / 180)),
  );
});

test('a height stated against a bench mark shares its error with what is levelled from it', () => {
  const [levelling] = assumedErrors({
    ...sample,
    thickness_m: null,
    reference: { levelling_sigma_m: 0.02, group: 'BM1', benchmarks: [] },
  });
  assert.equal(levelling?.shared_group, 'height:BM1');
});

test('an unknown levelling error is assumed at its full published size and says so', () => {
  const [levelling] = assumedErrors({
    ...sample,
    thickness_m: null,
    reference: { levelling_sigma_m: null, group: null, benchmarks: [] },
  });
  near(levelling?.sigma_m ?? 0, 0.25);
  assert.equal(levelling?.shared_group, 'level:H3');
  assert.match(levelling?.source ?? '', /assumed/);
});

const anyError = fc.record({
  component: fc.constantFrom('a', 'b', 'c', 'd'),
  sigma_m: fc.double({ min: 0, max: 10, noNaN: true }),
  shape: fc.constantFrom('normal' as const, 'uniform' as const, 'one_sided' as const),
  shared_group: fc.constantFrom(null, 'g', 'h'),
  source: fc.constant('test'),
});

test('sorting the parts for the curve loses no variance (seed 41)', () => {
  fc.assert(
    fc.property(
      fc.array(anyError, { minLength: 1, maxLength: 8 }),
      fc.constantFrom('index' as const, 'terrestrial' as const, 'marine' as const),
      (errors, kind) => {
        const parts = forCurve(errors, kind);
        const sum =
          parts.sigma_m ** 2 +
          parts.half_range_m ** 2 / 3 +
          parts.lowering_m ** 2 +
          parts.shared.reduce((total, s) => total + s.sigma_m ** 2, 0);
        // 1 mm is the least independent part, so the sum may only be larger, by that.
        const whole = curveError(errors) ** 2;
        assert.ok(sum >= whole - 1e-9 && sum <= whole + 1e-6 + 1e-9, `${sum} against ${whole}`);
        assert.ok(parts.sigma_m > 0);
        if (kind !== 'index') assert.equal(parts.half_range_m + parts.lowering_m, 0);
      },
    ),
    { seed: 41, numRuns: 500 },
  );
});

test('a uniform part has the sigma of even draws over its width, slowly summed', () => {
  const halfWidth_m = 0.7;
  const draws = 2000;
  let sum = 0;
  for (let i = 0; i < draws; i++) sum += (halfWidth_m * ((2 * i + 1) / draws - 1)) ** 2;
  const declared = {
    component: 'u',
    value_m: halfWidth_m,
    sigma_level: 2 as const,
    shared_group: null,
    source: '',
  };
  near(curveError([declaredError({ ...declared, shape: 'uniform' })]), Math.sqrt(sum / draws), 1e-6);
});

test('a plain row: half its range is one part, everything at the stated sigma', () => {
  const cells = {
    id: 'P1',
    kind: 'index',
    elevation_m: '−3.20',
    reference_water_level_m: '1.7908',
    indicative_range_m: '0.7596',
    error_thickness_m: '0.02',
    error_levelling_m: '0.03',
    error_core_m: '0.15',
    error_inclination_m: '0.032',
    error_empty_m: '',
    colour: 'grey',
  };
  const two = plainPoint(cells);
  assert.ok(two.ok);
  near(two.rsl_m, -4.9908, 1e-9);
  const fix = (cell: object) => {
    const read = plainPoint({ ...cells, ...cell });
    return read.ok ? '' : read.fix;
  };
  assert.match(fix({ indicative_range_m: 'x' }), /e\.g\. 0\.20/);
  assert.match(fix({ elevation_m: 'x' }), /e\.g\. -3\.20/);
  near(two.error_m, 0.4112, 5e-5);
  assert.deepEqual(Object.keys(two.components), [
    'indicative_range',
    'thickness',
    'levelling',
    'core',
    'inclination',
  ]);
  const one = plainPoint(
    {
      ...cells,
      error_thickness_m: '0.01',
      error_levelling_m: '0.015',
      error_core_m: '0.075',
      error_inclination_m: '0.016',
    },
    1,
  );
  assert.ok(one.ok);
  near(one.error_m, two.error_m / 2);
});

test('a plain limiting row needs no range; one given is not used and remarked', () => {
  const row = {
    id: 'P2',
    kind: 'marine',
    elevation_m: '-8',
    reference_water_level_m: '0.01',
    error_x_m: '0.5',
  };
  const point = plainPoint(row);
  assert.ok(point.ok);
  near(point.rsl_m, -8.01);
  near(point.error_m, 0.5);
  assert.deepEqual(point.components, { x: 0.5 });
  const ranged = plainPoint({ ...row, indicative_range_m: '2' });
  assert.ok(ranged.ok);
  assert.equal(ranged.error_m, point.error_m);
  assert.equal(ranged.remarks.length, 1);
});

test('a plain row that cannot be used says which cell', () => {
  const row = {
    id: 'P',
    kind: 'index',
    elevation_m: '1',
    reference_water_level_m: '0',
    indicative_range_m: '1',
  };
  const column = (cells: PlainCells) => {
    const answer = plainPoint(cells);
    return answer.ok ? null : answer.column;
  };
  assert.equal(column({ ...row, kind: 'tree' }), 'kind');
  assert.equal(column({ ...row, elevation_m: '1,5 m' }), 'elevation_m');
  assert.equal(column({ ...row, indicative_range_m: '' }), 'indicative_range_m');
  assert.equal(column({ ...row, error_x_m: '-0.1' }), 'error_x_m');
  assert.equal(column({ ...row, error_indicative_range_m: '0.1' }), 'error_indicative_range_m');
});

test('no row of text makes a plain point throw or give a number that is not one (seed 43)', () => {
  const cell = fc.oneof(fc.string(), fc.double().map(String), fc.constantFrom('index', 'marine', '', '0.1'));
  const key = fc.constantFrom(
    'id',
    'kind',
    'elevation_m',
    'reference_water_level_m',
    'indicative_range_m',
    'error_a_m',
    'error___proto___m',
  );
  fc.assert(
    fc.property(fc.dictionary(key, cell), fc.constantFrom(1 as const, 2 as const), (cells, sigma) => {
      const answer = plainPoint(cells, sigma);
      if (answer.ok) assert.ok(Number.isFinite(answer.rsl_m) && answer.error_m >= 0);
      else assert.ok(answer.fix.length > 0);
    }),
    { seed: 43, numRuns: 1000 },
  );
});
