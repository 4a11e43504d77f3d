/** Serves the built app on this machine only, with the headers it is meant to have. */
import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';
import { HEADERS } from './policy.ts';

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
  const server = createServer((request, response) => {
    const fail = (status: number): void => {
      response
        .writeHead(status, { ...HEADERS, 'Content-Type': 'text/plain; charset=utf-8' })
        .end(`${status}\n`);
    };
    if (request.method !== 'GET' && request.method !== 'HEAD') return fail(405);
    const path = fileBelow(folder, request.url ?? '/');
    if (path === null) return fail(404);
    const isHashed = /-[\w-]{8}\.\w+$/.test(path) && path.includes(`${sep}assets${sep}`);
    response.writeHead(200, {
      ...HEADERS,
      'Content-Type': TYPES[extname(path)] ?? 'application/octet-stream',
      'Content-Length': statSync(path).size,
      // Files named by their content never change; the others are asked for again.
      'Cache-Control': isHashed ? 'public, max-age=31536000, immutable' : 'no-cache',
    });
    if (request.method === 'HEAD') response.end();
    else createReadStream(path).pipe(response);
  });
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

/** The file an address names; null where there is none below the folder. */
function fileBelow(folder: string, url: string): string | null {
  let path: string;
  try {
    path = decodeURIComponent(new URL(url, 'http://localhost').pathname);
  } catch {
    return null;
  }
  if (path.includes('\0')) return null;
  const file = normalize(join(folder, path.endsWith('/') ? `${path}index.html` : path));
  if (!file.startsWith(folder + sep)) return null;
  try {
    return statSync(file).isFile() ? file : null;
  } catch {
    return null;
  }
}
