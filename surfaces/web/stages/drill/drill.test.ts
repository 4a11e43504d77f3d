/**
 * A hole drilled from the first joint to the last pull by doing, each time, what the screen suggests: with a mistake
 * amended, an attempt to pass the shoe, a lost string. Every number on the way is worked out here by hand.
 */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { holeBefore, readHole, readOn } from '@stillstand/campaign/holes';
import { completeLength } from '../../parts/entry/keypad-typing.ts';
import { amendForm, amendment } from './book/amend.ts';
import { type BookCell, bookOf, CORRECTED, cableReadings } from './book/book.ts';
import { lift, stroke } from './book/record.ts';
import { begun, crewAt, lookedAt, near } from './fixtures/crew.ts';
import { formFor } from './forms/forms.ts';
import { doubtOf, labelDoubt } from './forms/plausible.ts';
import { atRisk } from './numbers/at-risk.ts';
import { plugLength, shoeDepth } from './numbers/numbers.ts';
import { recovery } from './numbers/recovery.ts';
import { cableNow, tapes } from './tape/cable.ts';

test('the suggestions lead from the check to the first run, and the numbers are those of the sums', () => {
  const { now, next, enter } = begun('H1');
  // penetration 3.12 − 0.35 − 0.27 = 2.50; plug 3.12 − 1.02 = 2.10; recovery 2.10 of 2.50
  assert.equal(shoeDepth(now(), lookedAt(now())).value, '2.50');
  assert.equal(shoeDepth(now(), lookedAt(now())).sum, 'string 3.12 − stick-up 0.35 − ground 0.27');
  assert.equal(plugLength(now(), lookedAt(now())).value, '2.10');
  assert.equal(plugLength(now(), lookedAt(now())).sum, 'string 3.12 − sounding 1.02');
  assert.equal(recovery(now()).value, '84');
  // head 1.65 + 0.35 − 0.10 = 1.90
  assert.equal(atRisk(now(), lookedAt(now())).value, '+1.90');
  assert.equal(atRisk(now(), lookedAt(now())).level, 'normal');
  assert.equal(next().name, 'mark');
  assert.deepEqual(
    tapes(now()).map((t) => [t.label, t.said]),
    [
      ['sediment', '1.02 m'],
      ['+0.5 m', '1.52 m'],
      ['+1.0 m', '2.02 m'],
      // about what a valve sampler holds
      ['full', '2.22 m'],
      ['+1.5 m', '2.52 m'],
      ['stop', '2.82 m'],
    ],
  );
  enter('mark', {});
  assert.equal(next().name, 'run');
});

test('a run: near stop, an attempt to pass the shoe, a slip corrected, lifted, laid out, sounded again', () => {
  const { store, now, next, enter } = begun('H1');
  enter('mark', {});
  enter('run', { start_mark: '1.02 m' });
  assert.equal(next().name, 'lift');
  near(now().clearance?.clearance_m, 2.1);
  enter('cable', { end_mark: '1.60 m' });
  stroke(store, now());
  stroke(store, now());
  assert.equal(atRisk(now(), lookedAt(now())).level, 'normal');
  enter('cable', { end_mark: '1.22 m' });
  // the slip: 2.22 was read
  store.amend('runs', now().run!.row_id, { end_mark: '2.22 m', amend_reason: `${CORRECTED}: 1.22 m` });
  enter('cable', { end_mark: '2.60 m' });
  assert.equal(atRisk(now(), lookedAt(now())).word, 'Near stop');
  assert.equal(atRisk(now(), lookedAt(now())).value, '0.52');
  assert.equal(atRisk(now(), lookedAt(now())).say, '0.22 m to the stop mark');
  assert.equal(next().urgent, false);
  enter('cable', { end_mark: '3.20 m' });
  assert.equal(atRisk(now(), lookedAt(now())).level, 'danger');
  assert.equal(atRisk(now(), lookedAt(now())).value, '−0.08');
  assert.equal(next().title, 'Lift the sampler now');
  assert.ok(next().urgent);
  // it happened, so it is recorded: the finding stays with the reading
  assert.ok(now().fold.findings.some((f) => f.code === 'sampler-past-shoe'));
  const line = bookOf(store, now()).find((l) => l.table === 'runs')!;
  assert.deepEqual(
    cableReadings(line).map((r) => [r.mark, r.instead_of, r.strokes]),
    [
      ['1.02 m', null, ''],
      ['1.60 m', null, '2'],
      ['2.22 m', '1.22 m', '2'],
      ['2.60 m', null, '2'],
      ['3.20 m', null, '2'],
    ],
  );
  assert.deepEqual(line.cells.find((c) => c.column === 'end_mark')?.was, ['1.22 m']);
  assert.equal(line.findings[0]?.code, 'sampler-past-shoe');
  // the tape had slipped: 2.70 was the lowest
  store.amend('runs', now().run!.row_id, { end_mark: '2.70 m', amend_reason: `${CORRECTED}: 3.20 m` });
  lift(store, now());
  // the run took water with it: the string is filled before anybody looks at the core
  assert.equal(next().title, 'Refill the string');
  enter('fill', { to_water_after: '0.10 m' });
  assert.equal(next().name, 'lay_out');
  enter('lay_out', { recovered: '1.50 m', outcome: 'full', loss_position: 'base' });
  assert.equal(next().title, 'Repeat sounding');
  enter('sound', { to_sediment: '2.69 m' });
  near(now().fold.runs[0]?.removed_m, 1.67);
  // 0.13 to the stop mark is no run; the stick-up leaves nothing to drive
  assert.equal(next().name, 'add');
});

