/** Stock, condition, labels as they are typed, thread loss, and pipe reconciled by hole, day and campaign. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import { gearInventory, gearProblems, gearWords, samplerInventory, samplerWords } from './gear-inventory.ts';
import { pipeInventory, whereWords } from './pipe-inventory.ts';
import { pipeProblems } from './pipe-problems.ts';
import { itemsWords } from './pipe-tally.ts';
import { reconcileCampaign, reconcileHole } from './reconcile.ts';
import { pipeDays, reconcileDay } from './reconcile-day.ts';
import { holeState } from './state.ts';

type Cells = Record<string, string>;

/** "H1 A1 add 3.00 m", "H1 A1 pull damaged": hole, label, action, then a length or a condition. */
function campaignOf(
  tables: Partial<Record<TableName, Cells[]>>,
  entered: readonly string[] = [],
  day = (_: number) => '2024-03-05',
) {
  const seq = new Map<string, number>();
  const string_items = entered.map((line, i): Cells => {
    const [hole = '', label = '', action = '', ...rest] = line.split('|');
    seq.set(hole, (seq.get(hole) ?? 0) + 1);
    const said = rest[0] ?? '';
    const on = day(i);
    return {
      row_id: `j${i}`,
      hole,
      action,
      item: label.trim().toUpperCase().startsWith('S') ? 'shoe' : 'joint',
      joint: label,
      length: /^\d/.test(said) ? said : '',
      condition: /^[a-z]/.test(said) ? said : '',
      seq: String(seq.get(hole)),
      time: on === '' ? '' : `${on}T08:${String(i).padStart(2, '0')}:00+08:00`,
    };
  });
  let document = newDocument('stock');
  const rows = {
    holes: [
      { hole: 'H1', method: 'string', state: 'open', pipe: 'P', row_id: 'h1' },
      { hole: 'H2', method: 'string', state: 'open', pipe: 'P', row_id: 'h2' },
    ],
    pipes: [{ pipe: 'P', makeup_loss: '3 cm', row_id: 'p' }],
    ...tables,
    string_items,
  };
  for (const [name, list] of Object.entries(rows))
    if (list.length > 0) document = withRows(document, name as TableName, list);
  return parseCampaign(document).campaign;
}

const stock = (label: string, more: Cells = {}): Cells => ({
  stock_item: label,
  item: 'joint',
  length: '3.00 m',
  row_id: `s-${label}-${more['item'] ?? ''}`,
  ...more,
});
const where = (campaign: Parameters<typeof pipeInventory>[0]) =>
  pipeInventory(campaign).map((i) => `${i.label} ${whereWords(i)}${i.isAtHand ? ', at hand' : ''}`);
const codes = (campaign: Parameters<typeof pipeProblems>[0]) =>
  pipeProblems(campaign).map((p) => `${p.code} ${p.label}: ${p.found}`);

test('stock without readings is in stock; with readings each item is where it went; readings without stock still count', () => {
  const list = { pipe_stock: [stock('A1'), stock('A2'), stock('A3', { condition: 'damaged' })] };
  assert.deepEqual(where(campaignOf(list)), ['A1 in stock, at hand', 'A2 in stock, at hand', 'A3 damaged']);
  const used = campaignOf(list, ['H1|A2|add|3.00 m', 'H1|B1|add|1.52 m', 'H1|B1|pull']);
  assert.deepEqual(where(used), [
    'A1 in stock, at hand',
    'A2 in the string of H1',
    'A3 damaged',
    'B1 pulled from H1, at hand',
  ]);
  assert.deepEqual(codes(used), []);
});

