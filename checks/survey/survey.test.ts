import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { geodesic, onLine, reduceLoop } from '@stillstand/science/survey';
import geographic from 'geographiclib-geodesic';

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

/** Latitude and longitude of two places, where a way between them is easy and where it is not. */
const PLACES: Record<string, (random: () => number) => [number, number, number, number]> = {
  anywhere: (u) => [180 * u() - 90, 360 * u() - 180, 180 * u() - 90, 360 * u() - 180],
  'with longitudes of any turn': (u) => [180 * u() - 90, 1440 * u() - 720, 180 * u() - 90, 1440 * u() - 720],
  'within a site': (u) => beside(160 * u() - 80, 360 * u() - 180, u, -9, 0),
  'nearly opposite': (u) => {
    const [latitude, longitude, near, east] = beside(179 * u() - 89.5, 360 * u() - 180, u, -9, -0.4);
    return [latitude, longitude, -near, east + 180];
  },
  'along the equator': (u) => [0, 0, 0, 180 * u()],
  'beside the equator': (u) => [beside(0, 0, u, -15, 0)[2], 0, beside(0, 0, u, -15, 0)[2], 180 * u()],
  'beside the equator, nearly opposite': (u) => [
    beside(0, 0, u, -12, 0)[2],
    0,
    beside(0, 0, u, -12, 0)[2],
    179 + u(),
  ],
  'along a meridian': (u) => [180 * u() - 90, 10, 180 * u() - 90, u() < 0.5 ? 10 : -170],
  'near the poles': (u) => [
    90 - 10 ** (-12 + 12 * u()),
    360 * u(),
    (90 - 10 ** (-12 + 12 * u())) * (u() < 0.5 ? 1 : -1),
    360 * u(),
  ],
  'from a pole': (u) => [u() < 0.5 ? 90 : -90, 360 * u(), 180 * u() - 90, 360 * u()],
  'mirrored in the equator': (u) => {
    const latitude = 90 * u();
    return [latitude, 0, u() < 0.5 ? latitude : -latitude, 360 * u()];
  },
};

/** A place, and one beside it by a power of ten of degrees. */
function beside(
  latitude: number,
  longitude: number,
  u: () => number,
  least: number,
  most: number,
): [number, number, number, number] {
  const size = 10 ** (least + (most - least) * u());
  return [latitude, longitude, latitude + size * (u() - 0.5), longitude + size * (u() - 0.5)];
}

// The author's own library, by series where ours has Gauss's rule; either claims 15 nm.
for (const [where, places] of Object.entries(PLACES)) {
  test(`geodesics ${where}: within 20 nm of the author's library, at their end and beside it`, () => {
    const stream = randomStream(`geodesics ${where}`);
    for (let i = 0; i < 3000; i++) {
      const [lat1, lon1, lat2, lon2] = places(stream.uniform);
      const ours = geodesic(
        { latitude_deg: lat1, longitude_deg: lon1 },
        { latitude_deg: lat2, longitude_deg: lon2 },
      );
      const theirs = geographic.Geodesic.WGS84.Inverse(lat1, lon1, lat2, lon2, geographic.Geodesic.ALL);
      const what = `${lat1} ${lon1} ${lat2} ${lon2}: ${ours.distance_m} ${theirs.s12}`;
      assert.ok(Math.abs(ours.distance_m - theirs.s12!) < 2e-8, what);
      const turn = ((((ours.azimuth_deg - theirs.azi1!) % 360) + 540) % 360) - 180;
      // Near the place opposite, a way may start in many directions: how far it ends aside is what counts.
      const aside = Math.abs((turn * Math.PI) / 180) * Math.min(theirs.s12!, Math.abs(theirs.m12!));
      assert.ok(aside < 2e-8, `${what}, ${ours.azimuth_deg} ${theirs.azi1}, ${aside} m`);
    }
  });
}

