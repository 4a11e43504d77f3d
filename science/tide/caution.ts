/** Stands beside every number of this room that somebody could be cut off by. */
export const TIDE_CAUTION =
  'A prediction knows the moon and the sun only. Wind, low pressure, swell, rain and a river can bring the water in early and hold it high: by half a metre, in a storm by metres. Official tide tables, the harbour authority, warnings and people who know the place come first. Leave early: a way, dry or afloat, can close sooner than predicted.';
