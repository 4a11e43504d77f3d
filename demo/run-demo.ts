/** The demo campaign from its generator to its report. */
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { main } from '@stillstand/cli';
import { loadCurve } from '@stillstand/published/curves';
import { DEMO_SEED, demoCampaign } from './index.ts';

/** Writes `out/demo/campaign`, computes it into `out/demo`; gives the exit code. */
export async function runDemo(): Promise<number> {
  const here = join(dirname(fileURLToPath(import.meta.url)), '..');
  const out = join(here, 'out', 'demo');
  const folder = join(out, 'campaign');
  const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
  const { files } = demoCampaign(DEMO_SEED, curves);
  await rm(out, { recursive: true, force: true });
  for (const [path, bytes] of files) {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), bytes);
  }
  // Drawings as SVG only: PNG and PDF of every figure take twice the time and tell nothing more.
  return await main(['compute', folder, '--out', out, '--figures', 'svg']);
}
