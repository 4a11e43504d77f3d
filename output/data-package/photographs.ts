/** Photographs in a data package: which belong into it, how many it may have, and what its README says of them. */
import {
  type Campaign,
  isTablePath,
  PACKAGE_PATH,
  PACKED_CAMPAIGN,
  unsafePath,
} from '@stillstand/campaign/document';
import { counted, printed } from '@stillstand/output/words';

export interface Photographs {
  /** Files that the table `photos` names (`photographsNamed`). */
  named: readonly string[];
  /** The bytes of one, null where there is none that can be read; `null` itself to leave all of them out. */
  read: ((path: string) => Promise<Uint8Array | null>) | null;
}

/** Files that the table `photos` names, each once, in its order. */
export const photographsNamed = ({ rows }: Campaign): string[] => [
  ...new Set(rows.photos.map(({ file }) => file)),
];

/** All together, bytes: what opens a package takes 1,024 MiB, and the rest of it is well below 50 MB. */
const MOST_BYTES = 1_000_000_000;
/** One, bytes; and how many: what is read from a zip (ZIP_LIMITS), with room for the other files. */
const MOST_BYTES_OF_ONE = 500_000_000;
const MOST_FILES = 19_000;

/** Why photographs of these sizes, bytes, cannot go into one package that opens again; null where they can. */
export function tooManyPhotographs(sizes: readonly number[]): string | null {
  const all = sizes.reduce((sum, size) => sum + size, 0);
  if (all > MOST_BYTES) return `${megabytes(all)} of photographs, expected at most ${megabytes(MOST_BYTES)}`;
  const largest = sizes.reduce((a, b) => Math.max(a, b), 0);
  if (largest > MOST_BYTES_OF_ONE)
    return `a photograph of ${megabytes(largest)}, expected at most ${megabytes(MOST_BYTES_OF_ONE)}`;
  return sizes.length > MOST_FILES
    ? `${printed(sizes.length)} photographs, expected at most ${printed(MOST_FILES)}`
    : null;
}

/** "12.3 MB", "1,234 MB". */
export const megabytes = (bytes: number): string =>
  bytes < 5e4 ? 'less than 0.1 MB' : `${printed(bytes / 1e6, bytes < 99.95e6 ? 1 : 0)} MB`;

/** Photographs one after another, under the paths they have in a package; afterwards what became of them. */
export async function* packedPhotographs(
  { named, read }: Photographs,
  others: Iterable<string>,
): AsyncGenerator<[path: string, bytes: Uint8Array], { bytes: number; packed: string[]; missing: string[] }> {
  const taken = new Set([...others].map(onAnyDisk));
  const packed: string[] = [];
  const missing: string[] = [];
  let bytes = 0;
  for (const path of read === null ? [] : named) {
    const inside = `${PACKED_CAMPAIGN}${path}`;
    const isFree = mayBeAFile(path) && !taken.has(onAnyDisk(inside));
    const content = isFree ? await read!(path) : null;
    if (content === null) {
      missing.push(path);
      continue;
    }
    taken.add(onAnyDisk(inside));
    packed.push(inside);
    bytes += content.length;
    yield [inside, content];
  }
  return { bytes, packed, missing };
}

/** Not a path that leads out of the campaign, nor one that reads as something else in it. */
const mayBeAFile = (path: string): boolean =>
  unsafePath(path) === null && path !== PACKAGE_PATH && !isTablePath(path);

/** Some disks know no capitals and one way to write an accent: of two such names a zip is read with one. */
const onAnyDisk = (path: string): string => path.normalize('NFC').toLowerCase();

/** Lines of the README. */
export function aboutPhotographs(
  { named, read }: Photographs,
  { bytes, packed, missing }: { bytes: number; packed: readonly string[]; missing: readonly string[] },
): string[] {
  if (named.length === 0) return [];
  if (read === null)
    return [
      `Photographs are left out: ${counted(named.length, 'photograph')} that photos.csv names are in the campaign file alone.`,
      '',
    ];
  return [
    `Photographs: ${packed.length} of ${named.length} that photos.csv names, ${megabytes(bytes)}`,
    ...packed.map((path) => `  ${path}`),
    ...(missing.length === 0
      ? []
      : ['Named in photos.csv, but not found or not readable when the package was made:']),
    ...missing.map((path) => `  ${path.replace(/\s+/g, ' ')}`),
    '',
  ];
}
