/**
 * Copies that came to this device and are not opened yet: shared to the app, opened with it, sent over a direct link.
 * They outlast the page, and nothing is done with them but by the press of a person: a form may be half filled.
 */
import { useSyncExternalStore } from 'react';

export interface Received {
  /** Where the device keeps it. */
  key: string;
  name: string;
  bytes: number;
  file(): Promise<Blob>;
}

/** As in the service worker, which puts there what is shared to the app (offline/service-worker.ts). */
const CACHE = 'received-copies';
const FOLDER = './received/';

let kept: readonly Received[] = [];
/** What the device refused to keep, and what is on its disk already: in this page's memory alone. */
let held: readonly Received[] = [];
let all: readonly Received[] = [];
/** The one a person has asked to open where it was received. */
let wanted: string | null = null;
const listeners = new Set<() => void>();

function changed(): void {
  all = [...kept, ...held];
  for (const listener of listeners) listener();
}

/** Reads what the device keeps; where it keeps nothing (a page not loaded safely) there is nothing. */
export async function lookForReceived(): Promise<void> {
  const cache = await globalThis.caches?.open(CACHE).catch(() => null);
  if (cache === null || cache === undefined) return;
  const found = await Promise.all(
    (await cache.keys()).map(async (request): Promise<Received[]> => {
      const response = await cache.match(request);
      if (response === undefined) return [];
      const file = async (): Promise<Blob> => {
        const again = await cache.match(request);
        if (again === undefined) throw new Error('the received copy is no longer on this device');
        return await again.blob();
      };
      const name = decodeURIComponent(response.headers.get('x-name') ?? 'copy.zip');
      return [{ key: request.url, name, bytes: Number(response.headers.get('x-bytes')), file }];
    }),
  );
  kept = found.flat();
  changed();
}

/** Keeps a copy that came; resolves with its key. A device that refuses has it in this page's memory instead. */
export async function keepReceived(copy: Blob, name: string): Promise<string> {
  const key = new URL(FOLDER + crypto.randomUUID(), location.href).href;
  try {
    const cache = await caches.open(CACHE);
    const headers = { 'x-name': encodeURIComponent(name), 'x-bytes': String(copy.size) };
    await cache.put(key, new Response(copy, { headers }));
    await lookForReceived();
  } catch {
    holdReceived(copy, name, key);
  }
  return key;
}

/** A copy that is on the disk of the device already, as one that was opened with the app. */
export function holdReceived(copy: Blob, name: string, key: string = crypto.randomUUID()): void {
  held = [...held, { key, name, bytes: copy.size, file: async () => copy }];
  changed();
}

export async function forgetReceived(key: string): Promise<void> {
  held = held.filter((each) => each.key !== key);
  kept = kept.filter((each) => each.key !== key);
  changed();
  await globalThis.caches
    ?.open(CACHE)
    .then((cache) => cache.delete(key))
    .catch(() => false);
}

/** Asks for a copy to be opened as soon as nothing is half filled. */
export function wantReceived(key: string | null): void {
  wanted = key;
  changed();
}

const listen = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

export const useReceived = (): readonly Received[] => useSyncExternalStore(listen, () => all);
export const useWantedReceived = (): string | null => useSyncExternalStore(listen, () => wanted);
