import assert from 'node:assert/strict';
import { test } from 'node:test';
import { profileOf } from './profile.ts';

const pairs = (pasted: string) => profileOf(pasted).places.map((p) => [p.distance_m, p.elevation_m]);

test('distance and elevation are read however their columns are parted', () => {
  const expected = [
    ['0', '1.2'],
    ['12.5', '-0.35'],
  ];
  for (const pasted of [
    '0\t1.2\n12.5\t-0.35',
    '0;1,2\n12,5;−0,35',
    '0 1.2\r\n12.5 -0.35\r\n',
    '0, 1.2\n12.5, -0.35',
    '0,1.2\n12.5,-0.35',
    'distance\televation\n0\t1.2\n\n12.5 m\t-0.35 m',
  ])
    assert.deepEqual(pairs(pasted), expected, pasted);
});

test('the first line that is no place is named, and those before it are kept', () => {
  const { places, fault } = profileOf('0 1.2\n5 unknown\n9 1.4');
  assert.equal(places.length, 1);
  assert.match(fault ?? '', /^Line 2: found 5 unknown, expected distance and elevation in metres/);
  assert.match(profileOf('3').fault ?? '', /^Line 1/);
  assert.deepEqual(profileOf(''), { places: [], fault: null });
});
