/** Builds the app into a folder, whole or not at all. */
import { readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { build } from 'vite';

export async function buildInto(folder: string): Promise<void> {
  clearLeftovers(folder);
  const fresh = `${folder}.new-${process.pid}`;
  await build({
    configFile: join(import.meta.dirname, '..', 'vite.config.ts'),
    logLevel: 'error',
    build: { outDir: fresh },
  });
  // Put in place at once: whoever is being served never gets half of two builds.
  const old = `${folder}.old-${process.pid}`;
  try {
    renameSync(folder, old);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
  renameSync(fresh, folder);
  rmSync(old, { recursive: true, force: true });
}

/** What a build that was killed left beside the folder. */
function clearLeftovers(folder: string): void {
  const parent = dirname(folder);
  let names: string[] = [];
  try {
    names = readdirSync(parent);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
  for (const name of names) {
    const rest = name.startsWith(`${basename(folder)}.`) ? name.slice(basename(folder).length + 1) : '';
    const pid = /^(?:(?:new|old)-)?(\d+)$/.exec(rest)?.[1];
    if (pid !== undefined && !isRunning(Number(pid))) {
      rmSync(join(parent, name), { recursive: true, force: true });
    }
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
