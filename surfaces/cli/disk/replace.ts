/**
 * Files of a folder replaced, each whole or not at all: written under another name, then renamed. A program that is
 * killed between two renames leaves the first files new and the others old; whoever calls gives what others name first,
 * so that no row names one that is not there.
 */
import { open, readdir, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { writing } from './fault.ts';
import { isAtWork } from './write.ts';

const FRESH = /\.stillstand-new-(\d+)$/;

/** What is too large for the memory comes piece by piece. */
type Fresh = readonly [path: string, content: Uint8Array | string | AsyncIterable<Uint8Array>];

export async function replaceFiles(folder: string, files: readonly Fresh[]): Promise<void> {
  if (files.length === 0) return;
  const fresh = (path: string): string => join(folder, `${path}.stillstand-new-${process.pid}`);
  try {
    for (const [path, content] of files) {
      await writing(join(folder, path), async () => {
        const file = await open(fresh(path), 'w');
        try {
          await file.writeFile(content);
          // A rename must not overtake its content: the disk has it before we go on.
          await file.sync();
        } finally {
          await file.close();
        }
      });
    }
    for (const [path] of files)
      await writing(join(folder, path), () => rename(fresh(path), join(folder, path)));
  } catch (error) {
    for (const [path] of files) await rm(fresh(path), { force: true }).catch(() => undefined);
    throw error;
  }
  await clearAway(folder);
}

/** What a write that was killed left. */
async function clearAway(folder: string): Promise<void> {
  const names = await readdir(folder).catch(() => []);
  for (const name of names) {
    const pid = FRESH.exec(name)?.[1];
    if (pid !== undefined && !isAtWork(Number(pid)))
      await rm(join(folder, name), { force: true }).catch(() => undefined);
  }
}
