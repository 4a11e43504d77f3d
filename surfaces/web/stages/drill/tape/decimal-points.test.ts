/** Tables that write 3,05 read as 3.05 on the screen, and two readings of one seq brought into their order. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Dialect } from '@stillstand/campaign/document';
import { readHole } from '@stillstand/campaign/holes';
import { bookOf } from '../book/book.ts';
import { moveReading } from '../book/record.ts';
import { begun, near } from '../fixtures/crew.ts';
import { memoryStore } from '../fixtures/memory-store.ts';
import { faultOf, readingsOf } from '../sheet/sheet.ts';
import { withPoints } from './decimal-points.ts';

test('a table with decimal commas: points on the screen, commas in the cells, the same metres', () => {
  const store = memoryStore(() => '2024-06-11T08:00:00+02:00', {
    holes: [{ hole: 'H1', method: 'string', row_id: 'h' }],
    string_items: [
      { hole: 'H1', seq: '1', action: 'add', item: 'joint', joint: 'A,1', length: '10,5 ft', row_id: 'j' },
    ],
    soundings: [{ hole: 'H1', seq: '2', to_sediment: '2,40 m', note: 'soft, 2,4', row_id: 's' }],
  });
  const dialect = (): Dialect => ({
    delimiter: ';',
    line_end: '\n',
    bom: false,
    sep_line: false,
    decimal_comma: true,
  });
  const shown = withPoints(store, dialect);
  assert.equal(shown.rows('soundings')[0]?.cells['to_sediment'], '2.40 m');
  assert.equal(shown.rows('soundings')[0]?.cells['note'], 'soft, 2,4');
  assert.equal(shown.rows('string_items')[0]?.cells['joint'], 'A,1');
  assert.equal(shown.rows('soundings'), shown.rows('soundings'));
  assert.equal(store.rows('soundings')[0]?.cells['to_sediment'], '2,40 m');
  const now = readHole({ rows: store.rows, dialect }, 'H1')!;
  near(now.fold.collar_to_shoe_m, 10.5 * 0.3048);
  assert.equal(now.units.tape, 'm');
  assert.deepEqual(now.problems, []);
  const line = bookOf(shown, now).find((l) => l.table === 'soundings')!;
  assert.equal(line.cells.find((c) => c.column === 'to_sediment')?.now, '2.40 m');
});

test('2,40 typed from a sheet is 2.40, a note keeps its commas', () => {
  const line = { clock: '8:20', letter: 'S', values: ['1,02', '10 cm', '1,65 m', ''], note: 'soft, wet' };
  assert.equal(faultOf(line, 'm'), null);
  const [reading] = readingsOf([line], {
    hole: 'H1',
    unit: 'm',
    day: '2024-06-11',
    offset: '+02:00',
    nextRun: 1,
  });
  assert.equal(reading?.cells['to_sediment'], '1.02 m');
  assert.equal(reading?.cells['water_outside'], '1.65 m');
  assert.equal(reading?.cells['note'], 'soft, wet');
});

test('two devices gave one seq: it is told in the book, and one press brings them into their order', () => {
  const { store, now } = begun('H1');
  const sounding = bookOf(store, now()).find((l) => l.name === 'Sounding, after drive')!;
  // the other device drove at the same place in the order
  store.addReading('drives', {
    hole: 'H1',
    seq: String(sounding.seq),
    stick_up_start: '0.35 m',
    stick_up_end: '0.25 m',
  });
  const twins = () => bookOf(store, now()).filter((l) => l.findings.some((f) => f.code === 'seq-twice'));
  assert.deepEqual(
    twins().map((l) => l.name),
    ['Sounding, after drive'],
  );
  const lines = bookOf(store, now());
  moveReading(
    store,
    twins()[0]!,
    lines.map((l) => l.seq),
    'before',
  );
  assert.deepEqual(twins(), []);
  const standing = bookOf(store, now()).filter((l) => l.state !== 'withdrawn');
  const at = standing.findIndex((l) => l.name === 'Sounding, after drive');
  assert.equal(standing[at + 1]?.name, 'Drive');
  assert.equal(standing[at]?.seq, sounding.seq - 0.5);
  // the withdrawn one stays, struck, and the numbers are those of the new order
  assert.equal(bookOf(store, now()).filter((l) => l.state === 'withdrawn').length, 1);
  near(now().fold.soundings[0]?.penetration_m ?? null, 2.5);
});
