/** Digests of files, to find out whether one was changed or damaged on its way. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** SHA-256 (FIPS 180-4) of each file, by path, as `sha256sum -c` reads it. */
export const checksums = (files: Iterable<readonly [path: string, bytes: Uint8Array]>): string =>
  [...files].map(([path, bytes]) => `${bytesToHex(sha256(bytes))}  ${path}\n`).join('');

export interface ChangedFile {
  path: string;
  now: 'changed' | 'missing';
}

/** Files that a list of digests names and that are not what they were: changed, or missing. In the order of the list. */
export function changedSince(list: string, files: ReadonlyMap<string, Uint8Array>): ChangedFile[] {
  return list.split(/\r?\n/).flatMap((line): ChangedFile[] => {
    const [, digest, path] = /^([0-9a-f]{64}) [ *](.+)$/.exec(line) ?? [];
    if (digest === undefined || path === undefined) return [];
    const bytes = files.get(path);
    if (bytes === undefined) return [{ path, now: 'missing' }];
    return bytesToHex(sha256(bytes)) === digest ? [] : [{ path, now: 'changed' }];
  });
}
