/** The 67 published samples (data/README.md), and what is taken for what their table does not say. */
import { readCsv } from '../calibration/read-csv.ts';

export const SAMPLES = readCsv('../../luminescence/data/samples.csv', [
  'id',
  'grains',
  'uranium_ppm',
  'thorium_ppm',
  'potassium_percent',
  'water_percent',
  'cosmic_gy_ka',
  'rate_gy_ka',
  'dose_gy',
  'dose_error_gy',
  'age_ka',
]);
export type Sample = (typeof SAMPLES)[number];

/** The sieve is not in the source: sand as 180 to 250 µm, silt as fine grains whose alpha dose was not counted. */
export const grainsOf = ({ grains }: Sample): { from_um: number; to_um: number; isFine: boolean } => {
  const isFine = grains.startsWith('Fine');
  return { ...(isFine ? { from_um: 4, to_um: 11 } : { from_um: 180, to_um: 250 }), isFine };
};

/** Without a cosmic rate, or with the total in its place, that of the others of the paper, Gy/ka. */
export const cosmicOf = ({ cosmic_gy_ka: stated }: Sample): number =>
  stated === '' || Number(stated) > 1 ? 0.17 : Number(stated);
