/** What each part of the plan says: first the usual evening, then what is missing and what must not be passed over. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { nextPart, type Part, readiness } from './part.ts';
import { gear, hazards, heights, howDeep, tide, where, who } from './parts-of.ts';

const said = ({ state, says, fact }: Part): string => `${state}: ${says}; ${fact}`;

const PLACED = { hole: 'P1', position: '46° 24.660′ S, 121° 18.780′ W', others: 0 };
const REFERENCE = { value: 2.064, sigma: 0.0123 };
const LEVELLED = { hole: 'P1', reference: REFERENCE, datum: 'MSL', isDraft: false, open_loops: [] };
const DRY = {
  water: 'high water 16:52, +0.88',
  hasAccess: true,
  leave_by: '15:05',
  isOtherDay: false,
  isCut: false,
};
const PACKED = { needsPipe: true, target_m: 9.6, reach_m: 14.31, short: [], unpacked: 0 };
const CREW = {
  crew: 'geologist, driller, hand',
  emergency_contact: 'coast guard',
  contacts: 'harbour office',
};
const SAFE = { dangers: [], stops: [], warnings: [], open: 0, asked: 13, void_day: null };

const evening = (changes: Partial<Record<Part['key'], Part>> = {}): Part[] =>
  [
    where(PLACED),
    howDeep({ hole: 'P1', target_m: 9.6, reach_m: 14.31 }),
    heights(LEVELLED),
    tide(DRY),
    gear(PACKED),
    who(CREW),
    hazards(SAFE),
  ].map((part) => changes[part.key] ?? part);

test('an evening with everything in place is ready, and says what holds', () => {
  assert.deepEqual(evening().map(said), [
    'done: P1; 46° 24.660′ S, 121° 18.780′ W',
    'done: 9.60 m; P1; pipe 4.71 m spare',
    // 2 sigma, as everywhere on a screen.
    'done: P1 levelled; +2.06 ±0.02 m MSL',
    'done: leave by 15:05; high water 16:52, +0.88',
    'done: at hand; pipe reaches 14.31 m',
    'done: 3 people; geologist, driller, hand',
    'done: all answered; 13 questions',
  ]);
  assert.equal(nextPart(evening()), null);
  assert.deepEqual(readiness(evening(), 'P1'), {
    isReady: true,
    isStopped: false,
    words: 'Ready to drill P1',
  });
});

test('an empty campaign begins with a hole; what follows from it is not asked for twice', () => {
  const nothing: Part[] = [
    where({ hole: null, position: null, others: 0 }),
    howDeep({ hole: null, target_m: null, reach_m: null }),
    heights({ ...LEVELLED, hole: null, reference: null }),
    tide({ ...DRY, water: null, hasAccess: false, leave_by: '' }),
    gear({ ...PACKED, target_m: null, reach_m: null }),
    who({ crew: '', emergency_contact: '', contacts: '' }),
    hazards({ ...SAFE, open: 9, asked: 9 }),
  ];
  assert.equal(nextPart(nothing)?.key, 'where');
  assert.deepEqual(
    nothing.map(({ state }) => state),
    Array(7).fill('open'),
  );
  assert.equal(readiness(nothing, null).words, 'Not ready: a hole, leave-by time, pipe, crew and 1 more');
});

test('what stops is never ready, whatever else is done, and is named before what is open', () => {
  const parts = evening({
    hazards: hazards({
      ...SAFE,
      dangers: ['Overhead line not clear'],
      stops: ['buried services'],
      open: 2,
    }),
    heights: heights({ ...LEVELLED, isDraft: true }),
  });
  assert.deepEqual(readiness(parts, 'P1'), {
    isReady: false,
    isStopped: true,
    words: 'Not ready: Overhead line not clear, buried services, 2 of 13 questions, level loop',
  });
  assert.equal(said(parts[6]!), 'stop: 2 to stop, 2 open; Overhead line not clear, buried services');
  // One answer is no reason to forget the loop that comes before it.
  assert.equal(nextPart(parts)?.says, 'finish level loop');
});

test('a leave-by time when the route is closed stops; without a tide it is a caution', () => {
  assert.equal(said(tide({ ...DRY, isCut: true })), 'stop: closed at 15:05; high water 16:52, +0.88');
  assert.equal(said(tide({ ...DRY, water: null })), 'caution: leave by 15:05; tide not known');
  assert.equal(said(tide({ ...DRY, leave_by: '' })), 'open: set leave-by; high water 16:52, +0.88');
  assert.equal(said(tide({ ...DRY, leave_by: '', hasAccess: false })).slice(0, 16), 'open: set access');
  // A time that was typed is checked against nothing where no access is set.
  const unchecked = tide({ ...DRY, hasAccess: false });
  assert.equal(said(unchecked), 'caution: leave by 15:05; access not set: not checked');
  const stale = tide({ ...DRY, isOtherDay: true });
  assert.equal(said(stale), 'open: set leave-by again; entered for another day');
  assert.equal(readiness(evening({ tide: stale }), 'P1').words, 'Not ready: leave-by time of this day');
});

test('pipe too short is rounded up, what it reaches is rounded down', () => {
  // 9.6 m − 9.583 m = 0.017 m: 0.02 m short, never 0.01.
  assert.equal(said(gear({ ...PACKED, reach_m: 9.583 })), 'caution: pipe 0.02 m short; pipe reaches 9.58 m');
  assert.equal(said(gear({ ...PACKED, reach_m: null })), 'open: record the pipe; ');
  // A hole by hand needs none.
  assert.equal(said(gear({ ...PACKED, needsPipe: false, reach_m: null })), 'done: at hand; ');
  assert.equal(
    said(gear({ ...PACKED, short: ['cable', 'water', 'fuel'] })).slice(0, 42),
    'caution: short: cable, water and 1 more; p',
  );
});

test('one person alone, nobody ashore, or no emergency contact are said', () => {
  assert.equal(said(who({ ...CREW, crew: 'geologist' })), 'caution: 1 person; no one should work alone');
  assert.equal(said(who({ ...CREW, contacts: ' ' })), 'caution: 3 people; no contact ashore');
  assert.equal(said(who({ ...CREW, emergency_contact: '' })).slice(0, 23), 'open: emergency contact');
});

test('a loop that does not close is a caution with its name', () => {
  const part = heights({ ...LEVELLED, open_loops: ['loop 2'] });
  assert.equal(said(part), 'caution: check loop 2; +2.06 ±0.02 m MSL');
  assert.equal(readiness(evening({ heights: part }), 'P1').words, 'Ready to drill P1; check: loop 2');
});

test('a day that is past, or has no date, makes nothing ready, whatever was answered on it', () => {
  const past = hazards({ ...SAFE, void_day: '2024-03-04 is past' });
  assert.equal(said(past), 'open: 2024-03-04 is past; ');
  assert.equal(readiness(evening({ hazards: past }), 'P1').words, 'Not ready: 2024-03-04 is past');
  // No question can be asked of a day without a date: none open is not all answered.
  const undated = hazards({ ...SAFE, asked: 0, void_day: 'the day has no date' });
  assert.equal(readiness(evening({ hazards: undated }), 'P1').words, 'Not ready: the day has no date');
  const both = hazards({ ...SAFE, dangers: ['Somebody works alone'], void_day: '2024-03-04 is past' });
  assert.equal(
    readiness(evening({ hazards: both }), 'P1').words,
    'Not ready: Somebody works alone, 2024-03-04 is past',
  );
});
