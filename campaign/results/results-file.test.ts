import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import type { Shape } from '@stillstand/science/shape';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { unzipSync, zipSync } from 'fflate';
import { type Around, membersOf } from './file-shape.ts';
import { aSection } from './fixtures/a-section.ts';
import { type NumberArray, readNpz, writeNpz } from './npz.ts';
import { readResults } from './read.ts';
import { resultsSchema } from './schema.ts';
import { type Results, resultsShape } from './shape.ts';
import { writeResults } from './write.ts';

const SEED = 20260301;
const published = join(import.meta.dirname, 'results.schema.json');
// STILLSTAND_UPDATE=1 writes the published schema after a change of the shape; the formatter then lays it out.
const { STILLSTAND_UPDATE } = process.env;
if (STILLSTAND_UPDATE === '1') writeFileSync(published, JSON.stringify(resultsSchema(), null, 2));

const schema = JSON.parse(readFileSync(published, 'utf8')) as Record<string, unknown>;
// Twin of the reader's check of the shape: a general-purpose JSON Schema validator on the published schema.
const accepts = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schema);

test('the published schema is the one the shape gives', () => {
  const renew =
    'results.schema.json is not what the shape gives: renew it by running this test with STILLSTAND_UPDATE=1';
  assert.deepEqual(schema, resultsSchema(), renew);
});

test('every property of the schema says what it is', () => {
  const walk = (node: unknown, at: string): void => {
    if (typeof node !== 'object' || node === null) return;
    const { properties } = node as { properties?: Record<string, { description?: string }> };
    for (const [name, property] of Object.entries(properties ?? {})) {
      assert.ok((property.description ?? '').length > 2, `${at}/${name} has no description`);
    }
    for (const [name, child] of Object.entries(node)) walk(child, `${at}/${name}`);
  };
  walk(schema, '');
});

test(`what is written is read back exactly, validates, and does not depend on the order of keys (seed ${SEED})`, () => {
  fc.assert(
    fc.property(anyResults(), (results) => {
      const files = writeResults(results);
      assert.ok(accepts(JSON.parse(files.json)), JSON.stringify(accepts.errors?.slice(0, 3)));
      const back = readResults(files.json, files.arrays);
      assert.ok(back.ok, back.ok ? '' : JSON.stringify(back.problem));
      assert.deepEqual(back.results, results);
      const again = writeResults(turnedRound(back.results));
      assert.equal(again.json, files.json);
      assert.deepEqual(again.arrays, files.arrays);
    }),
    { seed: SEED, numRuns: 200 },
  );
});

test(`one change anywhere: the reader takes what the validator takes, and names what it does not (seed ${SEED})`, () => {
  let refused = 0;
  fc.assert(
    fc.property(anyResults(), fc.nat(), fc.constantFrom(...CHANGES), (results, where, change) => {
      const files = writeResults(results);
      const file: unknown = JSON.parse(files.json);
      changeAt(file, where, change);
      const valid = accepts(file);
      const back = readResults(JSON.stringify(file), files.arrays);
      if (!valid) {
        refused++;
        assert.equal(back.ok, false);
      } else if (!back.ok) {
        // What a schema cannot say: that places and counts in the two files agree.
        const isAboutTwoFiles = /bad-reference|mismatch/.test(back.problem.code);
        const isUnexplainedNull = back.problem.found === 'null';
        assert.ok(isAboutTwoFiles || isUnexplainedNull, JSON.stringify(back.problem));
      }
      if (!back.ok) assert.ok(back.problem.expected !== '' && back.problem.fix !== '');
    }),
    { seed: SEED, numRuns: 1500 },
  );
  assert.ok(refused > 500, `only ${refused} of 1500 changes broke the schema`);
});

test(`any text and any bytes give a problem, never an exception (seed ${SEED})`, () => {
  const { json, arrays } = writeResults(smallest());
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), fc.uint8Array({ maxLength: 80 }), (text, bytes) => {
      assert.equal(readResults(text, arrays).ok, false);
      assert.equal(readResults(json, bytes).ok, false);
      assert.equal(readResults(json + text.trim(), arrays).ok, text.trim() === '');
    }),
    { seed: SEED },
  );
  for (const hostile of ['[', '{"a":'].map((open) => open.repeat(100_000))) {
    assert.equal(readResults(hostile, arrays).ok, false);
  }
});

/** What the reader says of two files. */
const told = (json: string, arrays: Uint8Array): string => {
  const back = readResults(json, arrays);
  return back.ok ? 'fine' : back.problem.code;
};
const withDensity = (...density: number[]) =>
  writeResults({ ...smallest(), dates: [{ ...aDate(), density: Float64Array.from(density) }] });
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
/** The JSON of the one with the digest of the other file. */
const paired = (json: string, bytes: Uint8Array): string =>
  json.replace(/"sha256": "\w+"/, `"sha256": "${sha256(bytes)}"`);

