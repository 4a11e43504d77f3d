/** What the form of a joint offers, and what it doubts. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { crewAt } from '../fixtures/crew.ts';
import type { Draft } from './draft.ts';
import type { TextField } from './field.ts';
import { formFor } from './forms.ts';
import { labelDoubt, textDoubt } from './plausible.ts';
import { afterChoice, alongWith, assumedWith } from './ready.ts';

const stock = (stock_item: string, length: string, item = 'joint') => ({ stock_item, length, item });

function rigWith(rows: Record<string, string>[]) {
  const rig = crewAt('H1');
  for (const cells of rows) rig.store.addRow('pipe_stock', cells);
  const add = () => formFor('add', rig.now(), rig.store);
  const label = (): TextField => add().fields[0] as TextField;
  const offered = () => [label().initial ?? '', add().fields[1]!.initial ?? ''];
  return { ...rig, add, label, offered };
}

test('the next sound item is offered in the order of the stock, with its length, as assumed', () => {
  const rig = rigWith([
    stock('S1', '15 cm', 'shoe'),
    { ...stock('A1', '3.00 m'), condition: 'damaged' },
    stock('A2', '3.05 m'),
    stock('A3', '3.10 m'),
  ]);
  assert.deepEqual(rig.offered(), ['S1', '15 cm']);
  assert.deepEqual(
    rig.add().fields.map((f) => f.assumed ?? false),
    [true, true, false],
  );
  // recorded as it stands: the shoe
  rig.enter('add', {});
  assert.deepEqual(rig.offered(), ['A2', '3.05 m']);
  rig.enter('add', {});
  assert.deepEqual(rig.offered(), ['A3', '3.10 m']);
  assert.equal(rig.store.rows('string_items').at(-1)!.cells['length'], '3.05 m');
  assert.deepEqual(
    rig.label().ready!.map((r) => r.word),
    ['A3  3.10 m'],
  );
  const doubt = (typed: string) => textDoubt(rig.label(), typed, { item: 'joint' })?.words ?? null;
  assert.equal(doubt('a1'), 'Joint A1 is damaged. Use another, or inspect it first.');
  assert.equal(doubt('A3'), null);
  assert.match(labelDoubt(' a2', 'joint', rig.now())!.words, /both would be counted/);
});

test('with nothing at hand the next of the series is offered, without a length; a label that is taken is passed over', () => {
  const rig = rigWith([{ ...stock('A09', '3 m'), condition: 'lost' }]);
  assert.deepEqual(rig.offered(), ['', '']);
  rig.enter('add', { joint: 'S1', item: 'shoe', length: '15 cm' });
  assert.deepEqual(rig.offered(), ['', '']);
  rig.enter('add', { joint: 'A08', length: '3.00 m' });
  assert.deepEqual(rig.offered(), ['A10', '']);
  rig.enter('add', { joint: 'left end', length: '3.00 m' });
  assert.deepEqual(rig.offered(), ['', '']);
});

test('another label brings its own length or takes the offered one away; a typed length stays', () => {
  const rig = rigWith([stock('S1', '15 cm', 'shoe'), stock('A1', '3.00 m'), stock('A2', '3.05 m')]);
  rig.enter('add', {});
  const form = rig.add();
  const draft: Draft = {
    values: Object.fromEntries(form.fields.map((f) => [f.column, f.initial ?? ''])),
    units: {},
    untouched: new Set(form.fields.flatMap((f) => (f.assumed === true ? [f.column] : []))),
    at: 'joint',
  };
  const field = form.fields[0]!;
  assert.equal(draft.values['length'], '3.00 m');
  assert.equal(alongWith(field, 'a2', draft)['length'], '3.05 m');
  assert.equal(alongWith(field, 'B7', draft)['length'], '');
  const typed = { ...draft, values: { ...draft.values, length: '2.98' }, untouched: new Set(['joint']) };
  assert.equal(alongWith(field, 'B7', typed)['length'], '2.98');
  // another kind of item: what was only offered goes, what was typed stays
  const other = afterChoice(form, draft, 'item', 'coupling');
  assert.deepEqual([other.values['joint'], other.values['length']], ['', '']);
  assert.deepEqual(
    afterChoice(form, { ...typed, untouched: new Set() }, 'item', 'coupling').values,
    typed.values,
  );
  assert.equal(afterChoice(form, draft, 'item', 'joint'), draft);
  // pressed instead: its length is assumed again
  assert.deepEqual([...assumedWith(form, typed, { length: '3.05 m', item: 'joint' })], ['joint', 'length']);
});

test('damaged when pulled is not offered again; a shortened one last, without its old length', () => {
  const rig = rigWith([stock('S1', '15 cm', 'shoe'), stock('A1', '3.00 m'), stock('A2', '3.05 m')]);
  for (let i = 0; i < 3; i++) rig.enter('add', {});
  rig.enter('pull', { condition: 'damaged' });
  rig.enter('pull', { action: 'cut', length: '40 cm' });
  rig.enter('pull', {});
  assert.deepEqual(
    rig.label().ready!.map((r) => r.word),
    ['A1'],
  );
  rig.store.addRow('pipe_stock', stock('A3', '3.10 m'));
  assert.deepEqual(rig.offered(), ['A3', '3.10 m']);
});

test('a replacement hole keeps the reference where it is assumed, and not its elevation where it was levelled again', () => {
  const rig = crewAt('H1');
  rig.store.editRow('holes', 'h1', {
    reference_point: 'peg',
    reference_elevation_m: '2.31',
    reference_sigma_m: '0.02',
    latitude_deg: '1.5',
  });
  rig.enter('second_hole', { distance_to_replaced_m: '2' });
  rig.enter('second_hole', { hole: 'H1c', reference_basis: 'levelled' });
  const [, assumed, levelled] = rig.store.rows('holes').map(({ cells }) => cells);
  assert.deepEqual(
    [assumed, levelled].map((c) => [
      c!['reference_basis'],
      c!['reference_point'],
      c!['reference_elevation_m'] ?? '',
      c!['latitude_deg'] ?? '',
      c!['pipe'],
    ]),
    [
      ['assumed', 'peg', '2.31', '', '3 in'],
      ['levelled', 'peg', '', '', '3 in'],
    ],
  );
});

test('whether a replacement hole begins at the living ground is asked, not taken over from the hole it replaces', () => {
  const rig = crewAt('H1');
  rig.store.editRow('holes', 'h1', { top_is_ground: 'yes' });
  rig.enter('second_hole', {});
  rig.enter('second_hole', { hole: 'H1c', top_is_ground: 'no' });
  const [, unsaid, said] = rig.store.rows('holes').map(({ cells }) => cells['top_is_ground']);
  assert.deepEqual([unsaid, said], [undefined, 'no']);
});
