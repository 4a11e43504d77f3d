// The Node this project runs on: Node 24 as the package of its platform has it, pinned in the lock with its checksum
// like any other package; no install script is run for it.
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const isWindows = process.platform === 'win32';

/** The package that has it for this platform, if one is published. */
export const NODE_PACKAGE = `node-${isWindows ? 'win' : process.platform}-${process.arch}`;

/** Where it lies once the packages are installed; null where it does not. */
export function lockedNode() {
  const root = join(dirname(fileURLToPath(import.meta.url)), '..');
  const path = join(root, 'node_modules', NODE_PACKAGE, 'bin', isWindows ? 'node.exe' : 'node');
  return existsSync(path) ? path : null;
}