test('geodesics: a latitude of whatever smallness, down to one whose square is no number, is the equator', () => {
  const west = { latitude_deg: 0, longitude_deg: -9e-5 };
  // An arc of the equator: its radius times the angle (WGS 84, NIMA TR8350.2).
  const arc_m = (6_378_137 * 9e-5 * Math.PI) / 180;
  for (const latitude_deg of [5e-324, 1e-310, -1e-200, 1e-160, -1e-100, 1e-20]) {
    const near = { latitude_deg, longitude_deg: 0 };
    for (const [from, to] of [
      [near, west],
      [west, near],
      [near, { ...west, latitude_deg: -latitude_deg }],
    ] as const) {
      const { distance_m } = geodesic(from, to);
      assert.ok(Math.abs(distance_m - arc_m) < 1e-9, `${latitude_deg}: ${distance_m}`);
    }
  }
});

test('geodesics: a position that is none has no way', () => {
  const here = { latitude_deg: 10, longitude_deg: 20 };
  for (const none of [
    { latitude_deg: 90.001, longitude_deg: 0 },
    { latitude_deg: Number.NaN, longitude_deg: 0 },
    { latitude_deg: 0, longitude_deg: Number.NaN },
    { latitude_deg: 0, longitude_deg: Number.POSITIVE_INFINITY },
  ]) {
    assert.ok(
      Number.isNaN(geodesic(here, none).distance_m) && Number.isNaN(geodesic(none, here).azimuth_deg),
    );
  }
  assert.equal(geodesic(here, { latitude_deg: 10, longitude_deg: 380 }).distance_m, 0);
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

test('height of collimation: a printed sheet, its sums, levels and misclosure', () => {
  // Worked sheet of a course in surveying, civil.eng.usm.my (JSSUAE1), metres: back, intermediate, fore, collimation, level,
  // adjustment in mm. Its intermediate sights take the adjustment of the set-up that they stand in, ours that of the
  // change point before; its change points are adjusted by set-up, as ours are where no distance is written.
  const sheet = [
    ['OBM1', 1.717, null, null, 30.947, 29.23, 0],
    ['A', null, 1.432, null, null, 29.515, null],
    ['B', 2.918, null, 1.716, 32.149, 29.231, -2],
    ['C', null, 2.272, null, null, 29.877, null],
    ['D', 0.816, null, 0.953, 32.012, 31.196, -4],
    ['E', 1.436, null, 3.005, 30.443, 29.007, -6],
    ['CP', 1.246, null, 1.391, 30.298, 29.052, -8],
    ['F', null, 1.353, null, null, 28.945, null],
    ['G', null, 1.462, null, null, 28.836, null],
    ['OBM2', null, null, 0.628, null, 29.67, -10],
  ] as const;
  const loop = reduceLoop(
    sheet.map(([point, backsight_m, intermediate_m, foresight_m]) => ({
      row_id: point,
      point,
      backsight_m,
      intermediate_m,
      foresight_m,
      distance_m: null,
    })),
    [
      { point: 'OBM1', elevation_m: 29.23, sigma_m: 0 },
      { point: 'OBM2', elevation_m: 29.66, sigma_m: 0 },
    ],
  );
  for (const [i, [point, , , , collimation, level, adjustment]] of sheet.entries()) {
    const line = loop.lines[i]!;
    assert.equal(line.reduced_m!.toFixed(3), level.toFixed(3), point);
    assert.equal(line.collimation_m?.toFixed(3) ?? null, collimation?.toFixed(3) ?? null, point);
    if (adjustment !== null)
      assert.equal(Math.round((line.adjusted_m! - line.reduced_m!) * 1000) + 0, adjustment, point);
  }
  assert.equal(loop.sums.back_m.toFixed(3), '8.133');
  assert.equal(loop.sums.fore_m.toFixed(3), '7.693');
  // Rises 0.285 + 0.646 + 1.319 + 0.045 + 0.834, falls 0.284 + 2.189 + 0.107 + 0.109, added by hand.
  assert.equal(loop.sums.rise_m.toFixed(3), '3.129');
  assert.equal(loop.sums.fall_m.toFixed(3), '2.689');
  for (const sum of [loop.check.sights_m, loop.check.rises_m, loop.check.levels_m])
    assert.equal(sum.toFixed(3), '0.440');
  assert.equal(loop.check.agrees, true);
  assert.equal(loop.closures[0]!.misclosure_m.toFixed(3), '0.010');
  assert.deepEqual([loop.setups, loop.isOpen], [5, false]);
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