test('a reading withdrawn is struck in the book and gone from the numbers; withdrawing that brings it back', () => {
  const { store, now } = begun('H1');
  const book = () => bookOf(store, now()).find((l) => l.name === 'Sounding, after drive')!;
  store.withdraw('soundings', book().row_id);
  assert.equal(book().state, 'withdrawn');
  assert.equal(plugLength(now(), lookedAt(now())).value, null);
  assert.equal(plugLength(now(), lookedAt(now())).sum, 'take a sounding');
  store.restore('soundings', book().root_id);
  assert.equal(book().state, 'standing');
  assert.equal(plugLength(now(), lookedAt(now())).value, '2.10');
});

test('an amended length shows what stood there and changes every number that hangs on it', () => {
  const { store, now } = begun('H1');
  const joint = () => bookOf(store, now()).find((l) => l.name === 'Added joint A1')!;
  assert.equal(joint().state, 'standing');
  store.amend('string_items', joint().row_id, { length: '9 ft 11 in', amend_reason: `${CORRECTED}: 3.00 m` });
  assert.equal(joint().state, 'amended');
  assert.deepEqual(
    joint().cells.find((c) => c.column === 'length'),
    {
      column: 'length',
      label: 'length',
      was: ['3.00 m'],
      now: '9 ft 11 in',
    },
  );
  near(now().fold.collar_to_shoe_m, 0.15 + 119 * 0.0254 - 0.03);
});

test('any reading can be entered at any time: the next suggestion starts from there', () => {
  const { enter, next, now } = begun('H1');
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.20 m' });
  assert.equal(next().name, 'fill');
  enter('sound', { to_sediment: '0.95 m' });
  // filled or not, it was sounded
  assert.equal(next().name, 'water');
  enter('add', { joint: 'A2', item: 'joint', length: '3.00 m' });
  assert.equal(next().name, 'tighten');
  enter('loose', { row_id: now().string.at(-1)!.row_id });
  assert.equal(next().name, 'tighten');
  enter('drive', { stick_up_end: '2.00 m' });
  assert.ok(now().fold.findings.some((f) => f.code === 'joint-not-tight' && f.severity === 'danger'));
});

test('resuming asks for a sounding, and a sounding opens a hole that was left', () => {
  const { store, now, next, enter } = begun('H1');
  enter('tide', { note: 'collar closed' });
  assert.equal(now().row.state, 'suspended');
  assert.equal(next(true).name, 'sound');
  enter('sound', { to_sediment: '1.05 m', purpose: 'resume' });
  assert.equal(store.rows('holes')[0]!.cells['state'], 'open');
});

