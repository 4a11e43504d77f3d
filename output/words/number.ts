/**
 * Numbers as they are written for people and for tables, in figures, report and app: decimals follow the
 * uncertainty, and value and uncertainty share them. No locale: the same text on every machine.
 */
import { median } from '@stillstand/science/base';

/** What stands where a number is not known. */
const UNKNOWN = '–';

/**
 * Decimals that show two digits of an uncertainty (any multiple of sigma, its sign ignored), no fewer than `least` and
 * no more than `most`. Without a usable uncertainty: `most` where it is 0, else `least`.
 */
export function decimalsFor(uncertainty: number | null, least = 0, most = 3): number {
  const size = Math.abs(uncertainty ?? Number.NaN);
  if (size === 0) return most;
  if (!Number.isFinite(size)) return least;
  // The exponent after rounding to two digits, so that 0.0996 counts as 0.10.
  const exponent = Number(size.toExponential(1).split('e')[1]);
  return Math.min(most, Math.max(least, 1 - exponent));
}

/** The same in a drawing, for metres and mm/yr: no finer than 0.01, except where the uncertainty would vanish. */
export const decimalsDrawn = (uncertainty: number): number =>
  uncertainty !== 0 && Math.abs(uncertainty) < 0.0095 ? 3 : decimalsFor(uncertainty, 0, 2);

/** Decimals a staff's labels need to tell its steps apart. */
export const decimalsOfStep = (step: number): number => (step >= 1 ? 0 : step >= 0.1 ? 1 : 2);

/** One number of decimals (1 or 2) down a column, so that points stand under one another: that of the median sd. */
export function columnDecimals(sds: ArrayLike<number>): number {
  return decimalsFor(2 * median(sds), 1, 2);
}

/** For tables a machine reads: full stop, hyphen as minus, no grouping; empty where there is no number. */
export function written(value: number | null, decimals: number): string {
  if (value === null || !Number.isFinite(value)) return '';
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** For people: true minus, comma at thousands, never "−0.00". */
export function printed(value: number | null, decimals = 0): string {
  const text = written(value, decimals);
  if (text === '') return UNKNOWN;
  const [whole = '', fraction] = text.replace('-', '').split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return `${text.startsWith('-') ? '−' : ''}${grouped}${fraction === undefined ? '' : `.${fraction}`}`;
}

/** As `printed`, the sign always shown except on zero: elevations, sea level, rates. */
export function signed(value: number | null, decimals = 0): string {
  const text = printed(value, decimals);
  return value !== null && value > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

/** An age in whole years. */
export const years = (value: number | null): string => printed(value);

/** From the older to the younger; in words where a dash would meet a minus. */
export const yearRange = (older: number, younger: number): string =>
  `${years(older)}${years(younger).startsWith('−') ? ' to ' : '–'}${years(younger)}`;

/** "+3.8 to +4.7". */
export function range(low: number, high: number, decimals: number, write = signed): string {
  return `${write(low, decimals)} to ${write(high, decimals)}`;
}

/** "1 hole", "1,200 dates". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${printed(count)} ${count === 1 ? one : many}`;
}

/** Of a list that is too long for a page every so many, counted from its end, and how many: 1 where all are shown. */
export function everySoMany<T>(list: readonly T[], most: number): { shown: T[]; every: number } {
  const every = Math.max(1, Math.ceil((list.length - 1) / (most - 1)));
  return { shown: list.filter((_, i) => (list.length - 1 - i) % every === 0), every };
}
