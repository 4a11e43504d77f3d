import assert from 'node:assert/strict';
import { test } from 'node:test';
import { pastedLevels, shownLevels } from './level-rows.ts';

const SHOWN = ['HAT', 'MHHW', 'MHW', 'MSL', 'MLW', 'MLLW', 'LAT'];
const AT = { level: 'HAT', entry: 'elevation_m' } as const;

test('levels pasted from a spreadsheet or a list, by their names, in any order, with errors and sources', () => {
  const expected = [
    { level: 'MHW', cells: { elevation_m: '1.02', sigma_m: '0.05', source: 'port chart' } },
    { level: 'LAT', cells: { elevation_m: '-1.60' } },
  ];
  for (const text of [
    'MHW\t+1.02\t0.05\tport chart\nLAT\t−1.60',
    'level\televation, m\t1σ\tsource\nMHW\t1.02\t0.05\tport chart\nLAT\t-1.60\t\t',
    'MHW: 1.02 m ±0.05 port chart\nLAT -1.60',
    'mhw;1.02;0.05;port chart\n\nlat;-1.60;;',
  ])
    assert.deepEqual(pastedLevels(text, AT, SHOWN), { levels: expected, unread: [] }, text);
});

test('an error headed 2σ is kept as 1σ', () => {
  assert.deepEqual(pastedLevels('level\televation\t2σ\nMHW\t1.02\t0.10', AT, SHOWN)?.levels, [
    { level: 'MHW', cells: { elevation_m: '1.02', sigma_m: '0.05' } },
  ]);
});

test('without names they fill the column down; what names no level is kept, with its line', () => {
  assert.deepEqual(pastedLevels('1.6\t0.04\n1.2', { level: 'HAT', entry: 'elevation_m' }, SHOWN), {
    levels: [
      { level: 'HAT', cells: { elevation_m: '1.6', sigma_m: '0.04' } },
      { level: 'MHHW', cells: { elevation_m: '1.2' } },
    ],
    unread: [],
  });
  assert.deepEqual(pastedLevels('-1.1\n-1.6', { level: 'LAT', entry: 'elevation_m' }, SHOWN)?.unread, [
    { line: 2, text: '-1.6' },
  ]);
  assert.deepEqual(pastedLevels('MHW 1.0\nHigh tide 2.0', AT, SHOWN)?.unread, [
    { line: 2, text: 'High tide 2.0' },
  ]);
  assert.equal(pastedLevels('1.6', AT, SHOWN), null);
});

test('levels are shown from the highest down: the usual ones, and those that are known or asked for', () => {
  assert.deepEqual(shownLevels(new Set(['MTL']), new Set(['MHWS'])), [
    'HAT',
    'MHHW',
    'MHWS',
    'MHW',
    'MTL',
    'MSL',
    'MLW',
    'MLLW',
    'LAT',
  ]);
});
