/** Logs of holes, grain sizes and what pans weigh: from the table of measurements to results, problems and trace. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

function computed(measurements: Cells[], settings: Cells[] = []) {
  const tables = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    settings: [{ name: 'datum', value: 'MSL' }, ...settings],
    holes: [{ hole: 'H1', method: 'tube' }],
    pushes: [{ hole: 'H1', push: 'P1', seq: '1', from: '0 m', to: '2.00 m', recovered: '1.60 m' }],
    samples: [
      { sample: 'A', hole: 'H1', depth_basis: 'push', run: 'P1', top: '0.40 m', bottom: '0.44 m' },
      { sample: 'B', hole: 'H1', depth_basis: 'in_situ', top: '1.50 m', bottom: '1.52 m' },
    ],
    measurements: measurements.map((cells, i) => ({ row_id: `m${i}`, ...cells })),
  };
  const { campaign, problems } = campaignOf('laboratory', tables);
  const { results, trace } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  const said = results.problems.filter(({ table }) => table === 'measurements');
  const partsOf = (id: ReturnType<typeof traceId.weighed>) =>
    trace.parts(trace.find(id)).map((part) => String(trace.node(part).id));
  return { ...results, partsOf, said, codes: said.map(({ code, severity }) => `${severity} ${code}`) };
}
const near = (actual: number | null | undefined, expected: number, within = 1e-9) =>
  assert.ok(Math.abs((actual ?? NaN) - expected) <= within, `${actual} is not ${expected}`);

test('one log a quantity, in one unit, from the top down; depths keep their error, limits stay limits', () => {
  const { logs, measurements, codes } = computed([
    { sample: 'B', property: 'LOI', value: '0.25', unit: 'g/g', sigma: '0.004' },
    { sample: 'A', property: 'loss on ignition', value: '12.5', unit: '%', sigma: '0.3' },
    {
      hole: 'H1',
      depth_basis: 'in_situ',
      top: '1.70 m',
      property: 'Loss on ignition',
      value: '<0.5',
      unit: '%',
    },
    { sample: 'A', property: 'δ13C', value: '-26.1', unit: '‰ VPDB' },
  ]);
  assert.deepEqual(codes, []);
  assert.deepEqual(
    logs.map(({ hole, property, unit, points }) => [hole, property, unit, points.length]),
    [
      ['H1', 'LOI', '%', 3],
      ['H1', 'δ13C', '‰ VPDB', 1],
    ],
  );
  const points = logs[0]!.points;
  assert.deepEqual(
    points.map(({ trace, value, sigma, qualifier }) => [trace, value, sigma, qualifier]),
    [
      ['measurement:m1', 12.5, 0.3, null],
      ['measurement:m0', 25, 0.4, null],
      ['measurement:m2', 0.5, null, 'less_than'],
    ],
  );
  // Counted in a push that came up shorter than the ground: deeper than it lies in the core, and not to the millimetre.
  const [inPush, inGround] = points.map(({ depth_m }) => depth_m);
  assert.ok(inPush!.value > 0.42 && inPush!.sigma > 0 && inPush!.upper95 > inPush!.lower95);
  near(inGround!.sigma, 0);
  assert.equal(measurements[0]!.value, 0.25, 'the measurement keeps what was typed');
});

test('units that do not convert have logs apart, and it is said once', () => {
  const { logs, said } = computed([
    { sample: 'A', property: 'Fe', value: '3', unit: '%' },
    { sample: 'B', property: 'Fe', value: '28000', unit: 'mg/kg' },
    { hole: 'H1', depth_basis: 'in_situ', top: '1 m', property: 'Fe', value: '812', unit: 'cps' },
  ]);
  assert.deepEqual(
    logs.map(({ unit, points }) => [unit, points.map(({ value }) => value)]),
    [
      ['%', [3, 2.8]],
      ['cps', [812]],
    ],
  );
  assert.deepEqual(
    said.map(({ code, found }) => [code, found]),
    [['other-unit', 'cps of 1 of 3 values in H1']],
  );
});

test('values that cannot be, values twice, and depths beyond the core and below the hole', () => {
  const inCore = { hole: 'H1', property: 'LOI', value: '5', unit: '%' };
  const { said, logs } = computed([
    { sample: 'A', property: 'LOI', value: '112', unit: '%' },
    { sample: 'A', property: 'dry density', value: '1450', unit: 'g/cm3' },
    { sample: 'B', property: 'LOI', value: '7', unit: '%' },
    { sample: 'B', property: 'loss on ignition', value: '7', unit: '%' },
    { sample: 'A', property: 'C', value: '4', sigma: '0.1', unit: '%' },
    { sample: 'A', property: 'C', value: '50', sigma: '1', unit: 'mg/g' },
    { sample: 'B', property: 'C', value: '4', unit: '%', batch: '1' },
    { sample: 'B', property: 'C', value: '5', unit: '%', batch: '2' },
    { ...inCore, depth_basis: 'push', run: 'P1', top: '1.80 m', bottom: '1.82 m' },
    { ...inCore, depth_basis: 'in_situ', top: '2.40 m' },

    { sample: 'A', property: 'water content', value: '420', unit: '%' },
  ]);
  assert.deepEqual(said.map(({ row_id, code, severity }) => `${row_id} ${severity} ${code}`).sort(), [
    'm0 warning impossible-value',
    'm1 warning impossible-value',
    'm3 warning measured-twice',
    'm5 warning measured-twice',
    'm8 warning deeper-than-its-core',
    'm9 warning deeper-than-its-core',
  ]);
  assert.equal(said.find(({ row_id }) => row_id === 'm5')!.found, '50 and 40, 7 sigma apart');
  assert.equal(logs.flatMap(({ points }) => points).length, 11, 'each is drawn all the same');
});

const CLASSES = ['> 2 mm', '1–2 mm', '0.5–1 mm', '250–500 µm', '125–250 µm', '63–125 µm', '< 63 µm'];
const sieved = (sample: string, amounts: readonly (number | string)[], parts: Cells = {}): Cells[] =>
  amounts.map((value, i) => ({ sample, property: CLASSES[i]!, value: String(value), unit: '%', ...parts }));

test('classes of a sample are one analysis: parts, name, Folk & Ward and its trace', () => {
  const { grain_sizes, logs, codes, partsOf } = computed(sieved('A', [0, 5, 20, 45, 20, 8, 2]));
  assert.deepEqual(codes, []);
  assert.deepEqual(logs, []);
  const [found] = grain_sizes;
  assert.deepEqual(
    [found!.sample, found!.hole, found!.classes.length, found!.name, found!.sum_percent],
    ['A', 'H1', 7, 'sand', 100],
  );
  assert.deepEqual(
    [found!.gravel_percent, found!.sand_percent, found!.silt_percent, found!.mud_percent],
    [0, 98, null, 2],
  );
  // By hand: φ16 = 0.55, φ50 = 1 + 25/45, φ84 = 2 + 14/20.
  near(found!.folk_ward!.mean_phi, (0.55 + (1 + 25 / 45) + 2.7) / 3, 0.01);
  assert.equal(found!.moments!.ends, 'assumed');
  assert.equal(partsOf(traceId.grainSize('m0')).length, 7);
  assert.ok(partsOf(traceId.grainSize('m0')).includes('measurement:m3'));
});

test('classes that do not sum are named and keep no statistics; masses and another scale are taken', () => {
  const { grain_sizes, said } = computed(
    [
      ...sieved('A', [0, 5, 20, 45, 20, 0, 0]),
      ...sieved('B', [0, 1, 4, 9, 4, 1.6, 0.4], { unit: 'g', batch: '1' }),
      ...[
        ['sand', '40'],
        ['silt', '35'],
        ['clay', '25'],
      ].map(([property, value]) => ({
        sample: 'B',
        batch: '2',
        property: property!,
        value: value!,
        unit: '%',
      })),
    ],
    [{ name: 'grain_size_scale', value: 'iso_14688' }],
  );
  assert.deepEqual(
    said.map(({ code, label, found, expected, severity }) => [code, label, found, expected, severity]),
    [['grain-size-sum', '> 2 mm of A', 'classes that sum to 90 %', '100 %', 'error']],
  );
  const [off, mass, words] = grain_sizes;
  assert.deepEqual([off!.folk_ward, off!.name, off!.classes.length], [null, null, 7]);
  assert.deepEqual([mass!.sum_percent, mass!.sand_percent, mass!.batch], [null, 98, '1']);
  assert.deepEqual(
    [words!.scale, words!.sand_percent, words!.clay_percent, words!.name],
    ['iso_14688', 40, 25, 'sandy mud'],
  );
});

test('one class alone is a quantity along the hole', () => {
  const { grain_sizes, logs, codes } = computed([
    { sample: 'A', property: '> 63 µm', value: '12', unit: '%' },
  ]);
  assert.deepEqual([grain_sizes.length, logs[0]?.property, codes.length], [0, '> 63 µm', 0]);
});

const pan = (sample: string, weights: Record<string, string>): Cells[] =>
  Object.entries(weights).map(([property, value]) => ({
    sample,
    property,
    value,
    unit: property === 'volume' ? 'cm3' : 'g',
  }));

test('weights of a pan give loss on ignition, water and densities, with a trace to the weights of each', () => {
  const { logs, codes, partsOf } = computed(
    pan('A', { pan: '10', 'pan + wet': '24', 'pan + dry': '18', 'pan + burnt': '16', volume: '10' }),
  );
  assert.deepEqual(codes, []);
  assert.deepEqual(
    logs.map(({ property, unit, points }) => [property, unit, points[0]!.value, points[0]!.computed]),
    [
      ['loss on ignition', '%', 25, 'from_weights'],
      ['water content', '%', 75, 'from_weights'],
      ['dry density', 'g/cm³', 0.8, 'from_weights'],
      ['wet density', 'g/cm³', 1.4, 'from_weights'],
    ],
  );
  assert.deepEqual(partsOf(traceId.weighed('m0', 'dry density')), [
    'measurement:m0',
    'measurement:m2',
    'measurement:m4',
  ]);
});

test('impossible weights are named at their row, and what does not need them is computed', () => {
  const { logs, said } = computed(
    pan('A', { pan: '10', 'pan + wet': '24', 'pan + dry': '25', 'pan + burnt': '16', volume: '10' }),
  );
  assert.deepEqual(
    said.map(({ code, label, found }) => [code, label, found]),
    [['impossible-weight', 'pan + dry of A', '25 g dry, 24 g wet']],
  );
  assert.deepEqual(
    logs.map(({ property }) => property),
    ['wet density'],
  );
});

test('a whole column in a wrong unit, or doubled, is one problem', () => {
  const rows = Array.from({ length: 40 }, (_, i) => ({
    hole: 'H1',
    depth_basis: 'in_situ',
    top: `${i} cm`,
    property: 'dry density',
    value: String(300 + i),
    unit: 'g/cm3',
  }));
  const { said } = computed([...rows, ...rows]);
  assert.deepEqual(
    said.map(({ code, severity, found }) => [severity, code, found]),
    [
      ['warning', 'measured-twice', '40 values of dry density in H1, the first 300 twice'],
      ['warning', 'impossible-value', '80 values of dry density in H1, the first 300 g/cm3'],
    ],
  );
});
