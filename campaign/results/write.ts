/** Results to their two files: the same results give the same bytes. */
import { drawsDigest, writeDraws } from './draws-file.ts';
import { DRAWS_FILE, type NotFinite } from './file-shape.ts';
import type { Results } from './index.ts';
import { resultsShape } from './results-shape.ts';
import type { RecordShape, Shape, ShapeFields } from './shape.ts';

type Json = string | number | boolean | null | Json[] | { [name: string]: Json };

/**
 * `results.json` and the bytes of `results.draws.bin`. Keys stand in the order of the published schema and numbers in
 * their shortest exact form, whatever the order in which the results were put together; what the schema does not name
 * is not written. A number that is not finite becomes null, its place and reason under `not_finite`. Throws
 * RangeError where a property is absent, which the types forbid, or draws do not fill whole rows.
 */
export function writeResults(results: Results): { json: string; draws: Uint8Array } {
  const runs: Float64Array[] = [];
  const notFinite: { at: string; reason: NotFinite }[] = [];
  const ages = results.curve?.ages_cal_bp.length ?? 0;
  let offset = 0;

  const write = (shape: Shape, value: unknown, at: string): Json => {
    if (value === undefined) throw new RangeError(`results${at} came undefined; expected ${shape.about}`);
    if (value === null) return null;
    switch (shape.kind) {
      case 'number':
        return Number.isFinite(value) ? (value as number) : notWritable(value as number, at);
      case 'numbers': {
        const run = value as Float64Array;
        const reference = { offset, length: run.length };
        runs.push(run);
        offset += run.length;
        return shape.layout === 'row' ? reference : { ...reference, shape: [rowsOf(run, ages, at), ages] };
      }
      case 'list':
        return (value as unknown[]).map((item, i) => write(shape.of, item, `${at}/${i}`));
      case 'record':
        return writeFields(shape, value as Record<string, unknown>, at);
      default:
        return value as string | number | boolean;
    }
  };
  const writeFields = (
    shape: RecordShape<ShapeFields, boolean>,
    from: Record<string, unknown>,
    at: string,
  ) => {
    const fields: { [name: string]: Json } = {};
    for (const [name, field] of Object.entries(shape.fields))
      fields[name] = write(field, from[name], `${at}/${name}`);
    return fields;
  };
  const notWritable = (value: number, at: string): null => {
    const reason =
      value > 0 ? 'larger than any number' : value < 0 ? 'smaller than any number' : 'not a number';
    notFinite.push({ at, reason });
    return null;
  };

  const fields = writeFields(resultsShape, results as unknown as Record<string, unknown>, '');
  const draws = writeDraws(results.seed, results.inputs, runs);
  const numbersFile = { name: DRAWS_FILE, count: offset, sha256: drawsDigest(draws) };
  const json = `${layOut({ ...fields, numbers_file: numbersFile, not_finite: notFinite }, '')}\n`;
  return { json, draws };
}

function rowsOf(run: Float64Array, columns: number, at: string): number {
  const rows = columns === 0 ? 0 : run.length / columns;
  if (rows * columns === run.length && Number.isInteger(rows)) return rows;
  throw new RangeError(
    `results${at} came with ${run.length} numbers; expected whole rows of ${columns} ages`,
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
