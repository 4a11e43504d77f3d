/** Results as an OGC GeoPackage: one SQLite file with map layers and tables (docs/methods/geopackage.md), and coasts out of one. */
export { GEOPACKAGE_TYPE, writeGeoPackage } from './geopackage.ts';
export { type GeoPackageRead, readGeoPackage } from './read-features.ts';
