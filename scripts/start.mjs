// `npm start`: builds the app from its sources (once for the same sources) and serves it on this machine.
//   node scripts/start.mjs [--port 4180] [--build-only]
import { createHash } from 'node:crypto';
import { existsSync, globSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import './typescript.mjs';

const root = join(import.meta.dirname, '..');
const built = join(root, 'out', 'web');
const stamp = join(root, 'out', 'web.sources');

const args = process.argv.slice(2);
const option = args.indexOf('--port');
const port = option === -1 ? 4180 : Number(args[option + 1]);
if (!Number.isInteger(port) || port < 0 || port > 65535) {
  console.error(`--port: found “${args[option + 1]}”, expected a number from 0 to 65535`);
  process.exit(2);
}

const { DiskFault, codeOf } = await import('../surfaces/cli/disk/fault.ts');
try {
  await buildOnce();
} catch (error) {
  if (codeOf(error) === null) throw error;
  fail(new DiskFault(error.path ?? built, 'written', error).message);
}
if (!args.includes('--build-only')) {
  const { serve } = await import('../surfaces/web/build/serve.ts');
  const address = await serve(built, port).catch((error) =>
    fail(`no port from ${port} on can be opened (${error.code}). Name another: npm start -- --port 8080`),
  );
  console.log(`Stillstand is at ${address} (stop with Ctrl C)`);
}

function fail(sentence) {
  console.error(`error: ${sentence}`);
  process.exit(2);
}

async function buildOnce() {
  const sources = sourcesHash();
  const isDone =
    existsSync(stamp) && readFileSync(stamp, 'utf8') === sources && existsSync(join(built, 'index.html'));
  if (isDone) return;
  console.error('Building the app, once for these sources.');
  // Half a build is never taken for one of these sources.
  rmSync(stamp, { force: true });
  const { buildInto } = await import('../surfaces/web/build/build.ts');
  await buildInto(built);
  writeFileSync(stamp, sources);
}

/** Of everything the bundle is made from, by path and content. */
function sourcesHash() {
  const files = globSync(
    [
      'package-lock.json',
      '{science,campaign,output,published,demo/campaign,surfaces/web}/**/*.{ts,tsx,css,html,svg,csv,json,webmanifest}',
    ],
    { cwd: root, exclude: (path) => path.includes('node_modules') },
  ).sort();
  const hash = createHash('sha256');
  for (const file of files) {
    if (/\.test\.tsx?$/.test(file)) continue;
    hash
      .update(`${file}\0`)
      .update(readFileSync(join(root, file)))
      .update('\0');
  }
  return hash.digest('hex');
}
