/** The page of a day: nothing runs in it, what is cut is said to be, and text of a campaign is text. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { DayFacts } from '@stillstand/campaign/holes';
import { daySheetHtml } from './index.ts';

const QUIET: DayFacts = {
  date: '2024-06-11',
  campaign: '',
  crew: '',
  weather: '',
  contacts: '',
  leave_by: '',
  recorders: [],
  holes: [],
  driven_m: 0,
  recovered_m: 0,
  unmeasured: 0,
  pipe: { went_in: [], came_out: [], in_string: [], not_back: [], undated: [] },
  open: [],
  permits: [],
  events: [],
  calls: [],
  stops: [],
  instruments: [],
  plan_next: '',
  undated: 0,
  unusable: 0,
};

test('a day on which nothing was read says so, and has lines to write on', () => {
  const html = daySheetHtml(QUIET);
  assert.match(html, /^<!doctype html>\n/);
  for (const words of [
    'Campaign without a name',
    'No reading at any hole has this date.',
    'Plan for the next day',
    'Signed',
  ])
    assert.ok(html.includes(words), words);
  assert.equal([...html.matchAll(/None recorded\./g)].length, 4);
  assert.doesNotMatch(html, /<script|undefined|null|NaN/);
});

test('a full day is cut, and what is cut is counted', () => {
  const many = <T>(count: number, item: (i: number) => T): T[] =>
    Array.from({ length: count }, (_, i) => item(i));
  const html = daySheetHtml({
    ...QUIET,
    campaign: '<script>alert(1)</script>',
    holes: many(10, (i) => ({
      hole: `H${i}`,
      state: 'open',
      started: '08:00',
      ended: null,
      driven_m: 1.005,
      reached_m: 9,
      runs: many(15, (r) => ({ label: `R${r + 1}`, recovered_m: r === 14 ? null : 0.5 })),
    })),
    open: many(9, (i) => ({ level: 'danger' as const, words: `${i} ${'x'.repeat(400)}` })),
    permits: many(5, (i) => ({ level: 'stop' as const, words: `Licence ${i}: expired` })),
    undated: 3,
    unusable: 1,
  });
  assert.doesNotMatch(html, /<script>/);
  for (const words of [
    '5 more in the log',
    '4 more in the problem list',
    'Licence 2: expired',
    '2 more in Plan',
    '12 before, R13 0.50',
    'R15 not measured',
    '3 readings without a time',
    '1 row of the campaign cannot be used',
  ])
    assert.ok(html.includes(words), words);
  assert.doesNotMatch(html, /x{51}/);
});
