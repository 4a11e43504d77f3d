import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { withRows } from '../document.ts';
import { newDocument } from '../package.ts';
import { parseCampaign } from './parse.ts';

const SEED = 20_240_303;

interface Reading {
  id: string;
  amends?: string;
  kind?: 'replace' | 'withdraw' | 'move';
  seq?: string;
  depth?: string;
  hole?: string;
}

function parse(readings: readonly Reading[]) {
  const holes = withRows(newDocument('x'), 'holes', [
    { hole: 'H1', method: 'string' },
    { hole: 'H2', method: 'string' },
  ]);
  const rows = readings.map(({ id, amends, kind, seq, depth, hole }, i) => ({
    row_id: id,
    hole: hole ?? 'H1',
    seq: seq ?? String(i + 1),
    to_sediment: depth ?? '1 m',
    amends: amends ?? '',
    amend_kind: kind ?? '',
  }));
  const { campaign, problems } = parseCampaign(withRows(holes, 'soundings', rows));
  return {
    standing: campaign.rows.soundings.map(({ row_id, seq }) => `${row_id}@${seq}`),
    codes: problems.map(({ code }) => code),
    applied: campaign.amendments.map(({ row_id, by_row_id, kind }) => `${by_row_id} ${kind}s ${row_id}`),
    skipped_rows: campaign.skipped_rows.map(({ row_id, hole, seq }) => `${row_id}@${hole} ${seq}`),
    conflicts: campaign.conflicts.map(
      ({ row_id, between }) => `${row_id}: ${between.map((id) => id ?? 'withdrawn').join(' or ')}`,
    ),
  };
}

test('a replacement stands at the place of the reading; a withdrawn reading is gone', () => {
  const { standing, applied, codes } = parse([
    { id: 'a', seq: '1' },
    { id: 'b', seq: '2' },
    { id: 'c', seq: '3' },
    { id: 'a2', seq: '1', amends: 'a', kind: 'replace', depth: '2 m' },
    { id: 'b2', seq: '9', amends: 'b', kind: 'withdraw' },
  ]);
  assert.deepEqual(standing, ['a2@1', 'c@3']);
  assert.deepEqual(applied, ['a2 replaces a', 'b2 withdraws b']);
  assert.deepEqual(codes, []);
});

test('a replacement written with a later seq is put back to the place of the reading, and says so', () => {
  const { standing, codes } = parse([
    { id: 'a', seq: '1' },
    { id: 'b', seq: '2' },
    { id: 'a2', seq: '9', amends: 'a', kind: 'replace' },
  ]);
  assert.deepEqual(standing, ['a2@1', 'b@2']);
  assert.deepEqual(codes, ['amendment-place']);
});

test('a reading moved to another hole by its amendment keeps the seq it is given there', () => {
  assert.deepEqual(
    parse([
      { id: 'a', seq: '1' },
      { id: 'a2', seq: '7', amends: 'a', kind: 'replace', hole: 'H2' },
    ]).standing,
    ['a2@7'],
  );
});

test('chains: a replacement replaced, a withdrawal withdrawn, a replacement withdrawn', () => {
  const a: Reading = { id: 'a' };
  const b: Reading = { id: 'b', amends: 'a', kind: 'replace', seq: '1' };
  assert.deepEqual(parse([a, b, { id: 'c', amends: 'b', kind: 'replace', seq: '1' }]).standing, ['c@1']);
  assert.deepEqual(parse([a, b, { id: 'c', amends: 'b', kind: 'withdraw' }]).standing, ['a@1']);
  const w: Reading = { id: 'w', amends: 'a', kind: 'withdraw' };
  assert.deepEqual(parse([a, w, { id: 'c', amends: 'w', kind: 'withdraw' }]).standing, ['a@1']);
  assert.deepEqual(parse([a, w, { id: 'c', amends: 'w', kind: 'replace', seq: '1' }]).standing, ['c@1']);
});

test('amendments that differ are a conflict: the reading is not used, and happened all the same', () => {
  const two: Reading[] = [
    { id: 'a', seq: '4' },
    { id: 'b', amends: 'a', kind: 'replace', seq: '4', depth: '2 m' },
    { id: 'c', amends: 'a', kind: 'replace', seq: '4', depth: '3 m' },
  ];
  const { standing, codes, applied, skipped_rows, conflicts } = parse(two);
  assert.deepEqual(standing, []);
  assert.deepEqual(codes, ['amendment-conflict']);
  assert.deepEqual(applied, []);
  assert.deepEqual(skipped_rows, ['a@H1 4']);
  assert.deepEqual(conflicts, ['a: b or c']);
  // Withdrawing one of them ends the conflict.
  const ended = parse([...two, { id: 'd', amends: 'c', kind: 'withdraw' }]);
  assert.deepEqual(ended.standing, ['b@4']);
  assert.deepEqual([ended.codes, ended.skipped_rows, ended.conflicts], [[], [], []]);
  // Withdrawing the reading too is one more alternative, not the end of it.
  assert.deepEqual(parse([...two, { id: 'd', amends: 'a', kind: 'withdraw' }]).conflicts, [
    'a: b or c or withdrawn',
  ]);
});

