import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readHole } from '@stillstand/campaign/holes';
import { memoryStore } from '../fixtures/memory-store.ts';
import { faultOf, readingsOf, type SheetLine } from './sheet.ts';
import { unitsMeant } from './sheet-units.ts';

const line = (clock: string, letter: string, ...values: string[]): SheetLine => ({
  clock,
  letter,
  values: [0, 1, 2, 3].map((i) => values[i] ?? ''),
  note: '',
});

const SHEET = [
  line('7:45', 'g', '0.27'),
  line('7:50', 'h', 'S', '15 cm'),
  line('', 'J', 'A1', '3.00', 'yes'),
  line('08:10', 'D', '2.85 m', '0.35 m', '60', 'length'),
  line('0815', 'W', '', '0.10', '', 'sea'),
  line('8.20', 'S', '1.02', '0.10', '1.65'),
  line('8:40', 'R', '1.02', '2.10', '24', '1.05'),
  line('8:50', 'S', '2.09'),
];

test('a paper sheet typed in is the same hole as one entered on the rig', () => {
  assert.deepEqual(
    SHEET.map((l) => faultOf(l, 'm')),
    SHEET.map(() => null),
  );
  const store = memoryStore(() => '2024-06-12T20:00:00+02:00', {
    holes: [{ hole: 'H1', method: 'string', row_id: 'h' }],
  });
  const readings = readingsOf(SHEET, {
    hole: 'H1',
    unit: 'm',
    day: '2024-06-11',
    offset: '+02:00',
    nextRun: 1,
  });
  for (const { table, cells } of readings) store.addReading(table, cells);
  const now = readHole(store, 'H1')!;
  assert.deepEqual(now.problems, []);
  assert.equal(now.readings.length, 8);
  const near = (a: number | null | undefined, b: number) =>
    assert.ok(a != null && Math.abs(a - b) < 1e-9, `${a} is not ${b}`);
  near(now.fold.collar_to_shoe_m, 3.15);
  near(now.fold.drives[0]?.recovery, (3.15 - 1.02) / 2.5);
  near(now.fold.runs[0]?.removed_m, 1.07);
  // as typed, with the unit of the sheet where none was written; a line without a clock has that of the line before
  assert.deepEqual(
    [
      store.rows('string_items')[1]!.cells['length'],
      store.rows('string_items')[1]!.cells['time'],
      store.rows('soundings')[0]!.cells['time'],
    ],
    ['3.00 m', '2024-06-11T07:50:00+02:00', '2024-06-11T08:20:00+02:00'],
  );
});

test('a line that cannot be recorded says what is wrong, and records nothing', () => {
  const wrong: [SheetLine, RegExp][] = [
    [line('', 'X'), /kind: one of/],
    [line('25:00', 'S', '1.0'), /time/],
    [line('', 'S', 'one metre'), /to sediment/],
    [line('', 'D', '2.0'), /stick-up after is missing/],
    [line('', 'D', '2.0', '1.0', 'soon'), /time, s: a number/],
    [line('', 'W', '', '0.1', '', 'salt'), /fresh or sea/],
    [line('', 'J', 'A1', '3.0', 'perhaps'), /yes or no/],
    [line('', 'R'), /cable, touched is missing/],
  ];
  for (const [l, said] of wrong) {
    assert.match(faultOf(l, 'm') ?? '', said);
    assert.deepEqual(
      readingsOf([l], { hole: 'H1', unit: 'm', day: '2024-06-11', offset: 'Z', nextRun: 1 }),
      [],
    );
  }
});

test('a number that would be ordinary in another unit is asked about, by the lines above it', () => {
  const store = memoryStore(() => '2024-06-12T20:00:00+02:00', {
    holes: [{ hole: 'H1', method: 'string', row_id: 'h' }],
  });
  assert.deepEqual(
    unitsMeant(SHEET, store, 'H1', 'm').filter((asked) => asked !== null),
    [],
  );
  const wrong = SHEET.map((l) => (l.values[1] === '3.00' ? line('', 'J', 'A1', '10', 'yes') : l));
  assert.deepEqual(unitsMeant(wrong, store, 'H1', 'm')[2], { at: 1, label: 'length', text: '10 ft' });
  // the string of the lines above is 3.15 m: nothing is sounded at 102 m
  const deep = [...SHEET.slice(0, 5), line('8.20', 'S', '102')];
  assert.deepEqual(unitsMeant(deep, store, 'H1', 'm')[5], { at: 0, label: 'to sediment', text: '102 cm' });
  // nothing is written to the campaign by asking
  assert.equal(store.rows('soundings').length, 0);
});
