/** The two files of results back to the results, or the problem that stops it. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { type RecordShape, record, type Shape, type ShapeFields } from '@stillstand/science/shape';
import {
  ARRAYS_FILE,
  type Around,
  arrayName,
  besideShape,
  membersOf,
  NOT_FINITE,
  type NotFinite,
} from './file-shape.ts';
import { type NumberArray, readNpz } from './npz.ts';
import { type Results, resultsShape } from './shape.ts';

/** Name of the JSON file, as problems call it. */
const FILE = 'results.json';
const COMPUTE_AGAIN = 'Compute the campaign again.';

/**
 * Exactly the results that `writeResults` was given, or what is wrong with the files (`code`): not-json, not-results,
 * results-version, bad-shape, bad-reference, digest-mismatch, and of the other file not-arrays. `column` is the place
 * in the file as a JSON Pointer. Never throws.
 */
export function readResults(
  json: string,
  arrays: Uint8Array,
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
  // Earlier versions are not read: a campaign can be computed again, and some of their quantities are others.
  if (stated !== version) return failed('results-version', '/version', said(stated), `version ${version}`);
  try {
    return { ok: true, results: readFile(file, arrays) };
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

function readFile(file: Record<string, unknown>, bytes: Uint8Array): Results {
  const notFinite = new Map<string, number>();
  const unread = new Map<string, NumberArray>();

  const read = (shape: Shape, value: unknown, at: string, around: Around | null): unknown => {
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
        return readRun(shape.columns, value, at, around);
      case 'list':
        if (!Array.isArray(value)) throw bad(`a list (${shape.about})`);
        return value.map((item, i) => read(shape.of, item, `${at}/${i}`, around));
      case 'record':
        return readFields(shape, value, at, around);
    }
  };

  const readFields = (
    shape: RecordShape<ShapeFields, boolean>,
    value: unknown,
    at: string,
    outer: Around | null,
  ) => {
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
      fields[name] = read(field, value[name], place, { fields, outer });
    }
    return fields;
  };

  const readRun = (
    columns: string | null,
    value: unknown,
    at: string,
    around: Around | null,
  ): Float64Array => {
    const sizes = columns === null ? 1 : 2;
    const isReference =
      isRecord(value) &&
      typeof own(value, 'array') === 'string' &&
      isCounts(own(value, 'shape'), sizes) &&
      Object.keys(value).length === 2;
    if (!isReference)
      throw new NotAsDescribed('bad-shape', at, value, `a reference {array, shape} into ${ARRAYS_FILE}`);
    const wrong = (expected: string) => new NotAsDescribed('bad-reference', at, value, expected);
    // Each array is named by its place, so that none is read twice.
    const name = own(value, 'array');
    if (name !== arrayName(at)) throw wrong(`the array ${arrayName(at)}`);
    const array = unread.get(name);
    if (array === undefined) throw wrong(`an array of this name in ${ARRAYS_FILE}`);
    unread.delete(name);
    const shape = own(value, 'shape') as number[];
    if (shape.length !== array.shape.length || shape.some((n, i) => n !== array.shape[i]))
      throw wrong(`the shape of the array, ${array.shape.join(' × ')}`);
    if (columns !== null && shape[1] !== membersOf(columns, around))
      throw wrong(`${membersOf(columns, around)} columns, one for each of ${columns}`);
    return array.values;
  };

  const { arrays_file, not_finite, ...rest } = file;
  type Beside = { arrays_file: { sha256: string }; not_finite: { at: string; reason: NotFinite }[] };
  const beside = readFields(
    record('', besideShape),
    { arrays_file, not_finite },
    '',
    null,
  ) as unknown as Beside;
  const digest = bytesToHex(sha256(bytes));
  if (digest !== beside.arrays_file.sha256)
    throw new NotAsDescribed(
      'digest-mismatch',
      '',
      `SHA-256 ${digest}`,
      `SHA-256 ${beside.arrays_file.sha256}`,
    );
  const arrays = readNpz(bytes);
  if (typeof arrays === 'string')
    throw new NotAsDescribed('not-arrays', '', arrays, 'arrays of 8-byte numbers, as written');
  for (const [name, array] of arrays) unread.set(name, array);
  for (const each of beside.not_finite) notFinite.set(each.at, NOT_FINITE[each.reason]);

  const results = readFields(resultsShape, rest, '', null) as unknown as Results;
  const [unplaced] = notFinite.keys();
  if (unplaced !== undefined) {
    throw new NotAsDescribed('bad-reference', '/not_finite', unplaced, 'the place of a number that is null');
  }
  const [unnamed] = unread.keys();
  if (unnamed !== undefined) {
    throw new NotAsDescribed('bad-reference', '/arrays_file', unnamed, 'arrays that this file names');
  }
  return results;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function own(record: Record<string, unknown>, name: string): unknown {
  return Object.hasOwn(record, name) ? record[name] : undefined;
}

const isCounts = (value: unknown, of: number): boolean =>
  Array.isArray(value) &&
  value.length === of &&
  value.every((n) => Number.isSafeInteger(n) && (n as number) >= 0);

function said(value: unknown): string {
  if (value === undefined) return '';
  return typeof value === 'string' ? value : (JSON.stringify(value) ?? '').slice(0, 200);
}

/** Codes that are about the file of arrays. */
const OF_THE_ARRAYS = new Set(['digest-mismatch', 'not-arrays']);

function failed(code: string, at: string, found: string, expected: string): { ok: false; problem: Problem } {
  const isOfArrays = OF_THE_ARRAYS.has(code);
  const place = { table: isOfArrays ? ARRAYS_FILE : FILE, column: at === '' ? null : at };
  const fix = isOfArrays
    ? `The two files are of different computations, or one is damaged. ${COMPUTE_AGAIN}`
    : code === 'results-version'
      ? 'Open it with the version of Stillstand that wrote it, or compute again.'
      : COMPUTE_AGAIN;
  return { ok: false, problem: problem({ severity: 'error', code, ...place, found, expected, fix }) };
}
