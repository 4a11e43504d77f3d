/** Units that activities and densities are given in. */

/** Lower case, without blanks, points and brackets; powers as digits. */
const squashed = (unit: string): string =>
  unit
    .toLowerCase()
    .replace(/[\s·.()[\]^]/g, '')
    .replaceAll('⁻', '-')
    .replaceAll('−', '-')
    .replaceAll('¹', '1')
    .replaceAll('³', '3');

/** 1 disintegration a minute in a gram is 1000/60 Bq/kg; 1 pCi is 0.037 Bq. */
const ACTIVITY: Readonly<Record<string, number>> = {
  'bq/kg': 1,
  'bqkg-1': 1,
  becquerelsperkilogram: 1,
  'mbq/g': 1,
  'mbqg-1': 1,
  'bq/g': 1000,
  'bqg-1': 1000,
  'dpm/g': 1000 / 60,
  'dpmg-1': 1000 / 60,
  'pci/g': 37,
  'pcig-1': 37,
};

const DENSITY: Readonly<Record<string, number>> = {
  'g/cm3': 1,
  'gcm-3': 1,
  'g/cc': 1,
  'g/ml': 1,
  't/m3': 1,
  'kg/m3': 0.001,
  'kgm-3': 0.001,
};

/** Factor to Bq/kg; null for a unit that is none of an activity. */
export const activityFactor = (unit: string): number | null =>
  Object.hasOwn(ACTIVITY, squashed(unit)) ? ACTIVITY[squashed(unit)]! : null;
/** Factor to g/cm³; null for a unit that is none of a density. */
export const densityFactor = (unit: string): number | null =>
  Object.hasOwn(DENSITY, squashed(unit)) ? DENSITY[squashed(unit)]! : null;

/** Named in a message. */
export const ACTIVITY_UNITS = 'Bq/kg, mBq/g, Bq/g, dpm/g or pCi/g';
export const DENSITY_UNITS = 'g/cm³, t/m³ or kg/m³';
