/** The campaign of published dates (docs/real-input.md), computed from its files. */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseCampaign } from '@stillstand/campaign/document';
import { computeCampaign } from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { loadCurve } from '@stillstand/published/curves';

const CAMPAIGN = join(import.meta.dirname, 'campaign');

export async function computedCampaign(options: { withCurve: boolean }) {
  const curves = { intcal20: await loadCurve('intcal20'), marine20: await loadCurve('marine20') };
  const files = new Map<string, Uint8Array>();
  for (const name of await readdir(CAMPAIGN)) files.set(name, await readFile(join(CAMPAIGN, name)));
  const opened = openFiles(files);
  const parsed = parseCampaign(opened.document);
  return computeCampaign(parsed.campaign, { curves }, [...opened.problems, ...parsed.problems], options);
}
