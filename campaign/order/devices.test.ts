/** Two tablets write into one hole without knowing of each other, meet, and bring the readings into one order. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, rowIds, withRows, writeFiles } from '@stillstand/campaign/document';
import { fill, unattended } from '@stillstand/campaign/replica';
import { randomStream } from '@stillstand/science/base';
import * as Y from 'yjs';
import { clashesIn } from './index.ts';

const FILE = [
  ['holes', [{ row_id: 'h', hole: 'H1', method: 'string' }]],
  ['ground_levels', [{ row_id: 'g', hole: 'H1', seq: '1', ground_below_reference: '0.20 m' }]],
  [
    'string_items',
    [{ row_id: 'j', hole: 'H1', seq: '2', action: 'add', item: 'joint', joint: 'A1', length: '3.00 m' }],
  ],
  ['soundings', [{ row_id: 's', hole: 'H1', seq: '3', to_sediment: '2.90 m' }]],
] as const;
const DOCUMENT = FILE.reduce(
  (document, [table, rows]) => withRows(document, table, [...rows]),
  newDocument('two'),
);

function tablet(name: string, minutesAhead: number) {
  const doc = new Y.Doc();
  fill(doc, DOCUMENT, rowIds(DOCUMENT));
  let made = 0;
  let minute = 0;
  const written = new Set<string>();
  const { document, edits: acts } = unattended(doc, {
    crew: () => ({ by: name, device: name }),
    time: () => {
      const at = 480 + minute + minutesAhead;
      return `2024-06-11T${String(Math.floor(at / 60)).padStart(2, '0')}:${String(at % 60).padStart(2, '0')}:00+02:00`;
    },
    newRowId: () => `${name}${made++}`,
  });
  return {
    doc,
    document,
    acts,
    written,
    writes: (at: number, table: 'drives' | 'soundings' | 'events', cells: Record<string, string>) => {
      minute = at;
      written.add(acts.addReading(table, { hole: 'H1', ...cells }));
    },
    clashes: (theirs: ReadonlySet<string>) => clashesIn(document(), written, theirs),
  };
}
type Tablet = ReturnType<typeof tablet>;

const exchange = (one: Tablet, other: Tablet): void => {
  for (const [from, into] of [
    [one, other],
    [other, one],
  ] as const)
    Y.applyUpdate(into.doc, Y.encodeStateAsUpdate(from.doc, Y.encodeStateVector(into.doc)));
};

test('a move to the place a reading has is refused, with the reason', () => {
  const a = tablet('a', 0);
  a.writes(1, 'soundings', { to_sediment: '2.80 m' });
  assert.equal(a.acts.move('soundings', 'a0', 4), null);
  assert.deepEqual(a.acts.news(), { words: 'This reading is in that place already.', isRefusal: true });
  assert.notEqual(a.acts.move('soundings', 'a0', 2.5), null);
  const { seq } = parseCampaign(a.document()).campaign.rows.soundings[0]!;
  assert.equal(seq, 2.5);
});

/** Both write for an hour, and meet. */
function apart(seed: number): [Tablet, Tablet] {
  const random = randomStream(seed);
  const below = (n: number): number => Math.floor(random.uniform() * n);
  const both: [Tablet, Tablet] = [tablet('a', 0), tablet('b', below(40) - 20)];
  for (let minute = 1; minute < 20; minute += 1 + below(4)) {
    const at = both[below(2)]!;
    const kind = below(3);
    if (kind === 0) at.writes(minute, 'soundings', { to_sediment: `${100 + below(190)} cm` });
    else if (kind === 1)
      at.writes(minute, 'drives', { stick_up_start: '2.00 m', stick_up_end: `${50 + below(140)} cm` });
    else at.writes(minute, 'events', { kind: 'note', text: 'shells' });
  }
  exchange(...both);
  return both;
}

function settle(at: Tablet, theirs: Tablet, key: 'clock' | 'ours'): void {
  at.acts.together(() => {
    for (const { choices } of at.clashes(theirs.written))
      for (const { table, row_id, seq } of choices.find((choice) => choice.key === key)!.moves)
        at.acts.move(table, row_id, seq);
  });
}

const codes = (at: Tablet): string[] => parseCampaign(at.document()).problems.map(({ code }) => code);

test('by the clock both settle it on their own and alike: one document, one order, nothing left to ask', () => {
  let asked = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const [a, b] = apart(seed);
    assert.deepEqual(
      a.clashes(b.written)[0]?.choices[0],
      b.clashes(a.written)[0]?.choices[0],
      `seed ${seed}`,
    );
    asked += a.clashes(b.written).length;
    settle(a, b, 'clock');
    settle(b, a, 'clock');
    exchange(a, b);
    assert.deepEqual(writeFiles(a.document()), writeFiles(b.document()), `seed ${seed}`);
    // What both have is in dispute no more.
    assert.deepEqual(clashesIn(a.document(), new Set(), new Set()), [], `seed ${seed}`);
    assert.ok(!codes(a).some((code) => code === 'seq-twice' || code === 'move-conflict'), `seed ${seed}`);
  }
  assert.ok(asked > 25, `${asked} clashes`);
});

test('each says its own came first: the reading stays where it was, and it is said', () => {
  let disputes = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const [a, b] = apart(seed);
    settle(a, b, 'ours');
    settle(b, a, 'ours');
    exchange(a, b);
    const [mine, yours] = [codes(a), codes(b)];
    assert.deepEqual(mine, yours, `seed ${seed}`);
    disputes += mine.filter((code) => code === 'move-conflict' || code === 'seq-twice').length;
    // One of them settles what is left, and it is settled for both.
    settle(a, b, 'clock');
    exchange(a, b);
    assert.deepEqual(codes(a), codes(b), `seed ${seed}`);
  }
  assert.ok(disputes > 5, `${disputes} disputes`);
});
