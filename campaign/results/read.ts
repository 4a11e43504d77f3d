/** The two files of results back to the results, or the problem that stops it. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { drawsDigest, readDraws } from './draws-file.ts';
import { besideShape, DRAWS_FILE, NOT_FINITE, type NotFinite } from './file-shape.ts';
import type { Results } from './index.ts';
import { resultsShape } from './results-shape.ts';
import { type RecordShape, record, type Shape, type ShapeFields } from './shape.ts';

/** Name of the JSON file, as problems call it. */
const FILE = 'results.json';
const COMPUTE_AGAIN = 'Compute the campaign again.';

/**
 * Exactly the results that `writeResults` was given, or what is wrong with the files (`code`): not-json, not-results,
 * results-version, bad-shape, bad-reference, seed-mismatch, inputs-mismatch, digest-mismatch, and of the binary file not-draws,
 * draws-version, draws-length. `column` is the place in the file as a JSON Pointer. Never throws.
 */
export function readResults(
  json: string,
  draws: Uint8Array,
): { ok: true; results: Results } | { ok: false; problem: Problem } {
  let file: unknown;
  try {
    file = JSON.parse(json);
  } catch (error) {
    return failed('not-json', '', error instanceof Error ? error.message : String(error), 'JSON (RFC 8259)');
  }
  if (!isRecord(file) || own(file, 'format') !== 'stillstand-results') {
    return failed(
      'not-results',
      '/format',
      said(isRecord(file) ? own(file, 'format') : file),
      'stillstand-results',
    );
  }
  const version = resultsShape.fields.version.value;
  const stated = own(file, 'version');
  // Version 1 is not lifted: its influence and predictive p of a point are other quantities.
  if (stated !== version) return failed('results-version', '/version', said(stated), `version ${version}`);
  const binary = readDraws(draws);
  if (!binary.ok) return binary;
  try {
    const { results, sha256 } = readFile(file, binary.file.numbers);
    if (!Object.is(binary.file.seed, results.seed)) {
      return mismatch('seed-mismatch', `seed ${binary.file.seed}`, `seed ${results.seed}, as in ${FILE}`);
    }
    if (binary.file.inputs !== results.inputs) {
      return mismatch('inputs-mismatch', binary.file.inputs, `inputs ${results.inputs}, as in ${FILE}`);
    }
    const found = drawsDigest(draws);
    if (found !== sha256) {
      return mismatch('digest-mismatch', `SHA-256 ${found}`, `SHA-256 ${sha256}, as in ${FILE}`);
    }
    return { ok: true, results };
  } catch (error) {
    if (!(error instanceof NotAsDescribed)) throw error;
    return failed(error.code, error.at, error.found, error.expected);
  }
}

/** Thrown and caught in this file only: leaves the walk at the first thing that is not as the shape says. */
class NotAsDescribed extends Error {
  readonly code: string;
  readonly at: string;
  readonly found: string;
  readonly expected: string;
  constructor(code: string, at: string, found: unknown, expected: string) {
    super(at);
    this.code = code;
    this.at = at;
    this.found = said(found);
    this.expected = expected;
  }
}

