#!/usr/bin/env node
// Starts the command line on the Node that came with the packages, whichever Node the shell found.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { lockedNode } from '../../scripts/locked-node.mjs';

const node = lockedNode();
if (Number(process.versions.node.split('.')[0]) < 24 && node !== null) {
  const again = spawnSync(node, [fileURLToPath(import.meta.url), ...process.argv.slice(2)], {
    stdio: 'inherit',
  });
  process.exit(again.status ?? 1);
}
await import('./runtime.js');
const { main } = await import('./main.ts');
process.exitCode = await main(process.argv.slice(2));
