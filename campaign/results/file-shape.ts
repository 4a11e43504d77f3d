/** The shape of `results.json` itself: the results, and what the file needs with them. */
import { list, record, text, word } from '@stillstand/science/shape';
import { resultsShape } from './shape.ts';

export const ARRAYS_FILE = 'results.npz';

/** Why a number is null in the file although it is never absent, and the value it is read as. */
export const NOT_FINITE = {
  'not a number': Number.NaN,
  'larger than any number': Number.POSITIVE_INFINITY,
  'smaller than any number': Number.NEGATIVE_INFINITY,
} as const;
export type NotFinite = keyof typeof NOT_FINITE;

export const besideShape = {
  arrays_file: record('the file that holds the runs of numbers', {
    name: text('name of the file, in the same folder'),
    sha256: text('SHA-256 (FIPS 180-4) of the whole file, in hexadecimal'),
  }),
  not_finite: list(
    'numbers that are null in this file because they are not finite',
    record('one number', {
      at: text('its place, as a JSON Pointer (RFC 6901)'),
      reason: word('what it was', Object.keys(NOT_FINITE) as NotFinite[]),
    }),
  ),
};

/** In the order of the keys on disk. */
export const fileShape = record(
  'Results of a Stillstand campaign. Each run of numbers is a reference {array, shape} into the .npz file with this ' +
    'one: the name of an array of 8-byte numbers, and its shape. sigma is always 1 sigma. A number that is not finite ' +
    'is null here and listed in not_finite.',
  { ...resultsShape.fields, ...besideShape },
);

/** An array is named by its place in the file: a JSON Pointer without its first slash. */
export const arrayName = (at: string): string => at.slice(1);

/** A record as it is written or read, and the ones around it: where the columns of a table of numbers are found. */
export interface Around {
  readonly fields: Readonly<Record<string, unknown>>;
  readonly outer: Around | null;
}

/** How many members the nearest list or run of that name has. */
export function membersOf(name: string, around: Around | null): number {
  for (let here = around; here !== null; here = here.outer) {
    const found = Object.hasOwn(here.fields, name) ? here.fields[name] : undefined;
    if (Array.isArray(found) || found instanceof Float64Array) return found.length;
  }
  throw new RangeError(`no list or run of numbers named ${name} in the results`);
}
