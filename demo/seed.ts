/** Seed of the demo campaign that is stored, computed and shown. */
export const DEMO_SEED = 1;
