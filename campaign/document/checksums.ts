/** Digests of files, to find out whether one was changed or damaged on its way. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** SHA-256 (FIPS 180-4) of each file, by path, as `sha256sum -c` reads it. */
export const checksums = (files: Iterable<readonly [path: string, bytes: Uint8Array]>): string =>
  [...files].map(([path, bytes]) => `${bytesToHex(sha256(bytes))}  ${path}\n`).join('');
