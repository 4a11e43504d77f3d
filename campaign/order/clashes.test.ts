/** Two devices wrote into one hole: what their order changes, worked by hand, and what settles it on both. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type CampaignDocument, newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { readHole, rowsOfDocument } from '@stillstand/campaign/holes';
import type { TableName } from '@stillstand/campaign/tables';
import { clashesIn, type OrderClash } from './index.ts';

type Cells = Record<string, string>;
const NONE: ReadonlySet<string> = new Set();

/** One joint of 3.00 m, ground 0.20 m below the reference, driven until 0.50 m stick up. */
const BEGUN: Partial<Record<TableName, Cells[]>> = {
  holes: [{ row_id: 'h', hole: 'H1', method: 'string' }],
  ground_levels: [{ row_id: 'g', hole: 'H1', seq: '1', ground_below_reference: '0.20 m' }],
  string_items: [
    { row_id: 'j', hole: 'H1', seq: '2', action: 'add', item: 'joint', joint: 'A1', length: '3.00 m' },
  ],
  drives: [{ row_id: 'd', hole: 'H1', seq: '3', stick_up_start: '2.80 m', stick_up_end: '0.50 m' }],
};

function documentWith(more: Partial<Record<TableName, Cells[]>>): CampaignDocument {
  let document = newDocument('x');
  for (const table of new Set([...Object.keys(BEGUN), ...Object.keys(more)]) as Set<TableName>) {
    document = withRows(document, table, [...(BEGUN[table] ?? []), ...(more[table] ?? [])]);
  }
  return document;
}

const at = (clock: string): string => `2024-03-05T${clock}:00+02:00`;

/** The document with the moves of a choice written into it. */
function settled(document: CampaignDocument, clash: OrderClash, key: string): CampaignDocument {
  const { moves } = clash.choices.find((choice) => choice.key === key)!;
  return moves.reduce((now, { table, row_id, seq }, i) => {
    const { columns, rows } = now.tables.get(table)!;
    const cells = rows.map((row) => Object.fromEntries(columns.map((c, k) => [c, row.cells[k] ?? ''])));
    const move = { row_id: `m${key}${i}`, hole: 'H1', seq: String(seq), amends: row_id, amend_kind: 'move' };
    return withRows(now, table, [...cells, move]);
  }, document);
}

const run = (row_id: string, cells: Cells): Cells => ({
  row_id,
  hole: 'H1',
  run: 'R1',
  start_mark: '1.50 m',
  end_mark: '2.10 m',
  outcome: 'good',
  by: 'AB',
  ...cells,
});

test('a run and a drive at one place: the depth of the run is 1.40 or 1.70 m', () => {
  const document = documentWith({
    drives: [
      {
        row_id: 'd2',
        hole: 'H1',
        seq: '4',
        stick_up_start: '0.50 m',
        stick_up_end: '0.20 m',
        time: at('10:20'),
      },
    ],
    runs: [run('r', { seq: '4', time: at('10:05') })],
  });
  const [clash, ...others] = clashesIn(document, new Set(['d2']), new Set(['r']));
  assert.deepEqual(others, []);
  assert.deepEqual(clash?.series, { kind: 'hole', name: 'H1' });
  assert.deepEqual(
    clash!.readings.map(({ table, row_id, side, seq }) => [table, row_id, side, seq]),
    [
      ['drives', 'd2', 'ours', 4],
      ['runs', 'r', 'theirs', 4],
    ],
  );
  assert.match(clash!.readings[1]!.words, /run R1.*2\.10 m.*, by AB$/);
  // Tip 2.10 m below the collar − stick-up 0.50 − ground 0.20 = 1.40 m; after the drive 2.10 − 0.20 − 0.20 = 1.70 m.
  assert.equal(clash!.differs[0], 'depth of run R1 1.40 or 1.70 m');
  assert.deepEqual(
    clash!.choices.map(({ key, order }) => [key, ...order]),
    [
      ['clock', 'r', 'd2'],
      ['ours', 'd2', 'r'],
      ['theirs', 'r', 'd2'],
    ],
  );
  // Each choice lasts, and gives what was said.
  for (const [key, depth_m] of [
    ['clock', 1.4],
    ['ours', 1.7],
    ['theirs', 1.4],
  ] as const) {
    const after = settled(document, clash!, key);
    assert.deepEqual(clashesIn(after, NONE, NONE), []);
    assert.deepEqual(
      parseCampaign(after).problems.filter(({ code }) => code === 'seq-twice'),
      [],
    );
    const { fold } = readHole(rowsOfDocument(after), 'H1')!;
    assert.ok(Math.abs(fold.runs[0]!.tip_depth_m! - depth_m) < 1e-9, key);
  }
});

