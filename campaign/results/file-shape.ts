/** The shape of `results.json` itself: the results, and what the file needs beside them. */
import { resultsShape } from './results-shape.ts';
import { list, number, record, text, word } from './shape.ts';

export const DRAWS_FILE = 'results.draws.bin';

/** Why a number is null in the file although it is never absent, and the value it stands for. */
export const NOT_FINITE = {
  'not a number': Number.NaN,
  'larger than any number': Number.POSITIVE_INFINITY,
  'smaller than any number': Number.NEGATIVE_INFINITY,
} as const;
export type NotFinite = keyof typeof NOT_FINITE;

export const besideShape = {
  numbers_file: record('the binary file that holds the runs of numbers', {
    name: text('name of the file, in the same folder'),
    count: number('how many numbers it holds', ''),
    sha256: text('SHA-256 (FIPS 180-4) of the whole file, in hexadecimal'),
  }),
  not_finite: list(
    'numbers that are null in this file because they are not finite',
    record('one number', {
      at: text('where it stands, as a JSON Pointer (RFC 6901)'),
      reason: word('what it was', Object.keys(NOT_FINITE) as NotFinite[]),
    }),
  ),
};

/** In the order of the keys on disk. */
export const fileShape = record(
  'Results of a Stillstand campaign. Each run of numbers is a reference {offset, length, shape} into the binary file ' +
    'next to this one: offset and length count 8-byte numbers from the first after the header. sigma is always 1 sigma. ' +
    'A number that is not finite is null here and listed in not_finite.',
  { ...resultsShape.fields, ...besideShape },
);
