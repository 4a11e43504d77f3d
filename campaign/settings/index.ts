/** The settings of a campaign: names, meaning, defaults, and what the table of them says. */
export {
  assumptionFault,
  GEAR_ASSUMPTIONS,
  type GearAssumption,
  type GearAssumptions,
  gearAssumptions,
} from './gear-assumptions.ts';
export { type GearNumber, gearFault, type PullingGear } from './pulling-gear.ts';
export { readSectionAge, SECTION_AGES } from './section-ages.ts';
export {
  type ComputationSettings,
  DOSE_FACTOR_LABELS,
  type DoseFactorLabel,
  dateFundsOf,
  datePlanOf,
  readSettings,
  SETTINGS,
  type SettingName,
} from './settings.ts';
export { type AskedSites, readSites } from './sites-asked.ts';
