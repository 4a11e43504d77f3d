/** The head on its plate: rounded to the safe side, each limit of its words, and what is left with the string out. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { agesOf } from '@stillstand/campaign/holes';
import { begun, lookedAt } from '../fixtures/crew.ts';
import { waterHead } from './water-head.ts';

/** The sea 2.00 m below the collar, the water inside so far below it; looked at so many minutes later. */
function plate(to_water_inside: string, minutes = 0, rise_m: number | null = null) {
  const { now, enter } = begun('H1');
  enter('waters', { water_outside: 'sea', water_inside: 'sea', plug_kind: 'sand' });
  enter('water', { to_water_inside, water_outside: '1.65 m' });
  const { day } = lookedAt(now());
  const last = Date.parse(now().entries.at(-1)!.time!);
  return waterHead(now(), { ages: agesOf(now(), last + minutes * 60_000), day, rise_m });
}

test('a head is never shown larger than it is, nor what it was when it is not read any more', () => {
  // 2.00 − 0.104 = 1.896
  assert.equal(plate('0.104 m').value, '+1.89');
  assert.deepEqual([plate('0.104 m', 180).value, plate('0.104 m', 180).sum.slice(0, 7)], [null, '+1.89 m']);
});

test('10 cm is enough, less is low, below nothing it is reversed', () => {
  const said = ['1.90 m', '1.91 m', '2.00 m', '2.01 m', '2.05 m'].map((inside) => plate(inside).word);
  assert.deepEqual(said, ['', 'Low', 'Low', 'Head reversed', 'Head reversed']);
  assert.equal(plate('2.05 m').say, 'Fill the string before anything is lifted.');
});

test('higher inside, and yet too light: the level is no help', () => {
  const { now, enter } = begun('H1');
  enter('waters', { water_outside: 'sea', water_inside: 'fresh', plug_kind: 'sand' });
  enter('sound', { to_sediment: '3.02 m', to_water_inside: '1.99 m', water_outside: '1.65 m' });
  // 0.01 m higher, less 2.4 % of a column of 1.03 m
  const { word, say } = waterHead(now(), lookedAt(now()));
  assert.deepEqual([word, say], ['Head reversed', 'Fill higher, or with sea water.']);
});

test('the tide is asked once the reading is old, and says which way it went', () => {
  assert.equal(plate('0.10 m', 10, 1.85).say, 'Stable: head inside exceeds outside.');
  assert.match(plate('0.10 m', 40, -0.3).say, /outside fell 0\.30 m$/);
  assert.match(plate('0.10 m', 40, 0.3).say, /outside rose 0\.30 m$/);
  // 1.90 − 1.80 = 0.10 is enough yet
  assert.equal(plate('0.10 m', 40, 1.79).word, '');
  assert.equal(plate('0.10 m', 40, 1.85).word, 'Tide rising');
});

test('a hole that ended with its string in: all of it is in the ground', () => {
  const { now, enter } = begun('H1');
  enter('close', { state: 'finished' });
  const left = waterHead(now(), lookedAt(now()));
  // 0.15 + 3.00 − 0.03
  assert.deepEqual([left.name, left.value, left.sum], ['Pipe in the ground', '3.12', 'left: S, A1']);
});