test('a1, " a1 " and A1 are one item; a joint and a shoe of one label are two', () => {
  const campaign = campaignOf({ pipe_stock: [stock('A1'), stock('A1', { item: 'shoe', length: '15 cm' })] }, [
    'H1| a1 |add|3.00 m',
    'H1|A1|pull',
  ]);
  assert.deepEqual(where(campaign), ['A1 pulled from H1, at hand', 'A1 in stock, at hand']);
  assert.equal(holeState(campaign, 'H1')!.findings.filter((f) => f.code === 'item-not-in-string').length, 0);
  // two rows of the stock that only capitals distinguish
  const twice = campaignOf({ pipe_stock: [stock('A1'), stock('a1 ')] });
  assert.deepEqual(codes(twice), ['stock-twice a1: “a1” and “A1”, one label']);
  assert.equal(pipeInventory(twice).length, 1);
  // both spellings in one string: both are counted, and the second is named
  const both = campaignOf({}, ['H1|A1|add|3.00 m', 'H1|a1|add|3.00 m']);
  assert.deepEqual(codes(both), ['pipe-elsewhere H1: joint a1, in the string of H1']);
});

test('damaged when pulled is not at hand, until a later word says sound; of words in no known order the worst counts', () => {
  const pulled = ['H1|A1|add|3.00 m', 'H1|A1|pull|damaged'];
  assert.deepEqual(where(campaignOf({}, pulled)), ['A1 damaged, last in H1']);
  const of = (cells: Cells, entered = pulled) =>
    where(campaignOf({ pipe_stock: [stock('A1', cells)] }, entered));
  assert.deepEqual(of({ condition: 'sound' }), ['A1 damaged, last in H1']);
  assert.deepEqual(of({ condition: 'sound', condition_at: '2024-03-04T12:00:00+08:00' }), [
    'A1 damaged, last in H1',
  ]);
  assert.deepEqual(of({ condition: 'sound', condition_at: '2024-03-06T12:00:00+08:00' }), [
    'A1 pulled from H1, at hand',
  ]);
  // used in another hole all the same: named there, and sound once it came out of it sound
  const again = [...pulled, 'H2|A1|add|3.00 m'];
  assert.deepEqual(codes(campaignOf({}, again)), [
    'pipe-damaged H2: joint A1, damaged when it came out of H1',
  ]);
  assert.deepEqual(where(campaignOf({}, [...again, 'H2|A1|pull'])), ['A1 damaged, last in H2']);
  assert.deepEqual(where(campaignOf({}, [...again, 'H2|A1|pull|sound'])), ['A1 pulled from H2, at hand']);
});

test('lost ashore is not at hand; what is in a string or lost in a hole is there, whatever the stock says', () => {
  const lost = { pipe_stock: [stock('A1', { condition: 'lost' })] };
  assert.deepEqual(where(campaignOf(lost)), ['A1 lost ashore']);
  assert.deepEqual(where(campaignOf(lost, ['H1|A1|add|3.00 m'])), ['A1 in the string of H1']);
  const sound = { pipe_stock: [stock('A1', { condition: 'sound', condition_at: '2024-04-01T00:00:00Z' })] };
  assert.deepEqual(where(campaignOf(sound, ['H1|A1|add|3.00 m', 'H1|A1|lost'])), ['A1 lost in H1']);
  // found again, before it went in
  const found = { pipe_stock: [stock('A1', { condition: 'lost', condition_at: '2024-03-01T00:00:00Z' })] };
  assert.deepEqual(where(campaignOf(found, ['H1|A1|add|3.00 m', 'H1|A1|pull'])), [
    'A1 pulled from H1, at hand',
  ]);
});

test('a length more than 1 cm off the stock is named; a cut joint measured again in the stock is whole', () => {
  const list = (length: string) => ({ pipe_stock: [stock('A1', { length })] });
  assert.deepEqual(codes(campaignOf(list('3.01 m'), ['H1|A1|add|3.00 m'])), []);
  assert.deepEqual(codes(campaignOf(list('3.02 m'), ['H1|A1|add|3.00 m'])), [
    'pipe-length-differs H1: joint A1 3.00 m, 3.02 m in the stock of pipe',
  ]);
  const cut = ['H1|A1|add|3.00 m', 'H1|A1|cut|0.40 m', 'H1|A1|pull'];
  const item = (length: string) => pipeInventory(campaignOf(list(length), cut))[0]!;
  assert.deepEqual([item('3.00 m').whereabouts, item('3.00 m').length_in], ['shortened', null]);
  assert.ok(Math.abs(item('3.00 m').length_m! - 2.6) < 1e-9);
  assert.deepEqual(
    [item('2.59 m').whereabouts, item('2.59 m').length_m, item('2.59 m').length_in],
    ['pulled', 2.59, 'pipe_stock'],
  );
  assert.deepEqual(codes(campaignOf(list('2.59 m'), cut)), []);
});

