/** Nonsense of many kinds, for a table that is none. */
import { randomStream } from '@stillstand/science/base';

/** Letters a kind draws from; `bytes` are any. */
const LETTERS = {
  bytes: null,
  printable: Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i)).join(''),
  lines: 'abc123 ,;\n"',
  quotes: '"',
  'pairs of quotes': '""",',
  delimiters: ',;\t\n',
  'one long line': 'abc,',
  blanks: ' \n',
} as const;

export type NoiseKind = keyof typeof LETTERS;
export const NOISE_KINDS = Object.keys(LETTERS) as NoiseKind[];

export function noise(kind: NoiseKind, length: number, seed: number): Uint8Array {
  const stream = randomStream(`${kind} ${seed}`);
  const from = LETTERS[kind];
  return Uint8Array.from({ length }, () =>
    from === null ? stream.integer(256) : from.charCodeAt(stream.integer(from.length)),
  );
}
