/** Positions as people write them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { geodesic, type Position } from '../geodesic.ts';
import { amongOthers, isFarOff } from './among-others.ts';
import { readPosition } from './read-position.ts';
import type { ReadPosition } from './reading.ts';

const SEED = 20261129;

function readings(text: string): readonly ReadPosition[] {
  const read = readPosition(text);
  assert.ok(read.ok, `${text}: ${read.ok ? '' : read.fix}`);
  return read.readings;
}
const lies = (text: string, latitude_deg: number, longitude_deg: number, within = 1e-6): ReadPosition => {
  const [first] = readings(text);
  assert.ok(Math.abs(first!.latitude_deg - latitude_deg) < within, `${text}: ${first!.latitude_deg}`);
  assert.ok(Math.abs(first!.longitude_deg - longitude_deg) < within, `${text}: ${first!.longitude_deg}`);
  return first!;
};
const fixOf = (text: string): string => {
  const read = readPosition(text);
  assert.ok(!read.ok, `${text} was read`);
  return read.fix;
};

test('one place in every writing', () => {
  // 24.653′ = 0.410883…°, 18.891′ = 0.31485°; 39.18″ = 0.653′, 53.46″ = 0.891′.
  for (const text of [
    '46° 24.653′ S 121° 18.891′ W',
    "46°24.653'S, 121°18.891'W",
    'S 46 24.653 W 121 18.891',
    '46 24.653 s 121 18.891 w',
    '46 24 39.18 S 121 18 53.46 W',
    '46°24′39.18″S 121°18′53.46″W',
    "46º24''39.18 S 121 18 53.46 W".replace("''", "'"),
    '46d24m39.18sS 121d18m53.46sW',
    '121° 18.891′ W; 46° 24.653′ S',
    '46°24,653′ S 121°18,891′ W',
    '−46 24.653, −121 18.891',
    'lat: -46 24.653 lon: -121 18.891',
    'Longitude -121 18.891 Latitude -46 24.653',
  ])
    lies(text, -46.410883333, -121.31485);
  lies('-46.41088, -121.31485', -46.41088, -121.31485);
  lies('−46,41088; −121,31485', -46.41088, -121.31485);
  lies('46.41088S 121.31485W', -46.41088, -121.31485);
});

test('a worked place: 40°26′46″ N 79°58′56″ W is 40.4461° N 79.9822° W', () => {
  // Wikipedia, Geographic coordinate conversion, the example of its section on degrees, minutes and seconds (from memory).
  lies('40°26′46″N 79°58′56″W', 40.446111, -79.982222);
  lies('40° 26.767′ N 79° 58.933′ W', 40.446117, -79.982217);
});

test('what a last digit counts', () => {
  assert.equal(
    Math.round(lies('46° 24.653′ S 121° 18.891′ W', -46.4109, -121.3149, 1e-3).resolution_m * 100),
    93,
  );
  assert.equal(lies('46.4 S 121.3 W', -46.4, -121.3).resolution_m, 5550);
  assert.equal(lies('10 south 475811 4860093', -46.4123, -123.3147, 1e-4).resolution_m, 0.5);
});

test('the grid: zone, hemisphere or band, in any order, and what may be two', () => {
  // EPSG Guidance Note 7-2 and the definition of the grid: the middle of a zone is 6·zone − 183°, easting 500,000 m.
  lies('31N 500000 0', 0, 3);
  lies('UTM zone 1 south, 500000, 10000000', 0, -177);
  const [one] = readings('10T 475811 4560093');
  for (const text of [
    '475811E 4560093N 10T',
    '10T N 4560093 E 475811',
    'utm 10 t 475811.0 m E 4560093.0 m N',
  ])
    assert.ok(geodesic(one!, readings(text)[0]!)!.distance_m < 1e-6, text);
  assert.match(one!.read_as, /^UTM zone 10 north, band T$/);
  // The band S is north of the equator; as a hemisphere it is the south.
  const two = readings('10S 475811 3860093');
  assert.deepEqual(
    two.map(({ latitude_deg, read_as }) => [Math.sign(latitude_deg), read_as]),
    [
      [-1, 'UTM zone 10 south'],
      [1, 'UTM zone 10 north, band S'],
    ],
  );
  assert.equal(readings('10S 475811 4860093').length, 1);
  assert.match(readings('10N 130000 5560093')[0]!.doubt ?? '', /^it lies 2\.\d° outside zone 10$/);
});

test('latitude first where nothing says which is which; the other order is kept', () => {
  assert.deepEqual(
    readings('52.1 4.9').map(({ latitude_deg, longitude_deg }) => [latitude_deg, longitude_deg]),
    [
      [52.1, 4.9],
      [4.9, 52.1],
    ],
  );
  // A latitude of 121° is none.
  assert.deepEqual(
    readings('-121.3 -46.4').map(({ latitude_deg, doubt }) => [latitude_deg, doubt]),
    [[-46.4, 'the longitude was taken to stand first']],
  );
  assert.equal(readings('52.1 N 4.9 E').length, 1);
});

test('what is no position says why', () => {
  assert.match(fixOf(''), /both coordinates/);
  assert.match(fixOf('46'), /latitude and longitude/);
  assert.match(fixOf('by the old pier'), /latitude and longitude/);
  assert.match(fixOf('46 61 S 121 18 W'), /below 60/);
  assert.match(fixOf('46.5 30 S 121 18 W'), /only the last part/);
  assert.match(fixOf('-46 S 121 W'), /a minus or a letter/);
  assert.match(fixOf('46 S 121 N'), /name the same direction/);
  assert.match(fixOf('52.1 N 4.9 O'), /write E or W/);
  assert.match(fixOf('91, 181'), /at most 90°/);
  assert.match(fixOf('N 46 E 61 30'), /as many parts/);
  assert.match(fixOf('10 475811 4860093'), /10 north or 10 south/);
  assert.match(fixOf('10T 475811 1860093'), /a band of latitude/);
  assert.match(fixOf('61N 475811 4860093'), /Zones are 1 to 60/);
  assert.match(fixOf('10N 4860093 475811'), /exchanged/);
});

test(`what is written of any place is read back within its last digit (seed ${SEED})`, () => {
  const angle = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
  fc.assert(
    fc.property(
      angle(90),
      angle(180),
      fc.integer({ min: 1, max: 3 }),
      fc.integer({ min: 0, max: 5 }),
      fc.boolean(),
      (lat, lon, parts, decimals, behind) => {
        const half = (deg: number, plus: string, minus: string): string => {
          const unit = 60 ** (parts - 1);
          const size = Number((Math.abs(deg) * unit).toFixed(decimals));
          const [whole, over] = [Math.floor(size / unit), size % unit];
          const last = (n: number) => n.toFixed(decimals);
          const words =
            parts === 1
              ? last(size)
              : parts === 2
                ? `${whole}° ${last(over)}′`
                : `${whole}° ${Math.floor(over / 60)}′ ${last(over % 60)}″`;
          const letter = deg < 0 ? minus : plus;
          return behind ? `${words} ${letter}` : `${letter} ${words}`;
        };
        const text = `${half(lat, 'N', 'S')}, ${half(lon, 'E', 'W')}`;
        const read = readPosition(text);
        // 59.9999… is written 60 by such a writer, which is no minute.
        if (!read.ok) return /60/.test(text) || assert.fail(`${text}: ${read.fix}`);
        const [first] = read.readings;
        const step = (1.01 * first.resolution_m) / 111_000;
        return Math.abs(first.latitude_deg - lat) <= step && Math.abs(first.longitude_deg - lon) <= step;
      },
    ),
    { seed: SEED, numRuns: 2000 },
  );
});

test(`any text is read or refused in words, and a place is on the globe (seed ${SEED})`, () => {
  const text = fc.array(
    fc.constantFrom(...'0123456789.,;-°′″NSEWOTd '.split(''), 'lat', '10S ', '500000 ', '−'),
    { maxLength: 24 },
  );
  fc.assert(
    fc.property(text, (parts) => {
      const read = readPosition(parts.join(''));
      if (!read.ok) return read.fix.length > 10;
      return read.readings.every(
        (r: Position) => Math.abs(r.latitude_deg) <= 90 && Math.abs(r.longitude_deg) <= 180,
      );
    }),
    { seed: SEED, numRuns: 5000 },
  );
});

test('far from the others: how it would lie among them', () => {
  const others = [
    { label: 'T1', latitude_deg: -46.41, longitude_deg: -121.31 },
    { label: 'T2', latitude_deg: -46.42, longitude_deg: -121.33 },
  ];
  const among = (latitude_deg: number, longitude_deg: number) =>
    amongOthers({ latitude_deg, longitude_deg }, others)!;
  const near = among(-46.411, -121.311);
  assert.deepEqual([near.nearest, near.instead, isFarOff(near)], ['T1', null, false]);
  assert.equal(among(46.41, -121.31).instead?.change, 'the other side of the equator');
  assert.equal(among(-46.41, 121.31).instead?.change, 'the other side of Greenwich');
  assert.equal(among(46.41, 121.31).instead?.change, 'both signs turned');
  // 0.99° south of T2: a degree of latitude here is 111.16 km (WGS 84, radius of the meridian at 46.9°).
  const off = among(-47.41, -121.31);
  assert.ok(
    isFarOff(off) && off.instead === null && Math.abs(off.distance_m - 110_060) < 600,
    `${off.distance_m}`,
  );
  const swapped = amongOthers({ latitude_deg: 4.9, longitude_deg: 52.1 }, [
    { label: 'A', latitude_deg: 52.11, longitude_deg: 4.91 },
  ])!;
  assert.equal(swapped.instead?.change, 'latitude and longitude exchanged');
  assert.equal(amongOthers({ latitude_deg: 0, longitude_deg: 0 }, []), null);
});
