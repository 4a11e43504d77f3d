/** Laying out: one piece by one press, several with a gap and trays, or none; each of them mended in the book. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { amendForm, amendment } from '../book/amend.ts';
import { bookOf } from '../book/book.ts';
import { lift } from '../book/record.ts';
import { begun, near } from '../fixtures/crew.ts';
import { formFor } from './forms.ts';
import { piecesSoFar } from './pieces.ts';
import { doubtOf } from './plausible.ts';

function up() {
  const rig = begun('H1');
  rig.enter('mark', {});
  rig.enter('run', { start_mark: '1.02 m' });
  rig.enter('cable', { end_mark: '2.30 m' });
  lift(rig.store, rig.now());
  return rig;
}

test('later is as good: nothing is written, and the next thing is the water', () => {
  const { store, next, enter } = up();
  enter('lay_out', { recovered: '1.20 m' });
  assert.deepEqual(store.rows('pieces'), []);
  assert.equal(next().name, 'fill');
});

test('in one piece: from the top, or from below the fall-in, to its end', () => {
  const { store, now, enter } = up();
  enter('lay_out', { recovered: '1.20 m', fall_in: '6 cm', laid_out: 'in one piece' });
  const { run, top, bottom, condition } = store.rows('pieces')[0]!.cells;
  assert.deepEqual([run, top, bottom, condition], ['R1', '6 cm', '1.20 m', 'intact']);
  assert.equal(now().fold.runs[0]?.run, 'R1');
});

test('piece by piece, with a gap: each begins where the last ended until somebody says otherwise', () => {
  const { store, now, enter } = up();
  enter('lay_out', { recovered: '1.20 m', laid_out: 'piece by piece' });
  const initial = () =>
    Object.fromEntries(formFor('pieces', now(), store).fields.map((f) => [f.column, f.initial ?? '']));
  assert.deepEqual(initial(), { bottom: '1.20 m', top: '0.00 m', tray: '', condition: 'intact' });
  enter('pieces', { bottom: '62 cm', tray: 'T7' });
  assert.deepEqual(initial(), { bottom: '1.20 m', top: '0.62 m', tray: 'T7', condition: 'intact' });
  const tray = formFor('pieces', now(), store).fields.find((f) => f.column === 'tray')!;
  assert.deepEqual(tray.kind === 'text' ? tray.ready?.map((r) => r.value) : [], ['T7', 'T8']);
  enter('pieces', { top: '0.70 m', tray: 'T8', condition: 'broken' });
  const so = piecesSoFar(now(), store)!;
  near(so.recovered_m, 1.2);
  assert.deepEqual(
    so.laid.map((p) => [p.top_m, p.bottom_m, p.tray]),
    [
      [0, 0.62, 'T7'],
      [0.7, 1.2, 'T8'],
    ],
  );
  const fixed = { run: 'R1' };
  assert.match(doubtOf('bottom', 1.5, now(), { top: 0.7 }, fixed)?.words ?? '', /1\.20 m came up/);
  assert.match(doubtOf('bottom', 0.5, now(), { top: 0.7 }, fixed)?.words ?? '', /Not below its upper end/);
  // mended in its place, like every reading
  const line = () => bookOf(store, now()).findLast((l) => l.table === 'pieces')!;
  const form = amendForm(line(), now(), store);
  const values = Object.fromEntries(form.fields.map((f) => [f.column, f.initial ?? '']));
  store.amend('pieces', line().row_id, amendment(line(), { ...values, top: '0.68 m' })!);
  assert.equal(line().state, 'amended');
  assert.deepEqual(line().cells.find((c) => c.column === 'top')?.was, ['0.70 m']);
  near(piecesSoFar(now(), store)!.laid[1]!.top_m, 0.68);
});