function readFile(
  file: Record<string, unknown>,
  numbers: Float64Array,
): { results: Results; sha256: string } {
  const notFinite = new Map<string, number>();
  let offset = 0;

  const read = (shape: Shape, value: unknown, at: string): unknown => {
    const bad = (expected: string) => new NotAsDescribed('bad-shape', at, value, expected);
    if (value === null && shape.kind === 'number') {
      const given = notFinite.get(at);
      notFinite.delete(at);
      if (given === undefined && !shape.nullable) throw bad('a number, or a reason under not_finite');
      return given ?? null;
    }
    if (value === null && 'nullable' in shape && shape.nullable) return null;
    switch (shape.kind) {
      case 'number':
        if (typeof value !== 'number') throw bad(`a number (${shape.about})`);
        return value;
      case 'fixed':
        if (value !== shape.value) throw bad(String(shape.value));
        return value;
      case 'boolean':
        if (typeof value !== 'boolean') throw bad('true or false');
        return value;
      case 'text':
        if (typeof value !== 'string') throw bad(`text (${shape.about})`);
        if (shape.choices !== null && !shape.choices.includes(value)) throw bad(shape.choices.join(', '));
        return value;
      case 'numbers':
        return readRun(shape.layout, value, at);
      case 'list':
        if (!Array.isArray(value)) throw bad(`a list (${shape.about})`);
        return value.map((item, i) => read(shape.of, item, `${at}/${i}`));
      case 'record':
        return readFields(shape, value, at);
    }
  };

  const readFields = (shape: RecordShape<ShapeFields, boolean>, value: unknown, at: string) => {
    if (!isRecord(value)) throw new NotAsDescribed('bad-shape', at, value, `a record (${shape.about})`);
    for (const name of Object.keys(value)) {
      if (!Object.hasOwn(shape.fields, name)) {
        throw new NotAsDescribed('bad-shape', `${at}/${name}`, value[name], 'no property of this name');
      }
    }
    const fields: Record<string, unknown> = {};
    for (const [name, field] of Object.entries(shape.fields)) {
      const place = `${at}/${name}`;
      if (!Object.hasOwn(value, name)) throw new NotAsDescribed('bad-shape', place, undefined, field.about);
      fields[name] = read(field, value[name], place);
    }
    return fields;
  };

  const readRun = (layout: 'row' | 'draw×age', value: unknown, at: string): Float64Array => {
    const expectedKeys = layout === 'row' ? 2 : 3;
    const isReference =
      isRecord(value) &&
      isCount(own(value, 'offset')) &&
      isCount(own(value, 'length')) &&
      (layout === 'row' || isPairOfCounts(own(value, 'shape'))) &&
      Object.keys(value).length === expectedKeys;
    if (!isReference) {
      const keys = layout === 'row' ? '{offset, length}' : '{offset, length, shape}';
      throw new NotAsDescribed('bad-shape', at, value, `a reference ${keys} into ${DRAWS_FILE}`);
    }
    const length = own(value, 'length') as number;
    const shape = own(value, 'shape') as [number, number] | undefined;
    // Runs follow one another without gap or overlap, so no file can ask for more numbers than it holds.
    if (own(value, 'offset') !== offset || offset + length > numbers.length) {
      throw new NotAsDescribed(
        'bad-reference',
        at,
        value,
        `offset ${offset} and at most ${numbers.length - offset} numbers`,
      );
    }
    if (shape !== undefined && shape[0] * shape[1] !== length) {
      throw new NotAsDescribed('bad-reference', at, value, 'a shape whose product is the length');
    }
    offset += length;
    return numbers.slice(offset - length, offset);
  };

  const { numbers_file, not_finite, ...rest } = file;
  const asked = { numbers_file, not_finite };
  type Beside = {
    numbers_file: { count: number; sha256: string };
    not_finite: { at: string; reason: NotFinite }[];
  };
  const beside = readFields(record('', besideShape), asked, '') as unknown as Beside;
  for (const each of beside.not_finite) notFinite.set(each.at, NOT_FINITE[each.reason]);

  const results = readFields(resultsShape, rest, '') as unknown as Results;
  const [unplaced] = notFinite.keys();
  if (unplaced !== undefined) {
    throw new NotAsDescribed('bad-reference', '/not_finite', unplaced, 'the place of a number that is null');
  }
  const { count, sha256 } = beside.numbers_file;
  if (count !== numbers.length || offset !== count) {
    throw new NotAsDescribed(
      'bad-reference',
      '/numbers_file/count',
      count,
      `${offset}, as many as are referred to`,
    );
  }
  return { results, sha256 };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function own(record: Record<string, unknown>, name: string): unknown {
  return Object.hasOwn(record, name) ? record[name] : undefined;
}

function isCount(value: unknown): boolean {
  return Number.isSafeInteger(value) && (value as number) >= 0;
}

function isPairOfCounts(value: unknown): boolean {
  return Array.isArray(value) && value.length === 2 && value.every(isCount);
}

function said(value: unknown): string {
  if (value === undefined) return '';
  return typeof value === 'string' ? value : (JSON.stringify(value) ?? '').slice(0, 200);
}

function failed(code: string, at: string, found: string, expected: string): { ok: false; problem: Problem } {
  const place = { table: FILE, column: at === '' ? null : at };
  const mend =
    code === 'results-version'
      ? 'Open it with the version of Stillstand that wrote it, or compute again.'
      : COMPUTE_AGAIN;
  return { ok: false, problem: problem({ severity: 'error', code, ...place, found, expected, mend }) };
}

function mismatch(code: string, found: string, expected: string): { ok: false; problem: Problem } {
  const mend = `The two files are of different computations, or one is damaged. ${COMPUTE_AGAIN}`;
  return {
    ok: false,
    problem: problem({ severity: 'error', code, table: DRAWS_FILE, found, expected, mend }),
  };
}
