/** Photographs of a campaign, from its zip or from its folder on disk, for a data package. */
import { join } from 'node:path';
import { unsafePath } from '@stillstand/campaign/document';
import { type Photographs, photographsNamed, tooManyPhotographs } from '@stillstand/output/data-package';
import type { OpenCampaign } from './campaign-folder.ts';
import { isFile, readBytes, sizeBelow } from './disk/read.ts';
import { NoTarget } from './disk/write.ts';
import { printError } from './say.ts';
import { unlessRefused } from './unless-refused.ts';

export const leftOut = ({ campaign }: OpenCampaign): Photographs => ({
  named: photographsNamed(campaign),
  read: null,
});

/**
 * Those of the campaign that was opened from `path`; each is read when it is asked for. What is missing or cannot be
 * read then is said, and costs nothing else.
 * @throws NoTarget where they are too many for one package
 */
export async function photographsOf(
  path: string,
  { campaign, document }: OpenCampaign,
): Promise<Photographs> {
  const named = photographsNamed(campaign);
  const folder = (await isFile(path)) ? null : path;
  const sizes = new Map<string, number>();
  for (const file of named) {
    const size = document.files.get(file)?.length ?? (await sizeOf(folder, file));
    if (size !== null) sizes.set(file, size);
  }
  const why = tooManyPhotographs([...sizes.values()]);
  if (why !== null)
    throw new NoTarget(
      `--package: found ${why}: the package could not be opened again. Add --without-photographs and archive them apart; nothing was computed`,
    );
  const missing = named.filter((file) => !sizes.has(file));
  if (missing.length > 0)
    printError(`note: photos.csv names files that are not there, and not in the package: ${some(missing)}`);
  return {
    named,
    read: async (file) => document.files.get(file) ?? (sizes.has(file) ? await onDisk(folder!, file) : null),
  };
}

const sizeOf = async (folder: string | null, file: string): Promise<number | null> =>
  folder === null || unsafePath(file) !== null ? null : await sizeBelow(folder, file);

const onDisk = (folder: string, file: string): Promise<Uint8Array | null> =>
  unlessRefused(() => readBytes(join(folder, file)), null, 'It is not in the data package.');

const LISTED = 10;

const some = (files: readonly string[]): string =>
  [
    ...files.slice(0, LISTED).map((file) => file.replace(/\s+/g, ' ')),
    ...(files.length > LISTED ? [`and ${files.length - LISTED} more`] : []),
  ].join(', ');
