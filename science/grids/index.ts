/** Grids of eastings and northings, by the code of a known one or by a definition: to latitude and longitude on WGS 84. */
export { KNOWN_GRIDS, type KnownGrid } from './known-grids.ts';
export { type GridFound, gridOf } from './plane-grid.ts';
