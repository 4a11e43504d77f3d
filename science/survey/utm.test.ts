/** Grid coordinates to places on the ellipsoid. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { geodesic } from './geodesic.ts';
import { fromUtm } from './utm.ts';

const NANODEGREE = 1e-9;

test('the equator, a central meridian and the pole are where they are', () => {
  const middle = fromUtm({ easting_m: 500_000, northing_m: 0, zone: 17, hemisphere: 'N' })!;
  assert.deepEqual([middle.latitude_deg, middle.longitude_deg], [0, -81]);
  // A quarter of the meridian of WGS 84 is 10,001,965.729 m (standards), the grid 0.9996 of it.
  const pole = fromUtm({
    easting_m: 500_000,
    northing_m: 0.9996 * 10_001_965.729,
    zone: 31,
    hemisphere: 'N',
  })!;
  assert.ok(Math.abs(pole.latitude_deg - 90) < 1e-6);
  const south = fromUtm({ easting_m: 500_000, northing_m: 10_000_000, zone: 1, hemisphere: 'S' })!;
  assert.deepEqual([south.latitude_deg, south.longitude_deg], [0, -177]);
});

test('a metre of the grid is a metre over the scale of the place, north and south alike', () => {
  for (const [easting_m, scale] of [
    [500_000, 0.9996],
    // k = k0·(1 + x²/2R²) for x = 180 km, R = 6,378 km at this latitude: 0.9996 × 1.000398.
    [320_000, 0.999998],
  ] as const) {
    const at = (east: number, north: number, hemisphere: 'N' | 'S') =>
      fromUtm({ easting_m: east, northing_m: north, zone: 50, hemisphere })!;
    const here = at(easting_m, 3_500_000, 'N');
    for (const there of [at(easting_m + 1000, 3_500_000, 'N'), at(easting_m, 3_501_000, 'N')]) {
      const { distance_m } = geodesic(here, there)!;
      assert.ok(Math.abs(distance_m - 1000 / scale) < 0.005, `${distance_m}`);
    }
    const mirrored = at(easting_m, 6_500_000, 'S');
    assert.ok(Math.abs(mirrored.latitude_deg + here.latitude_deg) < NANODEGREE);
    assert.ok(Math.abs(mirrored.longitude_deg - here.longitude_deg) < NANODEGREE);
  }
});

test('what is no place of a zone has none', () => {
  const place = { easting_m: 472_066, northing_m: 3_479_335, zone: 17, hemisphere: 'N' } as const;
  for (const wrong of [
    { zone: 0 },
    { zone: 61 },
    { zone: 1.5 },
    { easting_m: 81 },
    { northing_m: -1 },
    { easting_m: Number.NaN },
  ])
    assert.equal(fromUtm({ ...place, ...wrong }), null);
});