test('from the last run to the last pull: every item accounted for, the ground levelled, the hole closed', () => {
  const { store, now, next, enter, step } = begun('H1');
  enter('pull', { action: 'pull', line_load_kn: '7.5' });
  assert.equal(atRisk(now(), lookedAt(now())).name, 'Line load, last read');
  assert.equal(atRisk(now(), lookedAt(now())).value, '7.5');
  step('pull', {});
  assert.equal(now().string.length, 0);
  step('ground', { ground_below_reference: '0.30 m', cause: 'boots' });
  step('close', { end_reason: 'target reached', backfill: 'bentonite' });
  assert.equal(next().name, 'next_hole');
  assert.deepEqual(
    now().fold.account.map((i) => [i.label, i.fate]),
    [
      ['S', 'pulled'],
      ['A1', 'pulled'],
    ],
  );
  assert.equal(store.rows('holes')[0]!.cells['state'], 'finished');
});

test('a lost string: named item by item, the hole closed as lost, a second one linked with its offset', () => {
  const { store, now, next, enter, step } = begun('H1');
  enter('add', { joint: 'A2', item: 'joint', length: '3.00 m' });
  step('tighten', {});
  const a1 = now().string.find((i) => i.label === 'A1')!;
  enter('lost', { top_lost: a1.row_id, note: 'parted while being drawn' });
  // A2 still hangs on the line
  assert.equal(next().name, 'pull');
  assert.equal(next().title, 'Pull joint A2');
  enter('pull', {});
  assert.deepEqual(
    now()
      .fold.account.filter((i) => i.fate === 'lost')
      .map((i) => i.label),
    ['S', 'A1'],
  );
  step('ground', { ground_below_reference: '0.28 m' });
  const close = formFor('close', now(), store);
  assert.equal(close.fields.find((f) => f.column === 'left_in_ground')?.initial, 'shoe S, joint A1');
  step('close', {});
  assert.equal(now().row.state, 'lost');
  step('second_hole', { hole: 'H2', offset_m: '2.4' });
  const second = store.rows('holes')[1]!.cells;
  assert.deepEqual(
    [second['hole'], second['replaces'], second['offset_m'], second['pipe'], second['site']],
    ['H2', 'H1', '2.4', '3 in', 'A'],
  );
  assert.equal(next().name, 'next_hole');
  // pipe that was lost is not offered again
  const offered = formFor('add', readHole(store, 'H2')!, store).fields[0]!;
  assert.ok(offered.kind === 'text' && !offered.ready?.some((r) => r.value === 'S'));
});

test('a crew that reads feet is answered in feet', () => {
  const { now, enter } = begun('H1');
  enter('sound', { to_sediment: '3 ft 4 in' });
  assert.deepEqual(now().units, { pipe: 'm', tape: 'ft', cable: 'ft', core: 'ft', last: 'ft' });
  assert.deepEqual(
    tapes(now())
      .slice(0, 3)
      .map((t) => [t.label, t.said]),
    [
      ['sediment', '3 ft 4 in'],
      ['+1 ft', '4 ft 4 in'],
      ['+2 ft', '5 ft 4 in'],
    ],
  );
});

test('pipe in feet leaves the tape as it was, and the cable goes by its own marks', () => {
  const { now, enter } = begun('H1');
  enter('add', { joint: 'A2', item: 'joint', length: '10 ft' });
  assert.deepEqual(now().units, { pipe: 'ft', tape: 'm', cable: 'm', core: 'm', last: 'ft' });
  enter('run', { start_mark: '3 ft 4 in', run: 'R1' });
  assert.deepEqual(now().units, { pipe: 'ft', tape: 'm', cable: 'ft', core: 'm', last: 'ft' });
  const bare = (text: string, column: string) => completeLength({ text, unit: now().units[readOn(column)] });
  assert.equal(bare('1.2', 'stick_up_end'), '1.2 m');
  assert.equal(bare('10', 'length'), '10 ft');
  assert.equal(bare('4', 'end_mark'), '4 ft');
  // the crew that reads all in feet goes on in feet
  enter('drive', { stick_up_start: '11 ft 4 in', stick_up_end: '4 ft' });
  assert.equal(now().units.tape, 'ft');
});

