// Installs the locked packages (Node 24 is one of them) once per lock file, running no script of any, then runs the
// script named on its command line on that Node. Plain JavaScript without dependencies, so that any Node from 20 on can run it on a fresh
// machine:  node scripts/set-up.mjs [script [arguments …]]
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { lockedNode } from './locked-node.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const stamp = join(root, 'node_modules', '.set-up');
const locked = createHash('sha256')
  .update(readFileSync(join(root, 'package-lock.json')))
  .digest('hex');
const done = existsSync(stamp) && readFileSync(stamp, 'utf8') === locked && lockedNode() !== null;
if (!done) {
  console.error('Setting up: installing the locked packages, once.');
  install();
  if (lockedNode() === null) {
    console.error(
      `Found Node ${process.versions.node} on ${process.platform} ${process.arch}, for which no package of Node 24 is ` +
        'published. Install Node 24 or later and give the command again.',
    );
    process.exit(1);
  }
  writeFileSync(stamp, locked);
}

const [script, ...args] = process.argv.slice(2);
if (script) {
  const result = spawnSync(lockedNode(), [join(root, script), ...args], { stdio: 'inherit' });
  process.exit(result.status ?? 1);
}

function install() {
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const result = spawnSync(npm, ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (result.status !== 0) {
    console.error('npm ci failed; its message stands above. The network is needed once, for this step only.');
    process.exit(1);
  }
}
