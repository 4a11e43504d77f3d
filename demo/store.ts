/** Writes the demo campaign into demo/campaign, where anybody can compute it at once: `npm run store -w demo`. */
import { fileURLToPath } from 'node:url';
import { endedInWords, target, writeWhole } from '@stillstand/cli';
import { loadCurve } from '@stillstand/published/curves';
import { demoCampaign } from './index.ts';
import { DEMO_SEED } from './seed.ts';

const folder = fileURLToPath(new URL('campaign', import.meta.url));
const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
const { files } = demoCampaign(DEMO_SEED, curves);
process.exitCode = await endedInWords(async () => {
  await writeWhole(await target(folder, { replace: 'anything' }), files, { checksums: false, keep: false });
  return 0;
}, []);
