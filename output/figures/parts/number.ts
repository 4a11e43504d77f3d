/** Numbers as they are printed: true minus, comma at thousands, no locale. */

const MINUS = '−';

function grouped(digits: string): string {
  const [whole = '', fraction] = digits.split('.');
  let out = '';
  for (let i = 0; i < whole.length; i++) {
    if (i > 0 && (whole.length - i) % 3 === 0) out += ',';
    out += whole[i];
  }
  return fraction === undefined ? out : `${out}.${fraction}`;
}

/** `decimals` digits after the point; never "−0.00". */
export function plain(x: number, decimals = 0): string {
  const digits = Math.abs(x).toFixed(decimals);
  const isZero = !/[1-9]/.test(digits);
  return (x < 0 && !isZero ? MINUS : '') + grouped(digits);
}

/** The sign always shown, as on elevations, sea level and rates; zero has none. */
export function signed(x: number, decimals = 0): string {
  const text = plain(x, decimals);
  return x > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

/** An age to the year. */
export const year = (age: number): string => plain(age, 0);

/** From the older to the younger; in words where a dash would meet a minus. */
export const yearRange = (older: number, younger: number): string =>
  younger < 0 && year(younger) !== '0'
    ? `${year(older)} to ${year(younger)}`
    : `${year(older)}–${year(younger)}`;

/** Decimals that a 2 sd of this size deserves: two digits of it, between 0 and 3. */
export function decimalsFor(spread: number): number {
  const s = Math.abs(spread);
  return s >= 10 ? 0 : s >= 1 ? 1 : s >= 0.095 || s === 0 ? 2 : s >= 0.0095 ? 2 : 3;
}

/** Decimals a staff's labels need to tell its steps apart. */
export function decimalsOfStep(step: number): number {
  return step >= 1 ? 0 : step >= 0.1 ? 1 : 2;
}

/** `count` of a noun: "1 run", "8 runs". */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${plain(count)} ${count === 1 ? one : many}`;
