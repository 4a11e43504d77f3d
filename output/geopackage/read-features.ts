/// <reference path="./sql-js.d.ts" />
/**
 * Lines and areas of a GeoPackage (OGC 12-128r18) as GeoJSON (RFC 7946), in degrees of WGS 84: of all its feature tables,
 * with the words of each row. What is in a projected system is turned by its own definition.
 */
import { printed } from '@stillstand/output/words';
import { gridOf } from '@stillstand/science/grids';
import { readGeometry, type Turned } from './read-geometry.ts';
import { WGS84 } from './standard-tables.ts';

export type GeoPackageRead = { ok: true; geojson: string } | { ok: false; found: string; fix: string };

/** Of one table at most; a coast of a county has a tenth. */
const MOST_ROWS = 50_000;

export async function readGeoPackage(bytes: Uint8Array): Promise<GeoPackageRead> {
  const { default: sqlite } = await import('sql.js/dist/sql-wasm-inline.js');
  const { Database } = await sqlite();
  let db: InstanceType<typeof Database> | null = null;
  try {
    db = new Database(bytes);
    const layers =
      db.exec('SELECT table_name, column_name, srs_id FROM gpkg_geometry_columns')[0]?.values ?? [];
    const features = layers.flatMap(([table, column, srs_id]) =>
      featuresOf(db!, String(table), String(column), Number(srs_id)),
    );
    return { ok: true, geojson: JSON.stringify({ type: 'FeatureCollection', features }) };
  } catch (error) {
    return {
      ok: false,
      found: error instanceof Error ? error.message : String(error),
      fix: 'Export the coast again, as a GeoPackage or as GeoJSON in WGS 84. The map is drawn without it.',
    };
  } finally {
    db?.close();
  }
}

type Database = import('sql.js/dist/sql-wasm-inline.js').Database;

function featuresOf(db: Database, table: string, column: string, srs_id: number): object[] {
  const turned = toDegrees(db, srs_id);
  const [rows] = db.exec(`SELECT * FROM ${quoted(table)} LIMIT ${MOST_ROWS + 1}`);
  if (rows === undefined) return [];
  // Half a coast looks like a whole one.
  if (rows.values.length > MOST_ROWS) throw new Error(`more than ${printed(MOST_ROWS)} rows in “${table}”`);
  const at = rows.columns.indexOf(column);
  return rows.values.flatMap((row) => {
    const blob = row[at];
    const geometry = blob instanceof Uint8Array ? readGeometry(blob, turned) : null;
    if (geometry === null) return [];
    const words = rows.columns.flatMap((name, i) => {
      const cell = row[i];
      return typeof cell === 'string' ? [[name, cell]] : [];
    });
    return [{ type: 'Feature', properties: Object.fromEntries(words), geometry }];
  });
}

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** Degrees stay as they are: a shift between datums is less than a coast is wide. */
function toDegrees(db: Database, srs_id: number): Turned {
  const [found] = db.exec(`SELECT definition FROM gpkg_spatial_ref_sys WHERE srs_id = ${srs_id}`);
  const definition = String(found?.values[0]?.[0] ?? '');
  if (srs_id === WGS84 || !/^PROJ/.test(definition)) return (x, y) => [x, y];
  const known = gridOf(`EPSG:${srs_id}`);
  const grid = known.ok ? known : gridOf(definition);
  if (!grid.ok) throw new Error(`the reference system ${srs_id}: ${grid.fix}`);
  return (x, y) => {
    const place = grid.grid.toDegrees(x, y);
    return place && [place.longitude_deg, place.latitude_deg];
  };
}