test('a water level and a note at one place, or two water levels: the order of the first does not matter', () => {
  const water = { hole: 'H1', seq: '4', to_water_inside: '0.60 m', water_outside: '0.90 m' };
  const note = { row_id: 'n', hole: 'H1', seq: '4', kind: 'note', text: 'shells in the wash' };
  const document = documentWith({ soundings: [{ row_id: 'w', ...water }], events: [note] });
  const [clash] = clashesIn(document, new Set(['w']), new Set(['n']));
  assert.deepEqual(clash?.differs, []);
  assert.equal(clash?.choices[0]?.moves.length, 1);
  // Head: outside 0.90 m below the reference − inside (0.60 − stick-up 0.50) = 0.80 m; the other 0.90 − (0.75 − 0.50).
  const two = documentWith({
    soundings: [
      { row_id: 'w', ...water },
      { row_id: 'v', ...water, to_water_inside: '0.75 m' },
    ],
  });
  const [levels] = clashesIn(two, NONE, NONE);
  assert.ok(levels?.differs.includes('head of water 0.80 or 0.65 m'), levels?.differs.join('; '));
  assert.deepEqual(
    levels!.choices.map(({ key, order }) => [key, ...order]),
    [
      ['clock', 'v', 'w'],
      ['ours', 'v', 'w'],
      ['theirs', 'w', 'v'],
    ],
  );
});

/** A strand of soundings that two devices wrote from `seq` on. */
const strand = (name: string, from: number, clocks: (string | null)[]): Cells[] =>
  clocks.map((clock, i) => ({
    row_id: `${name}${i}`,
    hole: 'H1',
    seq: String(from + i),
    to_sediment: `${(1 + i / 10).toFixed(2)} m`,
    ...(clock === null ? {} : { time: at(clock) }),
  }));
const ids = (rows: readonly Cells[]): Set<string> => new Set(rows.map(({ row_id }) => row_id!));
const ordersOf = ({ choices }: OrderClash) =>
  Object.fromEntries(choices.map(({ key, order }) => [key, order.join(' ')]));

test('two strands from one place: by the clock each keeps its own order, ours first, theirs first', () => {
  const a = strand('a', 4, ['10:00', '10:20', null, '10:15']);
  const b = strand('b', 4, ['10:10', '10:30']);
  const [clash, ...others] = clashesIn(documentWith({ soundings: [...a, ...b] }), ids(a), ids(b));
  assert.deepEqual(others, []);
  assert.deepEqual(ordersOf(clash!), {
    // The clock of a fell back by five minutes: what it wrote later came later all the same.
    clock: 'a0 b0 a1 a2 a3 b1',
    ours: 'a0 a1 a2 a3 b0 b1',
    theirs: 'b0 b1 a0 a1 a2 a3',
  });
  // The other device finds the same, with the sides changed, and by the clock writes the very same moves.
  const [mirror] = clashesIn(documentWith({ soundings: [...b, ...a] }), ids(b), ids(a));
  assert.deepEqual(mirror!.choices[0], clash!.choices[0]);
  assert.deepEqual(ordersOf(mirror!)['ours'], ordersOf(clash!)['theirs']);
  assert.deepEqual(
    clash!.choices[1]!.moves.map(({ row_id, seq }) => `${row_id} ${seq}`),
    ['b0 8', 'b1 9'],
  );
});