test('an older reading is doubted by what stood before it; a label already in the string is named', () => {
  const { now, enter, store } = begun('H1');
  assert.match(labelDoubt('A1', 'joint', now())?.words ?? '', /^A1 is already in the string/);
  assert.equal(labelDoubt('A1', 'coupling', now()), null);
  assert.equal(labelDoubt('A2', 'joint', now()), null);
  const drive = bookOf(store, now()).find((l) => l.table === 'drives')!;
  enter('add', { joint: 'A2', item: 'joint', length: '3.00 m' });
  enter('drive', { stick_up_start: '3.32 m', stick_up_end: '1.00 m' });
  const then = holeBefore(now(), drive.seq);
  // the first drive began at 2.85 m, with nothing read before it; after the second 1.00 m is expected
  assert.match(doubtOf('stick_up_start', 2.85, now())?.words ?? '', /^1\.00 m was expected/);
  assert.equal(doubtOf('stick_up_start', 2.85, then), null);
  assert.equal(doubtOf('ground_below_reference', 0.27, holeBefore(now(), 1)), null);
  // the second drive is held against the first
  const second = holeBefore(now(), bookOf(store, now()).findLast((l) => l.table === 'drives')!.seq);
  near(second.last?.stick_up_m, 3.32);
  // the same as if nothing had been read since
  const before = begun('H1').now();
  assert.deepEqual(holeBefore(before, Number.POSITIVE_INFINITY), before);
  // a run that is amended is held against its own marks
  assert.equal(doubtOf('recovered', 1, now(), { start_mark: 1, end_mark: 2 }), null);
  assert.match(doubtOf('recovered', 1.5, now(), { start_mark: 1, end_mark: 2 })?.words ?? '', /of 1\.00 m/);
});

test('water that has turned is a caution, water that boils a danger, and both say to fill', () => {
  const { now, next, enter } = begun('H1');
  // plug 2.10 m: upward gradient 0.15 ÷ 2.10 = 0.07, below the critical 0.10 of an organic plug
  enter('water', { to_water_inside: '2.15 m', water_outside: '1.65 m' });
  assert.deepEqual(
    [
      atRisk(now(), lookedAt(now())).value,
      atRisk(now(), lookedAt(now())).word,
      atRisk(now(), lookedAt(now())).level,
    ],
    ['−0.15', 'Head reversed', 'caution'],
  );
  assert.equal(next().title, 'Fill the string');
  // 0.50 ÷ 2.10 = 0.24, above it
  enter('water', { to_water_inside: '2.50 m', water_outside: '1.65 m' });
  assert.deepEqual(
    [
      atRisk(now(), lookedAt(now())).value,
      atRisk(now(), lookedAt(now())).word,
      atRisk(now(), lookedAt(now())).level,
    ],
    ['−0.50', 'Boils', 'danger'],
  );
});

test('the line is told by what was read, else by the wide range of the estimate', () => {
  const rig = crewAt('H1');
  rig.store.editRow('pipes', 'p1', { outside_diameter_mm: '88.9', wall_mm: '5.49' });
  rig.enter('ground', { ground_below_reference: '0 m' });
  rig.enter('add', { joint: 'A1', item: 'joint', length: '3.00 m' });
  rig.enter('add', { joint: 'A2', item: 'joint', length: '3.00 m' });
  rig.enter('drive', { stick_up_start: '5.97 m', stick_up_end: '1.97 m' });
  rig.enter('pull', { action: 'pull' });
  assert.equal(atRisk(rig.now(), lookedAt(rig.now())).name, 'Line pull');
  assert.match(atRisk(rig.now(), lookedAt(rig.now())).value ?? '', /^[\d.]+–[\d.]+$/);
  rig.enter('pull', { action: 'cut', length: '0.5 m', line_load_kn: '9.1' });
  assert.deepEqual(
    [atRisk(rig.now(), lookedAt(rig.now())).name, atRisk(rig.now(), lookedAt(rig.now())).value],
    ['Line load, last read', '9.1'],
  );
});

