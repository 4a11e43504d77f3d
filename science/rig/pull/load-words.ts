/**
 * Loads in words: kN with kilograms or tonnes (metric) next to it, because gear is marked in either. A load is never shown
 * smaller than it is, a rating never larger.
 */
import { atLeast, atMost } from '@stillstand/science/base';
import type { Range } from './line-pull.ts';
import { KN_PER_TONNE } from './rating.ts';

/** "9.1", "12": kN, rounded up. */
export const loadWords = (kn: number): string =>
  kn < 10 ? atLeast(kn, 1).toFixed(1) : atLeast(kn, 0).toFixed(0);

/** "930 kg" below a tonne, "1.3 t" from there on: rounded up to 10 kg, 0.1 t. */
export const massWords = (kn: number): string => {
  const kg = 10 * atLeast((100 * kn) / KN_PER_TONNE, 0);
  return kg < 1000 ? `${kg} kg` : `${atLeast(kn / KN_PER_TONNE, 1).toFixed(1)} t`;
};

/** "0.9–12", in kN. */
export const rangeWords = ({ low, high }: Range): string =>
  high < 0.1 ? 'under 0.1' : `${loadWords(low)}–${loadWords(high)}`;

/** "90 kg–1.3 t", "1.2–3.4 t". */
export function rangeMassWords({ low, high }: Range): string {
  if (high < 0.1) return `under ${massWords(0.1)}`;
  const [from, to] = [massWords(low), massWords(high)];
  const unit = to.slice(to.indexOf(' '));
  return `${from.endsWith(unit) ? from.slice(0, -unit.length) : from}–${to}`;
}

/** "19.6 kN (2.00 t)": rounded down. */
export function ratingWords(kn: number): string {
  const kg = (1000 * kn) / KN_PER_TONNE;
  const mass = kg < 1000 ? `${atMost(kg, 0).toFixed(0)} kg` : `${atMost(kg / 1000, 2).toFixed(2)} t`;
  return `${atMost(kn, 1).toFixed(1).replace(/\.0$/, '')} kN (${mass})`;
}
