/** Builds the app into a folder, whole or not at all. */
import { renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';

export async function buildInto(folder: string): Promise<void> {
  const fresh = `${folder}.${process.pid}`;
  await build({
    configFile: join(import.meta.dirname, '..', 'vite.config.ts'),
    logLevel: 'error',
    build: { outDir: fresh },
  });
  // Put in place at once: whoever is being served never gets half of two builds.
  rmSync(folder, { recursive: true, force: true });
  renameSync(fresh, folder);
}
