/** The safety questions on the rig: an answer a reading of its own, a no before every suggestion, nothing ever barred. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  checksOf,
  dangersOf,
  giveAnswer,
  openWords,
  SAFETY_QUESTIONS,
  type SafetyAnswer,
} from '@stillstand/campaign/holes';
import { randomStream } from '@stillstand/science/base';
import { amendForm, amendment } from './book/amend.ts';
import { bookOf } from './book/book.ts';
import { begun, crewAt } from './fixtures/crew.ts';
import { safetyFirst } from './next/safety-first.ts';

const DAY = '2024-06-11';
type Rig = ReturnType<typeof crewAt>;

const checks = (rig: Rig, day = DAY) => checksOf(rig.store, day, 'H1');
const bar = (rig: Rig, day = DAY) =>
  safetyFirst(rig.next(), checks(rig, day), rig.now(), {
    day,
    begins: rig.now().string.length === 0,
  });
function answer(rig: Rig, check: string, given: SafetyAnswer, day = DAY): void {
  giveAnswer(rig.store, checks(rig, day).find((c) => c.check === check)!, given, day, 'H1');
}

test('answered, answered otherwise, amended in the log: every answer keeps its own time', () => {
  const rig = crewAt('H1');
  answer(rig, 'services', 'yes');
  answer(rig, 'overhead', 'no');
  answer(rig, 'overhead', 'yes');
  const rows = rig.store.rows('checks').map(({ cells }) => cells);
  assert.deepEqual(
    rows.map((c) => [c['check'], c['question'], c['answer'], c['seq'], c['date']]),
    [
      ['services', 'Buried services located', 'yes', '1', DAY],
      ['overhead', 'Mast clear of overhead lines', 'no', '2', DAY],
      ['overhead', 'Mast clear of overhead lines', 'yes', '3', DAY],
    ],
  );
  assert.equal(new Set(rows.map((c) => c['time'])).size, 3);
  // the same again withdraws a yes; a no is not taken back by pressing it again
  answer(rig, 'services', 'yes');
  assert.equal(checks(rig).find((c) => c.check === 'services')?.state, 'open');
  answer(rig, 'overhead', 'no');
  const count = rig.store.rows('checks').length;
  answer(rig, 'overhead', 'no');
  assert.equal(rig.store.rows('checks').length, count);
  assert.equal(checks(rig).find((c) => c.check === 'overhead')?.state, 'danger');
  // in the log an answer can be amended as any reading
  const line = bookOf(rig.store, rig.now()).findLast(
    (l) => l.name === 'Check: mast clear of overhead lines',
  )!;
  const form = amendForm(line, rig.now(), rig.store);
  const values = Object.fromEntries(form.fields.map((f) => [f.column, f.initial ?? '']));
  rig.store.amend('checks', line.row_id, amendment(line, { ...values, answer: 'not_needed' })!);
  assert.equal(checks(rig).find((c) => c.check === 'overhead')?.state, 'answered');
});

test('a no is the suggestion, whatever else would be: hazard, what to do, and the held action one press away', () => {
  const rig = crewAt('H1');
  assert.equal(bar(rig).title, 'Site check');
  answer(rig, 'services', 'yes');
  rig.step('ground', { ground_below_reference: '0.27 m' });
  // the old fault: mast clear of overhead lines: no, and the bar says Add the shoe
  answer(rig, 'overhead', 'no');
  assert.equal(rig.next().title, 'Add the shoe');
  const shown = bar(rig);
  assert.equal(shown.name, 'check');
  assert.doesNotMatch(shown.title, /Add|shoe/);
  assert.equal(shown.caution, 'Overhead line within reach of the mast.');
  assert.match(shown.why, /08:0\d/);
  assert.match(dangersOf(checks(rig))[0]!.act, /Lower the mast and keep it down/);
  assert.ok(shown.urgent);
  // held, not gone: what happened can always be recorded
  assert.equal(shown.held, 'Add the shoe');
  assert.equal(shown.or[0], 'add');
  rig.enter('add', { joint: 'S', item: 'shoe', length: '15 cm' });
  assert.equal(rig.now().string.length, 1);
  assert.equal(bar(rig).name, 'check');
  answer(rig, 'overhead', 'yes');
  assert.equal(bar(rig).title, 'Add the first joint');
});

test('what hurts nobody is a caution: it is said, and the suggestion goes on', () => {
  const rig = crewAt('H1');
  answer(rig, 'reference', 'no');
  assert.equal(checks(rig).find((c) => c.check === 'reference')?.state, 'caution');
  assert.deepEqual(dangersOf(checks(rig)), []);
  assert.equal(bar(rig).title, 'Measure ground level');
});

test('with a sampler in the string the bar lifts it, and names the hazard; an ended hole asks nothing', () => {
  const rig = begun('H1');
  answer(rig, 'overhead', 'no');
  rig.enter('mark', { confirmed: 'both' });
  rig.enter('run', { start_mark: '1.02 m' });
  const shown = bar(rig);
  assert.equal(shown.name, 'lift');
  assert.ok(shown.urgent);
  assert.match(shown.caution ?? '', /^Overhead line within reach of the mast\. Hands clear of the cable/);
  rig.store.editRow('holes', 'h1', { state: 'finished' });
  assert.equal(bar(rig).name, 'next_hole');
});

test('what is open is named, not counted; a new day asks again, and a no of the day before still stands', () => {
  const rig = crewAt('H1');
  assert.equal(openWords(checks(rig))?.split('; ').length, SAFETY_QUESTIONS.length);
  for (const q of SAFETY_QUESTIONS) answer(rig, q.check, q.check === 'alone' ? 'no' : 'yes');
  assert.equal(openWords(checks(rig)), null);
  rig.step('ground', { ground_below_reference: '0.27 m' });
  const next = '2024-06-12';
  assert.match(openWords(checks(rig, next)) ?? '', /^Buried services located; Mast clear of overhead lines;/);
  assert.deepEqual(
    dangersOf(checks(rig, next)).map((c) => c.hazard),
    ['Somebody works alone'],
  );
  assert.equal(bar(rig, next).title, 'Work in pairs');
  answer(rig, 'alone', 'yes', next);
  // nothing of the site is answered on the new day: the site check comes first, and the older answers are shown
  assert.equal(bar(rig, next).title, 'Site check');
  assert.equal(bar(rig, next).why, 'not answered today');
  assert.equal(checks(rig, next)[0]?.earlier?.day, DAY);
});

test('random answers by two people from Plan and from Drill: both screens say the same: seed 53', () => {
  const stream = randomStream(53);
  const pick = <T>(of: readonly T[]): T => of[Math.floor(stream.uniform() * of.length)]!;
  for (let campaign = 0; campaign < 60; campaign++) {
    const rig = crewAt('H1');
    // each person's screen reads the store in its own way: Plan with the rows of a day, Drill with those of a hole
    const last = new Map<string, SafetyAnswer | null>();
    for (let i = 0; i < 25; i++) {
      const screen = pick(['Plan', 'Drill']);
      const person = pick(['DK', 'JL']);
      const seen = checks(rig);
      const check = pick(seen);
      const given = pick<SafetyAnswer>(['yes', 'no', 'not_needed']);
      const asPerson = {
        ...rig.store,
        addReading: (table: 'checks', cells: Record<string, string>) =>
          rig.store.addReading(table, { ...cells, by: person, device: screen }),
      };
      giveAnswer(asPerson as never, check, given, DAY, 'H1');
      const was = last.get(check.check) ?? null;
      // the same answer again takes a yes back to what stood before; a no stays
      if (was !== given) last.set(check.check, given);
      else if (given !== 'no') {
        const now = checks(rig).find((c) => c.check === check.check)!;
        last.set(check.check, now.given?.answer ?? null);
      }
      for (const c of checks(rig)) {
        const expected = last.get(c.check) ?? null;
        assert.equal(c.given?.answer ?? null, expected, `campaign ${campaign}, step ${i}, ${c.question}`);
        assert.equal(c.state === c.no && expected === 'no', expected === 'no');
        if (expected !== null) assert.ok(c.given?.by !== null && c.given?.time !== null);
      }
      assert.equal(bar(rig).urgent, dangersOf(checks(rig)).length > 0);
    }
  }
});
