/**
 * Luminescence dating. Doses Gy, dose rates Gy/ka, contents ppm (uranium, thorium) and % (potassium) of dry mass, water as
 * mass over dry mass, ages in years before measurement. Errors 1 sigma, random and systematic apart.
 */
export { type LuminescenceAge, luminescenceAge, type NotDated } from './age.ts';
export { contentOf } from './contents.ts';
export type { DoseFactors, Element, Radiation, Sourced } from './dose-factors.ts';
export { type DoseRate, doseRate, type NoDoseRate } from './dose-rate.ts';
export { errorOf, exactly, isFinding, type Measured, measured } from './measured.ts';
export type { Grains, Sediment } from './sediment.ts';
export { luminescenceYears } from './years.ts';
