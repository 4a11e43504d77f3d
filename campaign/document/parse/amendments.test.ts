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
  kind?: 'replace' | 'withdraw';
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
    aside: campaign.aside.map(({ row_id }) => row_id),
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

test('two amendments of one reading are a conflict, and the reading stays as first written', () => {
  const both: Reading[] = [
    { id: 'a' },
    { id: 'b', amends: 'a', kind: 'replace', seq: '1' },
    { id: 'c', amends: 'a', kind: 'withdraw' },
  ];
  const { standing, codes, applied, aside } = parse(both);
  assert.deepEqual(standing, ['a@1']);
  assert.deepEqual(codes, ['amendment-conflict']);
  assert.deepEqual(applied, []);
  assert.deepEqual(aside, []);
  // Withdrawing one of them ends the conflict.
  const ended = parse([...both, { id: 'd', amends: 'c', kind: 'withdraw' }]);
  assert.deepEqual(ended.standing, ['b@1']);
  assert.deepEqual(ended.codes, []);
});

test('an amended reading need not be readable; an unreadable amendment amends nothing', () => {
  const mended = parse([
    { id: 'a', depth: '3-May' },
    { id: 'b', amends: 'a', kind: 'replace', depth: '3.5 m', seq: '1' },
  ]);
  assert.deepEqual(mended.standing, ['b@1']);
  assert.deepEqual(mended.codes, []);
  const idle = parse([{ id: 'a' }, { id: 'b', amends: 'a', kind: 'replace', depth: '3-May', seq: '1' }]);
  assert.deepEqual(idle.standing, ['a@1']);
  assert.deepEqual(idle.codes, ['date-for-number', 'amendment-not-applied']);
});

test('amendments that name nothing, say nothing or go round in a circle are named', () => {
  assert.deepEqual(parse([{ id: 'a' }, { id: 'b', amends: 'z', kind: 'replace' }]).codes, [
    'unknown-amended',
  ]);
  assert.deepEqual(parse([{ id: 'a' }, { id: 'b', kind: 'replace' }]).codes, ['amends-nothing']);
  assert.deepEqual(parse([{ id: 'a' }, { id: 'b', amends: 'a' }]).codes, [
    'amend-kind-missing',
    'amendment-not-applied',
  ]);
  const circle = parse([
    { id: 'a', amends: 'b', kind: 'replace' },
    { id: 'b', amends: 'a', kind: 'replace' },
    { id: 'c', amends: 'c', kind: 'withdraw' },
    { id: 'd' },
  ]);
  assert.deepEqual(circle.standing, ['d@4']);
  assert.deepEqual(circle.codes, ['amends-in-circle', 'amends-in-circle', 'amends-in-circle']);
  assert.deepEqual(circle.aside, ['a', 'b', 'c']);
});

test('a chain of ten thousand amendments is followed to its end', () => {
  const chain: Reading[] = [{ id: 'r0', seq: '1' }];
  for (let i = 1; i < 10_000; i++)
    chain.push({ id: `r${i}`, amends: `r${i - 1}`, kind: 'replace', seq: '1' });
  assert.deepEqual(parse(chain).standing, ['r9999@1']);
});

/** The slow way: what a reading comes to, by definition, each time from the start. */
function slowOutcome(id: string, readings: readonly Reading[]): string | 'gone' | 'withdraws' {
  const reading = readings.find((each) => each.id === id)!;
  const own = reading.kind === 'withdraw' ? 'withdraws' : id;
  const inForce = readings
    .filter(({ amends }) => amends === id)
    .map((each) => slowOutcome(each.id, readings))
    .filter((outcome) => outcome !== 'gone');
  if (inForce.length !== 1) return own;
  return inForce[0] === 'withdraws' ? 'gone' : inForce[0]!;
}

test(`twin: any tree of amendments comes to what the definition says, in any order of lines (seed ${SEED})`, () => {
  const tree = fc
    .array(fc.tuple(fc.nat(), fc.constantFrom('none', 'replace', 'withdraw')), { minLength: 1, maxLength: 8 })
    .map((nodes) =>
      nodes.map(([which, kind], i): Reading => {
        const id = `r${i}`;
        if (i === 0 || kind === 'none') return { id, seq: String(i) };
        return { id, seq: String(i), amends: `r${which % i}`, kind: kind as 'replace' | 'withdraw' };
      }),
    );
  fc.assert(
    fc.property(tree, fc.boolean(), (readings, reversed) => {
      const expected = readings
        .filter(({ amends }) => amends === undefined)
        .map(({ id }) => slowOutcome(id, readings))
        .filter((outcome) => outcome !== 'gone');
      const { standing } = parse(reversed ? [...readings].reverse() : readings);
      assert.deepEqual(standing.map((each) => each.split('@')[0]).sort(), expected.sort());
    }),
    { seed: SEED, numRuns: 500 },
  );
});