test('an amendment writes what changed, says what stood there, and keeps the day and offset of a corrected clock', () => {
  const { store, now } = begun('H1');
  const line = () => bookOf(store, now()).find((l) => l.name === 'Sounding, after drive')!;
  const form = amendForm(line(), now(), store);
  const values = Object.fromEntries(form.fields.map((f) => [f.column, f.initial ?? '']));
  assert.equal(amendment(line(), values), null);
  assert.deepEqual(amendment(line(), { ...values, note: 'soft top' }), { note: 'soft top' });
  const time = line().time;
  const mended = amendment(line(), { ...values, to_sediment: '1.20 m', time: '7:05' })!;
  assert.equal(mended['to_sediment'], '1.20 m');
  assert.equal(mended['time'], time.replace(/T\d{2}:\d{2}:\d{2}/, 'T07:05:00'));
  assert.equal(mended['amend_reason'], `${CORRECTED}: 1.02 m, ${time.slice(11, 16)}`);
  // no clock: the time stays as it was
  assert.equal(amendment(line(), { ...values, time: 'noonish' }), null);
  store.amend('soundings', line().row_id, mended);
  assert.equal(line().state, 'amended');
  // a second mending keeps what people wrote and says anew what stood there
  const again = amendForm(line(), now(), store);
  const then = Object.fromEntries(again.fields.map((f) => [f.column, f.initial ?? '']));
  assert.equal(then['note'], '');
  assert.deepEqual(amendment(line(), { ...then, to_sediment: '' }), {
    to_sediment: '',
    amend_reason: `${CORRECTED}: 1.20 m`,
  });
});

test('where the sediment is not sounded no marks can be confirmed, only the zero', () => {
  const { now, store, enter } = crewAt('H1');
  const [confirmed] = formFor('mark', now(), store).fields;
  assert.deepEqual(confirmed?.kind === 'choice' ? confirmed.options.map((o) => o.value) : null, ['zero']);
  assert.equal(enter('mark', {}).length, 1);
  assert.equal(store.rows('cable_marks').length, 0);
});

test('marks, the zero and notes are readings of their own: in the book, amended there, counted by the crew’s tape', () => {
  const { store, now, enter } = begun('H1');
  const said = (cells: readonly BookCell[]) =>
    cells.flatMap((c) => (c.column === 'amend_reason' ? [] : [c.now])).join(' ');
  const lines = () => bookOf(store, now()).map((l) => [l.name, said(l.cells)]);
  const amend = (name: string, values: Record<string, string>) => {
    const line = bookOf(store, now()).findLast((l) => l.name === name)!;
    const form = amendForm(line, now(), store);
    const all = Object.fromEntries(form.fields.map((f) => [f.column, f.initial ?? '']));
    assert.equal(amendment(line, all), null, 'nothing changed');
    store.amend(line.table, line.row_id, amendment(line, { ...all, ...values })!);
  };
  const stop = () => cableNow(now()).marks?.made.at(-1);
  assert.equal(enter('mark', {}).length, 2);
  const put = tapes(now());
  assert.deepEqual(
    cableNow(now()).marks?.made.map((m) => m.label),
    put.map((t) => t.label),
  );
  assert.equal(stop()?.label, 'stop');
  near(stop()?.tip_m, 2.82);
  assert.deepEqual(lines().slice(-2), [
    // full after 1.20 m, as no sampler with a known length is in hand
    ['Cable marks', '1.02 m 0.5 m 2.22 m 2.82 m'],
    ['Zero check', '0.00 m'],
  ]);
  amend('Cable marks', { stop: '2.70 m' });
  near(stop()?.tip_m, 2.7);
  assert.equal(now().fold.findings.length, 0);
  amend('Zero check', { cable_at_collar: '0.12 m' });
  assert.deepEqual(
    now().fold.findings.map((f) => f.code),
    ['zero-check-off'],
  );
  near(now().sediment.sounded_m, 1.02);
  // one of version 1, with what the cable read in the column of the sediment, is amended in its new one
  store.addReading('soundings', { hole: 'H1', purpose: 'zero_check', to_sediment: '0.13 m' });
  near(now().sediment.sounded_m, 1.02);
  amend('Zero check', { cable_at_collar: '0 m' });
  assert.deepEqual(
    now().fold.findings.map((f) => f.found.slice(0, 15)),
    ['tape reads 0.12'],
  );
  assert.equal(enter('mark', { confirmed: 'zero' }).length, 1);
  assert.equal(enter('mark', { confirmed: 'marks' }).length, 1);
  enter('note', { text: 'boat alongside' });
  enter('note', { text: 'cut hand', kind: 'injury' });
  amend('Injury', { text: 'cut hand, dressed' });
  assert.deepEqual(lines().slice(-2), [
    ['Note', 'boat alongside'],
    ['Injury', 'cut hand, dressed'],
  ]);
  const noted = store.rows('soundings').filter((r) => (r.cells['note'] ?? '') !== '');
  assert.deepEqual(noted, [], 'no fact is kept in a note');
});
