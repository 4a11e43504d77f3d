// The Node this project runs on: Node 24 as its platform's package has it, pinned in the lock with its checksum like
// any other package; no install script is run for it.
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const isWindows = process.platform === 'win32';
const folder = `node-${isWindows ? 'win' : process.platform}-${process.arch}`;
const locked = join(root, 'node_modules', folder, 'bin', isWindows ? 'node.exe' : 'node');

/**
 * Its path, once the packages are installed. On a platform that no such package is published for, the Node that runs this
 * if it is 24 or later; else null.
 */
export function lockedNode() {
  if (existsSync(locked)) return locked;
  return Number(process.versions.node.split('.')[0]) >= 24 ? process.execPath : null;
}
