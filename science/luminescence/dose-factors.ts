/** Figures from the literature that a dose rate is computed with. They are handed in, so that another table can replace them. */

export type Element = 'uranium' | 'thorium' | 'potassium';
export type Radiation = 'alpha' | 'beta' | 'gamma';

/** Figures and where they are from. */
export interface Sourced<Figures> {
  figures: Figures;
  source: string;
  /** Not yet compared with the print: to be said wherever a number made with it is shown. */
  from_memory: boolean;
}

export interface DoseFactors {
  /** Of an endless mass in equilibrium: Gy/ka for each ppm of uranium and thorium, and each % of potassium. */
  conversion: Sourced<Record<Radiation, Record<Element, number>>>;
  /** 1 sigma of all of them together, as a part of the rate; shared by all samples. */
  conversion_sigma: Sourced<number>;
  /** How much more of each radiation water takes than the same mass of sediment. */
  water: Sourced<Record<Radiation, number>>;
  /** Part of the beta dose that quartz grains of a diameter receive, straight between the rows; 1 sigma of it, shared. */
  beta_attenuation: Sourced<{ rows: readonly { diameter_um: number; part: number }[]; sigma: number }>;
  /** Bq/kg of the first member for each ppm of uranium and thorium, and each % of potassium. */
  specific_activity: Sourced<Record<Element, number>>;
}
