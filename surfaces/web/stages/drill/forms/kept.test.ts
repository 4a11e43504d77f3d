/** What is kept of a half-filled form, and what of it comes back. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { DraftPlace, Drafts, KeptDraft } from '../../../store/index.ts';
import type { Draft } from './draft.ts';
import { type EntryForm, length, text } from './field.ts';
import { keeping } from './keeping.ts';
import { keptWords, typedIn, withKept } from './kept.ts';

const FORM: EntryForm = {
  name: 'drive',
  title: 'Drive the string',
  verb: 'Record the drive',
  caution: null,
  table: 'drives',
  fixed: { hole: 'H1' },
  fields: [
    length('stick_up_start', 'Stick-up before', '', { initial: '2.85 m', assumed: true }),
    length('stick_up_end', 'Stick-up after', ''),
    { ...text('note', 'Note', ''), initial: 'soft' },
  ],
};
const EMPTY: Draft = {
  values: { stick_up_start: '2.85 m', stick_up_end: '', note: 'soft' },
  units: { stick_up_start: 'm', stick_up_end: 'm' },
  untouched: new Set(['stick_up_start']),
  at: 'stick_up_end',
};
const typed = (draft: Draft, column: string, value: string): Draft => ({
  ...draft,
  values: { ...draft.values, [column]: value },
  units: { ...draft.units, [column]: 'ft' },
  untouched: new Set([...draft.untouched].filter((c) => c !== column)),
  at: column,
});

test('only what a hand has touched is kept; what the form offers is offered anew', () => {
  assert.equal(typedIn(FORM, EMPTY), null);
  assert.equal(typedIn(FORM, { ...EMPTY, at: 'note' }), null);
  assert.deepEqual(typedIn(FORM, typed(EMPTY, 'stick_up_end', '1 ft')), {
    values: { stick_up_end: '1 ft' },
    units: { stick_up_end: 'ft' },
    at: 'stick_up_end',
  });
  // what was emptied by hand stays empty
  const emptied = typedIn(FORM, typed(EMPTY, 'note', ''))!;
  const now = { ...EMPTY, values: { ...EMPTY.values, stick_up_start: '2.10 m' } };
  assert.deepEqual(withKept(FORM, now, emptied).values, {
    stick_up_start: '2.10 m',
    stick_up_end: '',
    note: '',
  });
});

test('a kept value is never assumed, even where it says the same; its unit and its field come back', () => {
  const kept = typedIn(FORM, typed(EMPTY, 'stick_up_start', '2.85 m'))!;
  const back = withKept(FORM, EMPTY, kept);
  assert.equal(back.untouched.size, 0);
  assert.equal(back.units['stick_up_start'], 'ft');
  assert.equal(back.at, 'stick_up_start');
  // the next digit begins a number
  assert.equal(back.isWhole, true);
  // a field that the form has no more
  const gone = withKept(FORM, EMPTY, { values: { angle: '3' }, units: {}, at: 'angle' });
  assert.deepEqual(gone.values, EMPTY.values);
  assert.equal(gone.at, 'stick_up_end');
});

test('since when it was kept: the clock, the day of another day, and that readings came since', () => {
  const kept = { time: '2024-06-11T14:39:00+02:00', seen: 2 };
  assert.equal(keptWords(kept, '2024-06-11', 2), 'Kept from 14:39');
  assert.equal(keptWords(kept, '2024-06-12', 2), 'Kept from 2024-06-11 14:39');
  assert.equal(keptWords(kept, '2024-06-11', 3), 'Kept from 14:39, before the last reading');
});

function inMemory(): Drafts {
  const kept = new Map<string, KeptDraft>();
  const name = (place: DraftPlace): string => JSON.stringify(place);
  return {
    read: (place) => kept.get(name(place)) ?? null,
    keep: (place, draft) => void kept.set(name(place), draft),
    forget: (place) => void kept.delete(name(place)),
    show: () => undefined,
    shown: () => null,
    onDevice: true,
  };
}

test('typed, left, opened again, cleared, taken back, recorded', () => {
  const drafts = inMemory();
  const at = (clock: string) =>
    keeping(drafts, { time: () => `2024-06-11T${clock}:00+02:00`, day: '2024-06-11' });
  const place = { form: 'drive', hole: 'H1', amends: '' };
  const open = (clock: string, count: number) => at(clock).begin(FORM, EMPTY, place, count);
  const first = open('14:30', 2);
  assert.equal(first.note, '');
  at('14:39').typing(first, typed(first.draft, 'stick_up_end', '1'));
  const again = open('15:00', 3);
  assert.equal(again.draft.values['stick_up_end'], '1');
  assert.equal(again.note, 'Kept from 14:39, before the last reading');
  // with the last touch taken back there is nothing to keep
  at('15:01').typing(again, typed(again.draft, 'stick_up_end', ''));
  assert.equal(drafts.read(place), null);
  const typedAgain = at('15:02').typing(again, typed(again.draft, 'stick_up_end', '2'));
  const cleared = at('15:03').clear(typedAgain);
  assert.deepEqual(cleared.draft, EMPTY);
  assert.equal(drafts.read(place), null);
  const back = at('15:04').clear(cleared);
  assert.equal(back.draft.values['stick_up_end'], '2');
  assert.equal(drafts.read(place)?.values['stick_up_end'], '2');
  at('15:05').forget(back);
  assert.equal(open('15:06', 4).note, '');
});
