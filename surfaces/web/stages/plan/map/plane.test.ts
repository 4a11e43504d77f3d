import assert from 'node:assert/strict';
import { test } from 'node:test';
import { geodesic } from '@stillstand/science/survey';
import fc from 'fast-check';
import { degreesWords, graticuleStep, planeAround } from './plane.ts';

test('lengths on the map are the geodesics of the ellipsoid within 0.5 % 14 km from the middle, to 70° (seed 12)', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -70, max: 70, noNaN: true }),
      fc.double({ min: -180, max: 180, noNaN: true }),
      fc.double({ min: -10_000, max: 10_000, noNaN: true }),
      fc.double({ min: -10_000, max: 10_000, noNaN: true }),
      (latitude_deg, longitude_deg, east_m, north_m) => {
        const middle = { latitude_deg, longitude_deg };
        const length = Math.hypot(east_m, north_m);
        fc.pre(length > 10);
        const place = planeAround(middle).from({ east_m, north_m });
        const truth = geodesic(middle, place).distance_m;
        // Meridians converge: by the distance north over the radius times tan 70°, 0.43 % at 10 km.
        assert.ok(Math.abs(truth - length) / length < 0.005, `${truth} against ${length}`);
        const back = planeAround(middle).to(place);
        assert.ok(Math.hypot(back.east_m - east_m, back.north_m - north_m) < 1e-3);
      },
    ),
    { seed: 12, numRuns: 300 },
  );
});

test('degrees are written as the step asks', () => {
  const sides = ['N', 'S'] as const;
  assert.equal(degreesWords(-46.411111, 10 / 3600, sides), '46° 24′ 40″ S');
  assert.equal(degreesWords(10.5, 0.5, sides), '10° 30′ N');
  assert.equal(degreesWords(-3, 1, sides), '3° S');
  assert.equal(degreesWords(59.9999999, 1 / 3600, sides), '60° 00′ 00″ N');
  assert.equal(degreesWords(0, 1, sides), '0°');
});

test('steps are the longest that fit often enough', () => {
  assert.equal(graticuleStep(0.011, 3), 10 / 3600);
  assert.equal(graticuleStep(5, 3), 1);
});
