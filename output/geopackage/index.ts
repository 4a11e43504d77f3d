/** Results as an OGC GeoPackage: one SQLite file with map layers and tables (docs/methods/geopackage.md). */
export { GEOPACKAGE_TYPE, writeGeoPackage } from './geopackage.ts';
