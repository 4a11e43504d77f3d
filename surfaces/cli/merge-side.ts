/** A copy of a campaign on disk, read to be merged: its folder or its zip, with the history that lies next to the tables. */
import { lstat, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { PACKAGE_PATH, rowIds } from '@stillstand/campaign/document';
import { type Replica, replicaOf } from '@stillstand/campaign/history';
import type { MergeSide } from '@stillstand/campaign/merge';
import { isFine, type Problem } from '@stillstand/campaign/problems';
import { isTableName } from '@stillstand/campaign/tables';
import { type Opened, openZip } from '@stillstand/campaign/versions';
import { WrongUse } from './command.ts';
import { nullIfAbsent, reading } from './disk/fault.ts';
import { isFile, namesEnding, readBytes, readCampaignFolder, sizeBelow } from './disk/read.ts';
import { NoTarget } from './disk/write.ts';
import { openWithHistory } from './open-with-history.ts';
import { sayProblems } from './say.ts';

export interface CopyOnDisk extends Replica {
  path: string;
  side: MergeSide;
  /** One of its photos or other files. */
  file(path: string): Promise<Uint8Array>;
}

/** @throws WrongUse for what holds no campaign, NoTarget for a copy that cannot be read whole or is of a newer version */
export async function readCopy(path: string): Promise<CopyOnDisk> {
  const isZip = await isFile(path);
  const opened = isZip ? openZip(await readBytes(path)) : await openFolder(path);
  const { document } = opened;
  if (document.package === null && ![...document.tables.keys()].some(isTableName) && isFine(opened.problems))
    throw new WrongUse(`${path} holds no campaign: name a campaign’s folder or zip`);
  const replica = replicaOf(opened, rowIds(document));
  const problems = [...opened.problems, ...replica.problems].map(
    (each): Problem => ({ ...each, table: `${path}: ${each.table}` }),
  );
  sayProblems(problems);
  if (opened.read_only)
    throw new NoTarget(`${path} is of a newer version, or its package cannot be read: nothing was merged`);
  if (!isFine(opened.problems)) throw new NoTarget(`${path} cannot be read whole: nothing was merged`);
  const inZip = replica.document.files;
  const sizes = isZip
    ? new Map([...inZip].map(([name, bytes]) => [name, bytes.length] as const))
    : await filesIn(path, replica);
  return {
    ...replica,
    path,
    side: { doc: replica.doc, files: sizes },
    file: async (name) => (isZip ? inZip.get(name)! : await readBytes(join(path, name))),
  };
}

async function openFolder(path: string): Promise<Opened> {
  const { files, notFiles } = await readCampaignFolder(path);
  return await openWithHistory(path, files, notFiles);
}

/** Sizes of the photos and other files of a campaign folder: in `photos` and `files`, coasts, and what rows name. */
async function filesIn(folder: string, { document }: Replica): Promise<Map<string, number>> {
  const photos = document.tables.get('photos');
  const column = photos?.columns.indexOf('file') ?? -1;
  const named = column < 0 ? [] : photos!.rows.map(({ cells }) => cells[column]?.trim() ?? '');
  const paths = new Set([
    ...(await below(folder, 'photos')),
    ...(await below(folder, 'files')),
    ...(await namesEnding(folder, /\.geojson$/i)),
    ...named.filter(Boolean),
  ]);
  const sizes = new Map<string, number>();
  for (const path of [...paths].sort()) {
    const size = path === PACKAGE_PATH ? null : await sizeBelow(folder, path);
    if (size !== null) sizes.set(path, size);
  }
  return sizes;
}

async function below(folder: string, name: string): Promise<string[]> {
  const at = join(folder, name);
  const found = await reading(at, () => lstat(at).catch(nullIfAbsent));
  if (found === null || !found.isDirectory()) return [];
  return (await reading(at, () => readdir(at))).map((each) => `${name}/${each}`);
}
