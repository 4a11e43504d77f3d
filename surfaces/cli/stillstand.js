#!/usr/bin/env node
// Starts the command line on the Node that came with the packages, whichever Node the shell found.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const packaged = join(
  here,
  '../../node_modules/node/bin',
  process.platform === 'win32' ? 'node.exe' : 'node',
);

if (Number(process.versions.node.split('.')[0]) < 24 && existsSync(packaged)) {
  const again = spawnSync(packaged, [fileURLToPath(import.meta.url), ...process.argv.slice(2)], {
    stdio: 'inherit',
  });
  process.exit(again.status ?? 1);
}
await import('./runtime.js');
const { main } = await import('./main.ts');
process.exitCode = await main(process.argv.slice(2));
