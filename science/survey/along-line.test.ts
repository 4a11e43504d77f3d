/** Lines that bend at their holes: lengths from the radius of the equator, closed form (WGS 84). */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { bentLine } from './along-line.ts';

/** 1° of longitude on the equator: 6,378,137 m × π / 180. */
const DEGREE_M = (6_378_137 * Math.PI) / 180;
/** 1° of latitude at the equator: radius of the meridian a(1 − e²) × π / 180. */
const NORTH_M = (6_378_137 * (1 - 0.00669437999014) * Math.PI) / 180;
const at = (east_m: number, north_m: number) => ({
  latitude_deg: north_m / NORTH_M,
  longitude_deg: east_m / DEGREE_M,
});
const near = (a: number, b: number): void => assert.ok(Math.abs(a - b) < 1e-3, `${a}, not ${b}`);

test('length along the corners, and places to the right and to the left of the way', () => {
  // East, then north.
  const line = bentLine([at(0, 0), at(300, 0), at(300, 400)]);
  near(line.length_m, 700);
  assert.deepEqual(line.corners_m.map(Math.round), [0, 300, 700]);
  const south = line.placeOf(at(100, -20));
  near(south.along_m, 100);
  near(south.offset_m, 20);
  const west = line.placeOf(at(270, 200));
  near(west.along_m, 500);
  near(west.offset_m, -30);
  assert.deepEqual(line.crossings, []);
});

test('inside a bend a place is on the nearer piece, outside it at the corner', () => {
  const line = bentLine([at(0, 0), at(100, 0), at(100, 100)]);
  near(line.placeOf(at(90, 20)).along_m, 120);
  const outside = line.placeOf(at(130, -40));
  near(outside.along_m, 100);
  near(Math.abs(outside.offset_m), 50);
});

test('beyond its ends the line goes straight on, and how far off is to its end', () => {
  const line = bentLine([at(0, 0), at(100, 0)]);
  const before = line.placeOf(at(-30, 40));
  near(before.along_m, -30);
  near(before.offset_m, -50);
  near(line.placeOf(at(160, 0)).along_m, 160);
});

test('pieces that cross are named; those that share a corner do not', () => {
  assert.deepEqual(bentLine([at(0, 0), at(100, 100), at(100, 0), at(0, 100)]).crossings, [[0, 2]]);
  assert.deepEqual(bentLine([at(0, 0), at(100, 0), at(50, 0)]).crossings, []);
});

test('one corner, corners at one place, none', () => {
  const one = bentLine([at(0, 0)]);
  assert.deepEqual([one.length_m, one.crossings], [0, []]);
  near(one.placeOf(at(3, 4)).offset_m, 5);
  const same = bentLine([at(0, 0), at(0, 0)]);
  assert.equal(same.length_m, 0);
  near(Math.abs(same.placeOf(at(3, 4)).offset_m), 5);
  assert.throws(() => bentLine([]), RangeError);
});