test('its own thread loss makes the string, and where the stock states none the pipe’s own does', () => {
  const entered = ['H1|S1|add|0.15 m', 'H1|A1|add|3.00 m', 'H1|A2|add|3.00 m'];
  const length = (loss: string) =>
    holeState(campaignOf({ pipe_stock: [stock('A2', { makeup_loss: loss })] }, entered), 'H1')!.fold
      .collar_to_shoe_m!;
  // 0.15 + 3.00 + 3.00 − 0.03 − 0.03
  assert.equal(length(''), holeState(campaignOf({}, entered), 'H1')!.fold.collar_to_shoe_m);
  assert.ok(Math.abs(length('') - 6.09) < 1e-9);
  // the thread of A2 loses 5 cm, that of A1 still 3 cm
  assert.ok(Math.abs(length('5 cm') - 6.07) < 1e-9);
  // the lowest item makes no thread
  const lowest = campaignOf({ pipe_stock: [stock('A1', { makeup_loss: '5 cm' })] }, entered.slice(1));
  assert.ok(Math.abs(holeState(lowest, 'H1')!.fold.collar_to_shoe_m! - 5.97) < 1e-9);
});

test('stock_item names the item where another label is painted on it; one that is not in the stock is named', () => {
  const campaign = campaignOf({ pipe_stock: [stock('A1')] }, ['H1|X|add|3.00 m']);
  const rows = campaign.rows.string_items.map((row) => ({ ...row, stock_item: 'a1' }));
  const named = { ...campaign, rows: { ...campaign.rows, string_items: rows } };
  assert.deepEqual(where(named), ['A1 in the string of H1']);
  const unknown = rows.map((row) => ({ ...row, stock_item: 'A9' }));
  assert.deepEqual(codes({ ...campaign, rows: { ...campaign.rows, string_items: unknown } }), [
    'stock-item-unknown H1: A9',
  ]);
});

const ENTERED = [
  'H1|S1|add|0.15 m',
  'H1|A1|add|3.00 m',
  'H1|A2|add|3.00 m',
  'H1|A3|add|3.00 m',
  'H1|A4|add|3.00 m',
  'H1|A4|pull|damaged',
  'H1|A3|pull',
  'H1|A2|left',
  'H2|S2|add|0.15 m',
  'H2|B1|add|3.00 m',
  'H2|B2|add|3.00 m',
  'H2|B2|pull',
];
const words = (tally: object) =>
  Object.fromEntries(
    Object.entries(tally).flatMap(([name, list]) =>
      Array.isArray(list) && list.length > 0 && 'item' in list[0] ? [[name, itemsWords(list)]] : [],
    ),
  );

test('a hole: every item in one list; at its end what is still in the string is not accounted for', () => {
  const campaign = campaignOf({}, ENTERED);
  assert.deepEqual(words(reconcileHole(holeState(campaign, 'H1')!)), {
    into: 'shoe S1; joints A1, A2, A3, A4',
    back: 'joint A3',
    damaged: 'joint A4',
    // what is left takes along what hangs below it
    left: 'shoe S1; joints A1, A2',
  });
  const second = holeState(campaign, 'H2')!;
  assert.deepEqual(words(reconcileHole(second)), {
    into: 'shoe S2; joints B1, B2',
    back: 'joint B2',
    inString: 'shoe S2; joint B1',
  });
  assert.deepEqual(words(reconcileHole(second, true))['unaccounted'], 'shoe S2; joint B1');
});

