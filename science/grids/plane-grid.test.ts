/** Grids against published worked examples. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { geodesic, readPosition } from '@stillstand/science/survey';
import proj4 from 'proj4';
import { KNOWN_GRIDS } from './known-grids.ts';
import { gridOf } from './plane-grid.ts';

const grid = (text: string) => {
  const found = gridOf(text);
  assert.ok(found.ok, found.ok ? '' : found.fix);
  return found.grid;
};
const dms = (degrees: number, minutes: number, seconds: number): number =>
  degrees + minutes / 60 + seconds / 3600;

test('projections: worked examples of the EPSG Guidance Note 7-2, to their last digit', () => {
  // Without a datum shift: the examples stay on their own ellipsoid, and so does WGS 84 here.
  const examples = [
    {
      what: 'Transverse Mercator: OSGB36 / British National Grid',
      proj: '+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=airy',
      at: [577274.99, 69740.5],
      is: [dms(50, 30, 0), dms(0, 30, 0)],
    },
    {
      what: 'Lambert conic conformal, one parallel: JAD69 / Jamaica National Grid',
      proj: '+proj=lcc +lat_1=18 +lat_0=18 +lon_0=-77 +k_0=1 +x_0=250000 +y_0=150000 +a=6378206.4 +b=6356583.8',
      at: [255966.58, 142493.51],
      is: [dms(17, 55, 55.8), -dms(76, 56, 37.26)],
    },
    {
      what: 'Lambert conic conformal, two parallels: NAD27 / Texas South Central, US survey feet',
      proj: '+proj=lcc +lat_1=28.3833333333333 +lat_2=30.2833333333333 +lat_0=27.8333333333333 +lon_0=-99 +x_0=609601.2192024384 +y_0=0 +a=6378206.4 +b=6356583.8 +units=us-ft',
      at: [2963503.91, 254759.8],
      is: [dms(28, 30, 0), -96],
    },
    {
      what: 'Oblique stereographic: Amersfoort / RD New',
      proj: '+proj=sterea +lat_0=52.1561605555556 +lon_0=5.38763888888889 +k=0.9999079 +x_0=155000 +y_0=463000 +ellps=bessel',
      at: [196105.283, 557057.739],
      is: [53, 6],
    },
    {
      what: 'Lambert azimuthal equal area: ETRS89 / LAEA Europe',
      proj: '+proj=laea +lat_0=52 +lon_0=10 +x_0=4321000 +y_0=3210000 +ellps=GRS80',
      at: [3962799.45, 2999718.85],
      is: [50, 5],
    },
  ] as const;
  for (const { what, proj, at, is } of examples) {
    const place = grid(proj).toDegrees(at[0], at[1])!;
    // A hundredth of a metre or of a foot is 1e-7 degrees.
    assert.ok(Math.abs(place.latitude_deg - is[0]) < 1.5e-7, `${what}: ${place.latitude_deg}`);
    assert.ok(Math.abs(place.longitude_deg - is[1]) < 1.5e-7, `${what}: ${place.longitude_deg}`);
  }
});

test('datum shifts: published pairs of grid and WGS 84 agree within what the grid states', () => {
  const pairs = [
    // Ordnance Survey, A guide to coordinate systems in Great Britain, worked example of OSTN15 (from memory).
    { code: 27700, at: [651409.804, 313177.45], is: [dms(52, 39, 28.8282), dms(1, 42, 57.8663)] },
    // Schreutelkamp and Strang van Hees 2001, Geodesia 2001-2, the middle of their approximation (from memory).
    { code: 28992, at: [155000, 463000], is: [52.1551744, 5.38720621] },
  ] as const;
  for (const { code, at, is } of pairs) {
    const place = grid(`EPSG:${code}`).toDegrees(at[0], at[1])!;
    const off = geodesic(place, { latitude_deg: is[0], longitude_deg: is[1] })!.distance_m;
    const { accuracy_m } = KNOWN_GRIDS.find((each) => each.code === code)!;
    assert.ok(off <= accuracy_m, `EPSG:${code}: ${off} m`);
  }
});

test('the shift of BD72 agrees with the other two that EPSG lists (1609, 1610) within a metre', () => {
  const projection = KNOWN_GRIDS.find(({ code }) => code === 31370)!.proj.replace(/\+towgs84=\S+/, '');
  const place = grid('31370').toDegrees(150_000, 170_000)!;
  for (const shift of ['-99.1,53.3,-112.5,0.419,-0.83,1.885,-1', '-125.8,79.9,-100.5']) {
    const other = grid(`${projection} +towgs84=${shift}`).toDegrees(150_000, 170_000)!;
    assert.ok(geodesic(place, other)!.distance_m < 1, shift);
  }
});

test('every known grid holds the middle of its own area, written with the letters and without', () => {
  for (const { code, area, name, proj } of KNOWN_GRIDS) {
    const middle = {
      longitude_deg: (area.west + area.east) / 2,
      latitude_deg: (area.south + area.north) / 2,
    };
    const [e, n] = proj4('WGS84', proj).forward([middle.longitude_deg, middle.latitude_deg]);
    const it = grid(`EPSG:${code} ${name}`);
    for (const text of [`E ${e.toFixed(2)} N ${n.toFixed(2)}`, `${e.toFixed(2)}, ${n.toFixed(2)}`]) {
      const [first] = readings(text, it);
      assert.equal(first?.doubt, null, `${code}: ${text}`);
      assert.ok(geodesic(first, middle)!.distance_m < 0.02, `${code}: ${text}`);
    }
  }
});

test('a definition is read as PROJ and as WKT, and what it leaves open is said', () => {
  const wkt =
    'PROJCS["Sand grid",GEOGCS["GRS 1980",DATUM["D",SPHEROID["GRS 1980",6378137,298.257222101],TOWGS84[0,0,0,0,0,0,0]],PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",0],PARAMETER["central_meridian",-123],PARAMETER["scale_factor",0.9996],PARAMETER["false_easting",500000],PARAMETER["false_northing",10000000],UNIT["metre",1]]';
  const utm = readPosition('10 south 475811 4860093');
  const read = readPosition('475811 4860093', grid(wkt));
  assert.ok(utm.ok && read.ok);
  // Our own series of UTM and proj4's, to a millimetre.
  assert.ok(geodesic(utm.readings[0], read.readings[0])!.distance_m < 1e-3);
  assert.equal(read.readings[0].read_as, 'Sand grid');
  assert.match(grid(wkt).caution ?? '', /how far it may be off is not known/);
  assert.match(grid('+proj=tmerc +lon_0=9 +ellps=bessel').caution ?? '', /no datum shift.*hundred metres/);
  assert.equal(grid('+proj=utm +zone=10 +south +datum=WGS84').caution, null);
  assert.match(grid('27700').caution ?? '', /^±5 m without its shift file \(OSTN15\)$/);
  assert.equal(grid('2154').caution, null);
  const fixes = [
    'EPSG:4326',
    '+proj=tmerc +nadgrids=a.gsb',
    '+proj=nothing',
    'Sand',
    '+proj=tmerc +axis=wsu',
  ].map((text) => {
    const found = gridOf(text);
    return found.ok ? '' : found.fix;
  });
  const expected = [
    /not in the list/,
    /\+towgs84=/,
    /cannot be used/,
    /Choose a grid/,
    /easting and a northing/,
  ];
  for (const [i, pattern] of expected.entries()) assert.match(fixes[i]!, pattern);
});

test('outside the area of use and exchanged: named, and offered the other way', () => {
  const british = grid('27700');
  const [plain] = readings('E 401234 N 212345', british);
  assert.equal(plain!.doubt, null);
  assert.equal(plain!.resolution_m, 0.5);
  // With letters the order is said.
  assert.deepEqual(
    readings('N 212345.1 E 401234.5', british)[0]!.longitude_deg.toFixed(4),
    plain!.longitude_deg.toFixed(4),
  );
  // Both orders lie in Britain.
  assert.deepEqual(
    readings('401234 212345', british).map(({ doubt }) => doubt),
    [null, 'easting and northing were taken to be exchanged'],
  );
  // 900 km east of its origin is the North Sea's other side; as a northing it is Scotland.
  const [outside, other] = readings('850000 250000', british);
  assert.match(outside!.doubt ?? '', /outside the area of use.*may be exchanged/);
  assert.equal(other!.doubt, null);
  assert.match(other!.read_as, /northing first/);
  const [lost] = readings('4012340 7123450', british);
  assert.match(lost?.doubt ?? 'check the digits', /check the digits/);
  // Degrees stay degrees, and without a grid it is said what is needed.
  assert.equal(readings('52.1, 4.9', british)[0]!.read_as, 'decimal degrees');
  const none = readPosition('401234 212345');
  assert.ok(!none.ok && /choose the national grid/.test(none.fix));
});

function readings(text: string, of: ReturnType<typeof grid>) {
  const read = readPosition(text, of);
  return read.ok ? read.readings : [];
}
