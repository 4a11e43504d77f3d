import assert from 'node:assert/strict';
import { test } from 'node:test';
import { carriedOver, sameAsBefore } from './carried-over.ts';

const day = (cells: Record<string, string>) => ({ cells });
const FIRST = day({ date: '2024-03-04', crew: 'geologist', contacts: 'office' });
const SECOND = day({
  date: '2024-03-05',
  crew: 'geologist, driller ',
  permits: 'shore licence, driller carries it',
  contacts: '',
  emergency_contact: 'coast guard, channel 16',
  emergency_position: 'gate 4',
  weather: 'calm',
  leave_by: '2024-03-05T15:40+08:00',
  access: 'boat',
});

test('a new day begins with people, permits and places of the day before it, not with its weather and leave-by', () => {
  assert.deepEqual(carriedOver([SECOND, FIRST], '2024-03-07'), {
    crew: 'geologist, driller',
    permits: 'shore licence, driller carries it',
    emergency_contact: 'coast guard, channel 16',
    emergency_position: 'gate 4',
  });
  // A day put in between takes the one before it, not the last.
  assert.deepEqual(carriedOver([FIRST, SECOND], '2024-03-05'), { crew: 'geologist', contacts: 'office' });
  assert.deepEqual(carriedOver([FIRST, SECOND], '2024-03-04'), {});
});

test('what still reads as the day before is named until it is changed', () => {
  const third = day({ date: '2024-03-06', crew: 'geologist, driller', permits: 'none', contacts: '' });
  assert.deepEqual(sameAsBefore([FIRST, SECOND, third], third), { date: '2024-03-05', columns: ['crew'] });
  assert.equal(sameAsBefore([FIRST], FIRST), null);
  assert.equal(sameAsBefore([FIRST, SECOND], day({ date: '2024-03-06', crew: 'another' })), null);
});
