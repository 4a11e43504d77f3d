/** Stands beside every number of this room that somebody could be cut off by. */
export const TIDE_CAUTION =
  'A tide prediction includes only astronomical forcing. Wind, low pressure, swell, rain and river flow can make the water rise early and stay high: by half a metre, in a storm by metres. Official tide tables, the harbour authority, warnings and people who know the place take precedence. Leave early: access on foot or by boat can close earlier than predicted.';
