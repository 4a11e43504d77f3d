/** From a folder (or zip) on disk to computed results. */
import { dirname } from 'node:path';
import { type Campaign, type CampaignDocument, parseCampaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type Computation, computeCampaign, curvesNeeded, type Memo } from '@stillstand/campaign/steps';
import { openFiles, openZip } from '@stillstand/campaign/versions';
import { loadCurves } from '@stillstand/published/curves';
import { WrongUse } from './command.ts';
import { isFile, readBytes, readFolder } from './folder.ts';

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
  const { campaign, document, problems } = await openCampaign(path);
  const curves = await loadCurves(curvesNeeded(campaign));
  const computation = computeCampaign(campaign, { curves }, problems, wanted);
  return { ...computation, document, line: (row_id) => campaign.lines.get(row_id) ?? null };
}

/** The same without computing: what a command about one hole needs, in milliseconds. */
export async function openCampaign(
  path: string,
): Promise<{ campaign: Campaign; document: CampaignDocument; problems: Problem[] }> {
  const { document, problems: readProblems } = await openDocument(path);
  const { campaign, problems } = parseCampaign(document);
  return { campaign, document, problems: [...readProblems, ...problems] };
}

async function openDocument(path: string): Promise<{ document: CampaignDocument; problems: Problem[] }> {
  if (/\.csv$/i.test(path) && (await isFile(path).catch(() => false)))
    throw new WrongUse(`${path} is one table; the campaign’s folder is wanted: ${dirname(path)}`);
  try {
    return (await isFile(path))
      ? openZip(await readBytes(path))
      : openFiles(await readFolder(path, isPartOfCampaign));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT')
      throw new WrongUse(`${path}: no such folder or file`);
    throw error;
  }
}

/** Photos and what was computed into the folder are not read: tables and the package are all a computation needs. */
function isPartOfCampaign(path: string): boolean {
  return path === 'datapackage.json' || (path.endsWith('.csv') && !path.includes('/'));
}
