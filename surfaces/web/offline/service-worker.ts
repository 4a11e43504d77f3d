/**
 * Work without network: every file of this build is kept when the worker is installed, and answered from there. Of a
 * campaign nothing passes through here but a copy that is shared to the app: it is kept until a page has opened it. A
 * newer build waits until the person asks for it; windows that still show the older one go on with its files until they
 * are loaded again, so that a page never gets half of one build and half of another.
 */

/** Put in by the build (build/assets.ts). */
declare const __PRECACHE_FILES__: readonly string[];
declare const __PRECACHE_VERSION__: string;

/** The part of a service worker's scope used here; the page's own library of types knows it as a window. */
interface WorkerEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface FetchEvent extends WorkerEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface WorkerScope {
  readonly registration: { readonly scope: string };
  readonly clients: {
    claim(): Promise<void>;
    matchAll(of: { type: 'window'; includeUncontrolled: true }): Promise<readonly unknown[]>;
  };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'install' | 'activate', listener: (event: WorkerEvent) => void): void;
  addEventListener(type: 'fetch', listener: (event: FetchEvent) => void): void;
  addEventListener(type: 'message', listener: (event: MessageEvent) => void): void;
}
declare const self: WorkerScope;

const PREFIX = 'stillstand-';
const CACHE = PREFIX + __PRECACHE_VERSION__;

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(CACHE)
      .then((cache) =>
        cache.addAll(__PRECACHE_FILES__.map((path) => new Request(path, { cache: 'reload' }))),
      ),
  );
});

self.addEventListener('activate', (event) => {
  event.waitUntil(self.clients.claim());
});

self.addEventListener('message', (event) => {
  if (event.data === 'take over') void self.skipWaiting();
  if (event.data === 'tidy') void tidy();
});

const olderCaches = async (): Promise<string[]> =>
  (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);

/** Asked by a page of this build: where it is the only window, nothing needs the older ones any more. */
async function tidy(): Promise<void> {
  const windows = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  if (windows.length > 1) return;
  await Promise.all((await olderCaches()).map((name) => caches.delete(name)));
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method === 'POST' && request.url === `${self.registration.scope}receive`) {
    event.respondWith(receive(request));
    return;
  }
  if (request.method !== 'GET' || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(answer(request));
});

async function answer(request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  const asked = request.mode === 'navigate' ? self.registration.scope : request;
  const found = await cache.match(asked, { ignoreSearch: true });
  return found ?? (await ofOlderBuild(request)) ?? fetch(request);
}

/** A part of the build that another window still shows. */
async function ofOlderBuild(request: Request): Promise<Response | undefined> {
  for (const name of await olderCaches()) {
    const found = await (await caches.open(name)).match(request, { ignoreSearch: true });
    if (found !== undefined) return found;
  }
  return undefined;
}

/** As in the page, which shows what waits there (store/received.ts). */
const RECEIVED = 'received-copies';

/** Files shared to the app (`share_target` in app.webmanifest): on the device before the page is shown that opens them. */
async function receive(request: Request): Promise<Response> {
  const { scope } = self.registration;
  try {
    const files = (await request.formData()).getAll('copy').filter((each) => each instanceof File);
    const cache = await caches.open(RECEIVED);
    for (const file of files) {
      const headers = { 'x-name': encodeURIComponent(file.name), 'x-bytes': String(file.size) };
      await cache.put(`${scope}received/${crypto.randomUUID()}`, new Response(file, { headers }));
    }
    return Response.redirect(scope, 303);
  } catch {
    return Response.redirect(`${scope}#/?received=refused`, 303);
  }
}
