/** Tables that write 3,05 read as 3.05 on the screen, and two readings of one seq brought into their order. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Dialect } from '@stillstand/campaign/document';
import { readHole } from '@stillstand/campaign/holes';
import { clashesAmong } from '@stillstand/campaign/order';
import { bookOf } from '../book/book.ts';
import { logOf } from '../book/log.ts';
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

test('two devices gave one seq: the log asks once, and one press brings them into their order', () => {
  const { store, now } = begun('H1');
  const sounding = bookOf(store, now()).find((l) => l.name === 'Sounding, after drive')!;
  // the other device drove at the same place in the order
  store.addReading('drives', {
    hole: 'H1',
    seq: String(sounding.seq),
    stick_up_start: '0.35 m',
    stick_up_end: '0.25 m',
  });
  const asked = () => clashesAmong(store, new Set(), new Set(), now());
  const log = () =>
    logOf(bookOf(store, now()), now(), asked()).map((entry) =>
      entry.kind === 'line' ? `${entry.line.name} ${entry.line.seq}` : entry.kind,
    );
  const { seq } = sounding;
  const before = log();
  assert.deepEqual(before.slice(-4), [
    `Drive ${seq}`,
    `Sounding, after drive ${seq}`,
    'clash',
    `Water ${seq + 1}`,
  ]);
  const [clash] = asked();
  assert.ok(clash!.differs.some((words) => words.startsWith('depth of the shoe at sounding')));
  for (const { table, row_id, seq: to } of clash!.choices.find((c) => c.order[0] === sounding.root_id)!.moves)
    store.move(table, row_id, to);
  // asked no more; the reading that came first is before the other, and nothing is struck
  assert.deepEqual(asked(), []);
  assert.deepEqual(log().slice(-3), [
    `Sounding, after drive ${seq}`,
    `Drive ${seq + 0.5}`,
    `Water ${seq + 1}`,
  ]);
  assert.ok(
    bookOf(store, now()).every(
      (l) => l.state === 'standing' && l.findings.every((f) => f.code !== 'seq-twice'),
    ),
  );
  near(now().fold.soundings[0]?.penetration_m ?? null, 2.5);
});
