/** Coasts out of GeoPackages that another build of SQLite has written. */
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { after, test } from 'node:test';
import { readGeoPackage } from './index.ts';
import { STANDARD_TABLES } from './standard-tables.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillstand-coast-'));
after(() => rmSync(folder, { recursive: true, force: true }));

/** Well-known binary, little-endian; `z` adds a third number. */
function wkb(type: number, parts: readonly (Buffer | readonly number[])[], z = false): Buffer {
  const head = Buffer.alloc(9);
  head.writeUInt8(1, 0);
  head.writeUInt32LE(type + (z ? 1000 : 0), 1);
  head.writeUInt32LE(parts.length, 5);
  return Buffer.concat([head, ...parts.map((part) => (Buffer.isBuffer(part) ? part : doubles(part)))]);
}
const doubles = (numbers: readonly number[]): Buffer => Buffer.from(new Float64Array(numbers).buffer);
const ring = (...places: readonly number[][]): Buffer => {
  const count = Buffer.alloc(4);
  count.writeUInt32LE(places.length);
  return Buffer.concat([count, ...places.map(doubles)]);
};
/** The header of a GeoPackage, without an envelope or with one of x and y. */
const blob = (geometry: Buffer, envelope = false): Buffer => {
  const head = Buffer.from([0x47, 0x50, 0, envelope ? 3 : 1, 0, 0, 0, 0]);
  return Buffer.concat([head, ...(envelope ? [Buffer.alloc(32)] : []), geometry]);
};

function file(
  name: string,
  srs: readonly [number, string],
  rows: readonly [string, Buffer | null][],
): Uint8Array {
  const path = join(folder, name);
  const db = new DatabaseSync(path);
  db.exec(STANDARD_TABLES);
  const [srs_id, definition] = srs;
  db.prepare('INSERT INTO gpkg_spatial_ref_sys VALUES (?, ?, ?, ?, ?, ?)').run(
    name,
    srs_id,
    'EPSG',
    srs_id,
    definition,
    '',
  );
  db.prepare('INSERT INTO gpkg_contents (table_name, data_type, identifier, srs_id) VALUES (?, ?, ?, ?)').run(
    'the "coast"',
    'features',
    'c',
    srs_id,
  );
  db.prepare('INSERT INTO gpkg_geometry_columns VALUES (?, ?, ?, ?, 0, 0)').run(
    'the "coast"',
    'geom',
    'GEOMETRY',
    srs_id,
  );
  db.exec('CREATE TABLE "the ""coast""" (fid INTEGER PRIMARY KEY, name TEXT, geom BLOB)');
  const insert = db.prepare('INSERT INTO "the ""coast""" (name, geom) VALUES (?, ?)');
  for (const row of rows) insert.run(...row);
  db.close();
  return readFileSync(path);
}

const features = async (bytes: Uint8Array) => {
  const read = await readGeoPackage(bytes);
  assert.ok(read.ok, read.ok ? '' : read.found);
  return (
    JSON.parse(read.geojson) as { features: { properties: unknown; geometry: unknown }[] }
  ).features.map(({ properties, geometry }) => ({ properties, geometry }));
};

test('lines and areas, of one part and of several, with heights and without, become GeoJSON with their words', async () => {
  const bytes = file(
    'plain.gpkg',
    [4326, 'GEOGCS["WGS 84"]'],
    [
      [
        'shore',
        blob(
          wkb(2, [
            [1, 2],
            [3, 4],
          ]),
        ),
      ],
      ['marsh', blob(wkb(3, [ring([0, 0], [1, 0], [1, 1], [0, 0])]), true)],
      [
        'high',
        blob(
          wkb(
            5,
            [
              wkb(
                2,
                [
                  [1, 2, 9],
                  [3, 4, 9],
                ],
                true,
              ),
            ],
            true,
          ),
        ),
      ],
      ['isles', blob(wkb(6, [wkb(3, [ring([0, 0], [1, 0], [1, 1], [0, 0])])]))],
      ['a point', blob(Buffer.concat([Buffer.from([1, 1, 0, 0, 0]), doubles([1, 2])]))],
      ['nothing', null],
      [
        'cut short',
        blob(
          wkb(2, [
            [1, 2],
            [3, 4],
          ]).subarray(0, 30),
        ),
      ],
    ],
  );
  const square = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 0],
  ];
  const along = [
    [1, 2],
    [3, 4],
  ];
  assert.deepEqual(await features(bytes), [
    { properties: { name: 'shore' }, geometry: { type: 'LineString', coordinates: along } },
    { properties: { name: 'marsh' }, geometry: { type: 'Polygon', coordinates: [square] } },
    { properties: { name: 'high' }, geometry: { type: 'MultiLineString', coordinates: [along] } },
    { properties: { name: 'isles' }, geometry: { type: 'MultiPolygon', coordinates: [[square]] } },
  ]);
});

test('a projected coast is turned to degrees by its own system', async () => {
  const wkt = 'PROJCS["WGS 84 / UTM zone 10S"]';
  // 500,000 E is the middle of zone 10, 123° W; 10,000,000 N is the equator.
  const bytes = file(
    'utm.gpkg',
    [32710, wkt],
    [
      [
        'shore',
        blob(
          wkb(2, [
            [500_000, 10_000_000],
            [500_000, 9_889_424],
          ]),
        ),
      ],
    ],
  );
  const [shore] = await features(bytes);
  const { coordinates } = shore!.geometry as { coordinates: [number, number][] };
  assert.ok(Math.abs(coordinates[0]![0] + 123) < 1e-6 && Math.abs(coordinates[0]![1]) < 1e-6);
  // A degree of latitude at the equator is 110,574 m, on the grid 0.9996 of it: 110,530 m.
  assert.ok(Math.abs(coordinates[1]![1] + 1.0004) < 1e-3, `${coordinates[1]![1]}`);
});

test('a table of more rows than are read is refused, not cut', async () => {
  file('many.gpkg', [4326, 'GEOGCS["WGS 84"]'], []);
  const db = new DatabaseSync(join(folder, 'many.gpkg'));
  db.exec(
    `INSERT INTO "the ""coast""" (name) WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 50001) SELECT i FROM n`,
  );
  db.close();
  const read = await readGeoPackage(readFileSync(join(folder, 'many.gpkg')));
  assert.ok(!read.ok && read.found === 'more than 50,000 rows in “the "coast"”', read.ok ? '' : read.found);
});

test('what is no GeoPackage, or of a system that cannot be read, says so', async () => {
  const read = await readGeoPackage(new TextEncoder().encode('SQLite format 3\0 no database at all'));
  assert.ok(!read.ok && read.found !== '' && /Export the coast again/.test(read.fix));
  const unknown = file(
    'unknown.gpkg',
    [99_999, 'PROJCS["?"]'],
    [
      [
        'shore',
        blob(
          wkb(2, [
            [1, 2],
            [3, 4],
          ]),
        ),
      ],
    ],
  );
  const other = await readGeoPackage(unknown);
  assert.ok(!other.ok && /reference system 99999/.test(other.found));
});
