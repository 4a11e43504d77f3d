/** The demo campaign from its generator to its report. */
import { fileURLToPath } from 'node:url';
import { computeFiles, endedInWords } from '@stillstand/cli';
import { loadCurve } from '@stillstand/published/curves';
import { DEMO_SEED, demoCampaign } from './index.ts';

const OUT = fileURLToPath(new URL('../out/demo', import.meta.url));

/** Writes the campaign into `campaign` below `out` and what it comes to beside it, all at once; gives the exit code. */
export async function runDemo(out = OUT): Promise<number> {
  const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
  const { files } = demoCampaign(DEMO_SEED, curves);
  // Drawings as SVG only: PNG and PDF of every figure take twice the time and tell nothing more.
  return await endedInWords(
    async () => await computeFiles(files, out, { kinds: ['svg'], campaignIn: 'campaign' }),
    [],
  );
}
