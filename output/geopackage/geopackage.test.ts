/**
 * The file read by others: its header by the bytes of the standard (OGC 12-128r18), its tables by Node's own build of
 * SQLite, its geometries by hand and against GeoJSON, and by GDAL where Python has it.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { after, test } from 'node:test';
import { readCsv } from '@stillstand/campaign/document';
import type { Results } from '@stillstand/campaign/results';
import { resultsGeoJson, resultTables, TABLES } from '@stillstand/output/report';
import { HOSTILE, tinyResults, tinyResultsWithDraws } from '../report/fixtures/results.ts';
import { writeGeoPackage } from './index.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillstand-geopackage-'));
after(() => rmSync(folder, { recursive: true, force: true }));

type Row = Record<string, string | number | Uint8Array | null>;
let files = 0;

function written(bytes: Uint8Array): string {
  files += 1;
  const path = join(folder, `${files}.gpkg`);
  writeFileSync(path, bytes);
  return path;
}

/** Asks the file, as another build of SQLite reads it. */
async function opened(results: Results): Promise<(sql: string) => Row[]> {
  const db = new DatabaseSync(written(await writeGeoPackage(results)), { readOnly: true });
  after(() => db.close());
  const ask = (sql: string): Row[] => db.prepare(sql).all() as Row[];
  // Requirements 6 and 7 (1.1.1.1.4).
  assert.deepEqual(ask('PRAGMA integrity_check').map(Object.values), [['ok']]);
  assert.deepEqual(ask('PRAGMA foreign_key_check'), []);
  return ask;
}

/** Longitude and latitude of a geometry, byte by byte: 2.1.3.1.1, then well-known binary (OGC 06-103r4, 8.2). */
function coordinates(blob: Row[string]): number[] | null {
  if (blob === null) return null;
  assert.ok(blob instanceof Uint8Array);
  const bytes = Buffer.from(blob);
  assert.equal(bytes.toString('latin1', 0, 2), 'GP', 'magic');
  assert.equal(bytes[2], 0, '0 is version 1');
  assert.equal(bytes[3], 0b00000001, 'standard, not empty, without envelope, little-endian');
  assert.equal(bytes.readInt32LE(4), 4326, 'the srs_id of its column (requirement 33)');
  assert.equal(bytes[8], 1, 'little-endian');
  assert.equal(bytes.readUInt32LE(9), 1, 'a point');
  assert.equal(bytes.length, 29);
  return [bytes.readDoubleLE(13), bytes.readDoubleLE(21)];
}

/** A curve for two groups of sites, published points, and what a file may break on. */
function full(): Results {
  const tiny = tinyResultsWithDraws();
  const [main] = tiny.curves;
  const { row_id, point, kind, rsl_m, rsl_sigma_m, age } = tiny.points[0]!;
  const published = { row_id, point, kind, rsl_m, rsl_sigma_m, age, site: null, source: 'A paper, 1999' };
  return {
    ...tiny,
    curves: [main!, { ...main!, id: 'north "N"', role: 'of its own' }],
    published: [
      {
        ...published,
        latitude_deg: 12.3456789,
        longitude_deg: 179.9,
        age_from: 'calendar',
        calibration_curve: null,
      },
      {
        ...published,
        latitude_deg: null,
        longitude_deg: null,
        age_from: 'calendar',
        calibration_curve: null,
      },
    ],
  };
}

test('the header says that it is a GeoPackage, and of which version (requirements 1 and 2, 1.1.1.1.1)', async () => {
  const bytes = Buffer.from(await writeGeoPackage(tinyResults()));
  assert.equal(bytes.toString('latin1', 0, 16), 'SQLite format 3\0');
  // SQLite file format 1.3: user_version at 60, application_id at 68, both big-endian.
  assert.equal(bytes.readUInt32BE(60), 10300);
  assert.equal(bytes.toString('latin1', 68, 72), 'GPKG');
});