test('a file of another kind or version is named as such', () => {
  const { json, arrays } = writeResults(smallest());
  assert.equal(told(json, arrays), 'fine');
  for (const version of [1, 2, 3, 4, 6]) {
    const back = readResults(json.replace('"version": 5', `"version": ${version}`), arrays);
    assert.ok(!back.ok);
    const { code, column, found, expected } = back.problem;
    assert.deepEqual(
      [code, column, found, expected],
      ['results-version', '/version', `${version}`, 'version 5'],
    );
    assert.match(back.problem.fix, /or compute again/);
  }
  assert.equal(told(json.replace('stillstand-results', 'other'), arrays), 'not-results');
});

test('one bit of the arrays changed, or arrays of another run with the same seed and inputs, is noticed', () => {
  const one = withDensity(1, -0.5);
  const other = withDensity(1, -0.25);
  // SHA-256 of the platform, independent of the one used.
  const file = JSON.parse(one.json) as { arrays_file: { sha256: string } };
  assert.equal(file.arrays_file.sha256, sha256(one.arrays));
  const flipped = one.arrays.slice();
  flipped[flipped.length - 3]! ^= 1;
  for (const arrays of [flipped, other.arrays, one.arrays.slice(0, 38)])
    assert.equal(told(one.json, arrays), 'digest-mismatch');
});

test('arrays that the JSON does not name, or of another shape, are refused although the digest agrees', () => {
  const { json, arrays } = withDensity(1, -0.5);
  const given = readNpz(arrays);
  assert.ok(typeof given !== 'string');
  const after = (change: (arrays: Map<string, NumberArray>) => void): string => {
    const changed = new Map(given);
    change(changed);
    const bytes = writeNpz(changed);
    return told(paired(json, bytes), bytes);
  };
  const one = { shape: [1], values: Float64Array.of(7) };
  assert.equal(
    after(() => {}),
    'fine',
  );
  assert.equal(
    after((arrays) => arrays.set('extra', one)),
    'bad-reference',
  );
  assert.equal(
    after((arrays) => arrays.set('dates/0/density', one)),
    'bad-reference',
  );
  assert.equal(
    after((arrays) => arrays.delete('dates/0/density')),
    'bad-reference',
  );
  for (const bytes of [new TextEncoder().encode('PK'), zipSync({ 'a.npy': [arrays, { level: 0 }] })])
    assert.equal(told(paired(json, bytes), bytes), 'not-arrays');
});

test('a bomb in the file of arrays is not unpacked', () => {
  const bomb = zipSync({ 'dates/0/density.npy': new Uint8Array(5e7) }, { level: 9 });
  assert.equal(told(paired(withDensity(1).json, bomb), bomb), 'bad-reference');
});

test('arrays are of the open format: NEP 1 of NumPy, little-endian, rows one after another', () => {
  const { arrays } = withDensity(1, -0.5);
  const npy = unzipSync(arrays)['dates/0/density.npy']!;
  const header = `{'descr': '<f8', 'fortran_order': False, 'shape': (2,), }`;
  assert.deepEqual([...npy.subarray(0, 8)], [0x93, 0x4e, 0x55, 0x4d, 0x50, 0x59, 1, 0]);
  assert.equal(new TextDecoder().decode(npy.subarray(10, 128)), `${header.padEnd(117)}\n`);
  // IEEE 754: 1 is 3FF0…, −0.5 is BFE0…; least significant byte first.
  const last = [...npy.subarray(128)].map((byte) => byte.toString(16)).join(' ');
  assert.equal(last, '0 0 0 0 0 0 f0 3f 0 0 0 0 0 0 e0 bf');
});

test('arrays that NumPy 2.4.6 saved are read', () => {
  // numpy.savez(f, a=numpy.array([1.0, -0.5]), **{'b/c': numpy.array([[1.0, numpy.nan, 3.0]])})
  const read = readNpz(readFileSync(join(import.meta.dirname, 'fixtures', 'numpy.npz')));
  assert.ok(typeof read !== 'string', String(read));
  assert.deepEqual(read.get('a'), { shape: [2], values: Float64Array.of(1, -0.5) });
  assert.deepEqual(read.get('b/c'), { shape: [1, 3], values: Float64Array.of(1, Number.NaN, 3) });
});

test('a number that is not finite is null, with place and reason', () => {
  // Any date has numbers that are none; here all others are.
  const finite = Object.entries(aDate()).map(([name, v]) => [name, typeof v === 'number' ? 1 : v]);
  const date = {
    ...(Object.fromEntries(finite) as ReturnType<typeof aDate>),
    sd_yr: Number.POSITIVE_INFINITY,
  };
  const { json } = writeResults({ ...smallest(), dates: [date] });
  const file = JSON.parse(json) as { dates: { sd_yr: unknown }[]; not_finite: unknown };
  assert.equal(file.dates[0]!.sd_yr, null);
  assert.deepEqual(file.not_finite, [{ at: '/dates/0/sd_yr', reason: 'larger than any number' }]);
});

