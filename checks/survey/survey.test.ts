import assert from 'node:assert/strict';
import { test } from 'node:test';
import { geodesic, onLine, reduceLoop } from '@stillstand/science/survey';

// Karney, C.F.F. (2010), test set for geodesics, doi 10.5281/zenodo.32156, as carried in the tests of
// geographiclib-geodesic 2.2.0 (MIT): latitude, longitude, azimuth, latitude, longitude, distance.
const KARNEY = [
  [35.60777, -139.44815, 111.09874842956033, -11.17491, -69.95921, 8935244.56048183],
  [55.52454, 106.05087, 22.0200598809828, 77.03196, 197.18234, 4105086.171392441],
  [-21.97856, 142.59065, -32.44456876433189, 41.84138, 98.56635, 8394328.894657671],
  [-68.82867, -74.28391, 93.77434776311487, -50.63005, -8.36685, 3956936.926063544],
] as const;

test('geodesics: published lines to 10 nm and 1e-12°', () => {
  for (const [lat1, lon1, azimuth, lat2, lon2, distance] of KARNEY) {
    const line = geodesic(
      { latitude_deg: lat1, longitude_deg: lon1 },
      { latitude_deg: lat2, longitude_deg: lon2 },
    );
    assert.ok(Math.abs(line.distance_m - distance) < 1e-8);
    assert.ok(Math.abs(line.azimuth_deg - azimuth) < 1e-12);
  }
});

test('section: the plane triangle against the foot found on the ellipsoid by search', () => {
  const start = { latitude_deg: -40, longitude_deg: 100 };
  for (const [distance, tolerance] of [
    [5_000, 1e-3],
    [15_000, 1e-2],
  ] as const) {
    // a point 30° off the line; walk the line (itself a geodesic) for the nearest place
    const hole = at(start, 80, distance);
    let low = 0;
    let high: number = distance;
    const far = (s: number) => geodesic(at(start, 50, s), hole).distance_m;
    for (let i = 0; i < 80; i++) {
      const a = low + (high - low) / 3;
      const b = high - (high - low) / 3;
      if (far(a) < far(b)) high = b;
      else low = a;
    }
    const place = onLine(start, 50, hole);
    assert.ok(Math.abs(place.along_m - low) < tolerance, `${place.along_m} ${low}`);
    assert.ok(Math.abs(place.offset_m - far(low)) < tolerance);
  }
});

/** End of a geodesic, by Newton on the door's own inverse: the door has no direct problem. */
function at(from: { latitude_deg: number; longitude_deg: number }, azimuth: number, distance: number) {
  const rad = Math.PI / 180;
  const guess = { ...from };
  for (let i = 0; i < 20; i++) {
    const back = geodesic(from, guess);
    const n = distance * Math.cos(azimuth * rad) - back.distance_m * Math.cos(back.azimuth_deg * rad);
    const e = distance * Math.sin(azimuth * rad) - back.distance_m * Math.sin(back.azimuth_deg * rad);
    guess.latitude_deg += n / 111_000;
    guess.longitude_deg += e / (111_300 * Math.cos(guess.latitude_deg * rad));
  }
  return guess;
}

test('rise and fall: a printed level book', () => {
  // Worked example of civinnovate.com/2026/06/23/levelling-explanation-75 (metres). Its last line calls the step from
  // 2.165 to 1.720 a fall and prints 100.415; by its own Σ back − Σ fore = 1.305 it is a rise, to 101.305.
  const line = (point: string, b: number | null, i: number | null, f: number | null) => ({
    row_id: point,
    point,
    backsight_m: b,
    intermediate_m: i,
    foresight_m: f,
    distance_m: null,
  });
  const loop = reduceLoop(
    [
      line('BM', 1.855, null, null),
      line('A', null, 2.41, null),
      line('B', null, 1.28, null),
      line('CP1', 2.165, null, 0.995),
      line('C', null, null, 1.72),
    ],
    [{ point: 'BM', elevation_m: 100, sigma_m: 0 }],
  );
  const printed = [100, 99.445, 100.575, 100.86, 101.305];
  loop.lines.forEach((l, i) => {
    assert.ok(Math.abs(l.reduced_m! - printed[i]!) < 1e-9);
  });
  assert.ok(Math.abs(loop.check.sights_m - 1.305) < 1e-9);
  assert.equal(loop.check.agrees, true);
});

test('third-order limits: 2.4, 12.0, 19.0 and 37.9 mm at 0.04, 1, 2.5 and 10 km', () => {
  // FGCC 1984, 12 mm·√km.
  for (const [km, mm] of [
    [0.04, 2.4],
    [1, 12],
    [2.5, 19],
    [10, 37.9],
  ] as const) {
    const base = { row_id: '', point: 'BM', backsight_m: null, intermediate_m: null };
    const loop = reduceLoop(
      [
        { ...base, backsight_m: 1, foresight_m: null, distance_m: null },
        { ...base, foresight_m: 1, distance_m: km * 1000 },
      ],
      [{ point: 'BM', elevation_m: 0, sigma_m: 0 }],
    );
    assert.ok(Math.abs(loop.closures[0]!.allowed_m * 1000 - mm) < 0.06);
  }
});
