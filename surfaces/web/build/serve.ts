/**
 * Serves the built app on this machine only, with the headers it is meant to have. Any page of the web can send a
 * browser here, under any name that its owner lets lead to this machine: only the machine's own names are answered.
 */
import { type FileHandle, open, realpath, stat } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { extname, join, sep } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { HEADERS, headersOf } from './policy.ts';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.zip': 'application/zip',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
};

/**
 * Resolves with the address once it answers. A port that is taken is followed by the next free one; port 0 takes any.
 * `keepsRunning`: whether the process goes on for its sake alone.
 */
export function serve(folder: string, port: number, keepsRunning = true): Promise<string> {
  const server = appServer(folder);
  if (!keepsRunning) server.unref();
  return new Promise((resolve, reject) => {
    let tried = port;
    server.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EADDRINUSE' || tried >= port + 20 || tried >= 65535) return reject(error);
      tried += 1;
      server.listen(tried, '127.0.0.1');
    });
    server.on('listening', () => {
      const address = server.address();
      resolve(`http://localhost:${address !== null && typeof address === 'object' ? address.port : tried}/`);
    });
    server.listen(tried, '127.0.0.1');
  });
}

/** A server of the files below a folder. Whatever one request is or meets, the next is answered. */
export function appServer(folder: string): Server {
  const server = createServer((request, response) => {
    answer(folder, request, response).catch((error: unknown) => {
      // The answer has begun: all that can be said is that it is not whole.
      if (response.headersSent) response.destroy();
      else refuse(request, response, asRefusal(error));
    });
  });
  server.on('clientError', (_, socket) => {
    if (!socket.writable) socket.destroy();
    else
      socket.end(
        `HTTP/1.1 400 Bad Request\r\nConnection: close\r\nContent-Type: text/plain; charset=utf-8\r\n\r\n${SENTENCES[400]}\n`,
      );
  });
  return server;
}

const SENTENCES = {
  400: 'The request cannot be read.',
  404: 'There is no such file here.',
  405: 'Only GET and HEAD are answered.',
  421: 'This server answers only as localhost, 127.0.0.1 or [::1].',
  500: 'The file cannot be read. Build the app again: npm start',
  503: 'Too many files are open. Try again in a moment.',
} as const;
type Status = keyof typeof SENTENCES;

class Refusal extends Error {
  readonly status: Status;
  constructor(status: Status) {
    super(SENTENCES[status]);
    this.status = status;
  }
}

function asRefusal(error: unknown): Refusal {
  if (error instanceof Refusal) return error;
  const { code } = error as NodeJS.ErrnoException;
  if (code === 'EMFILE' || code === 'ENFILE') return new Refusal(503);
  return new Refusal(['ENOENT', 'ENOTDIR', 'ELOOP', 'ENAMETOOLONG'].includes(code ?? '') ? 404 : 500);
}

function refuse(request: IncomingMessage, response: ServerResponse, { status, message }: Refusal): void {
  const body = `${status}: ${message}\n`;
  response.writeHead(status, {
    ...HEADERS,
    'Content-Type': 'text/plain; charset=utf-8',
    'Content-Length': Buffer.byteLength(body),
    'Cache-Control': 'no-store',
    ...(status === 405 ? { Allow: 'GET, HEAD' } : {}),
  });
  response.end(request.method === 'HEAD' ? undefined : body);
}

async function answer(folder: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { host, path } = target(request);
  if (!/^(?:localhost|127\.0\.0\.1|\[::1\])(?::\d{1,5})?$/i.test(host)) throw new Refusal(421);
  if (request.method !== 'GET' && request.method !== 'HEAD') throw new Refusal(405);
  const file = await fileBelow(folder, path);
  const handle = await open(file, 'r');
  try {
    await send(handle, file, request, response);
  } finally {
    await handle.close();
  }
}

async function send(
  handle: FileHandle,
  file: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const isHashed = /-[\w-]{8}\.\w+$/.test(file) && file.includes(`${sep}assets${sep}`);
  const { size } = await handle.stat();
  // The first bytes before the head: a file that cannot be read is then still an answer of its own.
  const first = Buffer.alloc(Math.min(size, 2 ** 16));
  const { bytesRead } = await handle.read(first, 0, first.length, 0);
  response.writeHead(200, {
    ...headersOf(file),
    'Content-Type': TYPES[extname(file)] ?? 'application/octet-stream',
    'Content-Length': size,
    // Files named by their content never change; the others are asked for again.
    'Cache-Control': isHashed ? 'public, max-age=31536000, immutable' : 'no-cache',
  });
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  response.write(first.subarray(0, bytesRead));
  if (bytesRead === size) response.end();
  else
    await pipeline(handle.createReadStream({ start: bytesRead, end: size - 1, autoClose: false }), response);
}

/** The name the request is for, and its path still in its escapes. A whole address counts before the header. */
function target({ url = '/', rawHeaders }: IncomingMessage): { host: string; path: string } {
  const hosts = rawHeaders.filter((_, i) => i % 2 === 1 && rawHeaders[i - 1]!.toLowerCase() === 'host');
  if (hosts.length > 1) throw new Refusal(400);
  const [, host, path] = /^https?:\/\/([^/?#]*)([^?#]*)/i.exec(url) ?? [];
  if (host !== undefined) return { host, path: path === '' ? '/' : path! };
  return { host: hosts[0] ?? '', path: url.split(/[?#]/)[0]! };
}

/** The file a path names, in the folder itself and not behind a link that leads out of it. */
async function fileBelow(folder: string, escapedPath: string): Promise<string> {
  let path: string;
  try {
    path = decodeURIComponent(escapedPath);
  } catch {
    throw new Refusal(400);
  }
  if (!path.startsWith('/') || /[\0\\:]/.test(path) || path.split('/').includes('..')) throw new Refusal(404);
  const root = await realpath(folder);
  const file = await realpath(join(root, path.endsWith('/') ? `${path}index.html` : path));
  if (!file.startsWith(root + sep) || !(await stat(file)).isFile()) throw new Refusal(404);
  return file;
}
