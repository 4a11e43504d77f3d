/** The geometry of a strip against sums by hand, and back again. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import {
  type Matrix,
  reachOnPicture,
  type Strip,
  sliceTransform,
  stripCorners,
  stripPlace,
} from './index.ts';

const mark = (x_px: number, y_px: number, at_m: number) => ({ x_px, y_px, at_m });
/** Pixels; and parts of one for numbers that are exact but for rounding. */
const PIXEL = 1e-6;

const near = (found: number, expected: number, within = PIXEL) =>
  assert.ok(Math.abs(found - expected) <= within, `${found}, expected ${expected}`);

const nearPoint = (found: { x_px: number; y_px: number }, x: number, y: number) => {
  near(found.x_px, x);
  near(found.y_px, y);
};

test('an upright core: down the page is down the core, and right is right', () => {
  const place = stripPlace(mark(500, 100, 0), mark(500, 1100, 0.5))!;
  assert.equal(place.px_per_m, 2000);
  nearPoint(place.toPicture({ along_m: 0.25, across_m: 0.03 }), 560, 600);
});

test('a core lying with its top at the left: the upper edge of the picture is right', () => {
  const place = stripPlace(mark(100, 400, 0), mark(1100, 400, 1))!;
  // 0.2 m down is 200 px to the right; 30 mm to the right, top up, is 30 px up the page.
  nearPoint(place.toPicture({ along_m: 0.2, across_m: 0.03 }), 300, 370);
});

test('a turned core with its deeper mark first: 3-4-5 by hand', () => {
  // From 1.5 m at (400, 600) up to 1 m at (100, 200): 500 px for 0.5 m, down the core is (0.6, 0.8).
  const place = stripPlace(mark(400, 600, 1.5), mark(100, 200, 1))!;
  near(place.px_per_m, 1000);
  near(place.down.x, 0.6);
  near(place.down.y, 0.8);
  near(place.right.x, 0.8);
  near(place.right.y, -0.6);
  // 0.1 m below 1 m: 100 px along (0.6, 0.8); 50 mm to the right: 50 px along (0.8, −0.6).
  nearPoint(place.toPicture({ along_m: 1.1, across_m: 0.05 }), 200, 250);
});

test('marks at one place or of one depth fix no scale', () => {
  assert.equal(stripPlace(mark(5, 5, 0), mark(5, 5, 1)), null);
  assert.equal(stripPlace(mark(5, 5, 1), mark(5, 9, 1)), null);
  assert.equal(stripPlace(mark(5, 5, 1), mark(Number.NaN, 9, 2)), null);
});

/** Lying, top at the left, 1,000 px/m; the core is 80 mm wide, its middle 100 mm below the tape on the page. */
const lying: Strip = {
  top_m: 0.1,
  bottom_m: 0.9,
  mark_1: mark(100, 200, 0),
  mark_2: mark(1100, 200, 1),
  width_m: 0.08,
  offset_m: -0.1,
};

test('the corners of a strip with the tape alongside, by hand', () => {
  const corners = stripCorners(lying)!;
  // Down the page is left of a core that lies to the right: its left side is 140 px below the tape, its right 60 px.
  const expected = [
    [200, 340],
    [200, 260],
    [1000, 260],
    [1000, 340],
  ] as const;
  for (const [i, [x, y]] of expected.entries()) nearPoint(corners[i]!, x, y);
});

const put = ({ a, b, c, d, e, f }: Matrix, x: number, y: number) => [a * x + c * y + e, b * x + d * y + f];

test('a slice fills its box: corners of the core land on corners of the paper', () => {
  const slice = { from_m: 0.1, to_m: 0.9 };
  const m = sliceTransform(lying, slice, { left: 50, top: 10, right: 66, bottom: 410 })!;
  const expected = [
    [50, 10],
    [66, 10],
    [66, 410],
    [50, 410],
  ] as const;
  for (const [i, { x_px, y_px }] of stripCorners(lying)!.entries()) {
    const [x, y] = put(m, x_px, y_px);
    near(x!, expected[i]![0]);
    near(y!, expected[i]![1]);
  }
  assert.equal(sliceTransform(lying, { from_m: 1, to_m: 1 }, { left: 0, top: 0, right: 1, bottom: 1 }), null);
});

test('what of a strip is on the picture, by hand', () => {
  // The picture ends at 800 px, 0.7 m along the core, and begins at 0 px.
  const reach = reachOnPicture(lying, { width_px: 800, height_px: 600 })!;
  near(reach.from_m, 0.1);
  near(reach.to_m, 0.7);
  assert.equal(
    reachOnPicture(lying, { width_px: 800, height_px: 300 }),
    null,
    'its left side runs off below',
  );
  assert.equal(reachOnPicture(lying, { width_px: 150, height_px: 600 }), null, 'it begins beyond the edge');
});

const anyMark = fc.record({
  x_px: fc.double({ min: 0, max: 8000, noNaN: true }),
  y_px: fc.double({ min: 0, max: 8000, noNaN: true }),
  at_m: fc.double({ min: 0, max: 20, noNaN: true }),
});

test('any marks: from the core to the picture and back is where it was', () => {
  fc.assert(
    fc.property(
      anyMark,
      anyMark,
      fc.double({ min: -1, max: 21, noNaN: true }),
      fc.double({ min: -0.5, max: 0.5, noNaN: true }),
      (one, two, along_m, across_m) => {
        const apart = Math.hypot(two.x_px - one.x_px, two.y_px - one.y_px);
        fc.pre(apart > 1 && Math.abs(two.at_m - one.at_m) > 0.001);
        const place = stripPlace(one, two)!;
        const back = place.toCore(place.toPicture({ along_m, across_m }));
        near(back.along_m, along_m, 1e-6);
        near(back.across_m, across_m, 1e-6);
        // Each mark is where it was set, and right is a quarter turn from down.
        nearPoint(place.toPicture({ along_m: two.at_m, across_m: 0 }), two.x_px, two.y_px);
        near(place.down.x * place.right.x + place.down.y * place.right.y, 0);
        near(place.right.x * place.down.y - place.right.y * place.down.x, 1);
      },
    ),
  );
});
