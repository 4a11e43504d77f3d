/** Coasts and grounds of a campaign for its map, and how they are read from GeoJSON. */
export { joinedShapes, readShapes } from './read-shapes.ts';
export type { CoastLine, Ground, Land, MapShapes } from './shapes.ts';
export { NO_SHAPES } from './shapes.ts';
