/** A moved reading: another place in its hole, and nothing else of it changed, in whatever order its rows arrived. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { readingOf, toMove } from '../amending.ts';
import { withRows } from '../document.ts';
import { newDocument } from '../package.ts';
import { parseCampaign } from './parse.ts';
import { rowsInForce, type TypedRow, typedSeq } from './typed-readings.ts';

const SEED = 20_261_130;

interface Written {
  id: string;
  amends?: string;
  kind?: 'replace' | 'withdraw' | 'move';
  seq?: string;
  depth?: string;
  hole?: string;
}

const typedRows = (readings: readonly Written[]): TypedRow[] =>
  readings.map(({ id, amends = '', kind = '', seq = '1', depth = '', hole = 'H1' }) => ({
    row_id: id,
    cells: { row_id: id, hole, seq, to_sediment: depth, amends, amend_kind: kind },
  }));

function parse(readings: readonly Written[]) {
  const holes = withRows(newDocument('x'), 'holes', [
    { hole: 'H1', method: 'string' },
    { hole: 'H2', method: 'string' },
  ]);
  const rows = typedRows(readings);
  const { campaign, problems } = parseCampaign(
    withRows(
      holes,
      'soundings',
      rows.map(({ cells }) => ({ ...cells })),
    ),
  );
  const used = campaign.rows.soundings.map(({ row_id, seq }) => `${row_id}@${seq}`);
  // Screens see the very same.
  assert.deepEqual(
    rowsInForce('soundings', rows)
      .filter((row) => !campaign.skipped_rows.some(({ row_id }) => row_id === row.row_id))
      .map((row) => `${row.row_id}@${typedSeq(row)}`)
      .sort(),
    [...used].sort(),
  );
  return {
    used,
    codes: problems.map(({ code }) => code).sort(),
    problems,
    applied: campaign.amendments.map(({ row_id, by_row_id, kind }) => `${by_row_id} ${kind}s ${row_id}`),
  };
}

const a: Written = { id: 'a', seq: '4', depth: '1 m' };
const b: Written = { id: 'b', seq: '5', depth: '2 m' };
const move = (id: string, amends: string, seq: string): Written => ({ id, amends, kind: 'move', seq });
const withdraw = (id: string, amends: string): Written => ({ id, amends, kind: 'withdraw' });

test('a move gives a reading another place and changes nothing else', () => {
  const { used, codes, applied } = parse([a, b, move('m', 'a', '5.5')]);
  assert.deepEqual(used, ['b@5', 'a@5.5']);
  assert.deepEqual([codes, applied], [[], ['m moves a']]);
});

test('moved again by the move or by the reading, withdrawn, and the withdrawal withdrawn', () => {
  const m = move('m', 'a', '5.5');
  assert.deepEqual(parse([a, b, m, move('n', 'm', '6.5')]).used, ['b@5', 'a@6.5']);
  assert.deepEqual(parse([a, b, m, withdraw('w', 'm')]).used, ['a@4', 'b@5']);
  assert.deepEqual(parse([a, b, m, withdraw('w', 'm'), withdraw('v', 'w')]).used, ['b@5', 'a@5.5']);
  assert.deepEqual(parse([a, b, m, withdraw('w', 'm'), move('n', 'a', '7')]).used, ['b@5', 'a@7']);
  // What a withdrawal of a move says is as good a thing to move again.
  assert.deepEqual(parse([a, b, m, withdraw('w', 'm'), move('n', 'w', '7')]).used, ['b@5', 'a@7']);
});

test('a move and a correction are no rivals, whichever row each of them names', () => {
  const r: Written = { id: 'r', amends: 'a', kind: 'replace', seq: '4', depth: '1.5 m' };
  assert.deepEqual(parse([a, b, r, move('m', 'a', '5.5')]).used, ['b@5', 'r@5.5']);
  assert.deepEqual(parse([a, b, r, move('m', 'r', '5.5')]).used, ['b@5', 'r@5.5']);
  assert.deepEqual(parse([a, b, move('m', 'a', '5.5'), { ...r, amends: 'm' }]).used, ['b@5', 'r@5.5']);
  // Written with the place it had then, or with the one it has now: it is where it was moved to, and nothing is said.
  const late = parse([a, b, move('m', 'a', '5.5'), { ...r, seq: '5.5' }]);
  assert.deepEqual([late.used, late.codes], [['b@5', 'r@5.5'], []]);
  // The correction is withdrawn: the move is not.
  assert.deepEqual(parse([a, b, r, move('m', 'r', '5.5'), withdraw('w', 'r')]).used, ['b@5', 'a@5.5']);
});

test('a withdrawn reading is gone, moved or not; restored it is where it was moved to', () => {
  const gone = [a, b, move('m', 'a', '5.5'), withdraw('w', 'a')];
  assert.deepEqual(
    [parse(gone).used, parse(gone).codes, parse(gone).applied],
    [['b@5'], [], ['w withdraws a']],
  );
  assert.deepEqual(parse([a, b, withdraw('w', 'a'), move('m', 'w', '5.5')]).used, ['b@5']);
  assert.deepEqual(parse([...gone, withdraw('v', 'w')]).used, ['b@5', 'a@5.5']);
});

test('two moves to different places: used where it was before both, and named with what to do', () => {
  const two = [a, b, move('m', 'a', '5.5'), move('n', 'a', '6.5')];
  const { used, codes, problems } = parse(two);
  assert.deepEqual([used, codes], [['a@4', 'b@5'], ['move-conflict']]);
  assert.match(problems[0]!.found, /number 5\.5 or 6\.5/);
  assert.match(problems[0]!.fix, /Move it once more.*Until then it is used as number 4\./);
  // Before both it had been moved already.
  const on = [a, b, move('l', 'a', '3'), move('m', 'l', '5.5'), move('n', 'l', '6.5')];
  assert.deepEqual([parse(on).used, parse(on).codes], [['a@3', 'b@5'], ['move-conflict']]);
  // One device takes the move back, the other moves it on.
  const back = [a, b, move('m', 'a', '5.5'), withdraw('w', 'm'), move('n', 'm', '6.5')];
  assert.deepEqual([parse(back).used, parse(back).codes], [['b@5', 'a@5.5'], ['move-conflict']]);
  // One of them withdrawn: decided.
  assert.deepEqual(parse([...two, withdraw('w', 'm')]).used, ['b@5', 'a@6.5']);
  assert.deepEqual(parse([...two, withdraw('w', 'm')]).codes, []);
});

test('two moves to one place, written 5.5 and 5.50, are none in dispute', () => {
  const { used, codes } = parse([a, b, move('m', 'a', '5.5'), move('n', 'a', '5.50')]);
  assert.deepEqual([used, codes], [['b@5', 'a@5.5'], []]);
});

test('a move to another hole, or to no number, is not followed and says so until it is withdrawn', () => {
  const other = [a, b, { ...move('m', 'a', '5.5'), hole: 'H2' }];
  assert.deepEqual([parse(other).used, parse(other).codes], [['a@4', 'b@5'], ['move-elsewhere']]);
  assert.match(parse(other).problems[0]!.found, /a move within hole H2 of a reading of hole H1/);
  assert.equal(parse(other).problems[0]!.row_id, 'm');
  assert.deepEqual(parse([...other, withdraw('w', 'm')]).codes, []);
  for (const seq of ['', 'behind b', '-3']) {
    const lost = parse([a, b, move('m', 'a', seq)]);
    assert.deepEqual([lost.used, lost.codes], [['a@4', 'b@5'], ['move-nowhere']], seq);
  }
  // It rivals no other move.
  assert.deepEqual(parse([...other, move('n', 'a', '6')]).used, ['b@5', 'a@6']);
  // A row that moves and says no hole is of the hole of its reading.
  assert.deepEqual(parse([a, b, { ...move('m', 'a', '6'), hole: '' }]).used, ['b@5', 'a@6']);
});

test('a reading corrected to another hole leaves its moves behind, and can be moved there', () => {
  const r: Written = { id: 'r', amends: 'a', kind: 'replace', seq: '9', hole: 'H2' };
  const gone = parse([a, b, move('m', 'a', '5.5'), r]);
  assert.deepEqual([gone.used, gone.codes], [['b@5', 'r@9'], ['move-elsewhere']]);
  const there = parse([a, b, r, { ...move('m', 'r', '11'), hole: 'H2' }]);
  assert.deepEqual([there.used, there.codes], [['b@5', 'r@11'], []]);
});

test('moves of nothing, of themselves and in a circle are named, and move nothing', () => {
  assert.deepEqual(parse([b, { id: 'm', kind: 'move', seq: '3' }]).codes, ['amends-nothing']);
  assert.deepEqual(parse([b, move('m', 'z', '3')]).codes, ['unknown-amended']);
  assert.deepEqual(parse([b, move('m', 'n', '3'), move('n', 'm', '3')]).codes, [
    'amends-in-circle',
    'amends-in-circle',
  ]);
});

/** The slow way, from the definition; see `amendments.test.ts` for what rivals are. */
function slowPlaces(readings: readonly Written[], first: Written, without: ReadonlySet<string>) {
  const byId = new Map(readings.map((each) => [each.id, each]));
  const isOfPlace = (each: Written): boolean =>
    each.kind === 'move' || (each.kind === 'withdraw' && isOfPlace(byId.get(each.amends!)!));
  const upon = (id: string): Written[] =>
    readings.filter((each) => {
      if (each.amends === undefined || without.has(each.id) || !isOfPlace(each)) return false;
      const target = byId.get(each.amends)!;
      return (isOfPlace(target) ? target.id : rootOf(target)) === id;
    });
  const rootOf = (each: Written): string =>
    each.amends === undefined ? each.id : rootOf(byId.get(each.amends)!);
  const outcomes = (each: Written): Set<string> => {
    const rivals = upon(each.id)
      .map(outcomes)
      .filter((found) => [...found].some((outcome) => outcome !== 'gone'));
    const found = new Set<string>();
    for (const rival of rivals)
      for (const outcome of rival)
        if (outcome !== 'gone') found.add(outcome === 'withdraws' ? 'gone' : outcome);
    if (rivals.every((rival) => rival.has('gone')))
      found.add(each.kind === 'withdraw' ? 'withdraws' : each.seq!);
    return found;
  };
  /** The first row that is amended differently, from the reading on; its amendments. */
  const fork = (): string[] => {
    for (let at = first; ; ) {
      const rivals = upon(at.id).filter((each) => [...outcomes(each)].some((outcome) => outcome !== 'gone'));
      if (rivals.length !== 1) return rivals.map(({ id }) => id);
      at = rivals[0]!;
    }
  };
  return { places: [...outcomes(first)], fork };
}