test('a day: in, out, still in which hole; a reading without a time is of the day its neighbours share; an ended hole owes what is missing', () => {
  const days = (i: number) => (i < 4 ? '2024-03-05' : i === 6 ? '' : i < 8 ? '2024-03-06' : '2024-03-07');
  const campaign = campaignOf({}, ENTERED, days);
  assert.deepEqual(pipeDays(campaign), ['2024-03-05', '2024-03-06', '2024-03-07']);
  assert.deepEqual(words(reconcileDay(campaign, '2024-03-05')), {
    wentIn: 'shoe S1; joints A1, A2, A3',
    inString: 'shoe S1; joints A1, A2, A3',
  });
  assert.deepEqual(words(reconcileDay(campaign, '2024-03-06')), {
    wentIn: 'joint A4',
    back: 'joint A3',
    damaged: 'joint A4',
    left: 'shoe S1; joints A1, A2',
  });
  const third = reconcileDay(campaign, '2024-03-07');
  assert.deepEqual(words(third), {
    wentIn: 'shoe S2; joints B1, B2',
    back: 'joint B2',
    inString: 'shoe S2; joint B1',
  });
  assert.deepEqual([...new Set(third.inString.map(({ hole }) => hole))], ['H2']);
  assert.deepEqual(words(reconcileDay(campaign, '2024-03-09')), { inString: 'shoe S2; joint B1' });
  const holes = [
    { hole: 'H1', method: 'string', state: 'finished', row_id: 'h1' },
    { hole: 'H2', method: 'string', state: 'finished', row_id: 'h2' },
  ];
  const ended = campaignOf({ holes }, ENTERED, days);
  assert.equal(words(reconcileDay(ended, '2024-03-07'))['unaccounted'], 'shoe S2; joint B1');
  // without any date nobody knows the day
  const undated = campaignOf({}, ['H1|A1|add|3.00 m'], () => '');
  assert.deepEqual(words(reconcileDay(undated, '2024-03-07')), { undated: 'joint A1' });
  assert.deepEqual(pipeDays(undated), []);
});

test('a pull between two days is put on neither; what may still be in the ground is in the string until it is surely out', () => {
  const entered = ['H1|A1|add|3.00 m', 'H1|A2|add|3.00 m', 'H1|A2|pull', 'H1|A2|add|3.00 m'];
  const days = ['2024-03-05', '2024-03-05', '', '2024-03-07'];
  const campaign = campaignOf({}, entered, (i) => days[i]!);
  // pulled on the 5th, the 6th or the 7th
  assert.deepEqual(words(reconcileDay(campaign, '2024-03-05')), {
    wentIn: 'joints A1, A2',
    inString: 'joints A1, A2',
    undated: 'joint A2',
  });
  assert.deepEqual(words(reconcileDay(campaign, '2024-03-06')), {
    inString: 'joints A1, A2',
    undated: 'joint A2',
  });
  assert.deepEqual(words(reconcileDay(campaign, '2024-03-07')), {
    wentIn: 'joint A2',
    inString: 'joints A1, A2',
    undated: 'joint A2',
  });
  assert.deepEqual(words(reconcileDay(campaign, '2024-03-08')), { inString: 'joints A1, A2' });
  assert.deepEqual(pipeDays(campaign), ['2024-03-05', '2024-03-07']);
});

test('at the end of the log a joint without a time is in the string, on a day that nobody knows', () => {
  const entered = ['H1|A1|add|3.00 m', 'H1|A2|add|3.00 m'];
  const campaign = campaignOf({}, entered, (i) => (i === 0 ? '2024-03-05' : ''));
  assert.deepEqual(words(reconcileDay(campaign, '2024-03-04')), {});
  for (const date of ['2024-03-05', '2024-03-06'])
    assert.equal(words(reconcileDay(campaign, date))['inString'], 'joints A1, A2', date);
  assert.equal(words(reconcileDay(campaign, '2024-03-06'))['undated'], 'joint A2');
  // and at its beginning: in by the first day that is known, and on no day before it
  const begun = campaignOf({}, entered, (i) => (i === 1 ? '2024-03-05' : ''));
  assert.deepEqual(words(reconcileDay(begun, '2024-03-04')), { undated: 'joint A1' });
  assert.deepEqual(words(reconcileDay(begun, '2024-03-05')), {
    wentIn: 'joint A2',
    inString: 'joints A1, A2',
    undated: 'joint A1',
  });
});

