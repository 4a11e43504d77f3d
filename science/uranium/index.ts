/**
 * Uranium-series dating: activity ratios to ages in years before measurement, errors 1 sigma. δ234U in ‰, initial 230Th/232Th
 * atomic in millionths.
 */
export { type NotDated, type UraniumAge, uraniumAge } from './age.ts';
export { openSystem, SEA_DELTA234U } from './closed-system.ts';
export {
  DECAY_CONSTANTS,
  type DecayConstantSet,
  type DecayConstants,
  isDecayConstantSet,
} from './decay-constants.ts';
export type { ActivityRatios, InitialThorium, Ratio } from './ratios.ts';
export { uraniumYears } from './years.ts';