const trees = fc
  .array(
    fc.tuple(
      fc.nat(),
      fc.constantFrom('none', 'replace', 'withdraw', 'withdraw', 'move', 'move', 'move'),
      fc.nat(2),
    ),
    { minLength: 1, maxLength: 10 },
  )
  .map((nodes) =>
    nodes.map(([which, kind, value], i): Written => {
      const id = `r${i}`;
      if (i === 0 || kind === 'none') return { id, seq: String(100 * (i + 1)), depth: `${10 + i} m` };
      const amends = `r${which % i}`;
      if (kind === 'move') return { id, amends, kind, seq: `${value + 1}.5` };
      return { id, amends, kind: kind as 'replace' | 'withdraw', seq: '1', depth: '9 m' };
    }),
  );

test(`twin: any tree with moves puts its readings where the definition says (seed ${SEED})`, () => {
  let disputes = 0;
  let moved = 0;
  fc.assert(
    fc.property(trees, (readings) => {
      const rows = typedRows(readings);
      for (const first of readings.filter(({ amends }) => amends === undefined)) {
        const { place } = readingOf('soundings', rows, first.id)!;
        const { places, fork } = slowPlaces(readings, first, new Set());
        assert.deepEqual(
          place.between.map((row) => row.cells['seq']).sort(),
          places.length > 1 ? places.sort() : [],
        );
        const before = places.length === 1 ? places : slowPlaces(readings, first, new Set(fork())).places;
        assert.deepEqual([place.by.cells['seq']], before);
        if (places.length > 1) disputes++;
        else if (places[0] !== first.seq) moved++;
      }
    }),
    { seed: SEED, numRuns: 2000 },
  );
  assert.ok(disputes > 200 && moved > 300, `${disputes} disputes, ${moved} moved`);
});

