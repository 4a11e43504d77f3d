/**
 * Which environment stood where and when, from joint draws of ages against depth: by hole, along a line of holes, and
 * against the sea. Assumptions and limits: docs/methods/environments.md. Ages cal BP, metres, elevations up.
 */
export { type AgainstSea, againstSea, levelAt, type SeaDraws } from './against-sea.ts';
export type { AgedColumn, AgedLayer, Level } from './column.ts';
export { type Edge, edgeAlong, type Passage } from './edge.ts';
export type { SideOf } from './sides.ts';
export { type Spell, spells } from './spells.ts';
export { type Stood, stood } from './stood.ts';
export { type SurfaceState, surfaceAt } from './surface.ts';
