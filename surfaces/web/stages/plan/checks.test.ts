import assert from 'node:assert/strict';
import { test } from 'node:test';
import { answersOf, withoutSignature } from './checks.ts';

const DAY = '2024-03-05';
const row = (row_id: string, cells: Record<string, string>) => ({
  row_id,
  line: 2,
  cells: { date: DAY, ...cells },
});

test('the answer that stands: amended, withdrawn, of this day, of no hole', () => {
  const rows = [
    row('a', { item: 'permits', answer: 'no', by: 'DK', time: '2024-03-05T08:10:00+08:00' }),
    row('b', {
      item: 'permits',
      answer: 'yes',
      by: 'DK',
      time: '2024-03-05T08:20:00+08:00',
      amends: 'a',
      amend_kind: 'replace',
    }),
    row('c', { item: 'services', answer: 'yes' }),
    row('d', { amends: 'c', amend_kind: 'withdraw' }),
    row('e', { item: 'mast', answer: 'not_needed' }),
    row('f', { item: 'joints', answer: 'yes', hole: 'H1' }),
    row('g', { item: 'alone', answer: 'yes', date: '2024-03-06' }),
  ];
  assert.deepEqual(
    [...answersOf(rows, DAY, '')],
    [
      ['permits', { answer: 'yes', by: 'DK 08:20', row_id: 'b' }],
      ['mast', { answer: 'not_needed', by: 'crew', row_id: 'e' }],
    ],
  );
});

test('signatures of an older note still count, until a reading says otherwise, and can be taken back', () => {
  const note = 'gale in the afternoon; signed: services located (DK 08:10), leave by known (hand 08:12)';
  const answers = answersOf([row('a', { item: 'leave by known', answer: 'no', by: 'DK' })], DAY, note);
  assert.deepEqual(answers.get('services located'), { answer: 'yes', by: 'DK 08:10', row_id: null });
  assert.equal(answers.get('leave by known')!.answer, 'no');
  assert.equal(
    withoutSignature(note, 'services located'),
    'gale in the afternoon; signed: leave by known (hand 08:12)',
  );
  assert.equal(withoutSignature('signed: a (b)', 'a'), '');
  assert.equal(answersOf([], DAY, 'nothing was signed here').size, 0);
});
