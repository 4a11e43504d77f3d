/** A hole cored by hand: from the check to its closing, its gap told, and a push mended in its place. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { amendForm, amendment } from '../book/amend.ts';
import { bookOf } from '../book/book.ts';
import { crewAt, near } from '../fixtures/crew.ts';
import { nextPush, pushesOf, pushNumbers } from './push-hole.ts';

function corer(method: string) {
  const rig = crewAt('H1');
  rig.store.editRow('holes', 'h1', { method, pipe: '' });
  const pushes = () => pushesOf(rig.store, rig.now());
  return {
    ...rig,
    pushes,
    next: () => nextPush(rig.now(), pushes()),
    said: () => pushNumbers(pushes(), rig.now()),
  };
}

test('check, push after push, a gap, a mended push, closed', () => {
  const { store, now, enter, pushes, next, said } = corer('chamber');
  assert.equal(next().title, 'Measure ground level');
  enter('ground', { ground_below_reference: '0.10 m' });
  assert.equal(next().title, 'Record the first push');
  assert.deepEqual(
    said().map((n) => n.value),
    [null, null, null, '0.00'],
  );
  enter('push', { to: '0.50 m', recovered: '0.48 m' });
  // it begins where the last one ended
  enter('push', { to: '1.00 m' });
  enter('push', { from: '1.10 m', to: '1.60 m', recovered: '0.40 m' });
  assert.deepEqual(
    pushes().map((p) => [p.label, p.from_m, p.to_m, p.recovered_m]),
    [
      ['P1', 0, 0.5, 0.48],
      ['P2', 0.5, 1, null],
      ['P3', 1.1, 1.6, 0.4],
    ],
  );
  const [depth, last, all, following] = said();
  assert.equal(depth.value, '1.60');
  assert.equal(last.value, '80');
  // 0.88 of 1.00 m measured
  assert.equal(all.value, '88');
  assert.equal(following.value, '1.60');
  assert.equal(following.say, 'Not cored: 1.00 to 1.10 m.');
  // the third began at 1.00: mended, both stay
  const line = () => bookOf(store, now()).findLast((l) => l.name === 'Push P3')!;
  const form = amendForm(line(), now(), store);
  const values = Object.fromEntries(form.fields.map((f) => [f.column, f.initial ?? '']));
  store.amend('pushes', line().row_id, amendment(line(), { ...values, from: '1.00 m' })!);
  assert.deepEqual(line().cells.find((c) => c.column === 'from')?.was, ['1.10 m']);
  near(pushes()[2]!.from_m, 1);
  assert.equal(said()[3].level, 'normal');
  // withdrawn: struck in the book, gone from the numbers, and the gap it leaves is told
  const second = () => bookOf(store, now()).find((l) => l.name === 'Push P2')!;
  store.withdraw('pushes', second().root_id);
  assert.equal(second().state, 'withdrawn');
  assert.equal(said()[3].say, 'Not cored: 0.50 to 1.00 m.');
  enter('close', { state: 'finished', end_reason: 'stone' });
  assert.equal(next().name, 'next_hole');
});

test('a tube read inside and outside tells its shortening', () => {
  const { enter, pushes, said } = corer('tube');
  enter('ground', { ground_below_reference: '0 m' });
  enter('push', { to: '4.00 m', recovered: '3.10 m', inside_top: '1.90 m', outside_top: '1.00 m' });
  near(pushes()[0]!.shortening_m, 0.9);
  assert.equal(said()[1].sum, '3.10 m of 4.00; 0.90 m shorter inside');
});