/** The same with corrections to another hole, and moves that state one. */
const acrossHoles = fc
  .tuple(trees, fc.array(fc.boolean(), { minLength: 10, maxLength: 10 }))
  .map(([tree, there]) =>
    tree.map((each, i): Written => (each.amends === undefined || !there[i] ? each : { ...each, hole: 'H2' })),
  );

test(`whatever the order in which the rows arrive, the outcome is one (seed ${SEED})`, () => {
  fc.assert(
    fc.property(
      acrossHoles.chain((tree) =>
        fc.tuple(fc.constant(tree), fc.shuffledSubarray(tree, { minLength: tree.length })),
      ),
      ([readings, shuffled]) => {
        assert.deepEqual(parse(shuffled).used, parse(readings).used);
        assert.deepEqual(parse(shuffled).codes, parse(readings).codes);
      },
    ),
    { seed: SEED, numRuns: 500 },
  );
});

test(`the act: after it the reading is where it was asked to be, and nothing else of it changed (seed ${SEED})`, () => {
  let back = 0;
  fc.assert(
    fc.property(trees, fc.nat(), fc.constantFrom('2.5', '7', '100'), (readings, which, seq) => {
      const rows = typedRows(readings);
      const before = readingOf('soundings', rows, readings[which % readings.length]!.id)!;
      const written = toMove('soundings', before, seq);
      if (written.length === 0) {
        assert.equal(typedSeq(before.place.by), Number(seq));
        return;
      }
      if (written.every((cells) => cells['amend_kind'] === 'withdraw')) back++;
      const after = readingOf(
        'soundings',
        [...rows, ...written.map((cells, i) => ({ row_id: `n${i}`, cells }))],
        before.first.row_id,
      )!;
      assert.equal(typedSeq(after.place.by), Number(seq));
      assert.deepEqual(after.place.between, []);
      assert.deepEqual([after.now, after.state, after.history], [before.now, before.state, before.history]);
    }),
    { seed: SEED, numRuns: 1500 },
  );
  assert.ok(back > 50, `${back} moved back`);
});

test('two people who move one reading differently have a conflict, who move it alike none', () => {
  const rows = typedRows([a, b, move('m', 'a', '5.5')]);
  const act = (by: string, seq: string): TypedRow[] =>
    toMove('soundings', readingOf('soundings', rows, 'a')!, seq).map((cells, i) => ({
      row_id: `${by}${i}`,
      cells,
    }));
  const place = (more: TypedRow[]) => readingOf('soundings', [...rows, ...more], 'a')!.place;
  assert.equal(place([...act('x', '7'), ...act('y', '8')]).between.length, 2);
  assert.deepEqual(place([...act('x', '7'), ...act('y', '7')]).between, []);
  // Back to where it was written, against one move on.
  assert.equal(place([...act('x', '4'), ...act('y', '8')]).between.length, 2);
});
