/** From a folder (or zip) on disk to computed results. */
import { dirname, join } from 'node:path';
import {
  type Campaign,
  type CampaignDocument,
  PACKAGE_PATH,
  PACKED_CAMPAIGN,
  parseCampaign,
  writeFiles,
} from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type Computation, computeCampaign, curvesNeeded, type Memo } from '@stillstand/campaign/steps';
import { isTableName } from '@stillstand/campaign/tables';
import { openFiles, openZip } from '@stillstand/campaign/versions';
import { loadCurves } from '@stillstand/published/curves';
import { DOSE_FACTORS } from '@stillstand/published/dose-factors';
import { WrongUse } from './command.ts';
import {
  exists,
  holdsResults,
  isFile,
  type NamedFile,
  namesEnding,
  readBytes,
  readCampaignFolder,
  readNamed,
} from './disk/read.ts';
import { replaceFiles } from './disk/replace.ts';
import { NoTarget } from './disk/write.ts';
import { openWithHistory } from './open-with-history.ts';

export interface Opened extends Computation {
  document: CampaignDocument;
  /** Line of a row in its file, as a spreadsheet numbers it. */
  line(row_id: string): number | null;
}

interface Wanted {
  withCurve: boolean;
  memo?: Memo;
  onProgress?: (done: number, of: number) => void;
}

export async function openAndCompute(path: string, wanted: Wanted): Promise<Opened> {
  return await computeOpened(await openCampaign(path), wanted);
}

/** The same for a campaign that is open. */
export async function computeOpened(opened: OpenCampaign, wanted: Wanted): Promise<Opened> {
  const { campaign, document, problems } = opened;
  const published = { curves: await loadCurves(curvesNeeded(campaign)), doseFactors: DOSE_FACTORS };
  const computation = computeCampaign(campaign, published, problems, wanted);
  return { ...computation, document, line: (row_id) => campaign.lines.get(row_id) ?? null };
}

export interface OpenCampaign {
  campaign: Campaign;
  document: CampaignDocument;
  problems: Problem[];
  /** A file that a row names, of so many bytes at most. */
  file: NamedFile;
  /** Paths of its coasts and grounds: every .geojson next to its tables or in its folder `files`. */
  coasts: () => Promise<string[]>;
}

/** The same without computing: what a command about one hole needs, in milliseconds. */
export async function openCampaign(path: string): Promise<OpenCampaign> {
  const opened = await openDocument(path);
  const isOneFile = await isFile(path);
  return parsed(
    opened,
    isOneFile
      ? within(opened.document.files)
      : { file: (name, most) => readNamed(path, name, most), coasts: () => namesEnding(path, /\.geojson$/i) },
  );
}

type Files = Pick<OpenCampaign, 'file' | 'coasts'>;

const within = (files: ReadonlyMap<string, Uint8Array>): Files => ({
  file: async (name) => files.get(name) ?? null,
  coasts: async () => [...files.keys()].filter((name) => /\.geojson$/i.test(name)),
});

export interface CampaignToWrite {
  document: CampaignDocument;
  /** Writes what differs from what was read; the names of the files. */
  write(edited: CampaignDocument): Promise<string[]>;
}

/** A campaign folder that is to be added to: a zip, a newer version, or one that cannot be read is refused. */
export async function openToWrite(path: string): Promise<CampaignToWrite> {
  if (await isFile(path))
    throw new WrongUse(`${path} is a file; a campaign’s folder is wanted: unpack a zip first`);
  const read = async () => (await readCampaignFolder(path)).files;
  const { files, notFiles } = await readCampaignFolder(path);
  const { document, read_only } = openFiles(files, notFiles);
  if (!files.has(PACKAGE_PATH) && ![...document.tables.keys()].some(isTableName))
    throw new WrongUse(`${path} holds no campaign; stillstand new makes one`);
  return {
    document,
    write: async (edited) => {
      if (read_only)
        throw new NoTarget(`${path} is of a newer version, or cannot be read: nothing was changed`);
      const changed = [...writeFiles(edited)].filter(([name, bytes]) => !isSame(files.get(name), bytes));
      const now = await read();
      const other = changed.find(([name]) => !isSame(files.get(name), now.get(name)));
      if (other !== undefined)
        throw new NoTarget(
          `${path}/${other[0]} was changed by another program: nothing was written, try again`,
        );
      for (const [name, where] of document.unread ?? [])
        if (changed.some(([file]) => file === where))
          throw new NoTarget(
            `${path}/${where} cannot be read (${name}): correct it first, nothing was changed`,
          );
      await replaceFiles(path, changed);
      return changed.map(([name]) => name);
    },
  };
}

const isSame = (a: Uint8Array | undefined, b: Uint8Array | undefined): boolean =>
  a === b || (a !== undefined && b !== undefined && Buffer.compare(a, b) === 0);

/** A campaign whose files are at hand. */
export function campaignOf(files: ReadonlyMap<string, Uint8Array>): OpenCampaign {
  return parsed(openFiles(files), within(files));
}

/** A document at hand, computed. */
export const computeDocument = async (document: CampaignDocument, wanted: Wanted): Promise<Opened> =>
  await computeOpened(parsed({ document, problems: [] }, within(document.files)), wanted);

function parsed(
  { document, problems: readProblems }: { document: CampaignDocument; problems: Problem[] },
  files: Files,
): OpenCampaign {
  const { campaign, problems } = parseCampaign(document);
  return { campaign, document, problems: [...readProblems, ...problems], ...files };
}

async function openDocument(path: string): Promise<{ document: CampaignDocument; problems: Problem[] }> {
  const isOneFile = await isFile(path);
  if (isOneFile && /\.[ct]sv$/i.test(path))
    throw new WrongUse(`${path} is one table; the campaign’s folder is wanted: ${dirname(path)}`);
  if (isOneFile) return openZip(await readBytes(path));
  const { files, notFiles } = await readCampaignFolder(path);
  if (files.size + notFiles.size === 0 && (await exists(join(path, PACKED_CAMPAIGN, PACKAGE_PATH))))
    throw new WrongUse(`${path} is a data package; its campaign is in ${join(path, PACKED_CAMPAIGN)}`);
  if (files.size + notFiles.size === 0 && (await holdsResults(path)))
    throw new WrongUse(`${path} holds results; the campaign’s folder is wanted`);
  return await openWithHistory(path, files, notFiles);
}
