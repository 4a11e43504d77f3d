/**
 * The demo's coast recovered: ages against depth of its five holes, and from them which environment stood where and when,
 * against the truth the campaign was made from (demo/environments.ts). The demo itself asks for no ages against depth: they
 * take a minute or two of one core. Promised before measuring: the 95 % band of the edge of the land holds the true edge
 * at 0.90 or more of the ages at which it was between the holes. One coast, whose ages go together: all else is printed.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign, rowsOf, withRows } from '@stillstand/campaign/document';
import { computeCampaign } from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { DEMO_SEED, demoCampaign } from '@stillstand/demo';
import { loadCurve } from '@stillstand/published/curves';
import { recovery } from './recovery.ts';
import { inWords, part, tenthsInWords } from './shares.ts';

const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
const { files, truth } = demoCampaign(DEMO_SEED, curves);
const { document } = openFiles(files);
const asked = withRows(document, 'settings', [
  ...rowsOf(document, 'settings'),
  {
    row_id: 'asked',
    name: 'age_depth',
    value: truth.environments.columns.map(({ hole }) => hole).join('; '),
  },
]);
const { campaign, problems } = parseCampaign(asked);
const { results } = computeCampaign(campaign, { curves }, problems, { withCurve: true, memo: new Map() });

test('environments of the demo against its truth', (t) => {
  assert.ok(
    results.histories.every(({ diagnostics }) => diagnostics.converged),
    'ages against depth converge',
  );
  const found = recovery(results, truth);
  for (const line of found.lines) t.diagnostic(line);
  t.diagnostic(`contacts in their 95 %: ${inWords(found.contacts)}`);
  const { sum, of } = found.probability;
  t.diagnostic(
    `probability of the true environment ${(sum / of).toFixed(3)}; 0.05 or more at ${inWords(found.atLeast5)} ages`,
  );
  t.diagnostic(`of environments said, true: ${tenthsInWords(found.said)}`);
  t.diagnostic(`surface ${inWords(found.surface)}`);
  t.diagnostic(`stood: in their 95 % ${inWords(found.stood)}; at least so long ${inWords(found.atLeast)}`);
  const mean = (did: boolean): string => {
    const each = found.keptUp.filter((spell) => spell.did === did);
    return `${(each.reduce((total, { said }) => total + said, 0) / each.length).toFixed(2)} of ${each.length}`;
  };
  t.diagnostic(`kept up, said of those that did ${mean(true)}, of those that did not ${mean(false)}`);
  t.diagnostic(`edge in its 95 %: ${inWords(found.edge)}`);
  assert.ok(part(found.edge) >= 0.9, `edge ${part(found.edge)}`);
});
