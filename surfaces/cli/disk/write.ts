/**
 * A folder written whole or not at all, whenever the program is killed, the disk is full or the current fails.
 *
 * Of a folder `result` these stand beside it, N being the number of the process:
 *
 *   result.stillstand-new-N   being written; put in its place by one rename
 *   result.stillstand-old-N   what stood there before, set aside by one rename
 *   result.stillstand-done-N  the same when nothing in it is wanted any more
 *
 * A reader of `result` sees all of the old or all of the new; between the two renames it sees no folder, and both
 * stand beside under those names. The next write settles what a killed one left: it puts the old back where no new
 * one came, and clears away the rest.
 */
import { createHash } from 'node:crypto';
import {
  lstat,
  mkdir,
  open,
  readdir,
  readFile,
  realpath,
  rename,
  rm,
  rmdir,
  stat,
  statfs,
} from 'node:fs/promises';
import { basename, dirname, extname, join, resolve, sep } from 'node:path';
import { PACKAGE_PATH, unsafePath } from '@stillstand/campaign/document';
import { nullIfAbsent, reading, writing } from './fault.ts';

/** SHA-256 of every file of the folder, as `sha256sum -c checksums.txt` reads it. */
export const CHECKSUMS = 'checksums.txt';

/** A folder that was looked at and may be written. */
export interface Target {
  /** Absolute, no link in it. */
  place: string;
  /** As the person named it. */
  said: string;
}

export interface Wanted {
  /** A folder that must not be written over: the campaign that is computed. */
  spare?: string;
  /** What may be replaced: an empty folder only; results of ours; or, where we own the place, whatever is there. */
  replace: 'nothing' | 'results' | 'anything';
}

/** Why a folder cannot be written, for the person who named it. */
export class NoTarget extends Error {}

/**
 * Looks whether a folder can be written, before minutes of computing: what stands there, who may write, how much room
 * there is. Settles what a killed write left. Throws NoTarget or DiskFault; nothing a person put there is touched.
 */
export async function target(said: string, { spare, replace }: Wanted): Promise<Target> {
  const place = await placeOf(said);
  const parent = dirname(place);
  if (place === parent) throw new NoTarget(`${said} is a whole disk, expected a name for a folder`);
  await writing(said, () => mkdir(parent, { recursive: true }));
  await settle(place, replace === 'results');
  const inside = join(said, 'results');
  const found = await reading(said, () => stat(place).catch(nullIfAbsent));
  if (found !== null) {
    if (!found.isDirectory())
      throw new NoTarget(`${said} is a file, expected a folder or a name for a new one`);
    if (holds(place, process.cwd()))
      throw new NoTarget(`${said} is the folder this command is given in: name a new one, such as ${inside}`);
    if (spare !== undefined && holds(place, await placeOf(spare)))
      throw new NoTarget(
        `${said} holds the campaign: name a folder for the results alone, such as ${inside}`,
      );
    if (found.dev !== (await reading(parent, () => stat(parent))).dev)
      throw new NoTarget(`${said} is the top of a disk: name a folder on it, such as ${inside}`);
    await mayReplace(place, said, replace);
  }
  await enoughRoom(place, parent);
  // Only trying tells who may write.
  const trial = beside(place, 'new');
  await writing(parent, async () => {
    await rm(trial, { recursive: true, force: true });
    await mkdir(trial);
    await rmdir(trial);
  });
  return { place, said };
}

export interface Written {
  /** Files in the folder that the run before did not write, or that were changed since: kept, under these names. */
  kept: string[];
  /** What stood there before and could not be cleared away; null where it could. */
  remains: string | null;
}

/**
 * Writes the files and, if `checksums`, their digests, and puts them in place of what is there. Throws a RangeError
 * for a path that leads out of the folder, DiskFault for what the disk refuses; the folder is then as it was.
 */
export async function writeWhole(
  { place, said }: Target,
  files: AsyncIterable<Entry> | Iterable<Entry>,
  { checksums, keep }: { checksums: boolean; keep: boolean },
): Promise<Written> {
  const fresh = beside(place, 'new');
  const old = beside(place, 'old');
  try {
    await writing(said, () => mkdir(fresh));
    await fill(fresh, said, files, checksums);
    const isThere = (await reading(said, () => stat(place).catch(nullIfAbsent))) !== null;
    if (isThere) await writing(said, () => rename(place, old));
    try {
      await writing(said, () => rename(fresh, place));
    } catch (error) {
      // Where another run was quicker, the next one settles what was set aside.
      if (isThere) await rename(old, place).catch(() => undefined);
      throw error;
    }
    // The new folder stands; that its name has not reached the disk yet undoes nothing.
    await flushFolder(dirname(place), said).catch(() => undefined);
    return isThere ? await clear(old, place, keep) : { kept: [], remains: null };
  } catch (error) {
    await rm(fresh, { recursive: true, force: true }).catch(() => undefined);
    throw error;
  }
}

