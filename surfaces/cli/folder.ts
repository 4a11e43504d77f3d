/** Campaign folders on disk: read whole, written whole or not at all. */
import { mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { unsafePath } from '@stillstand/campaign/document';

/** Marks files that are being written; a later write or read leaves such leftovers alone. */
const TEMPORARY = '.stillstand-part';

/**
 * All files below a folder, by path with `/`. Names that begin with a dot (version control, what operating systems
 * leave behind) and symbolic links, which may lead out of the folder, are left out, and so are files that are not wanted (photos, where
 * only tables are read). Throws what the file system throws.
 */
export async function readFolder(
  folder: string,
  isWanted: (path: string) => boolean = () => true,
): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>();
  await readInto(files, folder, '', isWanted);
  return files;
}

async function readInto(
  files: Map<string, Uint8Array>,
  folder: string,
  below: string,
  isWanted: (path: string) => boolean,
): Promise<void> {
  const entries = await readdir(join(folder, below), { withFileTypes: true });
  entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    if (entry.name.startsWith('.') || entry.name.endsWith(TEMPORARY)) continue;
    const path = below === '' ? entry.name : `${below}/${entry.name}`;
    if (entry.isDirectory()) await readInto(files, folder, path, isWanted);
    else if (entry.isFile() && isWanted(path)) files.set(path, await readBytes(join(folder, path)));
  }
}

/**
 * Writes files into a folder, made if it is not there. All are first written beside their places, then put in place;
 * if anything fails before that, nothing has changed. Files not named are left as they are. Throws a RangeError for a
 * path that leads out of the folder, and what the file system throws.
 */
export async function writeFolder(folder: string, files: ReadonlyMap<string, Uint8Array>): Promise<void> {
  for (const path of files.keys()) {
    const why = unsafePath(path);
    if (why !== null) throw new RangeError(`a path inside the folder expected, got ${path}: ${why}`);
  }
  const parts: { from: string; to: string }[] = [];
  try {
    for (const [path, bytes] of files) {
      const to = join(folder, path);
      if (await holds(to, bytes)) continue;
      await mkdir(dirname(to), { recursive: true });
      const from = `${to}${TEMPORARY}`;
      parts.push({ from, to });
      await writeThrough(from, bytes);
    }
  } catch (error) {
    for (const { from } of parts) await rm(from, { force: true });
    throw error;
  }
  for (const { from, to } of parts) await rename(from, to);
}

/** Writes and waits until the disk has it: a rename must not overtake its content. */
async function writeThrough(path: string, bytes: Uint8Array): Promise<void> {
  const file = await open(path, 'w');
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** True where the file already says exactly this. */
async function holds(path: string, bytes: Uint8Array): Promise<boolean> {
  try {
    if ((await stat(path)).size !== bytes.length) return false;
    return Buffer.compare(await readFile(path), bytes) === 0;
  } catch {
    return false;
  }
}

/** Writes one file, whole or not at all, with the folders it needs. */
export async function writeFile(path: string, content: Uint8Array | string): Promise<void> {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  await writeFolder(dirname(path), new Map([[basename(path), bytes]]));
}

/** True where nothing is there yet, or an empty folder. */
export async function folderIsFree(folder: string): Promise<boolean> {
  try {
    return (await readdir(folder)).length === 0;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ENOENT';
  }
}

/** True for a file, false for a folder. Throws where there is neither. */
export async function isFile(path: string): Promise<boolean> {
  return (await stat(path)).isFile();
}

/** The bytes of one file. */
export async function readBytes(path: string): Promise<Uint8Array> {
  return new Uint8Array(await readFile(path));
}
