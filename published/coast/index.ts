/** The coast of the world, coarse: for showing where on the Earth a campaign is. */
export { type LandPolygon, worldLand } from './world-land.ts';
