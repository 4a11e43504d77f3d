/** Campaign folders, zips and tables on disk, read whole. Everything throws a DiskFault for what the disk refuses. */
import { type FileHandle, lstat, open, readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { isTablePath, PACKAGE_PATH, unsafePath } from '@stillstand/campaign/document';
import { DiskFault, nullIfAbsent, reading } from './fault.ts';

const MIB = 1_048_576;
/** One file may have so many bytes; a season of photos in one zip is well below it. */
const MOST_BYTES = 1024 * MIB;

export interface CampaignFiles {
  /** The package and the tables, by path with `/`. */
  files: Map<string, Uint8Array>;
  /** What stands under the name of a table and is no file, by path: "a folder", "a symbolic link" … */
  notFiles: Map<string, string>;
}

/**
 * The package of a campaign folder, the tables beside it and those it lists. Photos and what was computed into the
 * folder are not read: no computation needs them (`readNamed` reads one for a figure). Links are not followed: they may lead out of the folder.
 */
export async function readCampaignFolder(folder: string): Promise<CampaignFiles> {
  const files = new Map<string, Uint8Array>();
  const notFiles = new Map<string, string>();
  const take = async (path: string): Promise<void> => {
    const what = await kindOf(folder, path);
    if (what === 'a file') files.set(path, await readBytes(join(folder, path)));
    else if (what !== 'nothing') notFiles.set(path, what);
  };
  const names = await reading(folder, () => readdir(folder));
  for (const name of names.sort()) {
    if (name === PACKAGE_PATH || (isTablePath(name) && !name.startsWith('.'))) await take(name);
  }
  for (const path of listedBelow(files.get(PACKAGE_PATH))) if (!files.has(path)) await take(path);
  return { files, notFiles };
}

/** Tables in folders below, as the package lists them; what is wrong with the package is said by whoever parses it. */
function listedBelow(bytes: Uint8Array | undefined): string[] {
  let parsed: unknown;
  try {
    parsed = JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return [];
  }
  const { resources } = (parsed ?? {}) as { resources?: unknown };
  if (!Array.isArray(resources)) return [];
  const paths = resources.map((entry: unknown) => ((entry ?? {}) as { path?: unknown }).path);
  return paths.filter(
    (path): path is string =>
      typeof path === 'string' && path.includes('/') && isTablePath(path) && unsafePath(path) === null,
  );
}

/** What stands at a path below a folder, no part of it followed through a link. */
async function kindOf(folder: string, path: string): Promise<string> {
  const parts = path.split('/');
  for (let n = 1; n <= parts.length; n++) {
    const at = join(folder, ...parts.slice(0, n));
    const found = await reading(at, () => lstat(at).catch(nullIfAbsent));
    if (found === null) return 'nothing';
    if (found.isSymbolicLink()) return 'a symbolic link';
    if (n === parts.length)
      return found.isFile() ? 'a file' : found.isDirectory() ? 'a folder' : 'a pipe or a device';
  }
  return 'nothing';
}

/** Bytes that a file below a folder has; null where no file is at that path, or only through a link. */
export async function sizeBelow(folder: string, path: string): Promise<number | null> {
  if ((await kindOf(folder, path)) !== 'a file') return null;
  const at = join(folder, path);
  return (await reading(at, () => stat(at))).size;
}

/** Files next to the tables of a campaign folder and in its folder `files` whose names end so. */
export async function namesEnding(folder: string, ending: RegExp): Promise<string[]> {
  const files = join(folder, 'files');
  const inFolder = await reading(folder, () => readdir(folder));
  const below =
    (await kindOf(folder, 'files')) === 'a folder' ? await reading(files, () => readdir(files)) : [];
  return [...inFolder, ...below.map((name) => `files/${name}`)].filter((name) => ending.test(name)).sort();
}

/** A file by the path a row gives it: null where there is none, `too-large` where it has more than `most` bytes. */
export type NamedFile = (path: string, most: number) => Promise<Uint8Array | 'too-large' | null>;

/** The same below a folder. No link is followed, and nothing outside the folder is read. */
export async function readNamed(
  folder: string,
  path: string,
  most: number,
): Promise<Uint8Array | 'too-large' | null> {
  const size = unsafePath(path) === null ? await sizeBelow(folder, path) : null;
  if (size === null) return null;
  return size > most ? 'too-large' : await readBytes(join(folder, path));
}

/** True for a folder that `compute` wrote. */
export async function holdsResults(folder: string): Promise<boolean> {
  return (await kindOf(folder, 'results.json')) === 'a file';
}

/** True for a file, false for a folder. */
export async function isFile(path: string): Promise<boolean> {
  return (await reading(path, () => stat(path))).isFile();
}

/** True where something stands at a path. */
export async function exists(path: string): Promise<boolean> {
  return (await reading(path, () => stat(path).catch(nullIfAbsent))) !== null;
}

/** The bytes of one file, or of what a pipe gives. */
export async function readBytes(path: string): Promise<Uint8Array> {
  return await reading(path, async () => {
    const file = await open(path);
    try {
      const found = await file.stat();
      const { size } = found;
      if (found.isCharacterDevice() || found.isBlockDevice())
        throw new DiskFault(path, 'read', new Error('it is a device, not a file'));
      if (size > MOST_BYTES) throw tooLarge(path);
      return size > 0 ? new Uint8Array(await readFile(file)) : await readToItsEnd(file, path);
    } finally {
      await file.close();
    }
  });
}

/** A pipe states no size, and may never end. */
async function readToItsEnd(file: FileHandle, path: string): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  let total = 0;
  while (true) {
    const { bytesRead, buffer } = await file.read(Buffer.allocUnsafe(MIB), 0, MIB, null);
    if (bytesRead === 0) return new Uint8Array(Buffer.concat(chunks));
    total += bytesRead;
    if (total > MOST_BYTES) throw tooLarge(path);
    chunks.push(buffer.subarray(0, bytesRead));
  }
}

function tooLarge(path: string): DiskFault {
  return new DiskFault(path, 'read', new Error(`it has more than ${MOST_BYTES / MIB} MiB`));
}
