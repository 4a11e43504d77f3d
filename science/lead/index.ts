/** Lead-210 and caesium-137 of a core: ages of the last century or so, and their errors. */
export type { Estimate } from './age-estimate.ts';
export type { CaesiumHorizon, HorizonInModel } from './caesium.ts';
export { LEAD_NAMES, type LeadMeasurement, leadMeasurement } from './called.ts';
export { decline } from './constant-flux.ts';
export { decimalYear } from './decimal-year.ts';
export { type LeadAges, type LeadCell, leadAges, type ModelAges } from './lead-ages.ts';
export { type LeadLikelihood, type LeadPrior, leadLikelihood, leadPriorDefaults } from './likelihood.ts';
export {
  type Activity,
  calBp,
  LEAD_MODELS,
  type LeadFault,
  type LeadModel,
  type LeadProfile,
  type LeadSettings,
  type LeadSlice,
  leadDefaults,
} from './profile.ts';
export { ACTIVITY_UNITS, activityFactor, DENSITY_UNITS, densityFactor } from './units.ts';
