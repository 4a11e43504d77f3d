/** Writes the demo campaign into demo/campaign, where anybody can compute it at once: `npm run store -w demo`. */
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { loadCurve } from '@stillstand/published/curves';
import { demoCampaign } from './index.ts';
import { DEMO_SEED } from './seed.ts';

const folder = fileURLToPath(new URL('campaign/', import.meta.url));
const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
await rm(folder, { recursive: true, force: true });
await mkdir(folder, { recursive: true });
for (const [path, bytes] of demoCampaign(DEMO_SEED, curves).files) await writeFile(join(folder, path), bytes);