test('a property that is absent, against the types, is refused by name', () => {
  const { name: _, ...nameless } = smallest();
  assert.throws(() => writeResults(nameless as Results), /results\/name came undefined/);
});

function smallest(): Results {
  return {
    format: 'stillstand-results',
    version: 5,
    computation: '1',
    campaign: null,
    name: 'none',
    seed: 1,
    inputs: '00',
    datum: { label: 'D', kind: null, epoch: null },
    problems: [],
    holes: [],
    samples: [],
    correlations: [],
    horizons: [],
    correlation_proposals: [],
    sections: [aSection],
    expectations: [],
    environments: [],
    lines_through_time: [],
    tides: [],
    measurements: [],
    logs: [],
    grain_sizes: [],
    photographs: [],
    dates: [],
    dose_rates: [],
    lead_profiles: [],
    histories: [],
    points: [],
    undated: [],
    published: [],
    groups: [],
    curves: [],
    settings: [],
  };
}

function aDate(): Results['dates'][number] {
  const date = resultsShape.fields.dates.of;
  return fc.sample(anyOf(date), { numRuns: 1, seed: SEED })[0] as Results['dates'][number];
}

/** Any results of the shape, tables of numbers in whole rows. */
const anyResults = (): fc.Arbitrary<Results> =>
  (anyOf(resultsShape) as fc.Arbitrary<Results>).map(
    (results) => inWholeRows(resultsShape, results, null) as Results,
  );

function inWholeRows(shape: Shape, value: unknown, around: Around | null): unknown {
  if (value === null) return null;
  if (shape.kind === 'list') return (value as unknown[]).map((item) => inWholeRows(shape.of, item, around));
  if (shape.kind === 'record') {
    const fields = value as Record<string, unknown>;
    const here = { fields, outer: around };
    const whole = Object.entries(shape.fields).map(([name, field]) => [
      name,
      inWholeRows(field, fields[name], here),
    ]);
    return Object.fromEntries(whole);
  }
  if (shape.kind !== 'numbers' || shape.columns === null) return value;
  const width = membersOf(shape.columns, around);
  const rows = value as Float64Array;
  return Float64Array.from({ length: rows.length * width }, (_, i) => rows[i % rows.length]!);
}

function anyOf(shape: Shape): fc.Arbitrary<unknown> {
  const present = anyPresent(shape);
  return 'nullable' in shape && shape.nullable ? fc.option(present, { nil: null }) : present;
}

function anyPresent(shape: Shape): fc.Arbitrary<unknown> {
  switch (shape.kind) {
    case 'text':
      return shape.choices === null
        ? fc.string({ unit: 'grapheme', maxLength: 8 })
        : fc.constantFrom(...shape.choices);
    case 'number':
      return fc.double();
    case 'fixed':
      return fc.constant(shape.value);
    case 'boolean':
      return fc.boolean();
    case 'numbers':
      return fc.float64Array({ maxLength: 4 });
    case 'list':
      return fc.array(anyOf(shape.of), { maxLength: 2 });
    case 'record': {
      const fields = Object.entries(shape.fields).map(([name, field]) => [name, anyOf(field)] as const);
      // Objects of the ordinary kind: deepEqual tells them from those without a prototype.
      return fc.record(Object.fromEntries(fields), { noNullPrototype: true });
    }
  }
}

const CHANGES = ['drop', 'add', 'text', 'number', 'fraction', 'null', 'list', 'record', 'true'] as const;

/** Changes the `where`-th place (counted in a walk, modulo their number) of a JSON value. */
function changeAt(root: unknown, where: number, change: (typeof CHANGES)[number]): void {
  const places: { holder: Record<string, unknown>; name: string }[] = [];
  const walk = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    for (const [name, child] of Object.entries(node)) {
      places.push({ holder: node as Record<string, unknown>, name });
      walk(child);
    }
  };
  walk(root);
  const { holder, name } = places[where % places.length]!;
  const values = { text: 'x', number: 12345, fraction: 0.5, null: null, list: [], record: {}, true: true };
  if (change === 'add' && !Array.isArray(holder)) Object.assign(holder, { another: 1 });
  else if (change === 'drop' && !Array.isArray(holder)) delete holder[name];
  else if (change !== 'add' && change !== 'drop') holder[name] = values[change];
}

/** The same value, the keys of every record in the opposite order. */
function turnedRound<T>(value: T): T {
  if (typeof value !== 'object' || value === null || value instanceof Float64Array) return value;
  if (Array.isArray(value)) return value.map(turnedRound) as T;
  const entries = Object.entries(value).reverse();
  return Object.fromEntries(entries.map(([name, child]) => [name, turnedRound(child)])) as T;
}
