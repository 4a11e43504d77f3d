/** What a dose rate is computed from. */
import type { Measured } from './measured.ts';

export interface Grains {
  /** Limits of the sieve, µm. */
  from_um: number;
  to_um: number;
  /** Coarse grains whose outer 10 µm were etched off: no alpha dose. */
  etched: boolean;
}

export interface Sediment {
  /** ppm of dry mass. */
  uranium: Measured;
  thorium: Measured;
  /** % of dry mass. */
  potassium: Measured;
  /** Mass of water over dry mass, since burial. */
  water: Measured;
  grains: Grains;
  /** Cosmic dose rate, Gy/ka: an input, since its factors for latitude and height are read off a figure (Prescott & Hutton 1994). */
  cosmic: Measured;
  /** Dose rate from inside the grains, Gy/ka; 0 for quartz. */
  internal?: Measured;
  /** How well alpha particles are counted by fine grains (a-value); without one their alpha dose is left out. */
  alpha_efficiency?: Measured | null;
  /** Part of the beta dose that the grains receive, where it is known better than the table has it. */
  beta_attenuation?: Measured | null;
  /** Below the ground, m; for what is said of shallow samples. */
  depth_m?: number | null;
}
