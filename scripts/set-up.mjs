// Installs the locked packages (Node 24 is one of them) once per lock file, running no script of any, then runs the
// script named on its command line on that Node. Plain JavaScript without dependencies, so that any Node from 20 on can run it on a fresh
// machine:  node scripts/set-up.mjs [script [arguments …]]
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { lockedNode, NODE_PACKAGE } from './locked-node.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const stamp = join(root, 'node_modules', '.set-up');
const lock = readFileSync(join(root, 'package-lock.json'), 'utf8');
const locked = createHash('sha256').update(lock).digest('hex');

const done = existsSync(stamp) && readFileSync(stamp, 'utf8') === locked && nodeToRun() !== null;
if (!done) {
  console.error('Setting up: installing the locked packages, once.');
  install();
  if (nodeToRun() === null) {
    console.error(
      isNodeLocked()
        ? `npm left out ${NODE_PACKAGE}: what arrived was not what is locked, or did not arrive. Give the command again; if it ` +
            'stays so, do not trust the registry it came from.'
        : `Found Node ${process.versions.node} on ${process.platform} ${process.arch}, for which no package of Node 24 is ` +
            'locked. Install Node 24 or later and give the command again.',
    );
    process.exit(1);
  }
  writeFileSync(stamp, locked);
}

const [script, ...args] = process.argv.slice(2);
if (script) {
  const result = spawnSync(nodeToRun(), [join(root, script), ...args], { stdio: 'inherit' });
  process.exit(result.status ?? 1);
}

function isNodeLocked() {
  return lock.includes(`"node_modules/${NODE_PACKAGE}"`);
}

/** The locked Node; on a platform that has none, the one that runs this, if it is new enough. */
function nodeToRun() {
  const isNew = Number(process.versions.node.split('.')[0]) >= 24;
  return lockedNode() ?? (isNew && !isNodeLocked() ? process.execPath : null);
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
