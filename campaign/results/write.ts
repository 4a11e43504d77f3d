/** Results to their two files: the same results give the same bytes. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { RecordShape, Shape, ShapeFields } from '@stillstand/science/shape';
import { ARRAYS_FILE, type Around, arrayName, membersOf, type NotFinite } from './file-shape.ts';
import { type NumberArray, writeNpz } from './npz.ts';
import { type Results, resultsShape } from './shape.ts';

type Json = string | number | boolean | null | Json[] | { [name: string]: Json };

/**
 * The text of `results.json` and the bytes of `results.npz`. Keys are in the order of the published schema and numbers
 * in their shortest exact form, whatever the order in which the results were put together; what the schema does not
 * name is not written. A number that is not finite becomes null, its place and reason under `not_finite`. Throws
 * RangeError where a property is absent, which the types forbid, or a table of numbers does not fill whole rows.
 */
export function writeResults(results: Results): { json: string; arrays: Uint8Array } {
  const arrays = new Map<string, NumberArray>();
  const notFinite: { at: string; reason: NotFinite }[] = [];

  const write = (shape: Shape, value: unknown, at: string, around: Around | null): Json => {
    if (value === undefined) throw new RangeError(`results${at} came undefined; expected ${shape.about}`);
    if (value === null) return null;
    switch (shape.kind) {
      case 'number':
        return Number.isFinite(value) ? (value as number) : notWritable(value as number, at);
      case 'numbers': {
        const values = value as Float64Array;
        const array = { shape: shapeOf(values, shape.columns, around, at), values };
        arrays.set(arrayName(at), array);
        return { array: arrayName(at), shape: array.shape };
      }
      case 'list':
        return (value as unknown[]).map((item, i) => write(shape.of, item, `${at}/${i}`, around));
      case 'record':
        return writeFields(shape, value as Record<string, unknown>, at, around);
      default:
        return value as string | number | boolean;
    }
  };
  const writeFields = (
    shape: RecordShape<ShapeFields, boolean>,
    from: Record<string, unknown>,
    at: string,
    outer: Around | null,
  ) => {
    const fields: { [name: string]: Json } = {};
    for (const [name, field] of Object.entries(shape.fields))
      fields[name] = write(field, from[name], `${at}/${name}`, { fields: from, outer });
    return fields;
  };
  const notWritable = (value: number, at: string): null => {
    const reason =
      value > 0 ? 'larger than any number' : value < 0 ? 'smaller than any number' : 'not a number';
    notFinite.push({ at, reason });
    return null;
  };

  const fields = writeFields(resultsShape, results as unknown as Record<string, unknown>, '', null);
  const npz = writeNpz(arrays);
  const arraysFile = { name: ARRAYS_FILE, sha256: bytesToHex(sha256(npz)) };
  const json = `${layOut({ ...fields, arrays_file: arraysFile, not_finite: notFinite }, '')}\n`;
  return { json, arrays: npz };
}

/** Rows and columns where it has columns. */
function shapeOf(values: Float64Array, columns: string | null, around: Around | null, at: string): number[] {
  if (columns === null) return [values.length];
  const width = membersOf(columns, around);
  const rows = width === 0 ? 0 : values.length / width;
  if (rows * width === values.length && Number.isInteger(rows)) return [rows, width];
  throw new RangeError(
    `results${at} came with ${values.length} numbers; expected whole rows of ${width} ${columns}`,
  );
}

const LINE = 110;

/** JSON with a record or list of plain values on one line where it fits, so that a row reads as a row. */
function layOut(value: Json, indent: string): string {
  // −0 is a number of its own and JSON can say so; JSON.stringify does not.
  if (Object.is(value, -0)) return '-0';
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  const isList = Array.isArray(value);
  const deeper = `${indent} `;
  const parts = isList
    ? value.map((item) => layOut(item, deeper))
    : Object.entries(value).map(([name, item]) => `${JSON.stringify(name)}: ${layOut(item, deeper)}`);
  const [open, close] = isList ? '[]' : '{}';
  const isPlain = Object.values(value).every((item) => item === null || typeof item !== 'object');
  const line = `${open}${parts.join(', ')}${close}`;
  if (parts.length === 0 || (isPlain && indent.length + line.length <= LINE)) return line;
  return `${open}\n${parts.map((part) => deeper + part).join(',\n')}\n${indent}${close}`;
}