test('an item entered damaged, and pulled without another word, is not back whole', () => {
  const campaign = campaignOf({}, ['H1|A1|add|damaged', 'H1|A1|pull']);
  assert.deepEqual(words(reconcileHole(holeState(campaign, 'H1')!))['damaged'], 'joint A1');
  assert.deepEqual(where(campaign), ['A1 damaged, last in H1']);
  const sound = campaignOf({}, ['H1|A1|add|damaged', 'H1|A1|pull|sound']);
  assert.deepEqual(words(reconcileHole(holeState(sound, 'H1')!))['back'], 'joint A1');
  // what was said when it came out is later than what was said when it went in, also without a clock
  const unclocked = campaignOf({}, ['H1|A1|add|damaged', 'H1|A1|pull|sound'], () => '');
  assert.deepEqual(where(unclocked), ['A1 pulled from H1, at hand']);
});

test('a joint that came back cut is not back whole; of a hole that has ended the rest is not accounted for', () => {
  const cut = ['H1|A1|add|3.00 m', 'H1|A2|add|3.00 m', 'H1|A2|cut|0.40 m', 'H1|A2|pull'];
  const holes = [{ hole: 'H1', method: 'string', state: 'finished', row_id: 'h1' }];
  assert.deepEqual(words(reconcileHole(holeState(campaignOf({ holes }, cut), 'H1')!)), {
    into: 'joints A1, A2',
    cut: 'joint A2',
    unaccounted: 'joint A1',
  });
});

test('one hole is told by its order, whatever the clock says; two holes of one minute by what is graver', () => {
  // the clock was set back between the pull and the second trip
  const times = ['2024-03-06', '2024-03-06', '2024-03-05'];
  const again = campaignOf({}, ['H1|A1|add|3.00 m', 'H1|A1|pull', 'H1|A1|add|3.00 m'], (i) => times[i]!);
  assert.deepEqual(where(again), ['A1 in the string of H1']);
  const entered = ['H1|A1|add|3.00 m', 'H1|A1|pull', 'H2|A1|add|3.00 m', 'H2|A1|lost'];
  const minute = campaignOf({}, entered);
  const string_items = minute.rows.string_items.map((r) => ({ ...r, time: '2024-03-05T08:00:00+08:00' }));
  assert.deepEqual(where({ ...minute, rows: { ...minute.rows, string_items } }), ['A1 lost in H2']);
});

test('lost ashore after it came out of a hole is in no hole', () => {
  const lost = { pipe_stock: [stock('A1', { condition: 'lost', condition_at: '2024-04-01T00:00:00Z' })] };
  assert.deepEqual(where(campaignOf(lost, ['H1|A1|add|3.00 m', 'H1|A1|pull'])), ['A1 lost ashore']);
});

test('damaged, nobody knows when, and in a string: named; cut up, it leaves its label to the rest', () => {
  const damaged = ['H1|A1|add|3.00 m', 'H1|A1|pull|damaged', 'H2|A1|add|3.00 m'];
  assert.deepEqual(codes(campaignOf({}, damaged, () => '')), [
    'pipe-damaged H2: joint A1, damaged when it came out of H1',
  ]);
  // out of that hole again it may have been damaged there
  assert.deepEqual(codes(campaignOf({}, [...damaged, 'H2|A1|pull'], () => '')), []);
  assert.deepEqual(codes(campaignOf({}, ['H1|A1|add|3.00 m', 'H1|A1|cut', 'H2|A1|add|1.50 m'])), []);
});

test('a cut joint cannot be longer in the stock than it was', () => {
  const cut = ['H1|A1|add|3.00 m', 'H1|A1|cut|0.40 m', 'H1|A1|pull'];
  assert.deepEqual(codes(campaignOf({ pipe_stock: [stock('A1', { length: '3.20 m' })] }, cut)), [
    'pipe-length-differs H1: joint A1 3.00 m, 3.20 m in the stock of pipe',
  ]);
});

