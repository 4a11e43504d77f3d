/** The check before the first joint: an answer a row, another answer amends it, and what was not asked is not written. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { amendForm, amendment } from './amend.ts';
import { bookOf } from './book.ts';
import { crewAt } from './fixtures/crew.ts';
import { formFor } from './forms.ts';
import { answered, unansweredWords } from './place-check.ts';
import { record, recordChecks } from './record.ts';

test('answered, answered otherwise, mended in the book', () => {
  const { store, now } = crewAt('H1');
  recordChecks(store, 'H1', {
    'Services located': 'yes',
    'Reference levelled': 'no',
    'Joints measured and numbered': '',
  });
  assert.deepEqual(
    store.rows('checks').map(({ cells }) => [cells['item'], cells['answer'], cells['seq']]),
    [
      ['Services located', 'yes', '1'],
      ['Reference levelled', 'no', '2'],
    ],
  );
  // the same again writes nothing; another answer stands for the first, and both stay
  recordChecks(store, 'H1', { 'Services located': 'yes', 'Reference levelled': 'yes' });
  const lines = () => bookOf(store, now()).filter((l) => l.table === 'checks');
  assert.deepEqual(
    lines().map((l) => [l.name, l.state, l.cells[0]?.was, l.cells[0]?.now]),
    [
      ['Check: services located', 'standing', [], 'yes'],
      ['Check: reference levelled', 'amended', ['no'], 'yes'],
    ],
  );
  const line = lines()[0]!;
  const form = amendForm(line, now(), store);
  const values = Object.fromEntries(form.fields.map((f) => [f.column, f.initial ?? '']));
  store.amend('checks', line.row_id, amendment(line, { ...values, answer: 'not_needed' })!);
  assert.deepEqual(lines()[0]?.cells[0]?.was, ['yes']);
  // a check of before the table stays readable where it was written
  store.addReading('ground', {
    hole: 'H1',
    ground_below_reference: '0.2 m',
    note: 'checked: services located; not confirmed: reference levelled',
  });
  assert.match(bookOf(store, now()).at(-1)?.note ?? '', /^checked: services located/);
});

test('what the check left open is said until it is answered, and answering reads no second ground', () => {
  const { store, now, step, next } = crewAt('H1');
  const words = () => unansweredWords(answered(store, 'H1'));
  assert.equal(words(), '4 of 4 not answered');
  recordChecks(store, 'H1', { 'Services located': 'yes', 'Reference levelled': 'no' });
  step('check', { ground_below_reference: '0.27 m' });
  // never a bar: the next action is the shoe
  assert.equal(next().name, 'add');
  assert.equal(words(), '2 of 4 not answered');
  const again = formFor('check', now(), store);
  assert.deepEqual(again.fields, []);
  recordChecks(store, 'H1', {
    ...answered(store, 'H1'),
    'Mast clear of overhead lines': 'not_needed',
    'Joints measured and numbered': 'yes',
  });
  assert.deepEqual(record(store, now(), again, {}, '2024-06-11T09:00:00+02:00'), []);
  assert.equal(words(), null);
  assert.equal(store.rows('ground').length, 1);
});
