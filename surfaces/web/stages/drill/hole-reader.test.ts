/** One reading more in a long hole: the same state as reading everything anew, and fast enough to be felt as at once. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { holeReader, readHole } from '@stillstand/campaign/holes';
import { memoryStore } from './fixtures/memory-store.ts';

/** A hole of 496 readings: 45 joints, each driven in two spells; filled, sounded, sampled and sounded again in each. */
function longHole() {
  const store = memoryStore(() => '2024-06-11T08:00:00+02:00', {
    holes: [{ hole: 'H1', method: 'string', row_id: 'h' }],
    samplers: [{ sampler: 'V50', row_id: 'v' }],
  });
  const hole = 'H1';
  const m = (x: number) => `${x.toFixed(2)} m`;
  store.addReading('ground_levels', { hole, ground_below_reference: '0.20 m' });
  let length = 0;
  for (let k = 1; k <= 45; k++) {
    length += 3;
    store.addReading('string_items', {
      hole,
      action: 'add',
      item: 'joint',
      joint: `A${k}`,
      length: '3.00 m',
      tight: 'true',
    });
    for (const [from, to] of [
      [3.4, 1.9],
      [1.9, 0.4],
    ] as const) {
      store.addReading('drives', {
        hole,
        stick_up_start: m(from),
        stick_up_end: m(to),
        duration_s: '60',
        ended_by: 'length',
      });
      store.addReading('water_added', { hole, to_water_after: '0.10 m' });
      store.addReading('soundings', {
        hole,
        purpose: 'after_drive',
        to_sediment: m(length - 1.6),
        to_water_inside: '0.2 m',
        water_outside: '1.5 m',
      });
      store.addReading('runs', {
        hole,
        run: `R${k}${from > 3 ? 'a' : 'b'}`,
        sampler: 'V50',
        start_mark: m(length - 1.6),
        end_mark: m(length - 0.5),
        strokes: '20',
        recovered: '1.05 m',
        outcome: 'full',
      });
      store.addReading('soundings', { hole, purpose: 'after_run', to_sediment: m(length - 0.5) });
    }
  }
  return { store };
}

test('a remembered hole is the hole read anew, after every kind of change', () => {
  const { store } = longHole();
  const read = holeReader();
  const same = () => assert.deepEqual(read(store, 'H1'), readHole(store, 'H1'));
  same();
  const sounding = store.addReading('soundings', { hole: 'H1', to_sediment: '134.40 m' });
  same();
  store.amend('soundings', sounding, { to_sediment: '134.45 m' });
  same();
  store.withdraw('soundings', sounding);
  same();
  store.editRow('holes', 'h', { state: 'suspended' });
  same();
  store.addRow('settings', { name: 'clearance_margin_m', value: '0.5' });
  same();
  store.addReading('string_items', {
    hole: 'H1',
    action: 'add',
    item: 'joint',
    joint: 'A101',
    length: 'three metres',
  });
  same();
});
