/** What entries of custody cost, by currency: nothing is converted. */
import { thousands } from '@stillstand/science/base';
import type { Entry } from './entries.ts';

export interface Cost {
  /** As entered; empty where none is stated. */
  currency: string;
  sum: number;
}

/** Each entry once, however many things it is about; in the order in which the currencies come. */
export function costsOf(entries: readonly Pick<Entry, 'cost' | 'currency'>[]): Cost[] {
  const sums = new Map<string, number>();
  for (const { cost, currency } of entries) {
    if (cost === null) continue;
    const known = currency?.trim().toUpperCase() ?? '';
    sums.set(known, (sums.get(known) ?? 0) + cost);
  }
  return [...sums].map(([currency, sum]) => ({ currency, sum }));
}

/** "1,240.50 EUR and 300.00 GBP"; empty where nothing cost anything. */
export const costsWords = (costs: readonly Cost[]): string =>
  costs.map(({ currency, sum }) => `${money(sum)}${currency === '' ? '' : ` ${currency}`}`).join(' and ');

const money = (sum: number): string => {
  const [whole, cents] = sum.toFixed(2).split('.');
  return `${thousands(whole!)}.${cents}`;
};