test('a withdrawal and a replacement at once, an amendment of a withdrawn reading, a dispute about an amendment', () => {
  const a: Reading = { id: 'a', seq: '1' };
  const w: Reading = { id: 'w', amends: 'a', kind: 'withdraw' };
  const b: Reading = { id: 'b', amends: 'a', kind: 'replace', seq: '1', depth: '2 m' };
  assert.deepEqual(parse([a, w, b]).conflicts, ['a: b or withdrawn']);
  assert.deepEqual(parse([a, b, w]).conflicts, ['a: b or withdrawn']);
  // One device takes the amendment back, the other corrects it: as first written, or as corrected.
  const back: Reading = { id: 'x', amends: 'b', kind: 'withdraw' };
  const again: Reading = { id: 'y', amends: 'b', kind: 'replace', seq: '1', depth: '3 m' };
  const { conflicts, standing } = parse([a, b, back, again]);
  assert.deepEqual(conflicts, ['a: y or a']);
  assert.deepEqual(standing, []);
  // A dispute further down a chain is a dispute about the reading.
  const c: Reading = { id: 'c', amends: 'y', kind: 'replace', seq: '1', depth: '4 m' };
  const d: Reading = { id: 'd', amends: 'y', kind: 'replace', seq: '1', depth: '5 m' };
  assert.deepEqual(parse([a, b, again, c, d]).conflicts, ['a: c or d']);
});

test('amendments that say the same are no conflict, whoever wrote them, and may be withdrawn twice', () => {
  const same: Reading[] = [
    { id: 'a', seq: '1' },
    { id: 'c', amends: 'a', kind: 'replace', seq: '1', depth: '2 m' },
    { id: 'b', amends: 'a', kind: 'replace', seq: '1', depth: '2 m' },
  ];
  const { standing, codes, skipped_rows } = parse(same);
  assert.deepEqual(standing, ['b@1'], 'not the first line: the order of lines decides nothing');
  assert.deepEqual([codes, skipped_rows], [[], []]);
  const gone: Reading[] = [
    { id: 'a', seq: '1' },
    { id: 'w1', amends: 'a', kind: 'withdraw' },
    { id: 'w2', amends: 'a', kind: 'withdraw' },
  ];
  assert.deepEqual([parse(gone).standing, parse(gone).codes], [[], []]);
});

test('a joint whose length is in dispute makes the string unknown, not shorter', () => {
  let document = withRows(newDocument('x'), 'holes', [{ hole: 'H1', method: 'string' }]);
  const joint = (row_id: string, seq: string, length: string, more: Record<string, string> = {}) => ({
    row_id,
    seq,
    hole: 'H1',
    action: 'add',
    item: 'joint',
    joint: `J${seq}`,
    length,
    amends: '',
    amend_kind: '',
    ...more,
  });
  document = withRows(document, 'string_items', [
    joint('one', '1', '3 m'),
    joint('two', '2', '3 m'),
    joint('here', '2', '3.05 m', { amends: 'two', amend_kind: 'replace' }),
    joint('there', '2', '2.95 m', { amends: 'two', amend_kind: 'replace' }),
  ]);
  const { campaign } = parseCampaign(document);
  assert.deepEqual(
    campaign.skipped_rows.map(({ row_id, why, hole, seq }) => [row_id, why, hole, seq]),
    [['two', 'conflict', 'H1', 2]],
  );
});

test('an amended reading need not be readable; an amendment that cannot be read leaves nothing to use', () => {
  const corrected = parse([
    { id: 'a', depth: '3-May' },
    { id: 'b', amends: 'a', kind: 'replace', depth: '3.5 m', seq: '1' },
  ]);
  assert.deepEqual(corrected.standing, ['b@1']);
  assert.deepEqual(corrected.codes, []);
  // Somebody said the reading is wrong: it is not used, and counts in its place as unreadable.
  const unread = parse([{ id: 'a' }, { id: 'b', amends: 'a', kind: 'replace', depth: '3-May', seq: '1' }]);
  assert.deepEqual(unread.standing, []);
  assert.deepEqual(unread.skipped_rows, ['b@H1 1']);
  assert.deepEqual(unread.codes, ['date-for-number']);
});