export type Entry = readonly [path: string, content: Uint8Array | string];

async function fill(
  folder: string,
  said: string,
  files: AsyncIterable<Entry> | Iterable<Entry>,
  checksums: boolean,
): Promise<void> {
  const folders = new Set([folder]);
  const digests = new Map<string, string>();
  const write = async (path: string, content: Uint8Array | string): Promise<void> => {
    const to = join(folder, path);
    await writing(join(said, path), async () => {
      if (!folders.has(dirname(to))) await mkdir(dirname(to), { recursive: true });
      for (let at = dirname(to); !folders.has(at); at = dirname(at)) folders.add(at);
      // A rename must not overtake its content: the disk has it before we go on.
      const file = await open(to, 'wx');
      try {
        await file.writeFile(content);
        await file.sync();
      } finally {
        await file.close();
      }
    });
  };
  for await (const [path, content] of files) {
    const why = unsafePath(path);
    if (why !== null) throw new RangeError(`a path inside the folder expected, got ${path}: ${why}`);
    await write(path, content);
    digests.set(path, sha256(content));
  }
  if (checksums) await write(CHECKSUMS, checksumLines(digests));
  for (const each of folders) await flushFolder(each, said);
}

/** The names in a folder, on the disk. Windows keeps them by itself and refuses to be asked. */
async function flushFolder(folder: string, said: string): Promise<void> {
  if (process.platform === 'win32') return;
  await writing(said, async () => {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  });
}

/** Clears away what a killed write left beside a place; the work of processes that live is left alone. */
async function settle(place: string, keep: boolean): Promise<void> {
  const prefix = `${basename(place)}.stillstand-`;
  const parent = dirname(place);
  const names = await reading(parent, () => readdir(parent));
  for (const name of names.sort()) {
    const [, kind, pid] =
      (name.startsWith(prefix) && /^(new|old|done)-(\d+)$/.exec(name.slice(prefix.length))) || [];
    if (kind === undefined || isAtWork(Number(pid))) continue;
    const path = join(parent, name);
    if (kind !== 'old') await writing(path, () => rm(path, { recursive: true, force: true }));
    else if ((await reading(place, () => lstat(place).catch(nullIfAbsent))) === null)
      await writing(place, () => rename(path, place));
    else await clear(path, place, keep);
  }
}