test('the reference systems of every GeoPackage are there (requirement 11, 1.1.2.1.2)', async () => {
  const ask = await opened(tinyResults());
  const rows = ask('SELECT * FROM gpkg_spatial_ref_sys ORDER BY srs_id').map((row) => [
    row['srs_id'],
    row['organization'],
    row['organization_coordsys_id'],
    row['definition'],
  ]);
  assert.deepEqual(rows.slice(0, 2), [
    [-1, 'NONE', -1, 'undefined'],
    [0, 'NONE', 0, 'undefined'],
  ]);
  assert.deepEqual(rows[2]!.slice(0, 3), [4326, 'EPSG', 4326]);
  assert.match(String(rows[2]![3]), /^GEOGCS\["WGS 84",DATUM.*6378137,298\.257223563/);
});

test('the contents list every table of the results (requirements 13 to 18, 118)', async () => {
  const ask = await opened(full());
  const contents = ask('SELECT * FROM gpkg_contents');
  assert.deepEqual(
    contents.map((row) => `${row['table_name']}.csv`),
    TABLES.map(({ file }) => file),
  );
  const layers = ['holes', 'samples', 'points', 'published_points'];
  for (const row of contents) {
    const isLayer = layers.includes(String(row['table_name']));
    assert.equal(row['data_type'], isLayer ? 'features' : 'attributes');
    assert.equal(row['srs_id'], isLayer ? 4326 : null);
    assert.match(String(row['last_change']), /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/);
  }
  const described = (table: string) =>
    String(contents.find((row) => row['table_name'] === table)!['description']);
  assert.match(described('holes'), /^a hole\. Elevations and sea levels: m above MSL\.$/);
  assert.match(described('published_points'), /1 of 2 without a position: no geometry\./);
  assert.doesNotMatch(described('account'), /Elevations/);
  // Requirements 21 to 28 (2.1.5.1).
  assert.deepEqual(
    ask('SELECT * FROM gpkg_geometry_columns').map(Object.values),
    layers.map((table) => [table, 'geom', 'POINT', 4326, 0, 0]),
  );
});

test('only types of the standard are declared, and every column is described (requirements 5, 29, 103 to 107, 119)', async () => {
  const ask = await opened(full());
  for (const { table_name: table } of ask('SELECT table_name FROM gpkg_contents')) {
    const columns = ask(`PRAGMA table_info("${table}")`);
    assert.deepEqual([columns[0]!['name'], columns[0]!['type'], columns[0]!['pk']], ['fid', 'INTEGER', 1]);
    for (const { name, type } of columns.slice(1)) {
      assert.match(String(name), /^[a-z][a-z0-9_]*$/, 'a plain name (note of clause 1)');
      assert.match(String(type), name === 'geom' ? /^POINT$/ : /^(?:REAL|TEXT)$/);
    }
    const described = ask(`SELECT column_name FROM gpkg_data_columns WHERE table_name = '${table}'`);
    assert.deepEqual(
      described.flatMap(Object.values).sort(),
      columns.flatMap(({ name }) => (name === 'fid' || name === 'geom' ? [] : [name])).sort(),
    );
  }
  const [rsl] = ask(`SELECT * FROM gpkg_data_columns WHERE table_name = 'points' AND column_name = 'rsl_m'`);
  assert.match(String(rsl!['description']), /relative sea level.*; m$/);
  assert.deepEqual(
    ask('SELECT table_name, column_name, extension_name, scope FROM gpkg_extensions').map(Object.values),
    [
      ['gpkg_data_columns', null, 'gpkg_schema', 'read-write'],
      ['gpkg_data_column_constraints', null, 'gpkg_schema', 'read-write'],
    ],
    'requirement 141',
  );
});

test('a point at 1° east, 2° north: the bytes written out by hand', async () => {
  const tiny = tinyResults();
  const hole = { ...tiny.holes[0]!, longitude_deg: 1, latitude_deg: 2 };
  const ask = await opened({ ...tiny, holes: [hole] });
  // "GP", version, flags, 4326 = 0x10E6; then byte order, type, 1 = 3FF0…, 2 = 4000… (IEEE 754).
  const expected = `4750${'00'}${'01'}E6100000${'01'}01000000${'000000000000F03F'}${'0000000000000040'}`;
  assert.equal(ask('SELECT hex(geom) AS hex FROM holes')[0]!['hex'], expected);
});

test('holes and points lie where GeoJSON has them; the bounds in the contents are theirs (requirement 148)', async () => {
  const results = full();
  const [first, second] = results.holes;
  const placed = {
    ...results,
    holes: [first!, { ...second!, longitude_deg: 0.1234567, latitude_deg: null }],
  };
  for (const each of [results, placed]) {
    const ask = await opened(each);
    const { features } = JSON.parse(resultsGeoJson(each)) as {
      features: { properties: Row; geometry: { coordinates: number[] } | null }[];
    };
    for (const [table, what] of [
      ['holes', 'hole'],
      ['points', 'point'],
    ] as const) {
      const rows = ask(`SELECT * FROM ${table} ORDER BY fid`);
      const same = features.filter(({ properties }) => properties['what'] === what);
      assert.deepEqual(
        rows.map((row) => [row[what], coordinates(row['geom']!), row['datum']]),
        same.map(({ properties, geometry }) => [
          properties[what],
          geometry?.coordinates ?? null,
          properties['datum'],
        ]),
      );
      const known = same.flatMap(({ geometry }) => (geometry === null ? [] : [geometry.coordinates]));
      const [bounds] = ask(
        `SELECT min_x, min_y, max_x, max_y FROM gpkg_contents WHERE table_name = '${table}'`,
      );
      const [x, y] = [known.map(([lon]) => lon!), known.map(([, lat]) => lat!)];
      assert.deepEqual(
        Object.values(bounds!),
        known.length === 0
          ? [null, null, null, null]
          : [Math.min(...x), Math.min(...y), Math.max(...x), Math.max(...y)],
      );
    }
    const [published] = ask('SELECT geom FROM published_points');
    assert.deepEqual(coordinates(published!['geom']!), [179.9, 12.345679]);
  }
});

test('every cell is that of the CSV table, numbers as numbers, nothing as NULL', async () => {
  const results = full();
  const ask = await opened(results);
  let cells = 0;
  for (const [file, text] of resultTables(results)) {
    const { columns, rows } = readCsv(text)!;
    const table = file.replace('.csv', '');
    const found = ask(`SELECT * FROM "${table}" ORDER BY fid`);
    assert.equal(found.length, rows.length, table);
    const titles = new Map(
      ask(`SELECT title, column_name FROM gpkg_data_columns WHERE table_name = '${table}'`).map((row) => [
        row['title'],
        String(row['column_name']),
      ]),
    );
    for (const [i, row] of found.entries())
      for (const [k, heading] of columns.entries()) {
        const cell = rows[i]!.cells[k] ?? '';
        const value = row[titles.get(heading)!]!;
        assert.equal(
          value === null ? '' : typeof value === 'number' ? value : String(value),
          typeof value === 'number' ? Number(cell) : cell,
          `${table} ${heading}`,
        );
        cells += 1;
      }
  }
  assert.ok(cells > 500, `${cells} cells`);
  assert.deepEqual(
    ask('SELECT DISTINCT curve FROM intervals ORDER BY rowid').map((row) => row['curve']),
    ['main', 'north "N"'],
  );
});

test('without points, holes or curve there are tables and no rows', async () => {
  const nothing: Results = { ...tinyResults(), holes: [], samples: [], points: [], dates: [], curves: [] };
  const ask = await opened(nothing);
  assert.equal(ask('SELECT * FROM gpkg_contents').length, TABLES.length);
  for (const table of ['holes', 'points', 'curve', 'intervals'])
    assert.deepEqual(ask(`SELECT * FROM ${table}`), []);
  assert.deepEqual(
    Object.values(ask(`SELECT min_x, max_y FROM gpkg_contents WHERE table_name = 'points'`)[0]!),
    [null, null],
  );
});

test('quotes, emoji, half characters and zeros in names, and thousands of parts of an error, break nothing', async () => {
  const tiny = tinyResults();
  const name = `O'Brien "x"; DROP TABLE holes;-- 🌊 \ud800 a\0b ${HOSTILE}`;
  const part = tiny.points[0]!.components[0]!;
  const parts = [
    'Ä',
    'ä',
    'A!',
    'a?',
    'x\0',
    'x\ufffd',
    '',
    ...Array.from({ length: 2500 }, (_, i) => `p${i}`),
  ];
  const points = tiny.points.map((point) => ({
    ...point,
    point: `${point.point}${name}`,
    components: parts.map((component) => ({ ...part, component })),
  }));
  const ask = await opened({ ...tiny, datum: { ...tiny.datum, label: name }, points });
  const rows = ask('SELECT point, datum FROM points');
  // The apostrophe is that of the CSV tables: "--" behind a semicolon would begin a formula.
  const kept = name.replace('\ud800', '\ufffd').replace('\0', '\ufffd').replace(';--', ";'--");
  assert.deepEqual(
    rows.map((row) => [row['point'], row['datum']]),
    tiny.points.map(({ point }) => [`${point}${kept}`, kept]),
  );
  assert.equal(ask('SELECT * FROM holes').length, tiny.holes.length);
  const [{ description } = { description: '' }] = ask(
    `SELECT description FROM gpkg_contents WHERE table_name = 'points'`,
  );
  assert.match(String(description), /\d{3} more columns: points\.csv\.$/);
});

test('the same results give the same bytes, other results others', async () => {
  const bytes = await writeGeoPackage(full());
  assert.deepEqual(await writeGeoPackage(full()), bytes);
  const [hole, ...holes] = full().holes;
  assert.notDeepEqual(
    await writeGeoPackage({ ...full(), holes: [{ ...hole!, end_reason: 'tide' }, ...holes] }),
    bytes,
  );
});

test('GDAL, where Python has it, reads the layers and the places', async () => {
  const script = [
    'import sys, json, pyogrio',
    'meta, fids, geoms, data = pyogrio.raw.read(sys.argv[1], layer="holes")',
    'layers = sorted([str(n) for n, g in pyogrio.list_layers(sys.argv[1]) if g])',
    'print(json.dumps([layers, meta["crs"], meta["geometry_type"], len(geoms), geoms[0].hex()]))',
  ].join('\n');
  const path = written(await writeGeoPackage(full()));
  const { status, stdout } = spawnSync('python3', ['-W', 'error', '-c', script, path], { encoding: 'utf8' });
  if (status !== 0) return;
  const [layers, crs, type, count, geometry] = JSON.parse(stdout) as unknown[];
  assert.deepEqual(layers, ['holes', 'points', 'published_points', 'samples']);
  assert.deepEqual([crs, type, count], ['EPSG:4326', 'Point', full().holes.length]);
  const wkb = Buffer.from(String(geometry), 'hex');
  assert.deepEqual([wkb.readDoubleLE(5), wkb.readDoubleLE(13)], [-21.5, -47.123456]);
});
