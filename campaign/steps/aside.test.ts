/** Readings that two amendments correct differently, or that cannot be read, happened: what depends on them is unknown. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { rigEntries, rigSettings } from '@stillstand/campaign/holes';
import { readSettings } from '@stillstand/campaign/settings';
import { reduceHole } from '@stillstand/science/rig';
import { computeCampaign } from './compute.ts';

type Cells = Record<string, string>;
const METRE = 1e-9;

function campaignOf(tables: Record<string, Cells[]>) {
  let document = newDocument('x');
  for (const [table, rows] of Object.entries(tables)) document = withRows(document, table, rows);
  return parseCampaign(document);
}

/** Two joints of 3 m, the second one amended as given. */
function string(amendments: Cells[]) {
  const joint = { hole: 'A', action: 'add', item: 'joint', length: '3 m', amends: '', amend_kind: '' };
  const { campaign } = campaignOf({
    holes: [{ hole: 'A', method: 'string' }],
    joints: [
      { ...joint, row_id: 'one', seq: '1', joint: 'J1' },
      { ...joint, row_id: 'two', seq: '2', joint: 'J2' },
      ...amendments.map((cells, i) => ({ ...joint, row_id: `by${i}`, seq: '2', joint: 'J2', ...cells })),
    ],
  });
  const entries = rigEntries(campaign, 'A');
  const settings = rigSettings(campaign, campaign.rows.holes[0]!, readSettings([]).settings);
  const fold = reduceHole(
    entries.map((e) => e.reading),
    settings,
  );
  return { fold, names: entries.map((e) => e.name) };
}

test('a joint whose length is in dispute makes the string’s length unknown, neither shorter nor as first written', () => {
  const replaced = (length: string): Cells => ({ length, amends: 'two', amend_kind: 'replace' });
  const agreed = string([replaced('2.90 m')]).fold.collar_to_shoe_m;
  assert.ok(agreed !== null && Math.abs(agreed - 5.9) < METRE, String(agreed));
  const { fold, names } = string([replaced('2.90 m'), replaced('3.10 m')]);
  assert.equal(fold.collar_to_shoe_m, null);
  assert.match(names[1]!, /^string item number 2, which has amendments that differ$/);
  // The same correction from two tablets is one correction.
  const twice = string([replaced('2.90 m'), replaced('2.90 m')]).fold.collar_to_shoe_m;
  assert.ok(twice !== null && Math.abs(twice - 5.9) < METRE, String(twice));
  // A joint that one withdraws and one corrects may be in the string or not.
  const gone = { amends: 'two', amend_kind: 'withdraw' };
  assert.equal(string([replaced('2.90 m'), gone]).fold.collar_to_shoe_m, null);
});

test('what amendments agree on is known: a joint by its name and thread, a run as lifted, a pull as a pull', () => {
  const replaced = (more: Cells): Cells => ({ amends: 'two', amend_kind: 'replace', ...more });
  const { fold } = string([
    replaced({ length: '2.90 m', tight: 'yes' }),
    replaced({ length: '3.10 m', tight: 'yes' }),
  ]);
  assert.deepEqual(
    fold.account.map(({ label, length_m }) => [label, length_m]),
    [
      ['J1', 3],
      ['J2', null],
    ],
  );
  // Where one says it was pulled, and one that it was added, nothing is known but that something happened.
  const unknown = string([replaced({ action: 'pull' }), replaced({ length: '3.10 m' })]);
  assert.equal(unknown.fold.collar_to_shoe_m, null);
  // The load while it was pulled is in dispute, not whether it was.
  const row = {
    hole: 'A',
    action: 'add',
    item: 'joint',
    joint: 'J1',
    length: '3 m',
    amends: '',
    amend_kind: '',
  };
  const pull = { ...row, row_id: 'pull', seq: '2', action: 'pull', length: '' };
  const load = (row_id: string, line_load_kn: string): Cells => ({
    ...pull,
    row_id,
    line_load_kn,
    amends: 'pull',
    amend_kind: 'replace',
  });
  const { campaign } = campaignOf({
    holes: [{ hole: 'A', method: 'string' }],
    joints: [{ ...row, row_id: 'add', seq: '1' }, pull, load('x', '4'), load('y', '5')],
  });
  const [, pulled] = rigEntries(campaign, 'A').map(({ reading }) => reading);
  assert.deepEqual(pulled?.kind === 'joint' ? [pulled.action, pulled.item, pulled.label] : null, [
    'pull',
    'joint',
    'J1',
  ]);
});

test('a sight in dispute, or one that cannot be read, leaves its loop without heights, and no other', () => {
  const loop = (name: string, foresight: string): Cells[] => [
    { loop: name, seq: '1', point: 'BM', backsight_m: '1.100', row_id: `${name}1` },
    {
      loop: name,
      seq: '2',
      point: `peg ${name}`,
      backsight_m: '1.000',
      foresight_m: foresight,
      row_id: `${name}2`,
    },
    { loop: name, seq: '3', point: 'BM', foresight_m: '1.200', row_id: `${name}3` },
  ];
  const amended = (by: string, foresight_m: string): Cells => ({
    ...loop('L', '0.900')[1]!,
    foresight_m,
    row_id: by,
    amends: 'L2',
    amend_kind: 'replace',
  });
  const problemsOf = (sights: Cells[]): (string | null)[] => {
    const { campaign, problems } = campaignOf({
      datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
      benchmarks: [{ benchmark: 'BM', datum: 'MSL', elevation_m: '2.0', sigma_m: '0.01' }],
      holes: [{ hole: 'A', method: 'string', reference_point: 'peg M' }],
      levelling: [...loop('L', '0.900'), ...loop('M', '0.900'), ...sights],
    });
    const { results } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
    return results.problems.filter((p) => p.code === 'level-book-incomplete').map((p) => p.label);
  };
  assert.deepEqual(problemsOf([]), []);
  assert.deepEqual(problemsOf([amended('x', '0.950')]), []);
  assert.deepEqual(problemsOf([amended('x', '0.950'), amended('y', '0.850')]), ['loop L']);
  assert.deepEqual(problemsOf([amended('x', 'wet page')]), ['loop L']);
});
