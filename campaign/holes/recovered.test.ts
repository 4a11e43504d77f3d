/** More recovered than was pushed or removed: named, in the unit of the crew, as a problem of the campaign in metres. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type CampaignDocument, newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { holeState } from './index.ts';
import { findingsAsRead, pushFinding, pushProblems } from './recovered.ts';

test('a tenth more than the push and 5 cm is a core that swells; more is named', () => {
  const push = { row_id: 'p', from_m: 0.5, to_m: 2 };
  // 1.5 × 1.1 + 0.05 = 1.70
  assert.equal(pushFinding({ ...push, recovered_m: 1.69 }, 'm'), null);
  assert.equal(pushFinding({ ...push, recovered_m: null }, 'm'), null);
  assert.equal(pushFinding({ ...push, to_m: 0.5, recovered_m: 1 }, 'm'), null);
  assert.equal(pushFinding({ ...push, recovered_m: 1.75 }, 'm')?.found, '1.75 m recovered, 1.50 m pushed');
  // 6 ft of 1.5 m, which is 4 ft 11.06 in
  assert.equal(
    pushFinding({ ...push, recovered_m: 1.8288 }, 'ft')?.found,
    '6 ft 0 in recovered, 4 ft 11 in pushed',
  );
});

const read = (tables: Record<string, Record<string, string>[]>) => {
  let document: CampaignDocument = newDocument('c', 'id');
  for (const [name, rows] of Object.entries(tables)) document = withRows(document, name, rows);
  return parseCampaign(document).campaign;
};

test('the campaign says which push, and nothing of those that are as they should be', () => {
  const campaign = read({
    holes: [{ hole: 'H1', method: 'tube' }],
    pushes: [
      { hole: 'H1', seq: '1', push: 'P1', from: '0 m', to: '1.5 m', recovered: '1.4 m', row_id: 'p1' },
      { hole: 'H1', seq: '2', push: 'P2', from: '1.5 m', to: '2 m', recovered: '0.75 m', row_id: 'p2' },
    ],
  });
  const problems = pushProblems(campaign, 'H1');
  assert.deepEqual(
    problems.map(({ severity, table, row_id, label, found }) => [severity, table, row_id, label, found]),
    [['warning', 'pushes', 'p2', 'H1 P2', '0.75 m recovered, 0.50 m pushed']],
  );
  assert.deepEqual(pushProblems(campaign, 'H2'), []);
});

test('what a run recovered is said in the unit of the core', () => {
  const run = { hole: 'H1', seq: '2', run: 'R1', start_mark: '1 m', end_mark: '2 m', recovered: '1.5 m' };
  const campaign = read({
    holes: [{ hole: 'H1', method: 'string' }],
    string_items: [{ hole: 'H1', seq: '1', action: 'add', item: 'joint', joint: 'A', length: '3 m' }],
    runs: [{ ...run, loss_position: 'unknown' }],
  });
  const state = holeState(campaign, 'H1')!;
  const found = (units: typeof state.units) =>
    findingsAsRead({ ...state, units }).find((f) => f.code === 'recovered-more-than-removed')?.found;
  const inMetres = state.fold.findings.find((f) => f.code === 'recovered-more-than-removed')?.found;
  assert.match(inMetres ?? '', /^1\.50 m came up/);
  assert.equal(found({ ...state.units, core: 'm' }), inMetres);
  // 1.5 m is 4 ft 11.06 in
  assert.match(found({ ...state.units, core: 'ft' }) ?? '', /^4 ft 11 in came up, .* was removed$/);
});