/** Whether another process of that number is running. */
export function isAtWork(pid: number): boolean {
  if (pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/**
 * Clears away a folder that was set aside; first what its run did not write goes into the new one. The new one stands
 * already, so nothing that fails here undoes it.
 */
async function clear(old: string, place: string, keep: boolean): Promise<Written> {
  const kept: string[] = [];
  try {
    for (const path of keep ? await others(old, place) : []) {
      const name = await freeName(place, path);
      await mkdir(dirname(join(place, name)), { recursive: true });
      await rename(join(old, path), join(place, name));
      kept.push(name);
    }
    const done = old.replace(/\.stillstand-old-(\d+)$/, '.stillstand-done-$1');
    await rm(done, { recursive: true, force: true });
    await rename(old, done);
    await rm(done, { recursive: true, force: true });
    return { kept, remains: null };
  } catch {
    const isMoved = (await lstat(old).catch(() => null)) === null;
    return { kept, remains: isMoved ? old.replace('-old-', '-done-') : old };
  }
}

/** Files below a folder of results that its run did not write, or that were changed since. */
async function others(old: string, place: string): Promise<string[]> {
  const listed = await readChecksums(old);
  const found: string[] = [];
  for (const path of await allFiles(old)) {
    if (path === CHECKSUMS) continue;
    // Results without checksums are of an earlier version: what has a successor was its own.
    const isOwn =
      listed === null
        ? (await lstat(join(place, path)).catch(nullIfAbsent)) !== null
        : listed.has(path) && listed.get(path) === (await digestOf(join(old, path)));
    if (!isOwn) found.push(path);
  }
  return found;
}

async function allFiles(folder: string, below = ''): Promise<string[]> {
  const paths: string[] = [];
  for (const entry of await readdir(join(folder, below), { withFileTypes: true })) {
    const path = below === '' ? entry.name : `${below}/${entry.name}`;
    if (entry.isDirectory()) paths.push(...(await allFiles(folder, path)));
    else paths.push(path);
  }
  return paths.sort();
}

async function digestOf(path: string): Promise<string | null> {
  return (await lstat(path)).isFile() ? sha256(await readFile(path)) : null;
}

/** `tables/points.csv`, or `tables/points.kept.csv` where a file of that name stands. */
async function freeName(place: string, path: string): Promise<string> {
  const end = extname(path);
  for (let n = 0; ; n++) {
    const name = n === 0 ? path : `${path.slice(0, path.length - end.length)}.kept${n === 1 ? '' : n}${end}`;
    if ((await lstat(join(place, name)).catch(nullIfAbsent)) === null) return name;
  }
}

const sha256 = (content: Uint8Array | string): string => createHash('sha256').update(content).digest('hex');

const checksumLines = (digests: ReadonlyMap<string, string>): string =>
  [...digests]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([path, digest]) => `${digest}  ${path}\n`)
    .join('');

/** What the checksums of a folder list; null where there are none. */
async function readChecksums(folder: string): Promise<Map<string, string> | null> {
  const text = await readFile(join(folder, CHECKSUMS), 'utf8').catch(nullIfAbsent);
  if (text === null) return null;
  const lines = text.split('\n').map((line) => /^([0-9a-f]{64}) {2}(.+)$/.exec(line));
  return new Map(lines.flatMap((line) => (line === null ? [] : [[line[2]!, line[1]!]])));
}

/** What computers leave in every folder they show. */
const LITTER = /^(?:\.DS_Store|Thumbs\.db|desktop\.ini|\.directory)$/;

/** Refuses a folder in which something stands that may not be replaced. */
async function mayReplace(place: string, said: string, replace: Wanted['replace']): Promise<void> {
  const entries = await reading(said, () => readdir(place, { withFileTypes: true }));
  const there = entries.filter(({ name }) => !LITTER.test(name));
  if (replace === 'anything' || there.length === 0) return;
  if (replace === 'nothing')
    throw new NoTarget(`${said} exists and is not empty; name another folder, nothing was changed`);
  const names = new Set(there.map(({ name }) => name));
  const inside = join(said, 'results');
  if (names.has(PACKAGE_PATH))
    throw new NoTarget(`${said} is a campaign: name a folder for the results alone, such as ${inside}`);
  if (!names.has('results.json'))
    throw new NoTarget(`${said} holds other files and no results: name a new folder, such as ${inside}`);
  const own = new Set(['tables', 'figures']);
  const foreign = there
    .filter((entry) => entry.isDirectory() && !own.has(entry.name))
    .map(({ name }) => name);
  if (foreign.length > 0)
    throw new NoTarget(
      `${said} holds folders of yours besides results (${foreign.sort().join(', ')}): name a new folder, such as ${inside}`,
    );
}

const MIB = 1_048_576;
/** The least that results take, where no earlier ones tell more. */
const LEAST_BYTES = MIB;

async function enoughRoom(place: string, parent: string): Promise<void> {
  const disk = await statfs(parent).catch(() => null);
  // Some network disks do not say how large they are.
  if (disk === null || disk.blocks === 0) return;
  const free = disk.bavail * disk.bsize;
  const before = await sizeOf(place).catch(() => 0);
  const need = Math.max(LEAST_BYTES, before);
  if (free >= need) return;
  const megabytes = (bytes: number): string => `${(bytes / MIB).toFixed(1)} MiB`;
  throw new NoTarget(
    `The disk of ${place} has ${megabytes(free)} free, and results need about ${megabytes(need)}: free some space, or name a folder on another disk`,
  );
}

/** Bytes of the results that stand there. */
async function sizeOf(place: string): Promise<number> {
  const sizes = await Promise.all(
    [...((await readChecksums(place)) ?? new Map()).keys()].map(
      async (path) => (await lstat(join(place, path)).catch(nullIfAbsent))?.size ?? 0,
    ),
  );
  return sizes.reduce((sum, size) => sum + size, 0);
}

/** The absolute path of a place, links followed as far as it exists. */
async function placeOf(said: string): Promise<string> {
  const absolute = resolve(said);
  const real = await reading(said, () => realpath(absolute).catch(nullIfAbsent));
  if (real !== null) return real;
  const link = await reading(said, () => lstat(absolute).catch(nullIfAbsent));
  if (link !== null)
    throw new NoTarget(`${said} is a link that leads nowhere: delete it, or name another folder`);
  const parent = dirname(absolute);
  return parent === absolute ? absolute : join(await placeOf(parent), basename(absolute));
}

/** Whether a path is the folder or lies in it. */
const holds = (folder: string, path: string): boolean => path === folder || path.startsWith(folder + sep);

const beside = (place: string, kind: 'new' | 'old'): string => `${place}.stillstand-${kind}-${process.pid}`;
