import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import type { Results } from './index.ts';
import { readResults } from './read.ts';
import { resultsShape } from './results-shape.ts';
import { resultsSchema } from './schema.ts';
import type { Shape } from './shape.ts';
import { writeResults } from './write.ts';

const SEED = 20260301;
const published = join(import.meta.dirname, 'results.schema.json');
// RENEW=1 writes the published schema anew after a change of the shape; the formatter then lays it out.
const { RENEW } = process.env;
if (RENEW === '1') writeFileSync(published, JSON.stringify(resultsSchema(), null, 2));

const schema = JSON.parse(readFileSync(published, 'utf8')) as Record<string, unknown>;
// Twin of the reader's check of the shape: a general-purpose JSON Schema validator on the published schema.
const accepts = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schema);

test('the published schema is the one the shape gives', () => {
  const renew = 'results.schema.json is not what the shape gives: renew it by running this test with RENEW=1';
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
      const back = readResults(files.json, files.draws);
      assert.ok(back.ok, back.ok ? '' : JSON.stringify(back.problem));
      assert.deepEqual(back.results, results);
      const again = writeResults(turnedRound(back.results));
      assert.equal(again.json, files.json);
      assert.deepEqual(again.draws, files.draws);
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
      const back = readResults(JSON.stringify(file), files.draws);
      if (!valid) {
        refused++;
        assert.equal(back.ok, false);
      } else if (!back.ok) {
        // What a schema cannot say: that places and counts in the two files agree.
        const isAboutTwoFiles = /bad-reference|mismatch/.test(back.problem.code);
        const isUnexplainedNull = back.problem.found === 'null';
        assert.ok(isAboutTwoFiles || isUnexplainedNull, JSON.stringify(back.problem));
      }
      if (!back.ok) assert.ok(back.problem.expected !== '' && back.problem.mend !== '');
    }),
    { seed: SEED, numRuns: 1500 },
  );
  assert.ok(refused > 500, `only ${refused} of 1500 changes broke the schema`);
});

test(`any text and any bytes give a problem, never an exception (seed ${SEED})`, () => {
  const { json, draws } = writeResults(smallest());
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), fc.uint8Array({ maxLength: 80 }), (text, bytes) => {
      assert.equal(readResults(text, draws).ok, false);
      assert.equal(readResults(json, bytes).ok, false);
      assert.equal(readResults(json + text.trim(), draws).ok, text.trim() === '');
    }),
    { seed: SEED },
  );
  for (const hostile of ['[', '{"a":'].map((open) => open.repeat(100_000))) {
    assert.equal(readResults(hostile, draws).ok, false);
  }
});

test('files of two computations are not taken for one', () => {
  const one = writeResults(smallest());
  const code = (json: string, draws: Uint8Array) => {
    const back = readResults(json, draws);
    return back.ok ? 'fine' : back.problem.code;
  };
  assert.equal(code(one.json, one.draws), 'fine');
  assert.equal(code(one.json, writeResults({ ...smallest(), seed: 2 }).draws), 'seed-mismatch');
  assert.equal(code(one.json, writeResults({ ...smallest(), inputs: 'other' }).draws), 'inputs-mismatch');
  assert.equal(code(one.json, one.draws.slice(0, 38)), 'draws-length');
  assert.equal(code(one.json.replace('"version": 2', '"version": 3'), one.draws), 'results-version');
  assert.equal(code(one.json.replace('stillstand-results', 'other'), one.draws), 'not-results');
});

test('one bit of the draws changed, or draws of another run with the same seed and inputs, is noticed', () => {
  const density = Float64Array.of(1, -0.5);
  const one = writeResults({ ...smallest(), dates: [{ ...aDate(), density }] });
  const other = writeResults({ ...smallest(), dates: [{ ...aDate(), density: Float64Array.of(1, -0.25) }] });
  // SHA-256 of the platform, independent of the one used.
  const digest = createHash('sha256').update(one.draws).digest('hex');
  const file = JSON.parse(one.json) as { numbers_file: { sha256: string } };
  assert.equal(file.numbers_file.sha256, digest);
  const flipped = one.draws.slice();
  flipped[flipped.length - 3]! ^= 1;
  for (const draws of [flipped, other.draws]) {
    const back = readResults(one.json, draws);
    assert.equal(back.ok ? 'fine' : back.problem.code, 'digest-mismatch');
  }
});

test('a file of version 1 is refused, not read with its numbers taken for others', () => {
  const { json, draws } = writeResults(smallest());
  const back = readResults(json.replace('"version": 2', '"version": 1'), draws);
  assert.ok(!back.ok);
  assert.deepEqual(
    [back.problem.code, back.problem.column, back.problem.found, back.problem.expected],
    ['results-version', '/version', '1', 'version 2'],
  );
  assert.match(back.problem.mend, /or compute again/);
});

test('bytes of the binary file are little-endian, after a header that says what they belong to', () => {
  const results = { ...smallest(), seed: 7, inputs: 'a5' };
  const density = Float64Array.of(1, -0.5);
  const { draws } = writeResults({ ...results, dates: [{ ...aDate(), density }] });
  const view = new DataView(draws.buffer);
  assert.equal(new TextDecoder().decode(draws.subarray(0, 8)), 'STLDRAWS');
  assert.deepEqual([view.getUint32(8, true), view.getUint32(12, true)], [1, 40]);
  assert.deepEqual(
    [view.getFloat64(16, true), view.getFloat64(24, true), view.getUint32(32, true)],
    [7, 2, 2],
  );
  // IEEE 754: 1 is 3FF0…, −0.5 is BFE0…; least significant byte first.
  const last = [...draws.subarray(40)].map((byte) => byte.toString(16)).join(' ');
  assert.equal(last, '0 0 0 0 0 0 f0 3f 0 0 0 0 0 0 e0 bf');
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
    version: 2,
    computation: '1',
    name: 'none',
    seed: 1,
    inputs: '00',
    datum: { label: 'D', kind: null, epoch: null },
    problems: [],
    holes: [],
    samples: [],
    dates: [],
    age_depth: [],
    points: [],
    undated: [],
    curve_sites: [],
    curve: null,
    settings: [],
  };
}

function aDate(): Results['dates'][number] {
  const date = resultsShape.fields.dates.of;
  return fc.sample(anyOf(date), { numRuns: 1, seed: SEED })[0] as Results['dates'][number];
}

/** Any results of the shape, the draws in whole rows. */
function anyResults(): fc.Arbitrary<Results> {
  return (anyOf(resultsShape) as fc.Arbitrary<Results>).map((results) => {
    if (results.curve === null) return results;
    const ages = results.curve.ages_cal_bp;
    const two = Float64Array.from([...ages, ...ages]);
    return {
      ...results,
      curve: { ...results.curve, draws: { ...results.curve.draws, level_m: two, rate_mm_yr: ages } },
    };
  });
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
