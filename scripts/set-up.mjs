// Installs the locked packages (Node 24 itself is one of them) once per lock file. Plain JavaScript without
// dependencies, so that any Node from 20 on can run it on a fresh machine.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname ?? new URL('.', import.meta.url).pathname, '..');
const stamp = join(root, 'node_modules', '.set-up');
const locked = createHash('sha256').update(readFileSync(join(root, 'package-lock.json'))).digest('hex');
const node24 = join(root, 'node_modules', 'node', 'bin', process.platform === 'win32' ? 'node.exe' : 'node');

const done = existsSync(stamp) && readFileSync(stamp, 'utf8') === locked && existsSync(node24);
if (!done) {
  console.error('Setting up: installing the locked packages, once.');
  install();
  if (!existsSync(node24)) runInstallScriptOfNode();
  if (!existsSync(node24)) {
    console.error('Node 24 did not arrive with its package. Allow install scripts for npm, or install Node 24.');
    process.exit(1);
  }
  writeFileSync(stamp, locked);
}

function install() {
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const result = spawnSync(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (result.status !== 0) {
    console.error('npm ci failed; its message stands above. The network is needed once, for this step only.');
    process.exit(1);
  }
}

// npm may be set to skip install scripts; the package's own script only copies its binary from a sister package.
function runInstallScriptOfNode() {
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  spawnSync(npm, ['rebuild', 'node', '--ignore-scripts=false'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
}
