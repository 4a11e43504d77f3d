import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { test } from 'node:test';
import { withRows } from '../document.ts';
import { newDocument } from '../package.ts';
import { parseCampaign } from './parse.ts';

type Rows = Record<string, string>[];
const HOLES: Rows = [
  { hole: 'H1', method: 'string' },
  { hole: 'H2', method: 'tube' },
];
const SOUNDINGS: Rows = [
  { hole: 'H1', seq: '1', to_sediment: '1 m' },
  { hole: 'H1', seq: '2', to_sediment: '1 m' },
  { hole: 'H2', seq: '1', to_sediment: '1 m', row_id: 'mine' },
];

function parse(holes: Rows, soundings: Rows) {
  const document = withRows(withRows(newDocument('x'), 'holes', holes), 'soundings', soundings);
  const { campaign, problems } = parseCampaign(document);
  return {
    holes: new Map(campaign.rows.holes.map((row) => [row.hole, row.row_id])),
    soundings: new Map(campaign.rows.soundings.map((row) => [`${row.hole} ${row.seq}`, row.row_id])),
    codes: problems.map(({ code }) => code),
    lines: campaign.lines,
  };
}

test('ids that are written stay; others come from table and label, or from what the row says', () => {
  const { holes, soundings, lines } = parse(HOLES, SOUNDINGS);
  assert.equal(soundings.get('H2 1'), 'mine');
  // SHA-256 of the platform, independent of the one used.
  const digest = createHash('sha256').update('holes\u0002holes\u0002H1').digest('hex').slice(0, 20);
  assert.equal(holes.get('H1'), `d-${digest}`);
  assert.equal(new Set([...holes.values(), ...soundings.values()]).size, 5);
  assert.equal(lines.get('mine'), 4);
});

test('sorting rows and moving columns changes no id', () => {
  const plain = parse(HOLES, SOUNDINGS);
  const turned = (rows: Rows): Rows =>
    [...rows].reverse().map((row) => Object.fromEntries(Object.entries(row).reverse()));
  const moved = parse(turned(HOLES), turned(SOUNDINGS));
  for (const [label, id] of plain.holes) assert.equal(moved.holes.get(label), id);
  for (const [label, id] of plain.soundings) assert.equal(moved.soundings.get(label), id);
});

test('a change beside the label does not change the id of a labelled row', () => {
  const changed = parse([{ hole: 'H1', method: 'gouge', note: 'new' }, HOLES[1]!], SOUNDINGS);
  assert.deepEqual(changed.holes, parse(HOLES, SOUNDINGS).holes);
});

test('an exact copy is used once; copies under one id that differ are each used under another', () => {
  const twice = parse(HOLES, [...SOUNDINGS, SOUNDINGS[0]!, SOUNDINGS[2]!]);
  assert.deepEqual(twice.codes, ['row-twice', 'row-twice']);
  assert.deepEqual(twice.soundings, parse(HOLES, SOUNDINGS).soundings);
  const shared = parse(HOLES, [...SOUNDINGS, { hole: 'H2', seq: '2', to_sediment: '3 m', row_id: 'mine' }]);
  assert.deepEqual(shared.codes, ['row-id-twice', 'row-id-twice']);
  assert.equal(shared.soundings.size, 4);
  assert.ok(![...shared.soundings.values()].includes('mine'));
});

test('an amendment written under the label of its reading is another row', () => {
  const document = withRows(withRows(newDocument('x'), 'holes', HOLES), 'runs', [
    { hole: 'H1', seq: '1', run: 'R1', recovered: '3-May' },
  ]);
  const first = [...parseCampaign(document).campaign.lines.keys()][2]!;
  const amended = withRows(document, 'runs', [
    { hole: 'H1', seq: '1', run: 'R1', recovered: '3-May' },
    { hole: 'H1', seq: '1', run: 'R1', recovered: '0.5 m', amends: first, amend_kind: 'replace' },
  ]);
  const { campaign, problems } = parseCampaign(amended);
  assert.deepEqual(problems, []);
  assert.equal(campaign.rows.runs[0]?.recovered_m, 0.5);
});
