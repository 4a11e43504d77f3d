/** One side of a comparison: a data package, a folder of results, or a campaign that is computed first. */
import { basename, dirname, join } from 'node:path';
import type { Computed } from '@stillstand/campaign/compare';
import { filesOfZip, PACKED_CHECKSUMS, unsafePath } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Memo } from '@stillstand/campaign/steps';
import { holdsFrozen, packedCampaign, readFrozen } from '@stillstand/output/data-package';
import { campaignOf, computeOpened, type OpenCampaign, openCampaign } from './campaign-folder.ts';
import { exists, isFile, readBytes } from './disk/read.ts';
import { progress } from './say.ts';

export interface SideRead {
  /** As the person named it. */
  path: string;
  /** Null where it cannot be compared; the problems say why. */
  side: Computed | null;
  /** Whether its numbers are those that were frozen, or were computed just now. */
  isFrozen: boolean;
  /** Version of the program that froze them; null where it is not stated. */
  program: string | null;
  problems: Problem[];
}

/** `again`: frozen results are not used, their campaign is computed. What is computed stays in the memo. */
export async function readSide(
  path: string,
  { again, memo }: { again: boolean; memo: Memo },
): Promise<SideRead> {
  const { files, problems } = await packedFiles(path);
  if (files === null) return await computedNow(path, await openCampaign(path), problems, memo);
  const inside = packedCampaign(files);
  if (again && inside !== null) return await computedNow(path, campaignOf(inside), problems, memo);
  const { results, campaign, program, problems: found } = readFrozen(files);
  const said = { path, isFrozen: true, program };
  if (results === null || problems.length > 0)
    return { ...said, side: null, problems: [...problems, ...found] };
  if (campaign === null) return { ...said, side: { results, from: null }, problems: found };
  const opened = campaignOf(campaign);
  const computation = await computeOpened(opened, { withCurve: false, memo });
  return {
    ...said,
    side: { results, from: { ...opened, computation } },
    problems: [...found, ...unreadable(opened)],
  };
}

async function computedNow(
  path: string,
  opened: OpenCampaign,
  problems: Problem[],
  memo: Memo,
): Promise<SideRead> {
  const found = [...problems, ...unreadable(opened)];
  const said = { path, isFrozen: false, program: null };
  if (found.some(({ severity }) => severity === 'error')) return { ...said, side: null, problems: found };
  const onProgress = progress(`sea level of ${basename(path)}`);
  const computation = await computeOpened(opened, { withCurve: true, memo, onProgress });
  return {
    ...said,
    side: { results: computation.results, from: { ...opened, computation } },
    problems: found,
  };
}

/** What keeps a campaign as a whole from being read; problems of its rows are for `check`. */
const unreadable = ({ problems }: OpenCampaign): Problem[] =>
  problems.filter(({ table, severity }) => table === 'datapackage' && severity === 'error');

/** The files of a package or of results; null where there are no results, so that it must be a campaign. */
async function packedFiles(
  path: string,
): Promise<{ files: Map<string, Uint8Array> | null; problems: Problem[] }> {
  if (await isFile(path)) {
    if (basename(path) === 'results.json') return await packedFiles(dirname(path));
    if (!/\.zip$/i.test(path)) return { files: null, problems: [] };
    const { files, problems } = filesOfZip(await readBytes(path));
    return holdsFrozen(files.keys()) ? { files, problems } : { files: null, problems: [] };
  }
  const files = await filesOfFolder(path);
  return { files: holdsFrozen(files.keys()) ? files : null, problems: [] };
}

/** Results, and all that is listed with them in their checksums. */
async function filesOfFolder(folder: string): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>();
  const take = async (path: string): Promise<void> => {
    const at = join(folder, path);
    if (!files.has(path) && (await exists(at)) && (await isFile(at))) files.set(path, await readBytes(at));
  };
  for (const path of [PACKED_CHECKSUMS, 'results.json', 'results.npz']) await take(path);
  const listed = new TextDecoder().decode(files.get(PACKED_CHECKSUMS));
  for (const [, path] of listed.matchAll(/^[0-9a-f]{64} [ *](.+)$/gm))
    if (path !== undefined && unsafePath(path) === null) await take(path);
  return files;
}
