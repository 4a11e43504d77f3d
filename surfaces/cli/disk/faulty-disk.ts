/**
 * A disk that fails on demand, for tests: every call of `node:fs/promises` is counted, and the one chosen fails as the
 * file system would, or ends the program there, half done. Root reads what nobody may; so this is also how permissions
 * are tried.
 */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { join } from 'node:path';

export interface Call {
  /** 1 for the first of the program. */
  n: number;
  /** Such as `rename`, or `write` and `sync` of an open file. */
  name: string;
  path: string;
}

/** What becomes of a call: nothing special, an error code of the file system, or the end of the program. */
type Fate = 'goes' | 'killed' | `E${string}`;

/** Thrown by every call from the one on at which the program was killed. */
export class Killed extends Error {}

const CALLS = [
  'lstat',
  'mkdir',
  'open',
  'readdir',
  'readFile',
  'realpath',
  'rename',
  'rm',
  'rmdir',
  'stat',
  'statfs',
  'writeFile',
] as const;

/** Runs `work` on it and gives the calls it made; what it gave or threw is in `ended`. */
export async function onFaultyDisk<T>(
  fate: (call: Call) => Fate,
  work: () => Promise<T>,
): Promise<{ calls: Call[]; ended: { value: T } | { error: unknown } }> {
  const promises = fs.promises as unknown as Record<string, (...args: unknown[]) => Promise<unknown>>;
  const sound = Object.fromEntries(CALLS.map((name) => [name, promises[name]!]));
  const calls: Call[] = [];
  let isKilled = false;

  const meet = async (name: string, path: string, half: () => Promise<unknown>): Promise<void> => {
    if (isKilled) throw new Killed();
    const call = { n: calls.length + 1, name, path };
    calls.push(call);
    const met = fate(call);
    if (met === 'goes') return;
    if (met === 'killed') {
      isKilled = true;
      await half();
      throw new Killed(`${name} ${path}`);
    }
    // As Node makes them; of an open file without the path.
    throw Object.assign(new Error(`${met}: ${name}`), { code: met, syscall: name });
  };

  const half: Record<string, (args: unknown[]) => Promise<unknown>> = {
    rm: async ([path]) => await removeHalf(String(path), sound),
  };
  for (const name of CALLS) {
    promises[name] = async (...args) => {
      const path = String(args[0]);
      await meet(name, path, async () => await half[name]?.(args));
      const value = await sound[name]!.apply(promises, args);
      return name === 'open' ? watched(value as fs.promises.FileHandle, path, meet) : value;
    };
  }
  syncBuiltinESMExports();
  try {
    return { calls, ended: { value: await work() } };
  } catch (error) {
    return { calls, ended: { error } };
  } finally {
    Object.assign(promises, sound);
    syncBuiltinESMExports();
  }
}

/** An open file whose writing, flushing and closing are counted too. */
function watched(
  handle: fs.promises.FileHandle,
  path: string,
  meet: (name: string, path: string, half: () => Promise<unknown>) => Promise<void>,
): fs.promises.FileHandle {
  const { writeFile, close, read } = handle;
  const closed = async () => await close.call(handle).catch(() => undefined);
  return Object.assign(handle, {
    writeFile: async (content: string | Uint8Array) => {
      await meet('write', path, async () => {
        await writeFile.call(handle, content.slice(0, content.length / 2));
        await closed();
      });
      await writeFile.call(handle, content);
    },
    // Counted only: no current fails in a test, and the disk is slow.
    sync: async () => await meet('sync', path, closed),
    read: async (...args: unknown[]) => {
      await meet('read', path, closed);
      return await (read as (...each: unknown[]) => Promise<unknown>).apply(handle, args);
    },
    close: async () => {
      try {
        await meet('close', path, closed);
      } finally {
        await closed();
      }
    },
  });
}

/** As a recursive removal that ends in the middle. */
async function removeHalf(
  path: string,
  sound: Record<string, (...args: unknown[]) => Promise<unknown>>,
): Promise<void> {
  const names = (await sound['readdir']!(path, { recursive: true }).catch(() => [])) as string[];
  for (const name of names.sort().slice(0, Math.ceil(names.length / 2)))
    await sound['rm']!(join(path, name), { recursive: true, force: true });
}
