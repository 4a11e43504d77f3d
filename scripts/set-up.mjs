// Installs the locked packages (Node 24 itself is one of them) once per lock file, then runs the script named on its
// command line on that Node. Plain JavaScript without dependencies, so that any Node from 20 on can run it on a fresh
// machine:  node scripts/set-up.mjs [script [arguments …]]
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const stamp = join(root, 'node_modules', '.set-up');
const locked = createHash('sha256')
  .update(readFileSync(join(root, 'package-lock.json')))
  .digest('hex');
const node24 = join(root, 'node_modules', 'node', 'bin', process.platform === 'win32' ? 'node.exe' : 'node');

const done = existsSync(stamp) && readFileSync(stamp, 'utf8') === locked && existsSync(node24);
if (!done) {
  console.error('Setting up: installing the locked packages, once.');
  install();
  if (!existsSync(node24)) runInstallScriptOfNode();
  if (!existsSync(node24)) {
    console.error(
      'Node 24 did not arrive with its package. Allow install scripts for npm, or install Node 24.',
    );
    process.exit(1);
  }
  writeFileSync(stamp, locked);
}

const [script, ...args] = process.argv.slice(2);
if (script) {
  const result = spawnSync(node24, [join(root, script), ...args], { stdio: 'inherit' });
  process.exit(result.status ?? 1);
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
