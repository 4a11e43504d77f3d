/** Whose the calibration curves are. */
import type { Source } from './references.ts';

/** By the names they have in data; a bomb curve's is two papers'. */
export const CURVE_SOURCES: Readonly<Record<string, readonly [Source, ...Source[]]>> = {
  intcal20: ['Reimer et al. 2020'],
  shcal20: ['Hogg et al. 2020'],
  marine20: ['Heaton et al. 2020'],
  bomb21_nh1: ['Hua et al. 2022', 'Reimer et al. 2020'],
  bomb21_nh2: ['Hua et al. 2022', 'Reimer et al. 2020'],
  bomb21_nh3: ['Hua et al. 2022', 'Reimer et al. 2020'],
  bomb21_sh1_2: ['Hua et al. 2022', 'Hogg et al. 2020'],
  bomb21_sh3: ['Hua et al. 2022', 'Hogg et al. 2020'],
};
