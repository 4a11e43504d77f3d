/** Which unit is lit for the next length: as last typed on the same instrument, in this hole or the one before it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { TypedRow } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import { crewUnits, readOn } from './crew-units.ts';

type Cells = Record<string, string>;
const unitsOf = (tables: Partial<Record<TableName, Cells[]>>, hole = 'H1', set = '') => {
  const rows = (table: TableName): TypedRow[] =>
    (tables[table] ?? []).map((cells, i) => ({ row_id: cells['row_id'] ?? `${table}${i}`, cells }));
  return crewUnits({ rows }, hole, set);
};

test('one reading in feet lights feet on the same instrument, until metres are typed on it', () => {
  const sounding = (seq: string, to_sediment: string): Cells => ({ hole: 'H1', seq, to_sediment });
  const feet = [sounding('1', '1.02 m'), sounding('2', '3 ft 4 in')];
  assert.equal(unitsOf({ soundings: feet }).tape, 'ft');
  // whatever else is typed on pipe and core
  const apart = {
    string_items: [{ hole: 'H1', seq: '3', action: 'add', item: 'joint', length: '3.05 m' }],
    runs: [{ hole: 'H1', seq: '4', run: 'R1', recovered: '0.96 m' }],
  };
  const units = unitsOf({ soundings: feet, ...apart });
  assert.deepEqual([units.tape, units.cable, units.pipe, units.core], ['ft', 'ft', 'm', 'm']);
  assert.equal(unitsOf({ soundings: [...feet, sounding('5', '1.10 m')] }).tape, 'm');
});

test('every length that is read on the tape says so, not the sounding alone', () => {
  for (const cells of [{ water_outside: '5 ft 5 in' }, { stick_up: '1 ft 2 in' }] as Cells[])
    assert.equal(unitsOf({ soundings: [{ hole: 'H1', seq: '1', ...cells }] }).tape, 'ft');
  assert.equal(unitsOf({ water_added: [{ hole: 'H1', seq: '1', to_water_before: '4 in' }] }).tape, 'ft');
});

test('a run whose touch was offered in metres and whose lowest mark was typed in feet is read in feet', () => {
  const runs = [{ hole: 'H1', seq: '3', run: 'R1', start_mark: '1.02 m', end_mark: '7 ft' }];
  assert.equal(unitsOf({ runs }).cable, 'ft');
  assert.equal(readOn('cable_at_collar'), 'cable');
  assert.equal(readOn('stop'), 'cable');
});

test('the next hole of the crew keeps the unit of the last one; what is typed there goes before', () => {
  const soundings: Cells[] = [
    { hole: 'H1', seq: '9', to_sediment: '3 ft', time: '2024-06-11T09:00:00+02:00' },
    { hole: 'H0', seq: '40', to_sediment: '1 m', time: '2024-06-10T09:00:00+02:00' },
  ];
  assert.equal(unitsOf({ soundings }, 'H2').tape, 'ft');
  assert.equal(unitsOf({ soundings }, 'H0').tape, 'm');
  const first = { hole: 'H2', seq: '1', to_sediment: '1 m', time: '2024-06-12T09:00:00+02:00' };
  assert.equal(unitsOf({ soundings: [...soundings, first] }, 'H2').tape, 'm');
  // one unit for all is of this hole alone
  assert.equal(unitsOf({ soundings }, 'H2').last, 'm');
});

test('nothing typed: the campaign’s own unit, else metres', () => {
  assert.deepEqual(unitsOf({}), { pipe: 'm', cable: 'm', core: 'm', tape: 'm', last: 'm' });
  assert.equal(unitsOf({}, 'H1', 'ft').cable, 'ft');
});
