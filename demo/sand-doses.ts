/**
 * The invented luminescence laboratory: from the true age of a sand to its dose, its dose rate and the age they give, with the part
 * of the error that all its samples share. All relative errors are 1 sigma.
 */
import { type RandomStream, square } from '@stillstand/science/base';
import { plain, type Sheets } from './sheet.ts';

/** Year the sands were measured. */
export const MEASURED_CE = 2023;
/** Dose rate of a dune of quartz with some feldspar, Gy/ka (common practice, no source: 0.8 to 2.5), and how much sands differ. */
const RATE_GY_KA = 1.42;
const RATE_DIFFERS = 0.06;
/** Each sample's own: of its dose, of its dose rate. */
const DOSE_ERROR = 0.045;
const RATE_ERROR = 0.03;
/** Of all of them: the source, dose factors, water. */
export const SHARED_DOSE_ERROR = 0.04;
const GROUP = 'quartz 2023';

export interface MeasuredSand {
  sample: string;
  dose_gy: string;
  dose_sigma_gy: string;
  rate_gy_ka: string;
  rate_sigma_gy_ka: string;
}

/** What is written of the age itself. */
interface SandAge {
  value: string;
  error: string;
  systematic_error: string;
  systematic_group: string;
}

/** `off`: what the dose rates of all samples are off by, as a share of the true ones. */
export function measureSand(
  sample: string,
  age_cal_bp: number,
  off: number,
  random: RandomStream,
): { age: SandAge; measured: MeasuredSand } {
  const age_ka = (age_cal_bp + MEASURED_CE - 1950) / 1000;
  const true_rate = RATE_GY_KA * (1 + RATE_DIFFERS * random.normal());
  const rate = true_rate * (1 + off + RATE_ERROR * random.normal());
  const dose = age_ka * true_rate * (1 + DOSE_ERROR * random.normal());
  const rate_error = Math.sqrt(square(RATE_ERROR) + square(SHARED_DOSE_ERROR));
  const found_yr = (1000 * dose) / rate;
  return {
    age: {
      value: tens(found_yr),
      error: tens(found_yr * Math.sqrt(square(DOSE_ERROR) + square(rate_error))),
      systematic_error: tens(found_yr * SHARED_DOSE_ERROR),
      systematic_group: GROUP,
    },
    measured: {
      sample,
      dose_gy: plain(dose, 2),
      dose_sigma_gy: plain(dose * DOSE_ERROR, 2),
      rate_gy_ka: plain(rate, 2),
      rate_sigma_gy_ka: plain(rate * rate_error, 2),
    },
  };
}

/** As such laboratories round. */
const tens = (yr: number): string => String(10 * Math.round(yr / 10));

export function writeDoses(sands: readonly MeasuredSand[], sheets: Sheets): void {
  for (const { sample, dose_gy, dose_sigma_gy, rate_gy_ka, rate_sigma_gy_ka } of sands) {
    sheets.write('measurements', {
      sample,
      property: 'equivalent dose',
      value: dose_gy,
      sigma: dose_sigma_gy,
      unit: 'Gy',
      batch: GROUP,
      method: 'single aliquots of quartz',
    });
    sheets.write('measurements', {
      sample,
      property: 'dose rate',
      value: rate_gy_ka,
      sigma: rate_sigma_gy_ka,
      unit: 'Gy/ka',
      batch: GROUP,
      method: 'gamma spectrometry, water 8 ± 3 %',
    });
  }
}