test('the campaign: totals by kind and place add up to every item', () => {
  const { items, totals } = reconcileCampaign(campaignOf({ pipe_stock: [stock('A9')] }, ENTERED));
  assert.equal(
    totals.reduce((sum, t) => sum + t.items, 0),
    items.length,
  );
  assert.deepEqual(
    totals.filter((t) => t.item === 'joint').map((t) => [t.whereabouts, t.items, t.length_m]),
    [
      ['in stock', 1, 3],
      ['pulled', 2, 6],
      ['in string', 1, 3],
      ['damaged', 1, 3],
      ['left', 2, 6],
    ],
  );
});

test('a lost sampler is lost until a later run has it; gear stays where it was left', () => {
  const run = (hole: string, label: string, seq: number, more: Cells): Cells => ({
    hole,
    run: label,
    seq: String(seq),
    row_id: `${hole}${label}`,
    time: `2024-03-0${seq}T08:00:00Z`,
    ...more,
  });
  const tables = (runs: Cells[], samplers = ['V1', 'V2']) => ({
    samplers: samplers.map((sampler) => ({ sampler, row_id: sampler })),
    runs,
    gear: [
      { gear: 'rope 20 m', kind: 'rope', marks: 'red every metre', left_in: 'H1', row_id: 'g1' },
      { gear: 'tape', kind: 'tape', condition: 'damaged', row_id: 'g2' },
      { gear: 'clamp', kind: 'tool', condition: 'lost', left_in: 'H2', row_id: 'g3' },
    ],
  });
  const lost = run('H1', 'R1', 1, { sampler: 'V1', outcome: 'sampler_lost' });
  const said = (campaign: Parameters<typeof samplerInventory>[0]) =>
    samplerInventory(campaign).map((s) => `${s.sampler} ${samplerWords(s)}`);
  const campaign = campaignOf(tables([lost]));
  assert.deepEqual(said(campaign), ['V1 lost in H1, run R1', 'V2 at hand']);
  assert.deepEqual(
    gearInventory(campaign).map((g) => `${g.gear} ${gearWords(g)}`),
    ['rope 20 m left in H1', 'tape damaged', 'clamp lost in H2'],
  );
  const tally = reconcileHole(holeState(campaign, 'H1')!);
  assert.deepEqual([tally.samplers[0]!.sampler, tally.gear[0]!.gear], ['V1', 'rope 20 m']);
  // of another hole there is none
  assert.deepEqual(reconcileHole(holeState(campaign, 'H2')!).samplers, []);
  const back = run('H2', 'R1', 2, { sampler: 'V1', outcome: 'full' });
  assert.deepEqual(said(campaignOf(tables([lost, back]))), ['V1 at hand', 'V2 at hand']);
  // stuck is in that hole too; lost is the graver where no clock shows which came last
  const stuck = { ...lost, outcome: 'stuck' };
  assert.deepEqual(said(campaignOf(tables([stuck]))), ['V1 stuck in H1, run R1', 'V2 at hand']);
  const elsewhere = run('H2', 'R1', 2, { sampler: 'V1', outcome: 'stuck', time: '' });
  assert.deepEqual(said(campaignOf(tables([lost, elsewhere]))), ['V1 lost in H1, run R1', 'V2 at hand']);
  assert.deepEqual(said(campaignOf(tables([elsewhere, lost]))), ['V1 lost in H1, run R1', 'V2 at hand']);
  // not named: with one sampler it is that one, with two nobody knows
  const unnamed = run('H1', 'R1', 1, { outcome: 'sampler_lost' });
  assert.deepEqual(said(campaignOf(tables([unnamed], ['V1']))), ['V1 lost in H1, run R1']);
  const either = campaignOf(tables([unnamed]));
  assert.deepEqual(said(either), ['V1 at hand', 'V2 at hand']);
  assert.deepEqual(
    gearProblems(either).map((p) => p.found),
    ['a sampler lost, one of V1, V2'],
  );
});
