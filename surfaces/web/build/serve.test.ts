/** The app's server over a real socket: what it answers, what it refuses, and that it goes on after either. */
import assert from 'node:assert/strict';
import fs, { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { type AddressInfo, connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { appServer } from './serve.ts';

const top = mkdtempSync(join(tmpdir(), 'stillstand-serve-'));
const web = join(top, 'web');
const server = appServer(web);
let port = 0;

before(async () => {
  mkdirSync(join(web, 'assets'), { recursive: true });
  mkdirSync(join(web, 'empty'));
  writeFileSync(join(web, 'index.html'), '<!doctype html>home');
  writeFileSync(join(web, 'assets/index-AbCd1234.js'), 'code');
  writeFileSync(join(web, 'demo.zip'), Buffer.alloc(300_000, 7));
  writeFileSync(join(top, 'secret.txt'), 'secret');
  symlinkSync(join(top, 'secret.txt'), join(web, 'link.txt'));
  symlinkSync(top, join(web, 'out'));
  symlinkSync('loop', join(web, 'loop'));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  port = (server.address() as AddressInfo).port;
});
after(() => {
  server.closeAllConnections();
  server.close();
  rmSync(top, { recursive: true, force: true });
});

/** What comes back over the socket for these very bytes, until the server closes; `ends` says at once that no more come. */
async function raw(bytes: string | Uint8Array, ends = false): Promise<string> {
  return await new Promise((resolve) => {
    const chunks: Buffer[] = [];
    const socket = connect(port, '127.0.0.1', () => (ends ? socket.end(bytes) : socket.write(bytes)));
    socket.on('data', (chunk) => chunks.push(chunk));
    socket.on('error', () => undefined);
    socket.on('close', () => resolve(Buffer.concat(chunks).toString('latin1')));
  });
}

async function ask(
  line: string,
  host: string | null = `localhost:${port}`,
): Promise<{ status: number; head: string; body: string }> {
  const text = await raw(
    `${line} HTTP/1.1\r\n${host === null ? '' : `Host: ${host}\r\n`}Connection: close\r\n\r\n`,
  );
  const [head = '', ...rest] = text.split('\r\n\r\n');
  return { status: Number(/^HTTP\/1\.1 (\d+)/.exec(head)?.[1] ?? 0), head, body: rest.join('\r\n\r\n') };
}

const home = async (): Promise<void> => {
  const { status, body } = await ask('GET /');
  assert.deepEqual([status, body], [200, '<!doctype html>home']);
};

test('files are served with the app’s headers, whole', async () => {
  await home();
  const { status, head, body } = await ask('GET /demo.zip?v=1');
  assert.deepEqual([status, body.length], [200, 300_000]);
  assert.match(head, /content-security-policy: default-src 'none'/i);
  assert.match(head, /cache-control: no-cache/i);
  assert.match((await ask('GET /assets/index-AbCd1234.js')).head, /immutable/);
  const asked = await ask('HEAD /demo.zip');
  assert.deepEqual([asked.status, asked.body], [200, '']);
  assert.match(asked.head, /content-length: 300000/i);
});

test('only the worker that makes a GeoPackage may compile WebAssembly', async () => {
  const names = [
    'geopackage.worker-AbCd1234.js',
    'report.worker-AbCd1234.js',
    'x-geopackage.worker-AbCd1234.js',
  ];
  for (const name of names) writeFileSync(join(web, 'assets', name), 'code');
  const policies: string[] = [];
  for (const name of [...names, 'index-AbCd1234.js']) {
    const { status, head } = await ask(`GET /assets/${name}`);
    assert.equal(status, 200);
    policies.push(/content-security-policy: .*?(script-src [^;]+);/i.exec(head)![1]!);
  }
  assert.deepEqual(policies, [
    "script-src 'self' 'wasm-unsafe-eval'",
    "script-src 'self'",
    "script-src 'self'",
    "script-src 'self'",
  ]);
});

test('a file that cannot be read is an answer, and the server goes on', async () => {
  const file = join(web, 'locked.js');
  writeFileSync(file, 'x');
  chmodSync(file, 0o000);
  // Root may read it all the same: the disk itself refuses then.
  const { open } = fs.promises;
  for (const [code, status] of [
    ['EACCES', 500],
    ['EIO', 500],
    ['EMFILE', 503],
  ] as const) {
    fs.promises.open = () => Promise.reject(Object.assign(new Error(code), { code, syscall: 'open' }));
    syncBuiltinESMExports();
    const answer = await ask('GET /locked.js').finally(() => {
      fs.promises.open = open;
      syncBuiltinESMExports();
    });
    assert.equal(answer.status, status, code);
    assert.match(answer.body, /^50[03]: [A-Z][^\n]+\n$/);
    await home();
  }
  if (process.getuid?.() !== 0) assert.equal((await ask('GET /locked.js')).status, 500);
  rmSync(file, { force: true });
});

test('a file that ends in the middle of an answer costs that answer alone', async () => {
  const { open } = fs.promises;
  fs.promises.open = async (...args) => {
    const handle = await open(...args);
    const stream = handle.createReadStream.bind(handle);
    return Object.assign(handle, {
      createReadStream: (options: object) =>
        stream({ ...options })
          .once('ready', function (this: { destroy(error: Error): void }) {
            this.destroy(new Error('the disk is gone'));
          })
          .once('data', function (this: { destroy(error: Error): void }) {
            this.destroy(new Error('the disk is gone'));
          }),
    });
  };
  syncBuiltinESMExports();
  const { body } = await ask('GET /demo.zip').finally(() => {
    fs.promises.open = open;
    syncBuiltinESMExports();
  });
  assert.ok(body.length < 300_000);
  await home();
});

test('only the machine’s own names are answered', async () => {
  for (const host of [
    'localhost',
    `localhost:${port}`,
    'LOCALHOST:1',
    '127.0.0.1',
    `127.0.0.1:${port}`,
    '[::1]:4180',
  ])
    assert.equal((await ask('GET /', host)).status, 200, host);
  for (const host of [
    'attacker.example',
    `attacker.example:${port}`,
    'localhost.attacker.example',
    'attacker.localhost',
    '127.0.0.1.attacker.example',
    '127.0.0.2',
    '0.0.0.0',
    '[::]',
    'localhost:99999999',
    'localhost:',
    'user@localhost',
    '',
  ]) {
    const { status, body } = await ask('GET /', host);
    assert.ok(status === 421 || status === 400, `${host}: ${status}`);
    assert.doesNotMatch(body, /home/);
  }
  // The name in the request line counts before the one in the header.
  assert.equal((await ask('GET http://attacker.example/')).status, 421);
  assert.equal((await ask(`GET http://localhost:${port}/`, 'attacker.example')).status, 200);
  assert.equal((await ask('GET /', null)).status, 400);
  assert.match(await raw('GET / HTTP/1.0\r\n\r\n'), /^HTTP\/1\.1 421 /);
  assert.match(
    await raw(`GET / HTTP/1.1\r\nHost: localhost\r\nHost: attacker.example\r\nConnection: close\r\n\r\n`),
    /^HTTP\/1\.1 400 /,
  );
});

test('only GET and HEAD', async () => {
  for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS', 'PATCH', 'TRACE', 'PROPFIND']) {
    const { status, head } = await ask(`${method} /`);
    assert.equal(status, 405, method);
    assert.match(head, /allow: GET, HEAD/i);
  }
  assert.equal((await ask('OPTIONS *')).status, 405);
  // Closed without a word.
  assert.equal((await ask('CONNECT localhost:80')).status, 0);
  await home();
});

test('nothing outside the folder, no list of a folder, no way through a link', async () => {
  for (const path of [
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e%2fsecret.txt',
    '/..%5csecret.txt',
    '//secret.txt',
    '//attacker.example/secret.txt',
    '/link.txt',
    '/out/secret.txt',
    '/out/',
    '/loop',
    '/assets',
    '/assets/',
    '/empty/',
    '/none',
    '/index.html/',
    '/index.html/x',
    '/index.html%00.js',
    '/C:/secret.txt',
    `/${'x'.repeat(400)}`,
    `/${'x/'.repeat(2000)}`,
  ]) {
    const { status, body } = await ask(`GET ${path}`);
    assert.equal(status, 404, path.slice(0, 40));
    assert.equal(body, '404: There is no such file here.\n');
  }
  assert.equal((await ask('GET /%')).status, 400);
  assert.equal((await ask('GET /%ff%fe')).status, 400);
  assert.equal((await ask('GET secret.txt')).status, 400);
  await home();
});

test('requests of 2,000 kinds that are none, seed 41: each is refused or closed, and the next is answered', async () => {
  const stream = randomStream(41);
  const pieces = [
    'GET ',
    'HEAD',
    '/',
    ' HTTP/1.1',
    '\r\n',
    '\n',
    'Host: localhost',
    ':',
    ' ',
    '%',
    '..',
    '\0',
    'Content-Length: -1',
    'Transfer-Encoding: chunked',
    'Transfer-Encoding: x',
    'Expect: 1',
    'Upgrade: websocket',
    'Connection: upgrade',
    '\xff',
    'A'.repeat(20_000),
    '0\r\n\r\n',
  ];
  const statuses = new Map<string, number>();
  for (let n = 0; n < 2000; n += 20) {
    const batch = Array.from({ length: 20 }, () => {
      const parts = Array.from(
        { length: 1 + stream.integer(12) },
        () => pieces[stream.integer(pieces.length)]!,
      );
      const start = stream.integer(2) === 0 ? 'GET / HTTP/1.1\r\n' : '';
      return `${start}${parts.join('')}\r\n\r\n`;
    });
    for (const text of await Promise.all(batch.map((bytes) => raw(Buffer.from(bytes, 'latin1'), true)))) {
      const status = /^HTTP\/1\.1 (\d+)/.exec(text)?.[1] ?? 'closed';
      statuses.set(status, (statuses.get(status) ?? 0) + 1);
      assert.doesNotMatch(text, /secret/);
    }
    await home();
  }
  for (const status of statuses.keys()) assert.match(status, /^(?:200|400|404|405|417|421|431|closed)$/);
});

test('a request that is broken off, before and in the middle of its answer', async () => {
  await Promise.all(
    Array.from({ length: 50 }, async (_, i) => {
      await new Promise<void>((resolve) => {
        const socket = connect(port, '127.0.0.1', () => {
          socket.write(
            i % 2 === 0 ? 'GET /demo.zip HT' : `GET /demo.zip HTTP/1.1\r\nHost: localhost\r\n\r\n`,
          );
          if (i % 2 === 0) socket.destroy();
        });
        socket.once('data', () => socket.destroy());
        socket.on('error', () => undefined);
        socket.on('close', () => resolve());
      });
    }),
  );
  await home();
});
