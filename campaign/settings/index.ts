/** The settings of a campaign: names, meaning, defaults, and what the table of them says. */
export {
  type ComputationSettings,
  datePlanOf,
  type PullingGear,
  readSettings,
  SETTINGS,
  type SettingName,
} from './settings.ts';
export { type AskedSites, readSites } from './sites-asked.ts';