test('amendments that name nothing, say nothing or go round in a circle are named', () => {
  assert.deepEqual(parse([{ id: 'a' }, { id: 'b', amends: 'z', kind: 'replace' }]).codes, [
    'unknown-amended',
  ]);
  assert.deepEqual(parse([{ id: 'a' }, { id: 'b', kind: 'replace' }]).codes, ['amends-nothing']);
  assert.deepEqual(parse([{ id: 'a' }, { id: 'b', kind: 'withdraw' }]).codes, ['amends-nothing']);
  const unsaid = parse([{ id: 'a' }, { id: 'b', amends: 'a', seq: '1' }]);
  assert.deepEqual(unsaid.codes, ['amend-kind-missing']);
  assert.deepEqual(unsaid.skipped_rows, ['b@H1 1']);
  // What amends a row that amends nothing is no reading either.
  const chain = parse([
    { id: 'b', amends: 'z', kind: 'replace' },
    { id: 'c', amends: 'b', kind: 'replace' },
  ]);
  assert.deepEqual(chain.standing, []);
  assert.deepEqual(chain.codes, ['unknown-amended', 'unknown-amended']);
  const circle = parse([
    { id: 'a', amends: 'b', kind: 'replace' },
    { id: 'b', amends: 'a', kind: 'replace' },
    { id: 'c', amends: 'c', kind: 'withdraw' },
    { id: 'd' },
  ]);
  assert.deepEqual(circle.standing, ['d@4']);
  assert.deepEqual(circle.codes, ['amends-in-circle', 'amends-in-circle', 'amends-in-circle']);
  assert.deepEqual(circle.skipped_rows, ['a@H1 1', 'b@H1 2', 'c@H1 3']);
});

test('a chain of ten thousand amendments is followed to its end', () => {
  const chain: Reading[] = [{ id: 'r0', seq: '1' }];
  for (let i = 1; i < 10_000; i++)
    chain.push({ id: `r${i}`, amends: `r${i - 1}`, kind: 'replace', seq: '1' });
  assert.deepEqual(parse(chain).standing, ['r9999@1']);
});

/**
 * The slow way, from the definition: a conflict is decided by withdrawing rivals, so whatever any choice of one rival at
 * every fork comes to is an alternative; where all choices come to the same there is none.
 */
function slowOutcomes(id: string, readings: readonly Reading[]): Set<string> {
  const reading = readings.find((each) => each.id === id)!;
  const own = reading.kind === 'withdraw' ? 'withdraws' : `is ${reading.depth}`;
  const rivals = readings
    .filter(({ amends }) => amends === id)
    .map((each) => slowOutcomes(each.id, readings))
    .filter((outcomes) => [...outcomes].some((outcome) => outcome !== 'gone'));
  const outcomes = new Set<string>();
  for (const rival of rivals)
    for (const outcome of rival)
      if (outcome !== 'gone') outcomes.add(outcome === 'withdraws' ? 'gone' : outcome);
  if (rivals.every((rival) => rival.has('gone'))) outcomes.add(own);
  return outcomes;
}

test(`twin: any tree of amendments comes to what the definition says, in any order of lines (seed ${SEED})`, () => {
  const tree = fc
    .array(fc.tuple(fc.nat(), fc.constantFrom('none', 'replace', 'withdraw'), fc.nat(2)), {
      minLength: 1,
      maxLength: 9,
    })
    .map((nodes) =>
      nodes.map(([which, kind, depth], i): Reading => {
        const id = `r${i}`;
        if (i === 0 || kind === 'none') return { id, seq: '1', depth: `${10 + i} m` };
        return {
          id,
          seq: '1',
          depth: `${depth + 1} m`,
          amends: `r${which % i}`,
          kind: kind as 'replace' | 'withdraw',
        };
      }),
    );
  let disputes = 0;
  fc.assert(
    fc.property(tree, fc.boolean(), (readings, reversed) => {
      const depthOf = new Map(readings.map(({ id, depth }) => [id, `is ${depth}`]));
      const expected = readings
        .filter(({ amends }) => amends === undefined)
        .map(({ id }) => [...slowOutcomes(id, readings)]);
      const { standing, conflicts } = parse(reversed ? [...readings].reverse() : readings);
      disputes += conflicts.length;
      assert.deepEqual(
        standing.map((each) => depthOf.get(each.split('@')[0]!)!).sort(),
        expected
          .filter((outcomes) => outcomes.length === 1 && outcomes[0] !== 'gone')
          .flat()
          .sort(),
      );
      assert.deepEqual(
        conflicts
          .map((words) =>
            words
              .replace(/^.*: /, '')
              .split(' or ')
              .map((id) => depthOf.get(id) ?? 'gone')
              .sort()
              .join(),
          )
          .sort(),
        expected
          .filter((outcomes) => outcomes.length > 1)
          .map((outcomes) => outcomes.sort().join())
          .sort(),
      );
    }),
    { seed: SEED, numRuns: 1500 },
  );
  assert.ok(disputes > 300, `only ${disputes} disputes`);
});
