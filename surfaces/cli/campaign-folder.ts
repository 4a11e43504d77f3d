/** From a folder (or zip) on disk to computed results. */
import { dirname } from 'node:path';
import { type Campaign, type CampaignDocument, parseCampaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type Computation, computeCampaign, curvesNeeded, type Memo } from '@stillstand/campaign/steps';
import { openFiles, openZip } from '@stillstand/campaign/versions';
import { loadCurves } from '@stillstand/published/curves';
import { WrongUse } from './command.ts';
import { holdsResults, isFile, readBytes, readCampaignFolder } from './disk/read.ts';

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
  const curves = await loadCurves(curvesNeeded(campaign));
  const computation = computeCampaign(campaign, { curves }, problems, wanted);
  return { ...computation, document, line: (row_id) => campaign.lines.get(row_id) ?? null };
}

export interface OpenCampaign {
  campaign: Campaign;
  document: CampaignDocument;
  problems: Problem[];
}

/** The same without computing: what a command about one hole needs, in milliseconds. */
export async function openCampaign(path: string): Promise<OpenCampaign> {
  return parsed(await openDocument(path));
}

/** A campaign whose files are at hand. */
export function campaignOf(files: ReadonlyMap<string, Uint8Array>): OpenCampaign {
  return parsed(openFiles(files));
}

function parsed({
  document,
  problems: readProblems,
}: {
  document: CampaignDocument;
  problems: Problem[];
}): OpenCampaign {
  const { campaign, problems } = parseCampaign(document);
  return { campaign, document, problems: [...readProblems, ...problems] };
}

async function openDocument(path: string): Promise<{ document: CampaignDocument; problems: Problem[] }> {
  const isOneFile = await isFile(path);
  if (isOneFile && /\.[ct]sv$/i.test(path))
    throw new WrongUse(`${path} is one table; the campaign’s folder is wanted: ${dirname(path)}`);
  if (isOneFile) return openZip(await readBytes(path));
  const { files, notFiles } = await readCampaignFolder(path);
  if (files.size + notFiles.size === 0 && (await holdsResults(path)))
    throw new WrongUse(`${path} holds results; the campaign’s folder is wanted`);
  return openFiles(files, notFiles);
}