test('strands that follow each other, or that a common reading parts, do not clash', () => {
  const a = strand('a', 4, ['10:00', '10:20']);
  const b = strand('b', 6, ['10:10', '10:30']);
  assert.deepEqual(clashesIn(documentWith({ soundings: [...a, ...b] }), ids(a), ids(b)), []);
  const common = { row_id: 'c', hole: 'H1', seq: '4.5', to_sediment: '1.00 m' };
  const early = { ...b[0]!, seq: '4.7' };
  const parted = documentWith({ soundings: [a[0]!, common, early] });
  assert.deepEqual(clashesIn(parted, ids(a), new Set(['b0'])), []);
  // Without it they lie across each other.
  const across = documentWith({ soundings: [...a, early] });
  assert.equal(clashesIn(across, ids(a), new Set(['b0'])).length, 1);
});

test('a reading of both and one of ours at one place; three of both', () => {
  const three = strand('a', 4, ['10:20', '10:10', '10:00']).map((cells) => ({ ...cells, seq: '4' }));
  const document = documentWith({ soundings: three });
  const [mixed] = clashesIn(document, new Set(['a1']), NONE);
  assert.deepEqual(ordersOf(mixed!), { clock: 'a2 a1 a0', ours: 'a1 a2 a0', theirs: 'a2 a0 a1' });
  const [both] = clashesIn(document, NONE, NONE);
  assert.deepEqual(ordersOf(both!), { clock: 'a2 a1 a0', ours: 'a2 a1 a0', theirs: 'a0 a1 a2' });
});

test('a level loop: two sights at one place change a height', () => {
  const sight = (row_id: string, seq: string, point: string, cells: Cells): Cells => ({
    row_id,
    loop: 'L1',
    seq,
    point,
    ...cells,
  });
  const document = documentWith({
    level_loops: [{ row_id: 'l', loop: 'L1' }],
    levelling: [
      sight('s1', '1', 'BM', { backsight_m: '1.500' }),
      sight('s2', '2', 'P', { foresight_m: '1.000', backsight_m: '1.200' }),
      sight('s3', '2', 'Q', { intermediate_m: '1.100' }),
    ],
  });
  const [clash] = clashesIn(document, NONE, NONE);
  assert.deepEqual(clash?.series, { kind: 'loop', name: 'L1' });
  // From the first set-up Q is 1.500 − 1.100 = 0.400 m above BM; from the second 0.500 + 1.200 − 1.100 = 0.600 m.
  assert.ok(clash.differs.includes('Q above BM 0.60 or 0.40 m'), clash.differs.join('; '));
});

test('two answers to one check at one place: which of them holds', () => {
  const check = (row_id: string, answer: string, time: string): Cells => ({
    row_id,
    date: '2024-03-05',
    seq: '1',
    question: 'Permits at hand',
    check: 'permits',
    answer,
    time: at(time),
  });
  const document = documentWith({ checks: [check('y', 'yes', '08:00'), check('n', 'no', '08:05')] });
  const [clash] = clashesIn(document, new Set(['y']), new Set(['n']));
  assert.deepEqual(clash?.differs, ['answer to 2024-03-05 permits Permits at hand no or yes']);
});

test('ten thousand readings without a clash are looked through at once', () => {
  const soundings = Array.from({ length: 10_000 }, (_, i) => ({
    row_id: `s${i}`,
    hole: 'H1',
    seq: String(4 + i),
    time: at('10:00'),
    by: 'AB',
    to_sediment: '1.00 m',
  }));
  const document = documentWith({ soundings });
  const ours = ids(soundings.slice(5000));
  clashesIn(document, ours, NONE);
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 3; i++) {
    const before = performance.now();
    assert.deepEqual(clashesIn(document, ours, NONE), []);
    best = Math.min(best, performance.now() - before);
  }
  assert.ok(best < 300, `${best} ms`);
});
