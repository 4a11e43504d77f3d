/// <reference path="./sql-js.d.ts" />
/**
 * The file: SQLite (sql.js, the same build in Node as in a browser) with the tables of the standard, OGC 12-128r18, as
 * its version 1.3.0. The same results give the same bytes: nothing in it is the time or the machine it was written on.
 */
import type { Results } from '@stillstand/campaign/results';
import type initSql from 'sql.js/dist/sql-wasm-inline.js';
import { pointBlob } from './geometry.ts';
import { GEOMETRY, KEY, type Layer, layersOf } from './layers.ts';
import { EXTENSIONS, REFERENCE_SYSTEMS, STANDARD_TABLES, WGS84 } from './standard-tables.ts';

/** Media type, as registered (IANA). */
export const GEOPACKAGE_TYPE = 'application/geopackage+sqlite3';

/** "GPKG", and 1.3.0 (requirement 2, 1.1.1.1.1). */
const APPLICATION_ID = 0x47504b47;
const VERSION = 10300;

/**
 * When a table was last changed: the results have no date, and that of writing would make every file another. The day
 * on which zip's time begins, as in our archives.
 */
const LAST_CHANGE = '1980-01-01T00:00:00.000Z';

/** The bytes of a GeoPackage. SQLite is loaded when this is called. */
export async function writeGeoPackage(results: Results): Promise<Uint8Array> {
  const { default: sqlite } = await import('sql.js/dist/sql-wasm-inline.js');
  const { Database } = await sqlite();
  const db: Database = new Database();
  try {
    db.run(`PRAGMA application_id = ${APPLICATION_ID}; PRAGMA user_version = ${VERSION}; BEGIN;`);
    db.run(STANDARD_TABLES);
    for (const row of REFERENCE_SYSTEMS) insert(db, 'gpkg_spatial_ref_sys', row);
    for (const row of EXTENSIONS) insert(db, 'gpkg_extensions', row);
    for (const layer of layersOf(results)) writeLayer(db, layer);
    db.run('COMMIT');
    return db.export();
  } finally {
    db.close();
  }
}

type Database = initSql.Database;

const insert = (db: Database, table: string, row: readonly initSql.Value[]): void => {
  db.run(`INSERT INTO ${table} VALUES (${row.map(() => '?').join(', ')})`, row);
};

function writeLayer(db: Database, { name, about, columns, rows, places }: Layer): void {
  const kind = places === null ? 'attributes' : 'features';
  const srs_id = places === null ? null : WGS84;
  insert(db, 'gpkg_contents', [name, kind, name, about, LAST_CHANGE, ...extent(places ?? []), srs_id]);
  if (places !== null) insert(db, 'gpkg_geometry_columns', [name, GEOMETRY, 'POINT', WGS84, 0, 0]);
  // Names are ours and plain (column-names.ts); quoted all the same, for one may be a word of SQL.
  const declared = [
    `"${KEY}" INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL`,
    ...(places === null ? [] : [`"${GEOMETRY}" POINT`]),
    ...columns.map((column) => `"${column.name}" ${column.isNumber ? 'REAL' : 'TEXT'}`),
  ];
  db.run(`CREATE TABLE "${name}" (${declared.join(', ')})`);
  for (const column of columns)
    insert(db, 'gpkg_data_columns', [name, column.name, column.name, column.title, column.about, null, null]);
  const statement = db.prepare(`INSERT INTO "${name}" VALUES (${declared.map(() => '?').join(', ')})`);
  for (const [i, row] of rows.entries()) {
    const place = places?.[i] ?? null;
    const geometry = place === null ? null : pointBlob(place, WGS84);
    statement.run([i + 1, ...(places === null ? [] : [geometry]), ...row]);
  }
  statement.free();
}

/** Least longitude and latitude, then the greatest, degrees; null without any place. */
function extent(places: NonNullable<Layer['places']>): readonly (number | null)[] {
  const known = places.filter((place) => place !== null);
  if (known.length === 0) return [null, null, null, null];
  const longitudes = known.map(([longitude]) => longitude);
  const latitudes = known.map(([, latitude]) => latitude);
  const least = (numbers: number[]): number => numbers.reduce((a, b) => Math.min(a, b));
  const greatest = (numbers: number[]): number => numbers.reduce((a, b) => Math.max(a, b));
  return [least(longitudes), least(latitudes), greatest(longitudes), greatest(latitudes)];
}
