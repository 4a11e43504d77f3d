/**
 * Numbers do not change without the version of the computation: a digest of every number in the results of the demo and
 * of four other campaigns is kept beside the version it was made with. `STILLSTAND_UPDATE=1` renews it, once
 * `COMPUTATION` has been raised and docs/methods/results.md says what changed.
 */
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { readdir, readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import type { Results } from '@stillstand/campaign/results';
import { COMPUTATION, computeCampaign, curvesNeeded } from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { loadCurves } from '@stillstand/published/curves';
import { type CampaignText, computed, demoText, onlyHoles } from '../memo/campaign-text.ts';
import { everyKind } from '../memo/every-kind.ts';
import { withCurve } from '../seasia/with-curve.ts';
import { digestOfNumbers } from './numbers.ts';

const KEPT = new URL('./numbers.json', import.meta.url);
const CAMPAIGNS = {
  demo: () => ofFolder('../../demo/campaign/'),
  singapore: () => withCurve.results,
  georgia: () => ofFolder('../turck/campaign/'),
  'every kind': async () => computed(everyKind, { withCurve: true }).results,
  'ages by depth': async () => computed(byDepth, { withCurve: true }).results,
};

/** A hole of the demo with lead-210 and dates, whose points have their ages from all of them together. */
const marsh = onlyHoles(demoText, new Set(['M1']));
const byDepth: CampaignText = {
  ...marsh,
  points: marsh['points']!.map((cells) => ({ ...cells, age_from: 'age_depth' })),
};

interface Kept {
  computation: string;
  numbers: Record<string, string>;
}

async function ofFolder(path: string): Promise<Results> {
  const folder = new URL(path, import.meta.url);
  const names = (await readdir(folder)).filter((name) => /\.(csv|json)$/.test(name));
  const files = await Promise.all(
    names.map(async (name) => [name, new Uint8Array(await readFile(new URL(name, folder)))] as const),
  );
  const { document } = openFiles(new Map(files));
  const { campaign } = parseCampaign(document);
  const curves = await loadCurves(curvesNeeded(campaign));
  return computeCampaign(campaign, { curves }, [], { withCurve: true }).results;
}

test('the numbers of five campaigns are those of this version of the computation', async () => {
  const numbers: Record<string, string> = {};
  for (const [name, results] of Object.entries(CAMPAIGNS)) numbers[name] = digestOfNumbers(await results());
  const kept = JSON.parse(readFileSync(KEPT, 'utf8')) as Kept;
  const changed = Object.keys(numbers).filter((name) => numbers[name] !== kept.numbers[name]);
  if (process.env['STILLSTAND_UPDATE'] === '1' && kept.computation !== COMPUTATION) {
    writeFileSync(KEPT, `${JSON.stringify({ computation: COMPUTATION, numbers }, null, 2)}\n`);
    return;
  }
  assert.deepEqual(
    changed,
    [],
    kept.computation === COMPUTATION
      ? `numbers changed under version ${COMPUTATION}: raise COMPUTATION, say in docs/methods/results.md what changed, and renew`
      : `version ${COMPUTATION} has no numbers kept yet: STILLSTAND_UPDATE=1 keeps them`,
  );
  assert.equal(kept.computation, COMPUTATION, 'the kept numbers are of another version: STILLSTAND_UPDATE=1');
});
